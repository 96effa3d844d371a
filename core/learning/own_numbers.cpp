#include "core/learning/own_numbers.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace secondpull::learning {
namespace {

using diagnosis::Case;

constexpr int kMostTries = 100;  // of a case, see diagnosis::problems_of

template <class Of>
using Field = std::pair<std::string_view, double Of::*>;

constexpr std::array kOfCase{Field<Case>{"hour_value", &Case::hour_value},
                             Field<Case>{"day_cost", &Case::day_cost}};
using diagnosis::Revived;
constexpr std::array kOfRevived{Field<Revived>{"price", &Revived::price},
                                Field<Revived>{"spread", &Revived::spread},
                                Field<Revived>{"days", &Revived::days},
                                Field<Revived>{"hours", &Revived::hours},
                                Field<Revived>{"comeback_chance", &Revived::comeback_chance},
                                Field<Revived>{"comeback_cost", &Revived::comeback_cost},
                                Field<Revived>{"fee_rate", &Revived::fee_rate},
                                Field<Revived>{"fee_fixed", &Revived::fee_fixed}};
constexpr std::array kOfCause{Field<diagnosis::Cause>{"weight", &diagnosis::Cause::weight}};
constexpr std::array kOfTest{Field<diagnosis::Test>{"minutes", &diagnosis::Test::minutes},
                             Field<diagnosis::Test>{"cost", &diagnosis::Test::cost},
                             Field<diagnosis::Test>{"days", &diagnosis::Test::days}};
constexpr std::array kOfRepair{Field<diagnosis::Repair>{"minutes", &diagnosis::Repair::minutes},
                               Field<diagnosis::Repair>{"cost", &diagnosis::Repair::cost},
                               Field<diagnosis::Repair>{"days", &diagnosis::Repair::days}};
constexpr std::array kOfStop{Field<diagnosis::Stop>{"value", &diagnosis::Stop::value},
                             Field<diagnosis::Stop>{"hours", &diagnosis::Stop::hours},
                             Field<diagnosis::Stop>{"days", &diagnosis::Stop::days}};

template <class Of, std::size_t N>
double* field_of(Of& of, std::string_view name, const std::array<Field<Of>, N>& fields) {
  for (const auto& [known, member] : fields)
    if (known == name) return &(of.*member);
  return nullptr;
}

/// What follows `start` and a dot; nothing if the path does not begin so. Ids may have dots of their own.
std::optional<std::string_view> after(std::string_view path, std::string_view start) {
  if (path.size() <= start.size() || !path.starts_with(start) || path[start.size()] != '.')
    return std::nullopt;
  return path.substr(start.size() + 1);
}

/// The entry of a list that the path goes on with, of several the one with the longest id, and the rest of
/// the path.
template <class Entry>
std::pair<Entry*, std::string_view> entry_of(std::vector<Entry>& list, std::string_view path) {
  std::pair<Entry*, std::string_view> found{nullptr, {}};
  for (Entry& entry : list)
    if (const auto rest = after(path, entry.id))
      if (found.first == nullptr || rest->size() < found.second.size()) found = {&entry, *rest};
  return found;
}

template <class Entry, std::size_t N>
double* in_list(std::vector<Entry>& list, std::string_view path, const std::array<Field<Entry>, N>& fields) {
  const auto [entry, rest] = entry_of(list, path);
  return entry == nullptr ? nullptr : field_of(*entry, rest, fields);
}

/// The double at a path, but for the chances of cures.
double* plain_number(Case& of, std::string_view path) {
  if (const auto rest = after(path, "revived")) return field_of(of.revived, *rest, kOfRevived);
  if (const auto rest = after(path, "causes")) return in_list(of.causes, *rest, kOfCause);
  if (const auto rest = after(path, "tests")) return in_list(of.tests, *rest, kOfTest);
  if (const auto rest = after(path, "repairs")) return in_list(of.repairs, *rest, kOfRepair);
  if (const auto rest = after(path, "stops")) return in_list(of.stops, *rest, kOfStop);
  return field_of(of, path, kOfCase);
}

/// The repair of a path "repairs.ID.REST", and that rest.
std::pair<diagnosis::Repair*, std::string_view> repair_of(Case& of, std::string_view path) {
  const auto rest = after(path, "repairs");
  return rest ? entry_of(of.repairs, *rest) : std::pair<diagnosis::Repair*, std::string_view>{};
}

/// The cause of a repair's path "cures.CAUSE", if the case has it.
std::optional<std::string_view> cured_cause(const Case& of, std::string_view rest) {
  const auto cause = after(rest, "cures");
  const bool listed = cause && std::any_of(of.causes.begin(), of.causes.end(),
                                           [&](const diagnosis::Cause& each) { return each.id == *cause; });
  return listed ? cause : std::nullopt;
}

bool set_cure(diagnosis::Repair& repair, std::string_view cause, double chance) {
  for (auto& [listed, its] : repair.cures)
    if (listed == cause) {
      its = chance;
      return true;
    }
  repair.cures.emplace_back(cause, chance);
  return true;
}

/// Nothing was changed if the answer is no.
bool put(Case& to, const OwnNumberLine& said) {
  if (double* const at = plain_number(to, said.path)) {
    *at = said.value;
    if (const auto stop = after(said.path, "stops"); stop && stop->ends_with(".value"))
      entry_of(to.stops, *stop).first->value_by_cause.clear();
    return true;
  }
  const auto [repair, rest] = repair_of(to, said.path);
  if (repair == nullptr) return false;
  if (const auto cause = cured_cause(to, rest)) return set_cure(*repair, *cause, said.value);
  if (rest != "tries") return false;
  repair->tries = static_cast<int>(said.value);
  return true;
}

/// What no case says, since the tries of a case are an int already.
std::optional<Problem> no_tries(const OwnNumberLine& said) {
  if (!said.path.starts_with("repairs.") || !said.path.ends_with(".tries")) return std::nullopt;
  if (said.value >= 1 && said.value <= kMostTries && said.value == std::floor(said.value))
    return std::nullopt;
  const std::string value = fmt::format("{}", said.value);
  return Problem{
      fmt::format("{} is {}; it must be a whole number from 1 to {}.", said.path, value, kMostTries),
      said.path, value};
}

}  // namespace

std::optional<double> number_at(const Case& of, std::string_view path) {
  Case looked_at = of;
  if (const double* const at = plain_number(looked_at, path)) return *at;
  const auto [repair, rest] = repair_of(looked_at, path);
  if (repair == nullptr) return std::nullopt;
  if (rest == "tries") return repair->tries;
  const auto cause = cured_cause(looked_at, rest);
  if (!cause) return std::nullopt;
  for (const auto& [listed, chance] : repair->cures)
    if (listed == *cause) return chance;
  return 0;
}

std::vector<Problem> apply_said(Case& to, std::span<const OwnNumberLine> said) {
  std::vector<Problem> left;
  for (const OwnNumberLine& line : said) {
    const std::string value = fmt::format("{}", line.value);
    if (auto wrong = no_tries(line); wrong && number_at(to, line.path)) {
      left.push_back(*std::move(wrong));
      continue;
    }
    Case tried = to;
    if (!put(tried, line)) {
      left.push_back({fmt::format("\"{}\" names no number of this machine.", line.path), line.path, value});
    } else if (auto wrong = diagnosis::problems_of(tried); !wrong.empty()) {
      // The sentence names the place by its number in the list; a person knows it by the path.
      left.push_back(
          {fmt::format("{} cannot be {}: {}", line.path, value, wrong.front().sentence), line.path, value});
    } else {
      to = std::move(tried);
    }
  }
  return left;
}

}  // namespace secondpull::learning
