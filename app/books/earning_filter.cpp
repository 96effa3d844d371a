#include "app/books/earning_filter.h"

#include <map>
#include <set>

#include <QComboBox>

#include "app/parts/flow.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

enum Box { kKind, kSource, kMake, kWhen };

/// "2026" or "2026-05", with the words for it.
using Choices = std::map<QString, QString>;

/// Newest first, the months of a year below it.
std::vector<std::pair<QString, QString>> newestFirst(const Choices& when) {
  std::vector<std::pair<QString, QString>> ordered;
  for (auto year = when.rbegin(); year != when.rend(); ++year) {
    if (year->first.size() != 4) continue;
    ordered.emplace_back(*year);
    for (auto month = when.rbegin(); month != when.rend(); ++month)
      if (month->first.size() > 4 && month->first.startsWith(year->first)) ordered.emplace_back(*month);
  }
  return ordered;
}

}  // namespace

EarningFilter::EarningFilter(QWidget* parent) : QWidget(parent) {
  auto* line = new Flow{this, kGrid};
  line->setContentsMargins(0, 0, 0, 0);
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
  const QString names[]{tr("Only this kind"), tr("Only from this source"), tr("Only this make"),
                        tr("Only what left in")};
  const char* objects[]{"booksKind", "booksSource", "booksMake", "booksWhen"};
  for (std::size_t at = 0; at < boxes_.size(); ++at) {
    auto* box = new QComboBox{this};
    box->setObjectName(QString::fromLatin1(objects[at]));
    box->setAccessibleName(names[at]);
    box->setToolTip(names[at]);
    box->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    line->addWidget(box);
    connect(box, &QComboBox::currentIndexChanged, this, &EarningFilter::chosen);
    boxes_[at] = box;
  }
  offer({});
}

void EarningFilter::offer(const std::vector<EarningRow>& rows) {
  std::set<QString> kinds, sources, makes;
  Choices when;
  for (const EarningRow& row : rows) {
    kinds.insert(row.kind);
    sources.insert(row.source);
    if (!row.make.isEmpty()) makes.insert(row.make);
    if (!row.left) continue;
    when.emplace(yearOf(row), yearOf(row));
    when.emplace(monthOf(row), monthInWords(*row.left));
  }
  const auto fill = [this](Box which, const QString& all, const auto& choices) {
    QComboBox* box = boxes_[which];
    const QSignalBlocker quiet{box};
    const QString chosen = box->currentData().toString();
    box->clear();
    box->addItem(all, QString{});
    for (const auto& [key, words] : choices)
      box->addItem(words, key);
    box->setCurrentIndex(std::max(0, box->findData(chosen)));
  };
  const auto twice = [](const std::set<QString>& words) {
    std::vector<std::pair<QString, QString>> pairs;
    for (const QString& word : words)
      pairs.emplace_back(word, word);
    return pairs;
  };
  fill(kKind, tr("any kind"), twice(kinds));
  fill(kSource, tr("any source"), twice(sources));
  fill(kMake, tr("any make"), twice(makes));
  fill(kWhen, tr("any time"), newestFirst(when));
}

bool EarningFilter::passes(const EarningRow& row) const {
  const auto wanted = [this](Box which) { return boxes_[which]->currentData().toString(); };
  const auto matches = [](const QString& is, const QString& want) { return want.isEmpty() || is == want; };
  const QString when = wanted(kWhen);
  return matches(row.kind, wanted(kKind)) && matches(row.source, wanted(kSource)) &&
         matches(row.make, wanted(kMake)) &&
         (when.size() == 4 ? yearOf(row) == when : matches(monthOf(row), when));
}

QString EarningFilter::inWords() const {
  QStringList words;
  for (const QComboBox* box : boxes_)
    if (box->currentIndex() > 0) words << box->currentText();
  return words.join(QStringLiteral(", "));
}

}  // namespace secondpull::app
