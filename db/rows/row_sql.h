#pragma once

#include <span>
#include <string>

namespace secondpull::db {

/// The statements of one recorded table. Parameters are its columns in their order; ?1 is the id.
struct RowSql {
  std::string insert;
  std::string replace;  ///< of the row with that id; the key never changes
  std::string remove;
  std::string find;
  std::string count;
  std::string all;   ///< in order of id
  std::string dump;  ///< the same, each row as one text of SQL literals
};

/// @param columns  the first is the id
RowSql row_sql(const char* table, std::span<const char* const> columns);

/// @throws Failure  a statement that names one row met another number of them
void expect_one_row(int rows, const char* table);

}  // namespace secondpull::db
