#pragma once

#include <optional>
#include <string>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

#include "core/shop/records.h"
#include "db/store.h"

namespace secondpull::db {

/// What a shop file holds beside records and history: the counters, the settings, and what lies about on the
/// desk (the clock, drafts, preferences). Each function is one statement; the caller holds the transaction.
class Desk {
 public:
  explicit Desk(SQLite::Database& database) : database_{database} {}

  struct State {
    std::int64_t next_id = 1;
    std::int64_t revision = 0;  ///< up with every action, undo, redo and change of settings
    std::int64_t stamp = 0;     ///< drawn anew each time
    std::int64_t sitting = 0;   ///< of the last one that wrote
    friend bool operator==(const State&, const State&) = default;
  };
  State state() const;
  void set_state(const State& state);
  /// The state after something changed: revision up, a new stamp.
  static State advanced(State state);

  /// @throws Failure  the file names a currency that is not known
  Settings settings() const;
  void set_settings(const Settings& settings);

  std::optional<Clock> clock() const;
  void set_clock(const std::optional<Clock>& clock);

  std::vector<Draft> drafts() const;  ///< by form
  void save_draft(const Draft& draft);
  void drop_draft(const std::string& form);

  std::optional<std::string> preference(const std::string& key) const;
  void set_preference(const std::string& key, const std::string& value);

 private:
  SQLite::Database& database_;
};

}  // namespace secondpull::db
