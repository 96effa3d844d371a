#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/calendar/date.h"
#include "core/shop/records.h"

namespace secondpull::market {

/// How a machine looks, from best to worst.
enum class Grade { like_new, good, fair, rough };
std::string_view word(Grade);  ///< "like new", "good", "fair", "rough"

/// What a machine's condition says of its looks by the words that stand in it ("rusty deck": rough; "clean,
/// kept in a shed": good). What speaks against it counts first: rough, fair, like new, good. A word with "no"
/// or "not" before it says nothing. Nothing where none does. The words are common practice, no source.
std::optional<Grade> grade_of(std::string_view condition);

/// What a price depends on, as far as it is known.
struct Features {
  MachineKind kind = MachineKind::push;
  SoldAs as = SoldAs::running;
  std::optional<int> year;        ///< built
  std::optional<double> age;      ///< in years on that day, 0 to kOldest
  std::optional<double> deck_in;  ///< inches, > 0
  std::string make;               ///< trimmed; alike in either case of ASCII; may be empty
  std::optional<Grade> grade;
  Date date{};
};

/// Older than this a machine loses nothing more by its age. Common practice, no source.
inline constexpr double kOldest = 30;

Features features_of(const Machine& machine, SoldAs as, Date date);

}  // namespace secondpull::market
