#include "db/exchange/knowledge_json.h"

#include <map>
#include <memory>
#include <set>
#include <stdexcept>

#include <fmt/format.h>

#include "core/shop/knowledge_edits.h"
#include "db/exchange/json_text.h"
#include "db/exchange/knowledge_entries.h"

namespace secondpull::db {

// Made from the files of resources/knowledge when the build is configured.
std::vector<KnowledgeText> published_knowledge_texts();

namespace {

using namespace learning;

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
    return lay(part.name, *std::move(parsed));
  }

  std::optional<Problem> lay(const KnowledgeEdit& own) {
    const std::string part = fmt::format("own entry {} {}", own.section, own.entry);
    auto parsed = parse_json(own.text);
    if (!parsed) return in_part(part, std::move(parsed.error()));
    auto whole = nlohmann::json::object();
    whole[own.section][own.entry] = *std::move(parsed);
    return lay(part, std::move(whole));
  }

 private:
  std::optional<Problem> lay(const std::string& part, nlohmann::json whole) {
    values_.push_back(std::make_unique<nlohmann::json>(std::move(whole)));
    std::optional<Problem> wrong;
    const JsonPlace place{*values_.back(), "", wrong};
    place.fields({"symptoms", "causes", "tests", "repairs", "known_work", "parts_to_pull", "kinds", "trade",
                  "cautions", "measurements", "checks", "sources"});
    if (!wrong)
      for (const auto& [name, entries] : values_.back()->items()) {
        if (!entries.is_object()) {
          JsonPlace{entries, name, wrong}.refuse("must be an object.");
          break;
        }
        for (const auto& [id, entry] : entries.items()) {
          sections_[name].entries[id] = &entry;
          sections_[name].part_of[id] = part;
        }
      }
    if (wrong) return in_part(part, std::move(*wrong));
    return std::nullopt;
  }

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
    each("sources",
         [&](const std::string& id, const JsonPlace& place) { base_.sources[id] = read_publication(place); });
    each("causes", into(base_.knowledge.causes, read_cause));
    each("symptoms", into(base_.knowledge.symptoms, read_symptom));
    each("tests", into(base_.knowledge.tests, read_test));
    each("repairs", into(base_.knowledge.repairs, read_repair));
    each("known_work", into(base_.knowledge.known_work, read_piece_of_work));
    each("parts_to_pull", into(base_.knowledge.parts_to_pull, read_part));
    each("kinds", [&](const std::string& id, const JsonPlace& place) {
      base_.knowledge.kinds.push_back(read_kind(id, place));
      base_.texts[id] = read_text(place);
    });
    each("trade", [&](const std::string& id, const JsonPlace& place) {
      read_trade(id, place, base_.knowledge);
      base_.texts[id] = read_text(place);
    });
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
    for (const char* name :
         {"symptoms", "causes", "tests", "repairs", "known_work", "parts_to_pull", "kinds", "trade"})
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

Result<KnowledgeBase> knowledge_with_own_entries(const Shop& shop) {
  if (shop.all<KnowledgeEdit>().empty()) return published_knowledge();
  KnowledgeReader reader;
  for (const KnowledgeText& part : published_knowledge_texts())
    if (auto wrong = reader.lay(part)) return tl::unexpected(*std::move(wrong));
  for (const KnowledgeEdit& own : shop.all<KnowledgeEdit>())
    if (auto wrong = reader.lay(own)) return tl::unexpected(*std::move(wrong));
  return reader.read();
}

namespace {

Result<KnowledgeBase> knowledge_after(const Shop& shop, const Result<Change>& change) {
  if (!change) return tl::unexpected(change.error());
  const auto then = apply(shop, *change);
  if (!then) return tl::unexpected(then.error());
  return knowledge_with_own_entries(*then);
}

}  // namespace

Result<KnowledgeBase> knowledge_if_kept(const Shop& shop, const std::string& section,
                                        const std::string& entry, const std::string& text) {
  return knowledge_after(shop, keep_entry(shop, section, entry, text));
}

Result<KnowledgeBase> knowledge_if_dropped(const Shop& shop, const std::string& section,
                                           const std::string& entry) {
  return knowledge_after(shop, drop_entry(shop, section, entry));
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
