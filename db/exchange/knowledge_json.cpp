#include "db/exchange/knowledge_json.h"

#include <algorithm>
#include <array>
#include <map>
#include <memory>
#include <set>
#include <stdexcept>

#include <fmt/format.h>

#include "db/exchange/json_text.h"

namespace secondpull::db {

// Made from the files of resources/knowledge when the build is configured.
std::vector<KnowledgeText> published_knowledge_texts();

namespace {

using namespace learning;

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

/// One number per outcome, in the order of the test's outcomes.
void read_rows(const JsonPlace& place, Test& out) {
  for (const auto& [cause, row] : needed(place, "likelihood").members())
    out.likelihood.emplace_back(cause, numbers(row));
  if (place.has("otherwise")) out.otherwise = numbers(place.at("otherwise"));
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

KindFigures read_kind(const JsonPlace& place) {
  place.fields(
      {"running_price", "as_is_price", "minutes_to_sell", "days_to_sell", "weight", "sources", "note"});
  KindFigures out;
  out.running_price = money_range(needed(place, "running_price"));
  out.as_is_price = money_range(needed(place, "as_is_price"));
  out.minutes_to_sell = range(needed(place, "minutes_to_sell"));
  out.days_to_sell = range(needed(place, "days_to_sell"));
  out.weight = range(needed(place, "weight"));
  return out;
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

struct Section {
  std::map<std::string, const nlohmann::json*> entries;
  std::map<std::string, std::string> part_of;  // by entry, the name of its part
};

/// Lays the parts over each other, then reads what is left.
class KnowledgeReader {
 public:
  std::optional<Problem> lay(const KnowledgeText& part) {
    auto parsed = parse_json(part.json);
    if (!parsed) return in_part(part.name, std::move(parsed.error()));
    values_.push_back(std::make_unique<nlohmann::json>(*std::move(parsed)));
    std::optional<Problem> wrong;
    const JsonPlace whole{*values_.back(), "", wrong};
    whole.fields({"symptoms", "causes", "tests", "repairs", "known_work", "parts_to_pull", "kinds", "trade",
                  "cautions", "measurements", "checks", "sources"});
    if (!wrong)
      for (const auto& [name, entries] : values_.back()->items()) {
        if (!entries.is_object()) {
          JsonPlace{entries, name, wrong}.refuse("must be an object.");
          break;
        }
        for (const auto& [id, entry] : entries.items()) {
          sections_[name].entries[id] = &entry;
          sections_[name].part_of[id] = part.name;
        }
      }
    if (wrong) return in_part(part.name, std::move(*wrong));
    return std::nullopt;
  }

 private:
  static Problem in_part(const std::string& part, Problem wrong) {
    wrong.sentence = fmt::format("{}: {}", part, wrong.sentence);
    wrong.field = wrong.field.empty() ? part : fmt::format("{}, {}", part, wrong.field);
    return wrong;
  }

  /// Reads every entry of a section, in the order of the alphabet; the first problem of all is kept.
  template <class Take>
  void each(const std::string& name, Take take) {
    const auto section = sections_.find(name);
    if (section == sections_.end()) return;
    for (const auto& [id, entry] : section->second.entries) {
      std::optional<Problem> wrong;
      take(id, JsonPlace{*entry, fmt::format("{}.{}", name, id), wrong});
      if (wrong && !problem_) problem_ = in_part(section->second.part_of.at(id), *std::move(wrong));
    }
  }

  /// An entry that the planner knows: its words go beside it.
  template <class Entry>
  auto into(std::vector<Entry>& list, Entry (*entry_of)(const JsonPlace&)) {
    return [this, &list, entry_of](const std::string& id, const JsonPlace& place) {
      list.push_back(entry_of(place));
      list.back().id = id;
      base_.texts[id] = read_text(place);
    };
  }
  template <class Entry>
  auto alone(std::vector<Entry>& list, Entry (*entry_of)(const JsonPlace&)) {
    return [&list, entry_of](const std::string& id, const JsonPlace& place) {
      list.push_back(entry_of(place));
      list.back().id = id;
    };
  }

 public:
  Result<KnowledgeBase> read() {
    each("sources", [&](const std::string& id, const JsonPlace& place) {
      place.fields({"title", "where"});
      Publication& out = base_.sources[id];
      out.title = needed(place, "title").text();
      place.read("where", out.where);
    });
    each("causes", into(base_.knowledge.causes, read_cause));
    each("symptoms", into(base_.knowledge.symptoms, read_symptom));
    each("tests", into(base_.knowledge.tests, read_test));
    each("repairs", into(base_.knowledge.repairs, read_repair));
    each("known_work", into(base_.knowledge.known_work, read_piece_of_work));
    each("parts_to_pull", into(base_.knowledge.parts_to_pull, read_part));
    read_figures();
    each("cautions", alone(base_.cautions, read_caution));
    each("measurements", alone(base_.measurements, read_measurement));
    each("checks", alone(base_.checks, read_check));
    if (!problem_) resolve();
    if (problem_) return tl::unexpected(*std::move(problem_));
    if (auto wrong = problems_of(base_.knowledge); !wrong.empty())
      return tl::unexpected(by_name(std::move(wrong.front())));
    return std::move(base_);
  }

 private:
  void read_figures() {
    each("kinds", [&](const std::string& id, const JsonPlace& place) {
      const nlohmann::json as_list{{"kinds", {id}}};
      std::optional<Problem> wrong;
      const auto kind = kinds(JsonPlace{as_list, "kinds", wrong});
      if (wrong) place.refuse("must be called as a kind of machine.");
      base_.knowledge.kinds.push_back(read_kind(place));
      if (!kind.empty()) base_.knowledge.kinds.back().kind = kind.front();
      (void)origin(place);  // asked for, though nobody shows it yet
    });
    each("trade", [&](const std::string& id, const JsonPlace& place) {
      place.fields({"value", "sources", "note"});
      (void)origin(place);
      const JsonPlace value = needed(place, "value");
      if (id == "scrap_per_pound")
        base_.knowledge.scrap_per_pound = money_range(value);
      else if (id == "minutes_of_comeback")
        base_.knowledge.minutes_of_comeback = range(value);
      else if (id == "season_price")
        base_.knowledge.season.price = monthly(value);
      else if (id == "season_days")
        base_.knowledge.season.days = monthly(value);
      else if (id != "comes_back")
        place.refuse(
            "must be scrap_per_pound, minutes_of_comeback, season_price, season_days or comes_back.");
      else if (const auto two = numbers(value); two.size() == 2)
        base_.knowledge.comes_back = {two[0], two[1]};
      else
        value.refuse("must be two numbers: how often one came back and how often not.");
    });
  }

  /// "tests[2].minutes" is "tests.spark.minutes" to a person who edits the text.
  Problem by_name(Problem wrong) const {
    if (const auto trade = sections_.find("trade"); trade != sections_.end())
      for (const auto& [id, part] : trade->second.part_of)
        if (wrong.field.starts_with(id)) return renamed(std::move(wrong), id.size(), "trade." + id, part);
    const auto open = wrong.field.find('[');
    const auto close = wrong.field.find(']', open);
    const auto section = sections_.find(wrong.field.substr(0, open));
    if (open == std::string::npos || close == std::string::npos || section == sections_.end()) return wrong;
    const auto place = std::stoul(wrong.field.substr(open + 1, close - open - 1));
    const std::string id = std::next(section->second.entries.begin(), static_cast<long>(place))->first;
    return renamed(std::move(wrong), close + 1, fmt::format("{}.{}", section->first, id),
                   section->second.part_of.at(id));
  }

  /// With the first so many bytes of the field's path called otherwise.
  static Problem renamed(Problem wrong, std::size_t bytes, const std::string& entry,
                         const std::string& part) {
    const std::string named = entry + wrong.field.substr(bytes);
    if (wrong.sentence.starts_with(wrong.field)) wrong.sentence.replace(0, wrong.field.size(), named);
    wrong.field = named;
    return in_part(part, std::move(wrong));
  }

  void refer(const std::string& section, const std::string& entry, const std::string& to, bool there) {
    if (there || problem_) return;
    problem_ = in_part(sections_.at(section).part_of.at(entry),
                       {fmt::format("{} \"{}\" refers to \"{}\", which is no entry.", section, entry, to),
                        fmt::format("{}.{}", section, entry), to});
  }

  /// References that the planner's own check does not know of.
  void resolve() {
    std::set<std::string> steps;
    for (const Test& test : base_.knowledge.tests)
      steps.insert(test.id);
    for (const Measurement& entry : base_.measurements)
      for (const std::string& test : entry.tests)
        refer("measurements", entry.id, test, steps.contains(test));
    for (const Repair& repair : base_.knowledge.repairs)
      steps.insert(repair.id);
    for (const Caution& entry : base_.cautions)
      for (const std::string& step : entry.steps)
        refer("cautions", entry.id, step, steps.contains(step));
    for (const char* name : {"symptoms", "causes", "tests", "repairs", "known_work", "parts_to_pull"})
      if (const auto section = sections_.find(name); section != sections_.end())
        for (const auto& [id, entry] : section->second.entries)
          sources(name, id, base_.texts.at(id).origin);
    for (const Caution& entry : base_.cautions)
      sources("cautions", entry.id, entry.origin);
    for (const Measurement& entry : base_.measurements)
      sources("measurements", entry.id, entry.origin);
    for (const SaleCheck& entry : base_.checks)
      sources("checks", entry.id, entry.origin);
  }
  void sources(const std::string& section, const std::string& entry, const Origin& origin) {
    for (const std::string& source : origin.sources)
      refer(section, entry, source, base_.sources.contains(source));
  }

  std::vector<std::unique_ptr<nlohmann::json>> values_;  // the sections point into them
  std::map<std::string, Section> sections_;
  KnowledgeBase base_;
  std::optional<Problem> problem_;
};

}  // namespace

Result<KnowledgeBase> read_knowledge(const std::vector<KnowledgeText>& parts) {
  KnowledgeReader reader;
  for (const KnowledgeText& part : parts)
    if (auto wrong = reader.lay(part)) return tl::unexpected(*std::move(wrong));
  return reader.read();
}

const KnowledgeBase& published_knowledge() {
  // The knowledge base is part of the program: one that cannot be read is a bug, and the first test shows it.
  static const KnowledgeBase base = [] {
    auto read = read_knowledge(published_knowledge_texts());
    if (!read) throw std::logic_error(read.error().sentence);
    return *std::move(read);
  }();
  return base;
}

}  // namespace secondpull::db
