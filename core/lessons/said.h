#pragma once

#include <cstddef>

/// What the shop's own record teaches the person who keeps it: each lesson with how many cases stand behind
/// it.
namespace secondpull::lessons {

// When does a sentence say that the shop's own numbers are others than expected, or what to do about it? When
// they carry it: there are enough of them, and what is expected lies outside of the interval that they give.

/// Fewer cases are shown and never spoken of. Common practice, no source.
inline constexpr std::size_t kLeastCases = 5;

/// The level of that interval: wider than the one that is shown, since a shop has dozens of numbers, of which
/// at four in five many would stand out by chance. Common practice, no source.
inline constexpr double kSayingLevel = 0.95;

/// How a number lies to the one that it is held against, as far as the record carries it.
enum class Differs { no, lower, higher };

}  // namespace secondpull::lessons
