#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

#include "core/shop/shop.h"

struct sqlite3_session;

namespace secondpull::db {

/// What a transaction did to the recorded tables, as SQLite's session extension writes it.
using Changeset = std::vector<std::byte>;

/// Watches the recorded tables of a connection from its making on.
class ChangeRecorder {
 public:
  explicit ChangeRecorder(SQLite::Database& database);
  /// What changed since; taken before the commit.
  Changeset take() const;

 private:
  struct Closer {
    void operator()(sqlite3_session* session) const;
  };
  std::unique_ptr<sqlite3_session, Closer> session_;
};

/// The records a changeset adds, changes or removes, each once. @throws Failure  it cannot be read
std::vector<AnyId> ids_in(std::span<const std::byte> changeset);

/// SHA-256 of each photo that a changeset names, before or after.
std::vector<std::string> photos_in(std::span<const std::byte> changeset);

enum class Direction { forward, backward };

/// Applies a changeset or its inverse within the transaction that is open. Any conflict is a Failure, and so
/// is a number of changed rows other than the changeset's own: the caller rolls back then.
void apply_changeset(SQLite::Database& database, std::span<const std::byte> changeset, Direction direction);

}  // namespace secondpull::db
