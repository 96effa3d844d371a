#include "app/books/money_out_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/books/earning_detail.h"
#include "app/books/expense_list.h"
#include "app/books/head_line.h"
#include "app/books/money_bars.h"
#include "app/books/plain_figures.h"
#include "app/books/trip_list.h"
#include "app/parts/choices.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/parts/two_sides.h"
#include "app/print/table_report.h"
#include "core/books/year_sums.h"
#include "core/shop/describe.h"

namespace secondpull::app {
namespace {

enum Which { kExpenses, kTrips };
constexpr int kLinesLeast = 60 * kGrid;
constexpr int kBarsWidth = 48 * kGrid;
constexpr int kBarRow = 4 * kGrid;
constexpr int kBarsFoot = 8 * kGrid;  // axis and its title

}  // namespace

MoneyOutPanel::MoneyOutPanel(Session& session, QWidget* parent) : BooksPanel(session, parent) {
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  which_ = new WordRow{tr("Expenses or trips"), {tr("expenses"), tr("trips: the mileage log")}};
  which_->setObjectName(QStringLiteral("moneyOutWhich"));
  total_ = figureNamed(tr("Written down as spent"), "expenseTotal");
  miles_ = figureNamed(tr("Miles"), "tripMilesTotal");
  cost_ = figureNamed(tr("At the rate of their day"), "tripCostTotal");
  stack_ = new QStackedWidget;
  stack_->addWidget(makeExpenses());
  auto* head = new QHBoxLayout;
  head->setSpacing(4 * kGrid);
  head->addWidget(which_, 1);
  head->addWidget(sides_->words());
  head->addWidget(new HeadLine{{total_, miles_, cost_}});
  box->addLayout(head);
  stack_->addWidget(makeTrips());
  box->addWidget(stack_, 1);
  connect(which_, &WordRow::chosen, this, [this](int which) {
    stack_->setCurrentIndex(which);
    refresh();
    start();
  });
}

QWidget* MoneyOutPanel::makeExpenses() {
  expenses_ = new ExpenseList{session(), this};
  auto* chart = new QWidget;
  auto* side = new QVBoxLayout{chart};
  side->setContentsMargins(0, 0, 0, 0);
  side->setSpacing(3 * kGrid);
  bars_title_ = new QLabel{tr("By kind, what sales cost included")};
  setRank(bars_title_, "subheading");
  side->addWidget(bars_title_);
  bars_ = new MoneyBars{tr("Expenses by kind"),
                        tr("spent in the year, %1").arg(QString::fromStdString(session().currency().code)),
                        session().currency()};
  bars_->setObjectName(QStringLiteral("moneyOutBars"));
  side->addWidget(bars_, 1);
  side->addStretch(0);
  sides_ = new TwoSides{tr("Lines or chart"),
                        QStringLiteral("moneyOutSides"),
                        {expenses_, tr("lines"), kLinesLeast},
                        {chart, tr("chart"), kBarsWidth, 0},
                        TwoSides::Between::gap};
  connect(expenses_, &EntryList::said, this, &BooksPanel::said);
  return sides_;
}

QWidget* MoneyOutPanel::makeTrips() {
  auto* whole = new QWidget;
  auto* box = new QVBoxLayout{whole};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  trips_ = new TripList{session(), whole};
  box->addWidget(trips_, 1);
  lacking_ = new QLabel;
  lacking_->setObjectName(QStringLiteral("tripLacking"));
  lacking_->setWordWrap(true);
  setRank(lacking_, "caution");
  box->addWidget(lacking_);
  connect(trips_, &EntryList::said, this, &BooksPanel::said);
  return whole;
}

void MoneyOutPanel::refresh() {
  const bool trips = stack_->currentIndex() == kTrips;
  total_->setVisible(!trips);
  miles_->setVisible(trips);
  cost_->setVisible(trips);
  if (trips)
    showLog();
  else
    showExpenses();
}

void MoneyOutPanel::showExpenses() {
  expenses_->refresh(year());
  const ExpensesOfYear spent = expenses_of(*session().shop(), year());
  total_->setFigure(session().money(spent.total),
                    tr("%1 of %2 added up. What sales cost, fees and delivery, stands with the sales.")
                        .arg(QString::fromStdString(
                            counted(static_cast<std::int64_t>(spent.expenses.size()), "line", "lines")))
                        .arg(year()));
  std::vector<MoneyBar> bars;
  if (const auto figures = session().books()->year(year(), session().taxRates()))
    for (const auto& [category, amount] : figures->expenses)
      bars.push_back(
          {.name = QString::fromStdString(category), .amount = session().money(amount), .to = amount});
  std::stable_sort(bars.begin(), bars.end(),
                   [](const MoneyBar& a, const MoneyBar& b) { return a.to > b.to; });
  bars_title_->setVisible(!bars.empty());
  bars_->setMaximumHeight(grown(kBarRow * static_cast<int>(bars.size()) + kBarsFoot));
  bars_->setBars(std::move(bars));
}

void MoneyOutPanel::showLog() {
  trips_->refresh(year());
  const MileageLog& log = trips_->log();
  miles_->setFigure(plainTenths(log.miles), tr("All trips of %1, there and back.").arg(year()));
  const bool dollars = session().currency().code == "USD";
  cost_->setFigure(
      dollars ? session().money(log.cost) : tr("none"),
      dollars ? tr("Each trip by the published mileage rate in force on its day, rounded trip by trip.")
              : tr("Mileage rates are those of the United States: in another currency trips cost nothing."));
  lacking_->setVisible(log.incomplete > 0);
  lacking_->setText(tr("%1 a destination or a purpose. A mileage log that counts holds day, destination, "
                       "purpose and miles of each trip.")
                        .arg(QString::fromStdString(
                            counted(static_cast<std::int64_t>(log.incomplete), "trip lacks", "trips lack"))));
}

void MoneyOutPanel::start() {
  sides_->turnTo(0);
  if (stack_->currentIndex() == kTrips)
    trips_->start();
  else
    expenses_->start();
}

void MoneyOutPanel::showTrips() {
  which_->setCurrent(kTrips);
  stack_->setCurrentIndex(kTrips);
  refresh();
}

Report MoneyOutPanel::report() const {
  if (stack_->currentIndex() == kTrips) {
    const MileageLog& log = trips_->log();
    Report made{.title = tr("Mileage log %1").arg(year()),
                .file_name = QStringLiteral("mileage-%1").arg(year())};
    ReportSection section = sectionOf(trips_->table());
    ReportRow sum{.cells = {tr("together")}, .sum = true};
    for (const QString& key : keysOf(trips_->table()).mid(1))
      sum.cells.push_back(key == QLatin1String("miles")  ? ReportCell{plainTenths(log.miles)}
                          : key == QLatin1String("cost") ? moneyCell(session(), log.cost)
                                                         : ReportCell{});
    section.rows.push_back(std::move(sum));
    made.sections.push_back(std::move(section));
    if (log.incomplete > 0) made.notes << lacking_->text();
    return made;
  }
  Report made{.title = tr("Expenses %1").arg(year()), .file_name = QStringLiteral("expenses-%1").arg(year())};
  ReportSection section = sectionOf(expenses_->table());
  ReportRow sum{.cells = {tr("together")}, .sum = true};
  for (const QString& key : keysOf(expenses_->table()).mid(1))
    sum.cells.push_back(key == QLatin1String("amount")
                            ? moneyCell(session(), expenses_of(*session().shop(), year()).total)
                            : ReportCell{});
  section.rows.push_back(std::move(sum));
  made.sections.push_back(std::move(section));
  if (const auto figures = session().books()->year(year(), session().taxRates())) {
    ReportSection by{.heading = tr("By kind, what sales cost included"),
                     .columns = {{tr("Kind of cost")}, {tr("Amount"), true}}};
    for (const auto& [category, amount] : figures->expenses)
      by.rows.push_back({{QString::fromStdString(category), moneyCell(session(), amount)}});
    by.rows.push_back({{tr("together"), moneyCell(session(), figures->all_expenses())}, true});
    made.sections.push_back(std::move(by));
  }
  return made;
}

}  // namespace secondpull::app
