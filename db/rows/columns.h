#pragma once

#include <concepts>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include "core/calendar/date.h"
#include "core/calendar/minutes.h"
#include "core/money/money.h"
#include "core/shop/records.h"
#include "db/failure.h"

namespace secondpull::db {

/// One column of a recorded table: its name and the member of the record that it holds.
template <class Record, class Member>
struct Column {
  const char* name;
  Member Record::*member;
};
template <class Record, class Member>
Column(const char*, Member Record::*) -> Column<Record, Member>;

/// The table of a kind of record: specialised with `table`, its name, and `columns`, a tuple of Column that
/// begins with the id. Everything that reads or writes the table is made from it.
template <class Record>
struct Rows;

// How the types of members stand in columns: words and days as text, amounts in minor units, the rest as
// whole numbers, but for a double, which is a real one.

template <class T>
concept Word = std::is_enum_v<T> && requires(T value) {
  { word(value) } -> std::convertible_to<std::string_view>;
};
template <class T>
concept Key = std::is_enum_v<T> && !Word<T>;
template <class T>
concept Count = std::same_as<T, Minutes> || std::same_as<T, Tenths>;

template <class T>
inline constexpr bool is_optional = false;
template <class T>
inline constexpr bool is_optional<std::optional<T>> = true;

/// Binds a member's value to a parameter (from 1). A text is not copied: it must outlive the step.
template <class T>
void bind_value(SQLite::Statement& statement, int parameter, const T& value) {
  if constexpr (is_optional<T>) {
    if (value)
      bind_value(statement, parameter, *value);
    else
      statement.bind(parameter);
  } else if constexpr (std::same_as<T, std::string>) {
    statement.bindNoCopy(parameter, value);
  } else if constexpr (std::same_as<T, Date>) {
    statement.bind(parameter, iso(value));
  } else if constexpr (Word<T>) {
    statement.bind(parameter, std::string{word(value)});
  } else if constexpr (Key<T>) {
    statement.bind(parameter, number(value));
  } else if constexpr (std::same_as<T, Money>) {
    statement.bind(parameter, value.minor());
  } else if constexpr (Count<T>) {
    statement.bind(parameter, value.count);
  } else if constexpr (std::same_as<T, double>) {
    statement.bind(parameter, value);
  } else {
    static_assert(std::integral<T>);
    statement.bind(parameter, static_cast<std::int64_t>(value));
  }
}

inline bool is_null_in(const SQLite::Statement& statement, int column) {
  return statement.isColumnNull(column);
}
inline std::int64_t number_in(const SQLite::Statement& statement, int column) {
  return statement.getColumn(column).getInt64();
}
inline double real_in(const SQLite::Statement& statement, int column) {
  return statement.getColumn(column).getDouble();
}
inline std::string text_in(const SQLite::Statement& statement, int column) {
  return statement.getColumn(column).getString();
}

/// The value in a column (from 0) of a row, of a statement or a Cursor. @throws Failure  the file holds what
/// the schema does not allow
template <class T, class Row>
T read_value(const Row& row, int column) {
  if constexpr (is_optional<T>) {
    if (is_null_in(row, column)) return std::nullopt;
    return read_value<typename T::value_type>(row, column);
  } else if constexpr (std::same_as<T, std::string>) {
    return std::string{text_in(row, column)};
  } else if constexpr (std::same_as<T, Date>) {
    const auto date = parse_date(text_in(row, column), "date");
    if (!date) throw Failure{date.error()};
    return *date;
  } else if constexpr (Word<T>) {
    const auto written = text_in(row, column);
    const auto value = from_word<T>(written);
    if (!value)
      throw Failure{
          {fmt::format("The shop file holds the unknown word \"{}\".", written), "", std::string{written}}};
    return *value;
  } else if constexpr (std::same_as<T, Money>) {
    return Money::from_minor(number_in(row, column));
  } else if constexpr (Count<T>) {
    return T{number_in(row, column)};
  } else if constexpr (std::same_as<T, double>) {
    return real_in(row, column);
  } else {
    return static_cast<T>(number_in(row, column));
  }
}

}  // namespace secondpull::db
