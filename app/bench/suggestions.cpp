#include "app/bench/suggestions.h"

#include <algorithm>
#include <unordered_map>
#include <utility>

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

}  // namespace

QStringList stepsBefore(const Shop& shop) {
  Tally tally;
  for (const Finding& finding : shop.all<Finding>())
    tally.count(finding.step);
  return tally.inOrder();
}

QStringList outcomesBefore(const Shop& shop, const QString& step) {
  Tally same, other;
  const std::string sought = step.trimmed().toStdString();
  for (const Finding& finding : shop.all<Finding>())
    (finding.step == sought ? same : other).count(finding.outcome);
  QStringList texts = same.inOrder() + other.inOrder();
  texts.removeDuplicates();
  return texts;
}

QStringList symptomsBefore(const Shop& shop) {
  Tally tally;
  for (const Machine& machine : shop.all<Machine>())
    tally.count(machine.symptom);
  for (const Fault& fault : shop.all<Fault>())
    tally.count(fault.symptom);
  return tally.inOrder();
}

QStringList causesBefore(const Shop& shop) {
  Tally tally;
  for (const Fault& fault : shop.all<Fault>())
    tally.count(fault.cause);
  return tally.inOrder();
}

QStringList materialsBefore(const Shop& shop) {
  Tally tally;
  for (const Material& material : shop.all<Material>())
    tally.count(material.what);
  return tally.inOrder();
}

}  // namespace secondpull::app
