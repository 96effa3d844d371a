#include "app/sale/form_words.h"

#include <QCompleter>
#include <QCoreApplication>
#include <QLabel>
#include <QLineEdit>

#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

QString tr(const char* text) {
  return QCoreApplication::translate("SaleForms", text);
}

}  // namespace

QStringList soldAsWords() {
  QStringList words{tr("not said")};
  for (const SoldAs value : all_words<SoldAs>())
    words << textOf(secondpull::word(value));
  return words;
}

std::optional<SoldAs> soldAs(const WordRow& row) {
  const int at = row.current() - 1;
  const auto all = all_words<SoldAs>();
  if (at < 0 || static_cast<std::size_t>(at) >= all.size()) return std::nullopt;
  return all[static_cast<std::size_t>(at)];
}

void setSoldAs(WordRow& row, std::optional<SoldAs> value) {
  int at = 0;
  if (value) {
    const auto all = all_words<SoldAs>();
    at = 1 + static_cast<int>(std::find(all.begin(), all.end(), *value) - all.begin());
  }
  row.setCurrent(at);
}

// Blade stop: 16 CFR 1205 (walk-behind mowers), 3 seconds.
QLabel* runningCaution(const QString& object_name) {
  QLabel* caution = faded(
      tr("Before it goes as running: the blade of a walk-behind mower stops within 3 seconds of letting go "
         "(16 CFR 1205), guards are on, nothing leaks fuel, and its recalls are looked up. One that "
         "failed a safety check goes as is or not at all. The maker's manual comes first."));
  caution->setObjectName(object_name);
  caution->setWordWrap(true);
  return caution;
}

void suggest(QLineEdit& line, QStringList words) {
  words.removeDuplicates();
  words.removeAll(QString{});
  words.sort(Qt::CaseInsensitive);
  auto* completer = new QCompleter{words, &line};
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  line.setCompleter(completer);
}

void suggestPayments(const Session& session, QLineEdit& line) {
  const auto shop = session.shop();
  QStringList words;
  for (const Sale& sale : shop->all<Sale>())
    words << QString::fromStdString(sale.payment);
  for (const Deposit& deposit : shop->all<Deposit>())
    words << QString::fromStdString(deposit.payment);
  suggest(line, words);
}

QString textOf(std::string_view text) {
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

std::string textOf(const QLineEdit& line) {
  return line.text().trimmed().toStdString();
}

}  // namespace secondpull::app
