#include "app/books/machines_panel.h"

#include <algorithm>
#include <set>

#include <QAbstractProxyModel>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/books/earning_detail.h"
#include "app/books/earning_filter.h"
#include "app/books/earning_rows.h"
#include "app/books/head_line.h"
#include "app/books/money_bars.h"
#include "app/books/plain_figures.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/data_table.h"
#include "app/parts/figure_words.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/parts/tag_delegate.h"
#include "app/parts/two_sides.h"
#include "app/print/table_report.h"
#include "core/shop/describe.h"

namespace secondpull::app {
namespace {

constexpr int kTableLeast = 60 * kGrid;
constexpr int kChartsLeast = 54 * kGrid;
constexpr GroupBy kGroups[] = {GroupBy::machine, GroupBy::kind,  GroupBy::source,
                               GroupBy::make,    GroupBy::month, GroupBy::year};

/// The source rows of a table in the order in which they stand on the screen.
std::vector<int> shownOrder(const QTableView& table) {
  std::vector<int> order;
  const auto* proxy = qobject_cast<const QAbstractProxyModel*>(table.model());
  if (proxy == nullptr) return order;
  order.reserve(static_cast<std::size_t>(proxy->rowCount()));
  for (int row = 0; row < proxy->rowCount(); ++row)
    order.push_back(proxy->mapToSource(proxy->index(row, 0)).row());
  return order;
}

MoneyBar barOf(const Session& session, const QString& name, Money profit) {
  return {.name = name,
          .amount = session.money(profit),
          .from = Money{},
          .to = profit,
          .kind = profit < Money{} ? MoneyBar::Kind::loss : MoneyBar::Kind::gain};
}

}  // namespace

MachinesPanel::MachinesPanel(Session& session, QWidget* parent) : BooksPanel(session, parent) {
  auto* content = new QWidget;
  auto* box = new QVBoxLayout{content};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  sides_ = new TwoSides{tr("Table or charts"),
                        QStringLiteral("booksSides"),
                        {makeTables(), tr("table"), kTableLeast, 3},
                        {makeCharts(), tr("charts"), kChartsLeast, 2},
                        TwoSides::Between::handle};
  connect(sides_, &TwoSides::bothChanged, this, &MachinesPanel::placeDetail);
  box->addWidget(makeHead());
  problem_ = new QLabel;
  problem_->setObjectName(QStringLiteral("booksProblem"));
  problem_->setWordWrap(true);
  setRank(problem_, "problem");
  box->addWidget(problem_);
  box->addWidget(sides_, 1);

  whole_ = layOut(content, tr("What each machine earned stands here once one is sold."), tr("Sell a machine"),
                  tr("For sale"));
}

QWidget* MachinesPanel::makeHead() {
  total_gross_ = figureNamed(tr("Gross profit"), "booksTotalGross");
  total_profit_ = figureNamed(tr("Profit"), "booksTotalProfit");
  total_hours_ = figureNamed(tr("Hours"), "booksTotalHours");
  total_pay_ = figureNamed(tr("Pay per hour"), "booksTotalPay");
  return new HeadLine{{total_gross_, total_profit_, total_hours_, total_pay_, sides_->words()},
                      heading(tr("What the machines earned"))};
}

QWidget* MachinesPanel::makeTables() {
  auto* side = new QWidget;
  auto* box = new QVBoxLayout{side};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);

  group_by_ = new WordRow{tr("Group by"),
                          {tr("machine"), tr("kind"), tr("source"), tr("make"), tr("month"), tr("year")}};
  group_by_->setObjectName(QStringLiteral("booksGroupBy"));
  connect(group_by_, &WordRow::chosen, this, [this] {
    only_.reset();
    regroup();
  });
  filter_ = new QLineEdit;
  filter_->setObjectName(QStringLiteral("booksFilter"));
  filter_->setPlaceholderText(tr("Show only..."));
  filter_->setAccessibleName(tr("Show only rows with these words"));
  filter_->setClearButtonEnabled(true);
  filter_->setMaximumWidth(grown(25 * kGrid));
  all_ = new QPushButton;
  all_->setObjectName(QStringLiteral("booksAll"));
  setRank(all_, "quiet");
  connect(all_, &QPushButton::clicked, this, [this] { showAll(); });
  auto* line = new QHBoxLayout;
  line->addWidget(group_by_);
  line->addWidget(all_);
  line->addStretch(1);
  line->addWidget(filter_);
  box->addLayout(line);
  by_word_ = new EarningFilter;
  connect(by_word_, &EarningFilter::chosen, this, [this] { regroup(); });
  box->addWidget(by_word_);

  model_ = new RowModel<EarningRow>{earningColumns(session()), this};
  table_ = new DataTable{session(), QStringLiteral("books_machines")};
  table_->setObjectName(QStringLiteral("booksTable"));
  table_->setAccessibleName(tr("Machines that are gone and what they earned"));
  table_->setRowModel(model_);
  table_->setItemDelegateForColumn(0, new TagDelegate{table_});
  groups_table_ = new DataTable{session(), QStringLiteral("books_groups")};
  groups_table_->setObjectName(QStringLiteral("booksGroups"));
  groups_table_->setAccessibleName(tr("What the machines of each group earned"));
  tables_ = new QStackedWidget;
  tables_->addWidget(table_);
  tables_->addWidget(groups_table_);
  box->addWidget(tables_, 1);

  table_->sortBy(QStringLiteral("left"), Qt::DescendingOrder);
  follow(table_);
  follow(groups_table_);
  connect(table_, &DataTable::opened, this,
          [this](int row) { emit wantsMachine(rows_[static_cast<std::size_t>(row)].figures.machine); });
  connect(groups_table_, &DataTable::opened, this,
          [this](int row) { showOnly(groups_[static_cast<std::size_t>(row)]); });
  connect(filter_, &QLineEdit::textChanged, this, [this](const QString& text) {
    table_->setFilterText(text);
    groups_table_->setFilterText(text);
    rowsMoved();
  });
  return side;
}

void MachinesPanel::start() {
  sides_->turnTo(0);
  currentTable()->setFocus();
}

GroupBy MachinesPanel::by() const {
  return kGroups[std::max(0, group_by_->current())];
}

void MachinesPanel::follow(DataTable* table) {
  connect(table, &DataTable::currentRowChanged, this, [this, table] {
    if (table == currentTable()) rowChosen();
  });
  connect(table->model(), &QAbstractItemModel::layoutChanged, this, [this, table] {
    if (table == currentTable()) rowsMoved();
  });
}

QWidget* MachinesPanel::makeCharts() {
  auto* side = new QWidget;
  charts_ = new QGridLayout{side};
  charts_->setContentsMargins(0, 0, 0, 0);
  charts_->setSpacing(kGrid);
  bars_title_ = new QLabel;
  setRank(bars_title_, "subheading");
  charts_->addWidget(bars_title_, 0, 0);
  const QString code = QString::fromStdString(session().currency().code);
  profit_bars_ = new MoneyBars{tr("Chart of profit"), tr("profit, %1").arg(code), session().currency()};
  profit_bars_->setObjectName(QStringLiteral("booksBars"));
  profit_bars_->setChoosing(true);
  connect(profit_bars_, &MoneyBars::currentChanged, this,
          [this](int bar) { currentTable()->selectSourceRow(bars_[static_cast<std::size_t>(bar)]); });
  charts_->addWidget(profit_bars_, 1, 0);
  charts_->setRowStretch(1, 1);

  detail_ = new EarningDetail{session()};
  placeDetail(true);
  return side;
}

void MachinesPanel::placeDetail(bool below) {
  // Beside the bars where the charts have the whole width: large text leaves less height.
  charts_->removeWidget(detail_);
  charts_->addWidget(detail_, below ? 2 : 0, below ? 0 : 1, below ? 1 : 2, 1);
  charts_->setRowStretch(2, below ? 1 : 0);
  charts_->setColumnStretch(0, 1);
  charts_->setColumnStretch(1, below ? 0 : 1);
}

void MachinesPanel::refresh() {
  const std::optional<Problem> trouble = session().booksProblem();
  problem_->setText(trouble ? QString::fromStdString(trouble->sentence) : QString{});
  problem_->setVisible(trouble.has_value());
  const int kept = table_->currentSourceRow();
  const bool one_was_chosen = kept >= 0 && kept < static_cast<int>(rows_.size());
  const MachineId chosen =
      one_was_chosen ? rows_[static_cast<std::size_t>(kept)].figures.machine : MachineId{};
  rows_ = earningRows(session());
  by_word_->offer(rows_);
  model_->setRows(rows_);
  whole_->setCurrentIndex(rows_.empty() ? 0 : 1);
  regroup();
  if (one_was_chosen && single()) openMachine(chosen);
}

void MachinesPanel::regroup() {
  if (!single()) {
    groups_ = grouped(rows_, by(), [this](const EarningRow& row) { return by_word_->passes(row); });
    auto* model = new RowModel<GroupRow>{groupColumns(session(), by()), this};
    model->setRows(groups_);
    groups_table_->setRowModel(model);
    delete groups_model_;
    groups_model_ = model;
    groups_table_->sortBy(
        by() == GroupBy::month || by() == GroupBy::year ? QStringLiteral("group") : QStringLiteral("profit"),
        Qt::DescendingOrder);
  }
  if (!only_) only_rows_.clear();
  table_->setRowFilter([this](int row) {
    return (!only_ || only_rows_.contains(row)) && by_word_->passes(rows_[static_cast<std::size_t>(row)]);
  });
  all_->setVisible(only_.has_value());
  all_->setText(only_ ? tr("only %1: show all").arg(*only_) : QString{});
  tables_->setCurrentIndex(single() ? 0 : 1);
  rowsMoved();
  if (!order_.empty() && currentTable()->currentSourceRow() < 0)
    currentTable()->selectSourceRow(order_.front());
  rowChosen();
}

void MachinesPanel::showOnly(const GroupRow& group) {
  only_ = group.key;
  only_rows_ = {group.rows.begin(), group.rows.end()};
  group_by_->setCurrent(0);
  regroup();
  table_->setFocus();
}

void MachinesPanel::showAll() {
  only_.reset();
  regroup();
  currentTable()->setFocus();
}

void MachinesPanel::rowsMoved() {
  order_ = shownOrder(*currentTable());
  showTotals();
  bars_.clear();
  std::vector<MoneyBar> bars;
  for (const int row : order_) {
    const auto at = static_cast<std::size_t>(row);
    if (single()) {
      const EarningRow& machine = rows_[at];
      if (!machine.figures.profit) continue;
      bars.push_back(barOf(session(), QLatin1Char('#') + machine.tag, *machine.figures.profit));
    } else {
      bars.push_back(barOf(session(), groups_[at].key, groups_[at].earned.profit));
    }
    bars_.push_back(row);
  }
  profit_bars_->setBars(std::move(bars));
  bars_title_->setText(single() ? tr("Profit by machine, in the table's order")
                                : tr("Profit together, in the table's order"));
  const auto at = std::find(bars_.begin(), bars_.end(), currentTable()->currentSourceRow());
  profit_bars_->setCurrent(at == bars_.end() ? -1 : static_cast<int>(at - bars_.begin()));
}

Earned MachinesPanel::total() const {
  std::vector<const MachineFigures*> figures;
  const auto take = [&](int row) { figures.push_back(&rows_[static_cast<std::size_t>(row)].figures); };
  for (const int row : order_) {
    if (single())
      take(row);
    else
      for (const int member : groups_[static_cast<std::size_t>(row)].rows)
        take(member);
  }
  return earned(figures);
}

void MachinesPanel::showTotals() {
  const Earned sum = total();
  const QString whose = tr("Added up over the machines shown that have a profit: %1.")
                            .arg(QString::fromStdString(
                                counted(static_cast<std::int64_t>(sum.machines), "machine", "machines")));
  total_gross_->setFigure(
      session().money(sum.gross_profit),
      tr("%1 Net proceeds %2 less cost %3.")
          .arg(whose, session().money(sum.net_proceeds), session().money(sum.cost_basis)));
  total_profit_->setFigure(
      session().money(sum.profit),
      tr("%1 Gross profit %2 less trips and the share of the shop's costs %3, so far: it moves until the "
         "year is over.")
          .arg(whose, session().money(sum.gross_profit), session().money(sum.running_costs)));
  total_hours_->setFigure(QString::fromStdString(shown(sum.minutes)), whose);
  total_pay_->setFigure(session().money(sum.pay_per_hour),
                        perHourInWords(session(), sum.profit, sum.minutes));
}

void MachinesPanel::rowChosen() {
  const int row = currentTable()->currentSourceRow();
  const auto at = std::find(bars_.begin(), bars_.end(), row);
  profit_bars_->setCurrent(at == bars_.end() ? -1 : static_cast<int>(at - bars_.begin()));
  if (row < 0) return detail_->showNothing();
  if (single())
    detail_->show(rows_[static_cast<std::size_t>(row)]);
  else
    detail_->show(groups_[static_cast<std::size_t>(row)], rows_);
}

void MachinesPanel::openMachine(MachineId machine) {
  const auto found = std::find_if(rows_.begin(), rows_.end(), [machine](const EarningRow& row) {
    return row.figures.machine == machine;
  });
  if (found == rows_.end()) return;
  if (!single()) {
    group_by_->setCurrent(0);
    regroup();
  }
  table_->selectSourceRow(static_cast<int>(found - rows_.begin()));
}

void MachinesPanel::groupBy(GroupBy by) {
  group_by_->setCurrent(static_cast<int>(by));
  only_.reset();
  regroup();
}

Report MachinesPanel::report() const {
  Report report{.title = tr("What the machines earned"), .file_name = QStringLiteral("machines")};
  QStringList about;
  if (!single()) about << tr("by %1").arg(groups_model_->columns().front().title.toLower());
  if (only_) about << *only_;
  if (const QString words = by_word_->inWords(); !words.isEmpty()) about << words;
  ReportSection section = sectionOf(*currentTable(), about.join(QStringLiteral(", ")));
  const Earned sum = total();
  const std::pair<QString, ReportCell> sums[]{
      {QStringLiteral("proceeds"), moneyCell(session(), sum.net_proceeds)},
      {QStringLiteral("basis"), moneyCell(session(), sum.cost_basis)},
      {QStringLiteral("gross"), moneyCell(session(), sum.gross_profit)},
      {QStringLiteral("gross_hour"), moneyCell(session(), sum.gross_per_hour)},
      {QStringLiteral("hours"), hoursCell(sum.minutes)},
      {QStringLiteral("profit"), moneyCell(session(), sum.profit)},
      {QStringLiteral("pay"), moneyCell(session(), sum.pay_per_hour)}};
  ReportRow row{.sum = true};
  for (const QString& key : keysOf(*currentTable())) {
    const auto found =
        std::find_if(std::begin(sums), std::end(sums), [&](const auto& each) { return each.first == key; });
    row.cells.push_back(found != std::end(sums) ? found->second : ReportCell{});
  }
  if (!row.cells.empty() && row.cells.front().text.isEmpty()) row.cells.front() = ReportCell{tr("together")};
  section.rows.push_back(std::move(row));
  report.sections.push_back(std::move(section));
  report.notes << tr(
      "Sums are of the machines that have a profit: those kept, and hulks still here, have none yet.");
  return report;
}

}  // namespace secondpull::app
