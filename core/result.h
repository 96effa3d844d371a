#pragma once

#include <string>
#include <utility>

#include <tl/expected.hpp>

namespace secondpull {

/// What is wrong, in words a person can act on. `sentence` stands alone ("The fee 12.345 has more digits than
/// USD allows."); `field` and `value` name the input that caused it, empty where there is no single one.
struct Problem {
  std::string sentence;
  std::string field;
  std::string value;
  friend bool operator==(const Problem&, const Problem&) = default;
};

/// A value, or the problem that kept it from being made. Core never throws for bad input; an exception is a
/// bug.
template <class T>
using Result = tl::expected<T, Problem>;

inline tl::unexpected<Problem> problem(std::string sentence, std::string field = {}, std::string value = {}) {
  return tl::unexpected<Problem>(Problem{std::move(sentence), std::move(field), std::move(value)});
}

}  // namespace secondpull
