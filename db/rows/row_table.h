#pragma once

#include <optional>
#include <string>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

#include "db/failure.h"
#include "db/rows/columns.h"
#include "db/rows/kinds.h"

namespace secondpull::db {

/// Reads and writes one recorded table through statements made from its description and prepared once.
template <class Record>
class RowTable {
 public:
  using Id = decltype(Record::id);

  explicit RowTable(SQLite::Database& database) : database_{database} {}

  void insert(const Record& record) {
    SQLite::Statement& statement = prepared(insert_, insert_text());
    bind_all(statement, record);
    run(statement);
  }
  void replace(const Record& record) {
    SQLite::Statement& statement = prepared(replace_, replace_text());
    bind_all(statement, record);
    expect_one(run(statement));
  }
  void remove(Id id) {
    SQLite::Statement& statement =
        prepared(remove_, std::string{"DELETE FROM "} + Rows<Record>::table + " WHERE id = ?1");
    bind_value(statement, 1, id);
    expect_one(run(statement));
  }
  std::optional<Record> find(Id id) {
    SQLite::Statement& statement = prepared(find_, select_text() + " WHERE id = ?1");
    const Reset reset{statement};
    bind_value(statement, 1, id);
    if (!statement.executeStep()) return std::nullopt;
    return read(statement);
  }
  /// Every record in order of id.
  std::vector<Record> all() {
    SQLite::Statement statement{database_, select_text() + " ORDER BY id"};
    std::vector<Record> records;
    while (statement.executeStep())
      records.push_back(read(statement));
    return records;
  }

 private:
  /// A statement left in mid-air holds its table; values bound without a copy must not be met again.
  struct Reset {
    SQLite::Statement& statement;
    ~Reset() { statement.tryReset(); }
  };

  static std::string column_list() {
    std::string text;
    each_column<Record>([&](const auto& column, int position) {
      if (position > 0) text += ", ";
      text += column.name;
    });
    return text;
  }
  static std::string insert_text() {
    std::string parameters;
    each_column<Record>([&](const auto&, int position) {
      parameters += (position > 0 ? ", ?" : "?") + std::to_string(position + 1);
    });
    return std::string{"INSERT INTO "} + Rows<Record>::table + " (" + column_list() + ") VALUES (" +
           parameters + ")";
  }
  static std::string replace_text() {
    std::string text = std::string{"UPDATE "} + Rows<Record>::table + " SET ";
    each_column<Record>([&](const auto& column, int position) {
      if (position == 0) return;  // the key never changes
      if (position > 1) text += ", ";
      text += std::string{column.name} + " = ?" + std::to_string(position + 1);
    });
    return text + " WHERE id = ?1";
  }
  static std::string select_text() { return "SELECT " + column_list() + " FROM " + Rows<Record>::table; }

  SQLite::Statement& prepared(std::optional<SQLite::Statement>& statement, const std::string& text) {
    if (!statement) statement.emplace(database_, text);
    return *statement;
  }
  static void bind_all(SQLite::Statement& statement, const Record& record) {
    each_column<Record>([&](const auto& column, int position) {
      bind_value(statement, position + 1, record.*column.member);
    });
  }
  static int run(SQLite::Statement& statement) {
    const Reset reset{statement};
    return statement.exec();
  }
  static void expect_one(int rows) {
    if (rows != 1)
      throw Failure{{std::string{"A record to be changed in "} + Rows<Record>::table +
                         " is not in the shop file. Close the shop and open it again.",
                     "id", ""}};
  }
  static Record read(const SQLite::Statement& statement) {
    Record record;
    each_column<Record>([&](const auto& column, int position) {
      auto& member = record.*column.member;
      member = read_value<std::remove_reference_t<decltype(member)>>(statement, position);
    });
    return record;
  }

  SQLite::Database& database_;
  std::optional<SQLite::Statement> insert_, replace_, remove_, find_;
};

}  // namespace secondpull::db
