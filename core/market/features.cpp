#include "core/market/features.h"

#include <algorithm>
#include <array>
#include <span>

#include <fmt/format.h>

#include "core/typed_words.h"

namespace secondpull::market {
namespace {

constexpr std::array<std::string_view, 7> kLikeNew{"like new",    "as new",      "mint",     "excellent",
                                                   "barely used", "hardly used", "near mint"};
constexpr std::array<std::string_view, 8> kGood{"good",    "very good", "clean",  "well kept",
                                                "in shed", "in a shed", "garage", "tidy"};
constexpr std::array<std::string_view, 7> kFair{"fair",  "average", "worn",     "weathered",
                                                "faded", "dirty",   "scratched"};
constexpr std::array<std::string_view, 13> kRough{"rough",   "poor",   "bad",     "rust",   "rusty",
                                                  "rusted",  "bent",   "cracked", "broken", "beat up",
                                                  "damaged", "dented", "missing"};

/// Does one of the words stand there, other than after "no" or "not"?
bool says(std::string_view condition, std::span<const std::string_view> words) {
  return std::any_of(words.begin(), words.end(), [&](std::string_view word) {
    return holds_words(condition, word) && !holds_words(condition, fmt::format("no {}", word)) &&
           !holds_words(condition, fmt::format("not {}", word));
  });
}

}  // namespace

std::string_view word(Grade grade) {
  switch (grade) {
    case Grade::like_new:
      return "like new";
    case Grade::good:
      return "good";
    case Grade::fair:
      return "fair";
    case Grade::rough:
      return "rough";
  }
  return "";
}

std::optional<Grade> grade_of(std::string_view condition) {
  if (says(condition, kRough)) return Grade::rough;
  if (says(condition, kFair)) return Grade::fair;
  if (says(condition, kLikeNew)) return Grade::like_new;
  if (says(condition, kGood)) return Grade::good;
  return std::nullopt;
}

Features features_of(const Machine& machine, SoldAs as, Date date) {
  Features features{.kind = machine.kind,
                    .as = as,
                    .year = machine.year,
                    .make = std::string{trimmed(machine.make)},
                    .grade = grade_of(machine.condition),
                    .date = date};
  if (machine.year)
    features.age = std::clamp(static_cast<double>(year_of(date)) - *machine.year, 0.0, kOldest);
  if (machine.deck_in && machine.deck_in->count > 0)
    features.deck_in = static_cast<double>(machine.deck_in->count) / 10;
  return features;
}

}  // namespace secondpull::market
