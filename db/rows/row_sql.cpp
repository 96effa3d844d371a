#include "db/rows/row_sql.h"

#include <fmt/format.h>

#include "db/failure.h"

namespace secondpull::db {

RowSql row_sql(const char* table, std::span<const char* const> columns) {
  std::string names, parameters, assignments, literals;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const char* comma = i > 0 ? ", " : "";
    names += fmt::format("{}{}", comma, columns[i]);
    parameters += fmt::format("{}?{}", comma, i + 1);
    if (i > 0) assignments += fmt::format("{}{} = ?{}", i > 1 ? ", " : "", columns[i], i + 1);
    literals += fmt::format("{}quote({})", i > 0 ? " || ', ' || " : "", columns[i]);
  }
  return {.insert = fmt::format("INSERT INTO {} ({}) VALUES ({})", table, names, parameters),
          .replace = fmt::format("UPDATE {} SET {} WHERE id = ?1", table, assignments),
          .remove = fmt::format("DELETE FROM {} WHERE id = ?1", table),
          .find = fmt::format("SELECT {} FROM {} WHERE id = ?1", names, table),
          .count = fmt::format("SELECT count(*) FROM {}", table),
          .all = fmt::format("SELECT {} FROM {} ORDER BY id", names, table),
          .dump = fmt::format("SELECT {} FROM {} ORDER BY id", literals, table)};
}

void expect_one_row(int rows, const char* table) {
  if (rows != 1)
    throw Failure{
        {fmt::format(
             "A record to be changed in {} is not in the shop file. Close the shop and open it again.",
             table),
         "id", ""}};
}

}  // namespace secondpull::db
