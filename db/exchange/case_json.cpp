#include "db/exchange/case_json.h"

#include "db/exchange/json_text.h"

namespace secondpull::db {
namespace {

using namespace diagnosis;

std::vector<double> numbers(const JsonPlace& place) {
  std::vector<double> out;
  for (const JsonPlace& entry : place.list())
    out.push_back(entry.number());
  return out;
}

ByCause<double> number_by_cause(const JsonPlace& place) {
  ByCause<double> out;
  for (const auto& [cause, value] : place.members())
    out.emplace_back(cause, value.number());
  return out;
}

Cause read_cause(const JsonPlace& place) {
  place.fields({"id", "weight"});
  Cause out;
  place.read("id", out.id);
  place.read("weight", out.weight);
  return out;
}

/// What a test and a repair have in common.
template <class Step>
void read_step(const JsonPlace& place, Step& out) {
  place.read("id", out.id);
  place.read("cost", out.cost);
  place.read("minutes", out.minutes);
  place.read("days", out.days);
}

Test read_test(const JsonPlace& place) {
  place.fields({"id", "cost", "minutes", "days", "group", "outcomes", "likelihood", "otherwise"});
  Test out;
  read_step(place, out);
  place.read("group", out.group);
  if (place.has("outcomes"))
    for (const JsonPlace& outcome : place.at("outcomes").list())
      out.outcomes.push_back(outcome.text());
  if (place.has("likelihood"))
    for (const auto& [cause, row] : place.at("likelihood").members())
      out.likelihood.emplace_back(cause, numbers(row));
  // An empty row is what an absent one is.
  if (place.has("otherwise"))
    if (auto row = numbers(place.at("otherwise")); !row.empty()) out.otherwise = std::move(row);
  return out;
}

Repair read_repair(const JsonPlace& place) {
  place.fields({"id", "cost", "minutes", "days", "tries", "cures"});
  Repair out;
  read_step(place, out);
  place.read("tries", out.tries);
  if (place.has("cures")) out.cures = number_by_cause(place.at("cures"));
  return out;
}

Revived read_revived(const JsonPlace& place) {
  place.fields({"price", "spread", "fee_rate", "fee_fixed", "hours", "days", "comeback_chance",
                "comeback_cost", "known_work"});
  Revived out;
  place.read("price", out.price);
  place.read("spread", out.spread);
  place.read("fee_rate", out.fee_rate);
  place.read("fee_fixed", out.fee_fixed);
  place.read("hours", out.hours);
  place.read("days", out.days);
  place.read("comeback_chance", out.comeback_chance);
  place.read("comeback_cost", out.comeback_cost);
  if (!place.has("known_work")) return out;
  for (const JsonPlace& work : place.at("known_work").list()) {
    work.fields({"cost", "minutes"});
    KnownWork& known = out.known_work.emplace_back();
    work.read("cost", known.cost);
    work.read("minutes", known.minutes);
  }
  return out;
}

Stop read_stop(const JsonPlace& place) {
  place.fields({"id", "value", "hours", "days", "value_by_cause"});
  Stop out;
  place.read("id", out.id);
  place.read("value", out.value);
  place.read("hours", out.hours);
  place.read("days", out.days);
  if (place.has("value_by_cause")) out.value_by_cause = number_by_cause(place.at("value_by_cause"));
  return out;
}

Evidence read_evidence(const JsonPlace& place) {
  if (place.has("repair")) {
    place.fields({"repair"});
    return RepairFailed{place.at("repair").text()};
  }
  place.fields({"test", "outcome"});
  TestShowed out;
  place.read("test", out.test);
  place.read("outcome", out.outcome);
  return out;
}

template <class Item>
void read_list(const JsonPlace& of, const char* field, std::vector<Item>& out,
               Item (*read)(const JsonPlace&)) {
  if (!of.has(field)) return;
  for (const JsonPlace& place : of.at(field).list())
    out.push_back(read(place));
}

Case case_at(const JsonPlace& place) {
  place.fields(
      {"hour_value", "day_cost", "causes", "tests", "repairs", "revived", "stops", "evidence", "sunk"});
  Case out;
  place.read("hour_value", out.hour_value);
  place.read("day_cost", out.day_cost);
  read_list(place, "causes", out.causes, read_cause);
  read_list(place, "tests", out.tests, read_test);
  read_list(place, "repairs", out.repairs, read_repair);
  if (place.has("revived")) out.revived = read_revived(place.at("revived"));
  read_list(place, "stops", out.stops, read_stop);
  read_list(place, "evidence", out.evidence, read_evidence);
  if (place.has("sunk")) {
    const JsonPlace sunk = place.at("sunk");
    sunk.fields({"cash", "hours"});
    sunk.read("cash", out.sunk.cash);
    sunk.read("hours", out.sunk.hours);
  }
  return out;
}

/// Reads a whole text with `read`, which takes the place of all of it.
template <class Read>
auto read_text(std::string_view text, Read&& read) -> Result<decltype(read(std::declval<JsonPlace>()))> {
  const auto json = parse_json(text);
  if (!json) return tl::unexpected<Problem>(json.error());
  std::optional<Problem> problem;
  auto out = read(JsonPlace{*json, "", problem});
  if (problem) return tl::unexpected<Problem>(*problem);
  return out;
}

}  // namespace

Result<Case> read_case(std::string_view text) {
  auto out = read_text(text, case_at);
  if (!out) return out;
  if (const auto problems = problems_of(*out); !problems.empty())
    return tl::unexpected<Problem>(problems.front());
  return out;
}

Result<decision::Backlog> read_backlog(std::string_view text) {
  return read_text(text, [](const JsonPlace& place) {
    place.fields({"hours", "cases"});
    decision::Backlog out;
    place.read("hours", out.hours);
    if (!place.has("cases")) return out;
    for (const JsonPlace& entry : place.at("cases").list()) {
      entry.fields({"id", "case"});
      decision::BacklogCase& made = out.cases.emplace_back();
      entry.read("id", made.id);
      if (entry.has("case")) made.of = case_at(entry.at("case"));
    }
    return out;
  });
}

}  // namespace secondpull::db
