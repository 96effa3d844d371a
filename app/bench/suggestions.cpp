#include "app/bench/suggestions.h"

#include <algorithm>
#include <unordered_map>
#include <utility>

#include "core/learning/tries.h"
#include "db/exchange/knowledge_json.h"

namespace secondpull::app {
namespace {

/// Counts texts and gives them back, the most frequent first.
class Tally {
 public:
  void count(const std::string& text) {
    if (text.empty()) return;
    auto& [times, latest] = seen_[text];
    ++times;
    latest = ++clock_;
  }
  QStringList inOrder() const {
    std::vector<std::pair<std::string, std::pair<int, int>>> rows(seen_.begin(), seen_.end());
    std::sort(rows.begin(), rows.end(), [](const auto& a, const auto& b) { return a.second > b.second; });
    QStringList texts;
    for (const auto& [text, when] : rows) {
      if (static_cast<std::size_t>(texts.size()) == kMostSuggestions) break;
      texts << QString::fromStdString(text);
    }
    return texts;
  }

 private:
  std::unordered_map<std::string, std::pair<int, int>> seen_;  // times, latest
  int clock_ = 0;
};

const learning::Knowledge& knowledge() {
  return db::published_knowledge().knowledge;
}

QString text(std::string_view words) {
  return QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
}

template <class Entry>
QStringList namesOf(const std::vector<Entry>& entries) {
  QStringList names;
  for (const Entry& entry : entries)
    names << text(entry.name);
  return names;
}

/// What the shop wrote comes first, each text once.
QStringList ownFirst(QStringList own, const QStringList& known) {
  own += known;
  own.removeDuplicates();
  return own;
}

/// What a step of the knowledge base can come to.
QStringList outcomesOf(const std::string& step) {
  if (const learning::Test* test = knowledge().test(step)) return namesOf(test->outcomes);
  if (knowledge().repair(step) == nullptr) return {};
  return {text(learning::kSaysMended), text(learning::kSaysFailed)};
}

}  // namespace

QStringList stepsBefore(const Shop& shop) {
  Tally tally;
  for (const Finding& finding : shop.all<Finding>())
    tally.count(finding.step);
  return ownFirst(tally.inOrder(), namesOf(knowledge().tests) + namesOf(knowledge().repairs));
}

QStringList outcomesBefore(const Shop& shop, const QString& step) {
  Tally same, other;
  const std::string sought = step.trimmed().toStdString();
  for (const Finding& finding : shop.all<Finding>())
    (finding.step == sought ? same : other).count(finding.outcome);
  return ownFirst(same.inOrder(), outcomesOf(sought) + other.inOrder());
}

QStringList symptomsBefore(const Shop& shop) {
  Tally tally;
  for (const Machine& machine : shop.all<Machine>())
    tally.count(machine.symptom);
  for (const Fault& fault : shop.all<Fault>())
    tally.count(fault.symptom);
  return ownFirst(tally.inOrder(), namesOf(knowledge().symptoms));
}

QStringList causesBefore(const Shop& shop) {
  Tally tally;
  for (const Fault& fault : shop.all<Fault>())
    tally.count(fault.cause);
  return ownFirst(tally.inOrder(), namesOf(knowledge().causes));
}

QStringList materialsBefore(const Shop& shop) {
  Tally tally;
  for (const Material& material : shop.all<Material>())
    tally.count(material.what);
  return tally.inOrder();
}

}  // namespace secondpull::app
