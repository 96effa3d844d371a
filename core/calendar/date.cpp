#include "core/calendar/date.h"

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "core/field_words.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

constexpr int kFirstYear = 1900;
constexpr int kLastYear = 9999;
constexpr int kCentury = 2000;         // of a year typed with two digits
constexpr int kLeapDayGap = 8;         // years that can lie between two 29 Februaries (1896 and 1904)
constexpr int kDaysAgoMost = 100'000;  // typed as "-3"
constexpr std::size_t kIsoSize = 10;

constexpr std::array<std::string_view, 12> kMonths = {"January",   "February", "March",    "April",
                                                      "May",       "June",     "July",     "August",
                                                      "September", "October",  "November", "December"};
constexpr std::array<std::string_view, 7> kWeekdays = {"Sunday",   "Monday", "Tuesday", "Wednesday",
                                                       "Thursday", "Friday", "Saturday"};
constexpr std::size_t kShort = 3;  // letters that tell months and weekdays apart

auto no_date(std::string_view text, std::string_view field, std::string_view how) {
  const std::string words = field_words(field, "date");
  return problem(text.empty() ? fmt::format("The {} is empty: {}.", words, how)
                              : fmt::format("The {} \"{}\" is no day of the calendar: {}.", words, text, how),
                 std::string{field}, std::string{text});
}

std::optional<Date> day_of(std::optional<int> year, std::optional<int> month, std::optional<int> day) {
  if (!year || !month || !day || *year < kFirstYear || *year > kLastYear || *month < 1 || *day < 1)
    return std::nullopt;
  const Date date{std::chrono::year{*year}, std::chrono::month{static_cast<unsigned>(*month)},
                  std::chrono::day{static_cast<unsigned>(*day)}};
  return date.ok() ? std::optional{date} : std::nullopt;
}

/// A whole shop's worth of dates is read whenever it is opened, so this goes over the text once.
std::optional<Date> from_iso(std::string_view text) {
  if (text.size() != kIsoSize) return std::nullopt;
  int number[] = {0, 0, 0};  // year, month, day
  std::size_t which = 0;
  for (std::size_t i = 0; i < kIsoSize; ++i) {
    const char c = text[i];
    if (i == 4 || i == 7) {
      if (c != '-') return std::nullopt;
      ++which;
    } else {
      if (c < '0' || c > '9') return std::nullopt;
      number[which] = number[which] * 10 + (c - '0');
    }
  }
  return day_of(number[0], number[1], number[2]);
}

/// The place among the names of the one that `word` begins (three letters at least).
template <std::size_t N>
std::optional<int> named(const std::array<std::string_view, N>& names, std::string_view word) {
  if (word.size() < kShort) return std::nullopt;
  for (std::size_t i = 0; i < N; ++i)
    if (begins_alike(names[i], word)) return static_cast<int>(i);
  return std::nullopt;
}

std::optional<int> typed_year(std::string_view text) {
  const auto year = whole_number(text);
  if (!year || (text.size() != 2 && text.size() != 4)) return std::nullopt;
  return text.size() == 2 ? *year + kCentury : *year;
}

/// That day of the latest year in which it is not after today.
std::optional<Date> latest(std::optional<int> month, std::optional<int> day, Date today) {
  const int this_year = static_cast<int>(today.year());
  for (int back = 0; back <= kLeapDayGap; ++back) {
    const auto date = day_of(this_year - back, month, day);
    if (date && *date <= today) return date;
  }
  return std::nullopt;
}

std::optional<Date> month_and_day(std::optional<int> month, std::optional<int> day,
                                  std::optional<std::string_view> year, Date today) {
  return year ? day_of(typed_year(*year), month, day) : latest(month, day, today);
}

/// "3/5", "3/5/26".
std::optional<Date> with_slashes(std::string_view text, Date today) {
  const auto fields = pieces(text, "/");
  if (fields.size() != 2 && fields.size() != 3) return std::nullopt;
  return month_and_day(whole_number(fields[0]), whole_number(fields[1]),
                       fields.size() == 3 ? std::optional{fields[2]} : std::nullopt, today);
}

/// "5 mar", "5mar", "mar 5", each also with a year after it.
std::optional<Date> with_a_month(std::string_view text, Date today) {
  auto fields = pieces(text, " ,.");
  if (!fields.empty()) {  // a day written onto its month
    const std::string_view first = fields.front();
    const auto letters = first.find_first_not_of("0123456789");
    if (letters != std::string_view::npos && letters != 0) {
      fields.front() = first.substr(letters);
      fields.insert(fields.begin(), first.substr(0, letters));
    }
  }
  if (fields.size() != 2 && fields.size() != 3) return std::nullopt;
  if (named(kMonths, fields[0])) std::swap(fields[0], fields[1]);
  const auto month = named(kMonths, fields[1]);
  if (!month) return std::nullopt;
  return month_and_day(*month + 1, whole_number(fields[0]),
                       fields.size() == 3 ? std::optional{fields[2]} : std::nullopt, today);
}

std::optional<Date> by_today(std::string_view text, Date today) {
  if (same_word(text, "today")) return today;
  if (same_word(text, "yesterday")) return plus_days(today, -1);
  if (same_word(text, "tomorrow")) return plus_days(today, 1);
  if (text.size() > 1 && (text.front() == '-' || text.front() == '+')) {
    const auto count = whole_number(text.substr(1));
    if (!count || *count > kDaysAgoMost) return std::nullopt;
    const Date date = plus_days(today, text.front() == '-' ? -*count : *count);
    return static_cast<int>(date.year()) >= kFirstYear ? std::optional{date} : std::nullopt;
  }
  if (const auto weekday = named(kWeekdays, text)) {
    const std::chrono::weekday wanted{static_cast<unsigned>(*weekday)};
    return Date{sys_days{today} - (std::chrono::weekday{sys_days{today}} - wanted)};
  }
  return std::nullopt;
}

std::string_view month_of(Date date) {
  return kMonths[static_cast<unsigned>(date.month()) - 1];
}

}  // namespace

Result<Date> parse_date(std::string_view text, std::string_view field) {
  if (const auto date = from_iso(text)) return *date;
  return no_date(text, field, "write it as YYYY-MM-DD, such as 2026-03-05");
}

Result<Date> parse_typed_date(std::string_view text, Date today, std::string_view field) {
  const std::string_view typed = trimmed(text);
  for (const auto& date :
       {from_iso(typed), by_today(typed, today), with_slashes(typed, today), with_a_month(typed, today)})
    if (date) return *date;
  return no_date(typed, field,
                 "type it as 2026-03-05, 3/5 (month first), 5 mar, today, mon or -3 (days ago)");
}

std::string iso(Date date) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                     static_cast<unsigned>(date.day()));
}

std::string shown(Date date) {
  return fmt::format("{} {} {}", static_cast<unsigned>(date.day()), month_of(date),
                     static_cast<int>(date.year()));
}

std::string shown_short(Date date, Date today) {
  const std::string day =
      fmt::format("{} {}", static_cast<unsigned>(date.day()), month_of(date).substr(0, kShort));
  return date.year() == today.year() ? day : fmt::format("{} {}", day, static_cast<int>(date.year()));
}

std::string_view weekday_short(Date date) {
  return kWeekdays[std::chrono::weekday{sys_days{date}}.c_encoding()].substr(0, kShort);
}

int days_between(Date from, Date to) {
  return static_cast<int>((sys_days{to} - sys_days{from}).count());
}
Date plus_days(Date date, int count) {
  return Date{sys_days{date} + days{count}};
}

}  // namespace secondpull
