#pragma once

#include <chrono>
#include <string>
#include <string_view>

#include "core/result.h"

namespace secondpull {

/// A day of the proleptic Gregorian calendar. Always valid (`ok()`) once it is in a record.
using Date = std::chrono::year_month_day;

/// Reads YYYY-MM-DD, years 1900 to 9999. The problem names `field` and the text.
Result<Date> parse_date(std::string_view text, std::string_view field);

/// Reads a date as a person types it: "2026-03-05", "3/5" or "3/5/26" (month first), "5 mar", "today",
/// "yesterday", "tomorrow", "mon" (the last Monday, today included), "-3" (days ago), "+3" (days ahead). A
/// day without a year is the latest one not after today; a year of two digits is one of 2000 to 2099.
Result<Date> parse_typed_date(std::string_view text, Date today, std::string_view field);

constexpr int year_of(Date date) {
  return static_cast<int>(date.year());
}

std::string iso(Date date);    ///< "2026-03-05"
std::string shown(Date date);  ///< "5 March 2026"
std::string shown_short(Date date,
                        Date today);  ///< "5 Mar", with the year if it is not today's: "5 Mar 2025"

std::string_view weekday_short(Date date);  ///< "Fri"

/// Whole days from `from` to `to`; negative if `to` is earlier.
int days_between(Date from, Date to);
Date plus_days(Date date, int days);

}  // namespace secondpull
