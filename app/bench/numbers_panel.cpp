#include "app/bench/numbers_panel.h"

#include <QGridLayout>
#include <QLineEdit>
#include <QLocale>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/bench/step_words.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "core/planning/names.h"
#include "core/shop/own_numbers.h"

namespace secondpull::app {
namespace {

using planning::CaseNumber;
using What = CaseNumber::What;

constexpr double kPercent = 100;
constexpr int kFieldWidth = 12 * kGrid;

bool isChance(const CaseNumber& number) {
  return number.what == What::comeback || number.what == What::cure || number.what == What::cause_share;
}

QString words(const CaseNumber& number, double value, const Currency& currency) {
  switch (number.what) {
    case What::price:
    case What::step_cost:
    case What::stop_value:
      return wholeMoney(value, currency);
    case What::days_to_sell:
      return NumbersPanel::tr("%1 days").arg(qRound(value));
    case What::hours_to_sell:
      return hoursWords(value);
    case What::step_minutes:
      return NumbersPanel::tr("%1 min").arg(qRound(value));
    case What::comeback:
    case What::cure:
    case What::cause_share:
      break;
  }
  return QStringLiteral("%1 %").arg(QString::number(kPercent * value, 'g', 3));
}

QString label(const CaseNumber& number, const learning::Knowledge& knowledge) {
  switch (number.what) {
    case What::price:
      return NumbersPanel::tr("It fetches, running");
    case What::days_to_sell:
      return NumbersPanel::tr("Days until it is sold");
    case What::hours_to_sell:
      return NumbersPanel::tr("Hours that selling takes");
    case What::comeback:
      return NumbersPanel::tr("It comes back");
    case What::step_minutes:
      return NumbersPanel::tr("This step takes");
    case What::step_cost:
      return NumbersPanel::tr("This step costs");
    case What::cure:
      return NumbersPanel::tr("It cures \"%1\"")
          .arg(QString::fromStdString(planning::called_cause(number.of, knowledge)));
    case What::cause_share:
      return NumbersPanel::tr("At first sight it is \"%1\"")
          .arg(QString::fromStdString(planning::called_cause(number.of, knowledge)));
    case What::stop_value:
      break;
  }
  return NumbersPanel::tr("It brings: %1")
      .arg(QString::fromStdString(planning::called({decision::Move::Kind::stop, number.of}, knowledge)));
}

QString whose(const CaseNumber& number, const Currency& currency) {
  if (number.computed)
    return NumbersPanel::tr("said by you; worked out: %1").arg(words(number, *number.computed, currency));
  if (!number.share)
    return number.what == What::price
               ? NumbersPanel::tr("by its make, age, looks and the month, as For sale says")
               : QString{};
  const int own = qRound(number.share->own);
  if (own == 0) return NumbersPanel::tr("from the knowledge base");
  return NumbersPanel::tr("%1 % from %2 of your own")
      .arg(qRound(kPercent * number.share->own_part()))
      .arg(own);
}

}  // namespace

NumbersPanel::NumbersPanel(Session& session, QWidget* parent)
    : BenchPanel(session, parent),
      open_{new QPushButton(tr("The numbers behind it"), this)},
      rows_{new QWidget(this)},
      grid_{new QGridLayout(rows_)},
      hint_{new HintLine(QStringLiteral("numbers"), this)} {
  open_->setObjectName(QStringLiteral("numbersOpen"));
  open_->setCheckable(true);
  setRank(open_, "quiet");
  grid_->setContentsMargins(0, 0, 0, 0);
  grid_->setHorizontalSpacing(2 * kGrid);
  grid_->setVerticalSpacing(kGrid / 2);
  grid_->setColumnStretch(3, 1);
  rows_->hide();
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->addWidget(open_, 0, Qt::AlignLeft);
  column->addWidget(rows_);
  column->addWidget(hint_);
  connect(open_, &QPushButton::toggled, this, [this](bool open) {
    rows_->setVisible(open);
    showRows();
  });
}

void NumbersPanel::showPlan(const MachinePlan& plan) {
  plan_ = plan;
  setVisible(plan.answer != nullptr);
  // A number said shows even while the rest is folded away.
  const auto said = plan.asked != nullptr ? plan.asked->said.size() : 0;
  open_->setText(said == 0   ? tr("The numbers behind it")
                 : said == 1 ? tr("The numbers behind it (1 said by you)")
                             : tr("The numbers behind it (%1 said by you)").arg(said));
  showRows();
}

void NumbersPanel::showRows() {
  if (rows_->isHidden() || plan_.answer == nullptr) return;
  // Not under the fingers of somebody who types.
  for (const QLineEdit* field : rows_->findChildren<QLineEdit*>())
    if (field->hasFocus() && field->isModified()) return;
  while (QLayoutItem* item = grid_->takeAt(0)) {
    if (QWidget* widget = item->widget()) {
      widget->hide();
      widget->deleteLater();
    }
    delete item;
  }
  const auto base = session().knowledge();
  numbers_ = planning::case_numbers(*session().planning().situation(), *plan_.asked, plan_.answer->next);
  int row = 0;
  for (const CaseNumber& number : numbers_) {
    auto* name = new QLabel(label(number, base->knowledge), rows_);
    auto* value = new QLabel(words(number, number.value, session().currency()), rows_);
    auto* field = new QLineEdit(rows_);
    field->setObjectName(QStringLiteral("numberEdit%1").arg(row));
    field->setAccessibleName(tr("%1, for this machine").arg(name->text()));
    field->setFixedWidth(grown(kFieldWidth));
    field->setPlaceholderText(isChance(number) ? tr("say, in %") : tr("say"));
    if (number.computed)
      field->setText(
          QLocale::c().toString(isChance(number) ? kPercent * number.value : number.value, 'g', 6));
    auto* from = new QLabel(whose(number, session().currency()), rows_);
    setRank(from, number.computed ? "good" : "small");
    connect(field, &QLineEdit::editingFinished, this, [this, number, field] {
      if (field->isModified()) say(number, field->text());
    });
    grid_->addWidget(name, row, 0);
    grid_->addWidget(value, row, 1, Qt::AlignRight);
    grid_->addWidget(field, row, 2);
    grid_->addWidget(from, row, 3);
    ++row;
  }
}

void NumbersPanel::say(const CaseNumber& number, const QString& typed) {
  const auto shop = session().shop();
  QString text = typed.trimmed();
  if (text.isEmpty()) {
    if (const auto failed = session().perform(clear_own_number(*shop, machine(), number.path)))
      hint_->problem(*failed);
    return;
  }
  text.remove(QLatin1Char{'%'}).remove(QLatin1Char{'$'});
  bool is_number = false;
  const double read = QLocale::c().toDouble(text.trimmed(), &is_number);
  if (!is_number)
    return hint_->problem(
        Problem{tr("\"%1\" is no number.").arg(typed).toStdString(), "value", typed.toStdString()});
  double value = isChance(number) ? read / kPercent : read;
  const bool is_share = number.what == What::cause_share;
  const bool possible = value >= 0 && (!isChance(number) || value <= 1) && !(is_share && value == 1);
  if (!possible && number.what != What::stop_value)
    return hint_->problem(Problem{tr("%1 cannot be: %2.")
                                      .arg(typed, is_share           ? tr("say 0 to below 100 %")
                                                  : isChance(number) ? tr("say 0 to 100 %")
                                                                     : tr("say 0 or more"))
                                      .toStdString(),
                                  "value", typed.toStdString()});
  if (is_share) value = planning::weight_for_share(number, value);
  if (const auto failed = session().perform(set_own_number(*shop, machine(), number.path, value)))
    return hint_->problem(*failed);
  hint_->clearHint();
}

}  // namespace secondpull::app
