#include "core/shop/safety.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <string>
#include <string_view>
#include <utility>

#include <fmt/format.h>

namespace secondpull {
namespace {

/// Does the text hold the word, or a word that begins with it, whatever the case of its letters?
bool speaks_of(std::string_view text, std::string_view start_of_word) {
  const auto same = [](char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
  };
  auto at = text.begin();
  while (true) {
    at = std::search(at, text.end(), start_of_word.begin(), start_of_word.end(), same);
    if (at == text.end()) return false;
    if (at == text.begin() || std::isalpha(static_cast<unsigned char>(*(at - 1))) == 0) return true;
    ++at;
  }
}

std::string lower_case(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

}  // namespace

const Finding* failed_safety_check(const ByMachine::Lines& lines) {
  const Date since = here_since(lines);
  std::map<std::string, const Finding*> latest;  // by step: one check passed says nothing of another
  for (const Finding* finding : lines.findings)
    if (finding->date >= since && speaks_of(finding->step, "safety"))
      latest[lower_case(finding->step)] = finding;
  const Finding* failed = nullptr;
  for (const auto& [step, finding] : latest)
    if (speaks_of(finding->outcome, "fail") &&
        (failed == nullptr ||
         std::pair{failed->date, failed->entered} < std::pair{finding->date, finding->entered}))
      failed = finding;
  return failed;
}

std::optional<Problem> against_running(const ByMachine::Lines& lines, std::optional<SoldAs> sold_as) {
  if (sold_as != SoldAs::running) return std::nullopt;
  const Finding* failed = failed_safety_check(lines);
  if (failed == nullptr) return std::nullopt;
  return Problem{fmt::format("#{} failed a safety check on {} ({}: {}). It can go as is, or as running once "
                             "that check is passed.",
                             lines.machine->tag, shown(failed->date), failed->step, failed->outcome),
                 "sold_as", std::string{word(SoldAs::running)}};
}

}  // namespace secondpull
