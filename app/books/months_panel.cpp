#include "app/books/months_panel.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLocale>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/books/earning_detail.h"
#include "app/books/head_line.h"
#include "app/books/money_bars.h"
#include "app/books/plain_figures.h"
#include "app/parts/choices.h"
#include "app/parts/figure_words.h"
#include "app/parts/form.h"
#include "app/parts/look.h"
#include "app/parts/two_sides.h"
#include "app/print/table_report.h"
#include "core/books/year_sums.h"

namespace secondpull::app {
namespace {

constexpr int kTableLeast = 60 * kGrid;
constexpr int kChartsWidth = 52 * kGrid;

QString nameOf(const MonthFigures& month) {
  return QLocale::c().standaloneMonthName(static_cast<int>(month.month));
}

std::vector<TableColumn<MonthFigures>> columns(const Session& session) {
  using Row = MonthFigures;
  const Session* of = &session;
  const auto amount = [of](const char* key, const QString& title, auto member) {
    return TableColumn<Row>{.key = QString::fromLatin1(key),
                            .title = title,
                            .text = [of, member](const Row& row) { return of->money(row.*member); },
                            .sort =
                                [member](const Row& row) {
                                  const std::optional<Money> its = row.*member;
                                  return its ? QVariant::fromValue<qlonglong>(its->minor()) : QVariant{};
                                },
                            .number = true,
                            .plain = [of, member](const Row& row) { return plainMoney(*of, row.*member); }};
  };
  std::vector<TableColumn<Row>> all;
  all.push_back(
      {.key = "month", .title = MonthsPanel::tr("Month"), .text = nameOf, .sort = [](const Row& row) {
         return row.month;
       }});
  all.push_back({.key = "sold",
                 .title = MonthsPanel::tr("Sold"),
                 .text = [](const Row& row) { return QString::number(row.machines_sold); },
                 .sort = [](const Row& row) { return QVariant::fromValue<qlonglong>(row.machines_sold); },
                 .number = true});
  all.push_back(amount("receipts", MonthsPanel::tr("Taken in"), &Row::receipts));
  all.push_back(amount("goods", MonthsPanel::tr("Cost of goods"), &Row::cost_of_goods));
  all.push_back(amount("expenses", MonthsPanel::tr("Expenses"), &Row::expenses));
  all.push_back(amount("profit", MonthsPanel::tr("Net profit"), &Row::net_profit));
  all.push_back({.key = "hours",
                 .title = MonthsPanel::tr("Hours"),
                 .text = [](const Row& row) { return QString::fromStdString(shown(row.minutes)); },
                 .sort = [](const Row& row) { return QVariant::fromValue<qlonglong>(row.minutes.count); },
                 .number = true,
                 .plain = [](const Row& row) { return plainHours(row.minutes); }});
  all.push_back(amount("pay", MonthsPanel::tr("Pay an hour"), &Row::pay_per_hour));
  return all;
}

}  // namespace

MonthsPanel::MonthsPanel(Session& session, QWidget* parent) : BooksPanel(session, parent) {
  auto* content = new QWidget;
  auto* box = new QVBoxLayout{content};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  profit_ = figureNamed(tr("Net profit"), "monthsTotalProfit");
  hours_ = figureNamed(tr("Hours"), "monthsTotalHours");
  pay_ = figureNamed(tr("Pay per hour"), "monthsTotalPay");
  problem_ = new QLabel;
  problem_->setObjectName(QStringLiteral("monthsProblem"));
  problem_->setWordWrap(true);
  setRank(problem_, "problem");
  box->addWidget(problem_);

  model_ = new RowModel<MonthFigures>{columns(session), this};
  table_ = new DataTable{session, QStringLiteral("books_months")};
  table_->setObjectName(QStringLiteral("monthsTable"));
  table_->setAccessibleName(tr("What each month brought"));
  table_->setRowModel(model_);
  table_->sortBy(QStringLiteral("month"), Qt::AscendingOrder);
  const auto chart = [&](const QString& title, const char* name, const QString& axis) {
    auto* bars = new MoneyBars{title, axis, session.currency()};
    bars->setObjectName(QString::fromLatin1(name));
    charts_->addWidget(bars);
    return bars;
  };
  which_ = new WordRow{tr("Chart of"), {tr("net profit"), tr("hours of work")}};
  which_->setObjectName(QStringLiteral("monthsWhich"));
  charts_ = new QStackedWidget;
  connect(which_, &WordRow::chosen, charts_, &QStackedWidget::setCurrentIndex);
  auto* charts = new QWidget;
  auto* side = new QVBoxLayout{charts};
  side->setContentsMargins(0, 0, 0, 0);
  side->setSpacing(kGrid);
  side->addWidget(which_);
  side->addWidget(charts_, 1);
  profit_bars_ = chart(tr("Net profit by month"), "monthsProfit",
                       tr("net profit, %1").arg(QString::fromStdString(session.currency().code)));
  hours_bars_ = chart(tr("Hours of work by month"), "monthsHours", tr("hours"));
  constexpr int kMinutes = 60;
  hours_bars_->setScale(Money::from_minor(kMinutes),
                        [](Money minutes) { return QString::number(minutes.minor() / kMinutes); });
  auto* sides = new TwoSides{tr("Table or chart"),
                             QStringLiteral("monthsSides"),
                             {table_, tr("table"), kTableLeast},
                             {charts, tr("chart"), kChartsWidth, 0},
                             TwoSides::Between::gap};
  box->insertWidget(0, new HeadLine{{profit_, hours_, pay_, sides->words()}, heading(tr("Month by month"))});
  box->addWidget(sides, 1);

  whole_ = layOut(content,
                  tr("What each month brought, and the hours it took, stands here once something "
                     "was bought or sold."),
                  tr("Log a machine"), tr("Yard"));
}

void MonthsPanel::refresh() {
  whole_->setCurrentIndex(session().books()->years() ? 1 : 0);
  const auto months = session().books()->months(year());
  problem_->setVisible(!months);
  if (!months) problem_->setText(QString::fromStdString(months.error().sentence));
  const std::vector<MonthFigures> rows = months ? *months : std::vector<MonthFigures>{};
  const MonthFigures sum = together(rows);
  profit_->setFigure(session().money(sum.net_profit),
                     tr("Taken in %1, less cost of goods %2 and expenses %3. The twelve months together.")
                         .arg(session().money(sum.receipts), session().money(sum.cost_of_goods),
                              session().money(sum.expenses)));
  hours_->setFigure(QString::fromStdString(shown(sum.minutes)),
                    tr("All hours logged in the year, those for the shop in general too."));
  pay_->setFigure(session().money(sum.pay_per_hour), perHourInWords(session(), sum.net_profit, sum.minutes));
  std::vector<MoneyBar> profits, hours;
  for (const MonthFigures& month : rows) {
    const QString name = nameOf(month).left(3);
    profits.push_back({.name = name,
                       .amount = session().money(month.net_profit),
                       .to = month.net_profit,
                       .kind = month.net_profit < Money{} ? MoneyBar::Kind::loss : MoneyBar::Kind::gain});
    hours.push_back({.name = name,
                     .amount = QString::fromStdString(shown(month.minutes)),
                     .to = Money::from_minor(month.minutes.count)});
  }
  profit_bars_->setBars(std::move(profits));
  hours_bars_->setBars(std::move(hours));
  model_->setRows(rows);
}

Report MonthsPanel::report() const {
  Report made{.title = tr("%1 month by month").arg(year()),
              .file_name = QStringLiteral("months-%1").arg(year())};
  ReportSection section = sectionOf(*table_);
  const MonthFigures sum = together(model_->rows());
  ReportRow row{.cells = {tr("together")}, .sum = true};
  for (const QString& key : keysOf(*table_).mid(1)) {
    row.cells.push_back(key == QLatin1String("sold")       ? ReportCell{QString::number(sum.machines_sold)}
                        : key == QLatin1String("receipts") ? moneyCell(session(), sum.receipts)
                        : key == QLatin1String("goods")    ? moneyCell(session(), sum.cost_of_goods)
                        : key == QLatin1String("expenses") ? moneyCell(session(), sum.expenses)
                        : key == QLatin1String("profit")   ? moneyCell(session(), sum.net_profit)
                        : key == QLatin1String("hours")    ? hoursCell(sum.minutes)
                        : key == QLatin1String("pay")      ? moneyCell(session(), sum.pay_per_hour)
                                                           : ReportCell{});
  }
  section.rows.push_back(std::move(row));
  made.sections.push_back(std::move(section));
  return made;
}

}  // namespace secondpull::app
