#pragma once

#include <optional>
#include <string>
#include <vector>

#include <SQLiteCpp/SQLiteCpp.h>

#include "db/failure.h"
#include "db/rows/columns.h"
#include "db/rows/cursor.h"
#include "db/rows/kinds.h"
#include "db/rows/row_sql.h"

namespace secondpull::db {

/// Reads and writes one recorded table through statements made from its description and prepared once.
template <class Record>
class RowTable {
 public:
  using Id = decltype(Record::id);

  explicit RowTable(SQLite::Database& database)
      : database_{database}, sql_{row_sql(Rows<Record>::table, names())} {}

  void insert(const Record& record) {
    SQLite::Statement& statement = prepared(insert_, sql_.insert);
    bind_all(statement, record);
    run(statement);
  }
  void replace(const Record& record) {
    SQLite::Statement& statement = prepared(replace_, sql_.replace);
    bind_all(statement, record);
    expect_one_row(run(statement), Rows<Record>::table);
  }
  void remove(Id id) {
    SQLite::Statement& statement = prepared(remove_, sql_.remove);
    bind_value(statement, 1, id);
    expect_one_row(run(statement), Rows<Record>::table);
  }
  std::optional<Record> find(Id id) {
    SQLite::Statement& statement = prepared(find_, sql_.find);
    const Reset reset{statement};
    bind_value(statement, 1, id);
    if (!statement.executeStep()) return std::nullopt;
    Record record;
    read_into(record, statement);
    return record;
  }
  /// Every record in order of id.
  std::vector<Record> all() {
    std::vector<Record> records;
    if (Cursor count{database_, sql_.count}; count.next())
      records.reserve(static_cast<std::size_t>(number_in(count, 0)));
    for (Cursor row{database_, sql_.all}; row.next();)
      read_into(records.emplace_back(), row);
    return records;
  }

  /// Every row in order of id as text, a line each.
  std::string dump() {
    SQLite::Statement statement{database_, sql_.dump};
    std::string text;
    while (statement.executeStep())
      text += "  " + statement.getColumn(0).getString() + "\n";
    return text;
  }

 private:
  /// A statement left in mid-air holds its table; values bound without a copy must not be met again.
  struct Reset {
    SQLite::Statement& statement;
    ~Reset() { statement.tryReset(); }
  };

  static std::vector<const char*> names() {
    std::vector<const char*> all;
    each_column<Record>([&](const auto& column, int) { all.push_back(column.name); });
    return all;
  }
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
  static void read_into(Record& record, const auto& row) {
    each_column<Record>([&](const auto& column, int position) {
      auto& member = record.*column.member;
      member = read_value<std::remove_reference_t<decltype(member)>>(row, position);
    });
  }

  SQLite::Database& database_;
  RowSql sql_;
  std::optional<SQLite::Statement> insert_, replace_, remove_, find_;
};

}  // namespace secondpull::db
