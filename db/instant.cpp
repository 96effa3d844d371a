#include "db/instant.h"

#include <fmt/format.h>

namespace secondpull::db {

namespace {

std::chrono::hh_mm_ss<std::chrono::seconds> time_of_day(Instant at) {
  return std::chrono::hh_mm_ss{
      std::chrono::floor<std::chrono::seconds>(at - std::chrono::floor<std::chrono::days>(at))};
}

}  // namespace

std::string utc_text(Instant at) {
  const auto time = time_of_day(at);
  return fmt::format("{} {:02}:{:02}:{:02} UTC", iso(utc_day(at)), time.hours().count(),
                     time.minutes().count(), time.seconds().count());
}

std::string file_stamp(Instant at) {
  const auto time = time_of_day(at);
  return fmt::format("{}-{:02}{:02}{:02}", iso(utc_day(at)), time.hours().count(), time.minutes().count(),
                     time.seconds().count());
}

}  // namespace secondpull::db
