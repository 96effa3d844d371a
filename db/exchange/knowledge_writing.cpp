#include "db/exchange/knowledge_writing.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "db/exchange/knowledge_entries.h"

namespace secondpull::db {

using namespace learning;

namespace {

using Json = nlohmann::ordered_json;

/// Whole numbers without a point, as a person writes them.
Json number_json(double value) {
  if (value == std::floor(value) && std::abs(value) <= std::numeric_limits<int>::max())
    return static_cast<int>(value);
  return value;
}
Json range_json(const Range& range) {
  return {number_json(range.low), number_json(range.typical), number_json(range.high)};
}
Json range_json(const MoneyRange& range) {
  return {range.low.minor(), range.typical.minor(), range.high.minor()};
}
Json row_json(const std::vector<double>& row) {
  Json out = Json::array();
  for (const double value : row)
    out.push_back(number_json(value));
  return out;
}
Json row_json(const Beta& counts) {
  return {number_json(counts.a), number_json(counts.b)};
}

void put(Json& to, const char* field, const std::string& text) {
  if (!text.empty()) to[field] = text;
}
void put(Json& to, const char* field, const std::vector<std::string>& texts) {
  if (!texts.empty()) to[field] = texts;
}
void put(Json& to, const char* field, const std::vector<MachineKind>& kinds) {
  for (const MachineKind kind : kinds)
    to[field].push_back(std::string{word(kind)});
}
void put(Json& to, const char* field, const std::optional<double>& figure) {
  if (figure) to[field] = number_json(*figure);
}
template <class Value, class Write>
void put_by_cause(Json& to, const char* field, const ByCause<Value>& values, Write write) {
  to[field] = Json::object();
  for (const auto& [cause, value] : values)
    to[field][cause] = write(value);
}

Json outcomes_json(const std::vector<Outcome>& outcomes) {
  Json out = Json::array();
  for (const Outcome& outcome : outcomes) {
    Json one = {{"id", outcome.id}, {"name", outcome.name}};
    put(one, "also", outcome.also);
    out.push_back(std::move(one));
  }
  return out;
}

/// Writes the fields of one sort of entry in the order of the table in DEVELOPERS.md.
class Writer {
 public:
  explicit Writer(const EntryText& text) : text_{text} {}

  void operator()(const Symptom& given) {
    out_["name"] = given.name;
    put(out_, "also", given.also);
    put(out_, "kinds", given.kinds);
    if (given.engine != Engine::unknown)
      out_["engine"] = given.engine == Engine::none    ? "none"
                       : given.engine == Engine::turns ? "turns"
                                                       : "runs";
    put_by_cause(out_, "causes", given.causes, number_json);
  }
  void operator()(const Cause& given) {
    out_["name"] = given.name;
    put(out_, "also", given.also);
    put(out_, "says", text_.says);
  }
  void operator()(const Test& given) {
    out_["name"] = given.name;
    put(out_, "also", given.also);
    put(out_, "says", text_.says);
    put(out_, "ask", text_.ask);
    put(out_, "kinds", given.kinds);
    put(out_, "symptoms", given.symptoms);
    if (given.needs != Needs::nothing)
      out_["needs"] = given.needs == Needs::turning   ? "turning"
                      : given.needs == Needs::running ? "running"
                                                      : "turning, not starting";
    for (const After& after : given.after)
      out_["after"][after.test] = after.outcomes;
    put(out_, "group", given.group);
    out_["minutes"] = number_json(given.minutes.typical);
    if (!given.cost.is_zero()) out_["cost"] = given.cost.minor();
    out_["outcomes"] = outcomes_json(given.outcomes);
    put_by_cause(out_, "likelihood", given.likelihood,
                 [](const std::vector<double>& row) { return row_json(row); });
    if (given.otherwise) out_["otherwise"] = row_json(*given.otherwise);
  }
  void operator()(const Repair& given) {
    out_["name"] = given.name;
    put(out_, "also", given.also);
    put(out_, "says", text_.says);
    put(out_, "kinds", given.kinds);
    out_["minutes"] = range_json(given.minutes);
    out_["parts"] = range_json(given.parts);
    put(out_, "parts_named", given.parts_named);
    if (given.days != 0) out_["days"] = number_json(given.days);
    if (given.tries != 1) out_["tries"] = given.tries;
    put_by_cause(out_, "cures", given.cures, [](const Beta& counts) { return row_json(counts); });
  }
  void operator()(const PieceOfWork& given) {
    out_["name"] = given.name;
    put(out_, "also", given.also);
    put(out_, "says", text_.says);
    put(out_, "kinds", given.kinds);
    out_["cost"] = range_json(given.cost);
    out_["minutes"] = range_json(given.minutes);
  }
  void operator()(const PartToPull& given) {
    out_["name"] = given.name;
    put(out_, "says", text_.says);
    put(out_, "kinds", given.kinds);
    out_["price"] = range_json(given.price);
    out_["chance"] = number_json(given.chance);
    out_["minutes"] = range_json(given.minutes);
    put(out_, "spoiled_by", given.spoiled_by);
    put(out_, "goes_with", given.goes_with);
  }
  void operator()(const KindFigures& given) {
    out_["running_price"] = range_json(given.running_price);
    out_["as_is_price"] = range_json(given.as_is_price);
    out_["minutes_to_sell"] = range_json(given.minutes_to_sell);
    out_["days_to_sell"] = range_json(given.days_to_sell);
    out_["weight"] = range_json(given.weight);
  }
  void operator()(const Caution& given) {
    out_["name"] = given.name;
    out_["danger"] = given.danger;
    out_["care"] = given.care;
    if (given.stops_the_way) out_["stops_the_way"] = "yes";
    put(out_, "steps", given.steps);
  }
  void operator()(const Measurement& given) {
    out_["name"] = given.name;
    put(out_, "kinds", given.kinds);
    out_["unit"] = given.unit;
    put(out_, "low", given.low);
    put(out_, "nominal", given.nominal);
    put(out_, "high", given.high);
    put(out_, "rule", given.rule);
    put(out_, "tests", given.tests);
  }
  void operator()(const SaleCheck& given) {
    out_["name"] = given.name;
    put(out_, "kinds", given.kinds);
    out_["level"] = given.must ? "must" : "should";
  }

  std::string done() {
    put(out_, "sources", text_.origin.sources);
    put(out_, "note", text_.origin.note);
    return out_.dump(-1, ' ', false, Json::error_handler_t::replace);
  }

 private:
  const EntryText& text_;
  Json out_ = Json::object();
};

const Origin* own_origin(const KnowledgeEntry& entry) {
  if (const auto* caution = std::get_if<Caution>(&entry.of)) return &caution->origin;
  if (const auto* measurement = std::get_if<Measurement>(&entry.of)) return &measurement->origin;
  if (const auto* check = std::get_if<SaleCheck>(&entry.of)) return &check->origin;
  return nullptr;
}

std::string id_of_entry(const KindFigures& entry) {
  return std::string{word(entry.kind)};
}
template <class Entry>
const std::string& id_of_entry(const Entry& entry) {
  return entry.id;
}

template <class Entry>
std::optional<KnowledgeEntry> found(const KnowledgeBase& base, const std::vector<Entry>& among,
                                    std::string_view id) {
  const auto at =
      std::find_if(among.begin(), among.end(), [&](const Entry& each) { return id_of_entry(each) == id; });
  if (at == among.end()) return std::nullopt;
  KnowledgeEntry entry{.of = *at, .text = {}};
  if (const Origin* const origin = own_origin(entry))
    entry.text.origin = *origin;
  else if (const auto text = base.texts.find(std::string{id}); text != base.texts.end())
    entry.text = text->second;
  return entry;
}

}  // namespace

std::string_view section_of(const KnowledgeEntry& entry) {
  constexpr std::string_view kSections[] = {"symptoms",     "causes",        "tests", "repairs",
                                            "known_work",   "parts_to_pull", "kinds", "cautions",
                                            "measurements", "checks"};
  return kSections[entry.of.index()];
}

std::string id_of(const KnowledgeEntry& entry) {
  return std::visit([](const auto& given) { return std::string{id_of_entry(given)}; }, entry.of);
}

std::string write_entry(const KnowledgeEntry& entry) {
  Writer writer{entry.text};
  std::visit(writer, entry.of);
  return writer.done();
}

std::string write_trade(const std::string& id, const Knowledge& knowledge, const Origin& origin) {
  Json out = Json::object();
  const auto months = [](const MonthlyShares& shares) { return row_json({shares.begin(), shares.end()}); };
  if (id == "scrap_per_pound")
    out["value"] = range_json(knowledge.scrap_per_pound);
  else if (id == "minutes_of_comeback")
    out["value"] = range_json(knowledge.minutes_of_comeback);
  else if (id == "season_price")
    out["value"] = months(knowledge.season.price);
  else if (id == "season_days")
    out["value"] = months(knowledge.season.days);
  else if (id == "comes_back")
    out["value"] = row_json(knowledge.comes_back);
  else
    return {};
  put(out, "sources", origin.sources);
  put(out, "note", origin.note);
  return out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Result<KnowledgeEntry> read_entry(const std::string& section, const std::string& id,
                                  const std::string& text) {
  auto parsed = parse_json(text);
  const std::string path = fmt::format("{}.{}", section, id);
  if (!parsed) {
    parsed.error().field = path;
    return tl::unexpected(std::move(parsed.error()));
  }
  std::optional<Problem> wrong;
  const JsonPlace place{*parsed, path, wrong};
  KnowledgeEntry out;
  const auto with_id = [&](auto entry) {
    entry.id = id;
    out.of = std::move(entry);
  };
  if (section == "symptoms")
    with_id(read_symptom(place));
  else if (section == "causes")
    with_id(read_cause(place));
  else if (section == "tests")
    with_id(read_test(place));
  else if (section == "repairs")
    with_id(read_repair(place));
  else if (section == "known_work")
    with_id(read_piece_of_work(place));
  else if (section == "parts_to_pull")
    with_id(read_part(place));
  else if (section == "kinds")
    out.of = read_kind(id, place);
  else if (section == "cautions")
    with_id(read_caution(place));
  else if (section == "measurements")
    with_id(read_measurement(place));
  else if (section == "checks")
    with_id(read_check(place));
  else
    return problem(fmt::format("The knowledge base has no section \"{}\".", section), "section", section);
  out.text = read_text(place);
  if (wrong) return tl::unexpected(*std::move(wrong));
  return out;
}

std::optional<KnowledgeEntry> find_entry(const KnowledgeBase& base, std::string_view section,
                                         std::string_view id) {
  const Knowledge& knowledge = base.knowledge;
  if (section == "symptoms") return found(base, knowledge.symptoms, id);
  if (section == "causes") return found(base, knowledge.causes, id);
  if (section == "tests") return found(base, knowledge.tests, id);
  if (section == "repairs") return found(base, knowledge.repairs, id);
  if (section == "known_work") return found(base, knowledge.known_work, id);
  if (section == "parts_to_pull") return found(base, knowledge.parts_to_pull, id);
  if (section == "kinds") return found(base, knowledge.kinds, id);
  if (section == "cautions") return found(base, base.cautions, id);
  if (section == "measurements") return found(base, base.measurements, id);
  if (section == "checks") return found(base, base.checks, id);
  return std::nullopt;
}

std::string new_entry_id(const KnowledgeBase& base, const Shop& shop, std::string_view name) {
  std::string stem;
  for (const char letter : name) {
    const bool is_digit = letter >= '0' && letter <= '9';
    const bool is_capital = letter >= 'A' && letter <= 'Z';
    if (is_digit || is_capital || (letter >= 'a' && letter <= 'z'))
      stem += is_capital ? static_cast<char>(letter - 'A' + 'a') : letter;
    else if (!stem.empty() && stem.back() != '-')
      stem += '-';
  }
  while (!stem.empty() && stem.back() == '-')
    stem.pop_back();
  if (stem.empty()) stem = "own";  // a name without a letter of ASCII
  std::set<std::string> taken{std::string{kUnlisted}};
  const auto take = [&](const auto& entries) {
    for (const auto& each : entries)
      taken.insert(each.id);
  };
  take(base.knowledge.symptoms);
  take(base.knowledge.causes);
  take(base.knowledge.tests);
  take(base.knowledge.repairs);
  take(base.knowledge.known_work);
  take(base.knowledge.parts_to_pull);
  take(base.cautions);
  take(base.measurements);
  take(base.checks);
  for (const auto& [id, text] : base.texts)
    taken.insert(id);
  for (const KnowledgeEdit& own : shop.all<KnowledgeEdit>())
    taken.insert(own.entry);
  std::string id = stem;
  for (int count = 2; taken.contains(id); ++count)
    id = fmt::format("{}-{}", stem, count);
  return id;
}

}  // namespace secondpull::db
