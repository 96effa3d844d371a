#include "db/exchange/knowledge_entries.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include <fmt/format.h>

namespace secondpull::db {

using namespace learning;

namespace {

std::vector<std::string> texts(const JsonPlace& place, const char* field) {
  std::vector<std::string> out;
  if (place.has(field))
    for (const JsonPlace& entry : place.at(field).list())
      out.push_back(entry.text());
  return out;
}

std::vector<double> numbers(const JsonPlace& place) {
  std::vector<double> out;
  for (const JsonPlace& entry : place.list())
    out.push_back(entry.number());
  return out;
}

/// The place of a field that must be there; where it is not, that is the problem, and an empty object stands
/// for it.
JsonPlace needed(const JsonPlace& place, const char* field) {
  if (!place.has(field)) {
    place.refuse(fmt::format("must have \"{}\".", field));
    static const nlohmann::json kNothing = nlohmann::json::object();
    thread_local std::optional<Problem> nobody_asks;
    nobody_asks.reset();
    return {kNothing, place.path(), nobody_asks};
  }
  return place.at(field);
}

Range range(const JsonPlace& place) {
  const std::vector<double> three = numbers(place);
  if (three.size() == 3) return {three[0], three[1], three[2]};
  place.refuse("must be three numbers: low, typical, high.");
  return {};
}

MonthlyShares monthly(const JsonPlace& place) {
  const std::vector<double> twelve = numbers(place);
  MonthlyShares out = kAllYear;
  if (twelve.size() == out.size())
    std::copy(twelve.begin(), twelve.end(), out.begin());
  else
    place.refuse("must be twelve numbers, from January on.");
  return out;
}

/// Amounts of the knowledge base are whole cents.
Money cents(const JsonPlace& place) {
  return Money::from_minor(place.whole());
}

MoneyRange money_range(const JsonPlace& place) {
  const std::vector<JsonPlace> three = place.list();
  if (three.size() == 3) return {cents(three[0]), cents(three[1]), cents(three[2])};
  place.refuse("must be three amounts in cents: low, typical, high.");
  return {};
}

std::vector<MachineKind> kinds(const JsonPlace& place) {
  constexpr std::array kAll{MachineKind::push,      MachineKind::self_propelled, MachineKind::lawn_tractor,
                            MachineKind::zero_turn, MachineKind::trimmer,        MachineKind::blower,
                            MachineKind::other};
  std::vector<MachineKind> out;
  if (!place.has("kinds")) return out;
  for (const JsonPlace& entry : place.at("kinds").list()) {
    const std::string name = entry.text();
    const auto kind = std::find_if(kAll.begin(), kAll.end(), [&](MachineKind k) { return word(k) == name; });
    if (kind == kAll.end())
      entry.refuse("must be a kind of machine.");
    else
      out.push_back(*kind);
  }
  return out;
}

/// What a word stands for; another word is refused with the list of those that can be.
template <class Value, std::size_t N>
Value one_of(const JsonPlace& place, const char* field, Value absent,
             const std::array<std::pair<std::string_view, Value>, N>& words) {
  if (!place.has(field)) return absent;
  const std::string given = place.at(field).text();
  std::string list;
  for (const auto& [name, value] : words) {
    if (name == given) return value;
    list += fmt::format("{}\"{}\"", list.empty() ? "" : ", ", name);
  }
  place.at(field).refuse(fmt::format("must be one of {}.", list));
  return absent;
}

Origin origin(const JsonPlace& place) {
  Origin out{.sources = texts(place, "sources")};
  place.read("note", out.note);
  if (out.sources.empty() && out.note.empty())
    place.refuse("must say where it comes from, in \"sources\" or \"note\".");
  return out;
}

template <class Entry>
void name_of(const JsonPlace& place, Entry& out) {
  out.name = needed(place, "name").text();
}

ByCause<double> number_by_cause(const JsonPlace& place) {
  ByCause<double> out;
  for (const auto& [cause, value] : place.members())
    out.emplace_back(cause, value.number());
  return out;
}

/// One number per outcome, in the order of the test's outcomes.
void read_rows(const JsonPlace& place, Test& out) {
  for (const auto& [cause, row] : needed(place, "likelihood").members())
    out.likelihood.emplace_back(cause, numbers(row));
  if (place.has("otherwise")) out.otherwise = numbers(place.at("otherwise"));
}

}  // namespace

Symptom read_symptom(const JsonPlace& place) {
  place.fields({"name", "also", "kinds", "engine", "causes", "sources", "note"});
  Symptom out;
  name_of(place, out);
  out.also = texts(place, "also");
  out.kinds = kinds(place);
  out.engine = one_of(place, "engine", Engine::unknown,
                      std::array{std::pair{std::string_view{"none"}, Engine::none},
                                 std::pair{std::string_view{"turns"}, Engine::turns},
                                 std::pair{std::string_view{"runs"}, Engine::runs}});
  out.causes = number_by_cause(needed(place, "causes"));
  return out;
}

Cause read_cause(const JsonPlace& place) {
  place.fields({"name", "also", "says", "sources", "note"});
  Cause out;
  name_of(place, out);
  out.also = texts(place, "also");
  return out;
}

Test read_test(const JsonPlace& place) {
  place.fields({"name", "also", "says", "ask", "kinds", "symptoms", "needs", "after", "group", "minutes",
                "cost", "outcomes", "likelihood", "otherwise", "sources", "note"});
  Test out;
  name_of(place, out);
  out.also = texts(place, "also");
  out.kinds = kinds(place);
  out.symptoms = texts(place, "symptoms");
  out.needs =
      one_of(place, "needs", Needs::nothing,
             std::array{std::pair{std::string_view{"turning"}, Needs::turning},
                        std::pair{std::string_view{"turning, not starting"}, Needs::turning_but_not_starting},
                        std::pair{std::string_view{"running"}, Needs::running}});
  if (place.has("after"))
    for (const auto& [test, outcomes] : place.at("after").members()) {
      After& after = out.after.emplace_back(After{test, {}});
      for (const JsonPlace& shown : outcomes.list())
        after.outcomes.push_back(shown.text());
    }
  place.read("group", out.group);
  out.minutes = about(needed(place, "minutes").number());
  if (place.has("cost")) out.cost = cents(place.at("cost"));
  for (const JsonPlace& shown : needed(place, "outcomes").list()) {
    shown.fields({"id", "name", "also"});
    Outcome& outcome = out.outcomes.emplace_back();
    outcome.id = needed(shown, "id").text();
    name_of(shown, outcome);
    outcome.also = texts(shown, "also");
  }
  read_rows(place, out);
  return out;
}

Repair read_repair(const JsonPlace& place) {
  place.fields({"name", "also", "says", "kinds", "minutes", "parts", "parts_named", "days", "tries", "cures",
                "sources", "note"});
  Repair out;
  name_of(place, out);
  out.also = texts(place, "also");
  out.kinds = kinds(place);
  out.minutes = range(needed(place, "minutes"));
  out.parts = money_range(needed(place, "parts"));
  out.parts_named = texts(place, "parts_named");
  place.read("days", out.days);
  place.read("tries", out.tries);
  for (const auto& [cause, counts] : needed(place, "cures").members()) {
    const std::vector<double> two = numbers(counts);
    if (two.size() == 2)
      out.cures.emplace_back(cause, Beta{two[0], two[1]});
    else
      counts.refuse("must be two numbers: how often it worked and how often it did not.");
  }
  return out;
}

PieceOfWork read_piece_of_work(const JsonPlace& place) {
  place.fields({"name", "also", "says", "kinds", "cost", "minutes", "sources", "note"});
  PieceOfWork out;
  name_of(place, out);
  out.also = texts(place, "also");
  out.kinds = kinds(place);
  out.cost = money_range(needed(place, "cost"));
  out.minutes = range(needed(place, "minutes"));
  return out;
}

PartToPull read_part(const JsonPlace& place) {
  place.fields(
      {"name", "says", "kinds", "price", "chance", "minutes", "spoiled_by", "goes_with", "sources", "note"});
  PartToPull out;
  name_of(place, out);
  out.kinds = kinds(place);
  out.price = money_range(needed(place, "price"));
  out.chance = needed(place, "chance").number();
  out.minutes = range(needed(place, "minutes"));
  out.spoiled_by = texts(place, "spoiled_by");
  place.read("goes_with", out.goes_with);
  return out;
}

KindFigures read_kind(const std::string& id, const JsonPlace& place) {
  place.fields(
      {"running_price", "as_is_price", "minutes_to_sell", "days_to_sell", "weight", "sources", "note"});
  KindFigures out;
  if (const auto kind = from_word<MachineKind>(id))
    out.kind = *kind;
  else
    place.refuse("must be called as a kind of machine.");
  out.running_price = money_range(needed(place, "running_price"));
  out.as_is_price = money_range(needed(place, "as_is_price"));
  out.minutes_to_sell = range(needed(place, "minutes_to_sell"));
  out.days_to_sell = range(needed(place, "days_to_sell"));
  out.weight = range(needed(place, "weight"));
  return out;
}

void read_trade(const std::string& id, const JsonPlace& place, Knowledge& out) {
  place.fields({"value", "sources", "note"});
  const JsonPlace value = needed(place, "value");
  if (id == "scrap_per_pound")
    out.scrap_per_pound = money_range(value);
  else if (id == "minutes_of_comeback")
    out.minutes_of_comeback = range(value);
  else if (id == "season_price")
    out.season.price = monthly(value);
  else if (id == "season_days")
    out.season.days = monthly(value);
  else if (id != "comes_back")
    place.refuse("must be scrap_per_pound, minutes_of_comeback, season_price, season_days or comes_back.");
  else if (const auto two = numbers(value); two.size() == 2)
    out.comes_back = {two[0], two[1]};
  else
    value.refuse("must be two numbers: how often one came back and how often not.");
}

Caution read_caution(const JsonPlace& place) {
  place.fields({"name", "danger", "care", "stops_the_way", "steps", "sources", "note"});
  Caution out;
  name_of(place, out);
  out.danger = needed(place, "danger").text();
  out.care = needed(place, "care").text();
  out.stops_the_way =
      one_of(place, "stops_the_way", false, std::array{std::pair{std::string_view{"yes"}, true}});
  out.steps = texts(place, "steps");
  out.origin = origin(place);
  return out;
}

Measurement read_measurement(const JsonPlace& place) {
  place.fields({"name", "kinds", "unit", "low", "nominal", "high", "rule", "tests", "sources", "note"});
  Measurement out;
  name_of(place, out);
  out.kinds = kinds(place);
  out.unit = needed(place, "unit").text();
  const auto figure = [&](const char* field) {
    return place.has(field) ? std::optional{place.at(field).number()} : std::nullopt;
  };
  out.low = figure("low");
  out.nominal = figure("nominal");
  out.high = figure("high");
  place.read("rule", out.rule);
  out.tests = texts(place, "tests");
  out.origin = origin(place);
  return out;
}

SaleCheck read_check(const JsonPlace& place) {
  place.fields({"name", "kinds", "level", "sources", "note"});
  SaleCheck out;
  name_of(place, out);
  out.kinds = kinds(place);
  out.must = one_of(
      place, "level", false,
      std::array{std::pair{std::string_view{"must"}, true}, std::pair{std::string_view{"should"}, false}});
  out.origin = origin(place);
  return out;
}

EntryText read_text(const JsonPlace& place) {
  EntryText out{.origin = origin(place)};
  place.read("says", out.says);
  place.read("ask", out.ask);
  return out;
}

Publication read_publication(const JsonPlace& place) {
  place.fields({"title", "where"});
  Publication out;
  out.title = needed(place, "title").text();
  place.read("where", out.where);
  return out;
}

}  // namespace secondpull::db
