#include "app/books/earning_detail.h"

#include <QLabel>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/books/money_bars.h"
#include "app/frame/session.h"
#include "app/parts/figure_words.h"
#include "app/parts/flow.h"
#include "app/parts/form.h"
#include "app/parts/look.h"

namespace secondpull::app {

WhyFigure* figureNamed(const QString& label, const char* name) {
  auto* made = new WhyFigure{label};
  made->setObjectName(QString::fromLatin1(name));
  made->setShrinks();
  return made;
}

EarningDetail::EarningDetail(Session& session, QWidget* parent) : QWidget(parent), session_{session} {
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  title_ = new QLabel;
  title_->setWordWrap(true);
  setRank(title_, "subheading");
  box->addWidget(title_);
  auto* figures = new QHBoxLayout;
  figures->setSpacing(3 * kGrid);
  gross_ = figureNamed(tr("Gross profit"), "booksGross");
  profit_ = figureNamed(tr("After the shop's costs, so far"), "booksProfit");
  pay_ = figureNamed(tr("Pay per hour"), "booksPay");
  for (WhyFigure* one : {gross_, profit_, pay_})
    figures->addWidget(one);
  figures->addStretch(1);
  box->addLayout(figures);

  waterfall_ =
      new MoneyBars{tr("From price to profit"),
                    tr("from price to profit, %1").arg(QString::fromStdString(session.currency().code)),
                    session.currency()};
  waterfall_->setObjectName(QStringLiteral("booksWaterfall"));
  no_profit_ = faded({});
  no_profit_->setObjectName(QStringLiteral("booksNoProfit"));
  no_profit_->setWordWrap(true);
  no_profit_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
  shown_ = new QStackedWidget;
  shown_->addWidget(waterfall_);
  shown_->addWidget(no_profit_);
  box->addWidget(shown_, 1);
}

void EarningDetail::show(const GroupRow& group, const std::vector<EarningRow>& rows) {
  std::vector<FigureLine> lines;
  for (const int member : group.rows) {
    const MachineFigures& machine = rows[static_cast<std::size_t>(member)].figures;
    if (!machine.profit) continue;
    const std::vector<FigureLine> its = session_.books()->lines(machine.machine);
    lines.insert(lines.end(), its.begin(), its.end());
  }
  const Earned& sum = group.earned;
  showSum(group.key, sum, lines,
          tr("Net proceeds %1 less cost %2.")
              .arg(session_.money(sum.net_proceeds), session_.money(sum.cost_basis)),
          tr("Gross profit %1 less trips and the share of the shop's costs %2, so far.")
              .arg(session_.money(sum.gross_profit), session_.money(sum.running_costs)));
}

void EarningDetail::show(const EarningRow& machine) {
  const MachineId id = machine.figures.machine;
  const QString title = QStringLiteral("#%1 %2").arg(machine.tag, machine.name);
  if (!machine.figures.profit) {
    title_->setText(title);
    return say(machine.figures.stage == Stage::kept
                   ? tr("Kept for own use: it left at its cost of %1, and there is no profit to show.")
                         .arg(session_.money(machine.figures.cost_basis))
                   : tr("Its hulk is still here; what it earned is known once that has gone."));
  }
  const MachineFigures* figures[] = {&machine.figures};
  showSum(title, earned(figures), session_.books()->lines(id), whyGrossProfit(session_, id),
          whyProfit(session_, id));
}

void EarningDetail::showNothing() {
  title_->clear();
  say(tr("Choose a row to see how it went from price to profit."));
}

void EarningDetail::showSum(const QString& title, const Earned& sum, const std::vector<FigureLine>& lines,
                            const QString& why_gross, const QString& why_profit) {
  title_->setText(title);
  gross_->setFigure(
      session_.money(sum.gross_profit),
      why_gross + QStringLiteral("<p>%1</p>").arg(perHourInWords(session_, sum.gross_profit, sum.minutes)));
  profit_->setFigure(session_.money(sum.profit), why_profit);
  pay_->setFigure(session_.money(sum.pay_per_hour), perHourInWords(session_, sum.profit, sum.minutes));
  for (WhyFigure* one : {gross_, profit_, pay_})
    one->setVisible(true);
  std::vector<MoneyBar> bars;
  for (const WaterfallStep& step : waterfall(lines)) {
    bars.push_back({.name = app::word(step.kind),
                    .amount = session_.money(step.amount),
                    .from = step.from,
                    .to = step.to,
                    .kind = step.is_level()         ? MoneyBar::Kind::level
                            : step.amount < Money{} ? MoneyBar::Kind::loss
                                                    : MoneyBar::Kind::gain});
  }
  waterfall_->setBars(std::move(bars));
  shown_->setCurrentIndex(0);
}

void EarningDetail::say(const QString& sentence) {
  for (WhyFigure* one : {gross_, profit_, pay_})
    one->setVisible(false);
  no_profit_->setText(sentence);
  shown_->setCurrentIndex(1);
}

}  // namespace secondpull::app
