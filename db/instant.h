#pragma once

#include <chrono>
#include <cstdint>
#include <string>

#include "core/calendar/date.h"

namespace secondpull::db {

using Instant = std::chrono::sys_time<std::chrono::milliseconds>;  ///< UTC

inline std::int64_t to_column(Instant at) {
  return at.time_since_epoch().count();
}
inline Instant instant_from_column(std::int64_t ms) {
  return Instant{std::chrono::milliseconds{ms}};
}

/// The day of an instant, in UTC.
inline Date utc_day(Instant at) {
  return Date{std::chrono::floor<std::chrono::days>(at)};
}

/// "2026-03-05 14:02:07 UTC"
std::string utc_text(Instant at);
/// "2026-03-05-140207": for file names, in order of time when sorted.
std::string file_stamp(Instant at);

}  // namespace secondpull::db
