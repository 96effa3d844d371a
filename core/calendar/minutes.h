#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/result.h"

namespace secondpull {

/// A length of work in whole minutes.
struct Minutes {
  std::int64_t count = 0;
  friend constexpr auto operator<=>(Minutes, Minutes) = default;
  friend constexpr Minutes operator+(Minutes a, Minutes b) { return {a.count + b.count}; }
  Minutes& operator+=(Minutes b) { return *this = *this + b; }
};

/// Reads whole minutes as files hold them: digits alone, at most 100 000 000.
Result<Minutes> parse_minutes(std::string_view text, std::string_view field);

/// Reads minutes as a person types them: "80", "80m", "1h20", "1h 20m", "1:20", "1.5h".
Result<Minutes> parse_typed_minutes(std::string_view text, std::string_view field);

std::string shown(Minutes minutes);          ///< "3 h 20 min", "45 min", "0 min"
std::string decimal_hours(Minutes minutes);  ///< hours with two decimals, half away from zero: "3.33"

}  // namespace secondpull
