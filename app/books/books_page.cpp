#include "app/books/books_page.h"

#include <algorithm>
#include <set>

#include <QAbstractProxyModel>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/books/earning_rows.h"
#include "app/books/money_bars.h"
#include "app/frame/page.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/data_table.h"
#include "app/parts/figure_words.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/parts/tag_delegate.h"

namespace secondpull::app {
namespace {

constexpr GroupBy kGroups[] = {GroupBy::machine, GroupBy::kind, GroupBy::source, GroupBy::make,
                               GroupBy::month};

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

class BooksPage : public Page {
 public:
  BooksPage(Session& session, QWidget* parent);

  QString word() const override { return tr("Books"); }
  QString iconName() const override { return QStringLiteral("books"); }
  QKeySequence key() const override { return {Qt::ALT | Qt::Key_5}; }
  void refresh(const std::vector<AnyId>&) override {
    stale_ = true;
    if (isVisible()) reload();
  }
  void openMachine(MachineId machine) override;
  void start() override { currentTable()->setFocus(); }
  std::vector<Deed> deeds() override;

 protected:
  void showEvent(QShowEvent* event) override {
    Page::showEvent(event);
    if (stale_) reload();
  }
  void keyPressEvent(QKeyEvent* event) override {
    if (event->key() == Qt::Key_Escape && only_)
      showAll();
    else
      Page::keyPressEvent(event);
  }

 private:
  QWidget* makeHead();
  QWidget* makeTables();
  QWidget* makeCharts();
  void follow(DataTable* table);

  GroupBy by() const { return kGroups[std::max(0, group_by_->current())]; }
  bool single() const { return by() == GroupBy::machine; }
  DataTable* currentTable() const { return single() ? table_ : groups_table_; }

  void reload();
  void regroup();
  void showOnly(const GroupRow& group);
  void showAll();
  void rowsMoved();  ///< another order, filter or group: totals and bars again
  void showTotals();
  void rowChosen();
  void showOne(const QString& title, const Earned& sum, const std::vector<FigureLine>& lines,
               const QString& why_gross, const QString& why_profit);
  void showNothing(const QString& sentence);

  bool stale_ = true;
  std::vector<EarningRow> rows_;
  std::vector<GroupRow> groups_;
  std::vector<int> order_;       ///< source rows as the current table shows them
  std::vector<int> bars_;        ///< those of them that have a bar
  std::optional<QString> only_;  ///< the one group that is shown
  std::set<int> only_rows_;

  QStackedWidget* whole_;
  QLabel* problem_;
  WhyFigure *total_gross_, *total_profit_, *total_hours_, *total_pay_;
  WordRow* group_by_;
  QLineEdit* filter_;
  QPushButton* all_;
  QStackedWidget* tables_;
  DataTable *table_, *groups_table_;
  RowModel<EarningRow>* model_;
  RowModel<GroupRow>* groups_model_ = nullptr;
  MoneyBars *profit_bars_, *waterfall_;
  QLabel *bars_title_, *one_title_, *no_profit_;
  WhyFigure *gross_, *profit_, *pay_;
  QStackedWidget* one_;
};

WhyFigure* figure(const QString& label, const char* name) {
  auto* made = new WhyFigure{label};
  made->setObjectName(QString::fromLatin1(name));
  return made;
}

BooksPage::BooksPage(Session& session, QWidget* parent) : Page(session, parent) {
  setObjectName(QStringLiteral("booksPage"));
  auto* content = new QWidget;
  auto* box = new QVBoxLayout{content};
  box->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, kGrid);
  box->setSpacing(kGrid);
  box->addWidget(makeHead());
  problem_ = new QLabel;
  problem_->setObjectName(QStringLiteral("booksProblem"));
  problem_->setWordWrap(true);
  setRank(problem_, "problem");
  box->addWidget(problem_);
  auto* sides = new QSplitter{Qt::Horizontal};
  sides->setChildrenCollapsible(false);
  sides->setHandleWidth(3 * kGrid);
  sides->addWidget(makeTables());
  sides->addWidget(makeCharts());
  sides->setStretchFactor(0, 3);
  sides->setStretchFactor(1, 2);
  box->addWidget(sides, 1);
  auto* note =
      faded(tr("Profit is gross profit less trips and the share of the shop's costs, so far: it "
               "moves until the year is over. None of this is tax advice; rules differ by place, "
               "and a licensed preparer decides."));
  note->setWordWrap(true);
  box->addWidget(note);

  auto* empty =
      new EmptyState{QStringLiteral("books"), tr("What each machine earned stands here once one is sold."),
                     tr("Sell a machine")};
  connect(empty, &EmptyState::stepTaken, this, [this] { emit wantsPage(tr("For sale"), MachineId{}); });
  whole_ = new QStackedWidget;
  whole_->addWidget(empty);
  whole_->addWidget(content);
  auto* outer = new QVBoxLayout{this};
  outer->setContentsMargins(0, 0, 0, 0);
  outer->addWidget(whole_);
}

QWidget* BooksPage::makeHead() {
  auto* head = new QWidget;
  auto* line = new QHBoxLayout{head};
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(4 * kGrid);
  line->addWidget(heading(tr("What the machines earned")));
  line->addStretch(1);
  total_gross_ = figure(tr("Gross profit"), "booksTotalGross");
  total_profit_ = figure(tr("Profit"), "booksTotalProfit");
  total_hours_ = figure(tr("Hours"), "booksTotalHours");
  total_pay_ = figure(tr("Pay per hour"), "booksTotalPay");
  for (WhyFigure* total : {total_gross_, total_profit_, total_hours_, total_pay_})
    line->addWidget(total);
  return head;
}

QWidget* BooksPage::makeTables() {
  auto* side = new QWidget;
  auto* box = new QVBoxLayout{side};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);

  group_by_ = new WordRow{tr("Group by"), {tr("machine"), tr("kind"), tr("source"), tr("make"), tr("month")}};
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

void BooksPage::follow(DataTable* table) {
  connect(table, &DataTable::currentRowChanged, this, [this, table] {
    if (table == currentTable()) rowChosen();
  });
  connect(table->model(), &QAbstractItemModel::layoutChanged, this, [this, table] {
    if (table == currentTable()) rowsMoved();
  });
}

QWidget* BooksPage::makeCharts() {
  auto* side = new QWidget;
  auto* box = new QVBoxLayout{side};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  bars_title_ = new QLabel;
  setRank(bars_title_, "subheading");
  box->addWidget(bars_title_);
  const QString code = QString::fromStdString(session().currency().code);
  profit_bars_ = new MoneyBars{tr("Chart of profit"), tr("profit, %1").arg(code), session().currency()};
  profit_bars_->setObjectName(QStringLiteral("booksBars"));
  profit_bars_->setChoosing(true);
  connect(profit_bars_, &MoneyBars::currentChanged, this,
          [this](int bar) { currentTable()->selectSourceRow(bars_[static_cast<std::size_t>(bar)]); });
  box->addWidget(profit_bars_, 4);

  one_title_ = new QLabel;
  one_title_->setWordWrap(true);
  setRank(one_title_, "subheading");
  box->addWidget(one_title_);
  auto* figures = new QHBoxLayout;
  figures->setSpacing(3 * kGrid);
  gross_ = figure(tr("Gross profit"), "booksGross");
  profit_ = figure(tr("After the shop's costs, so far"), "booksProfit");
  pay_ = figure(tr("Pay per hour"), "booksPay");
  for (WhyFigure* one : {gross_, profit_, pay_})
    figures->addWidget(one);
  figures->addStretch(1);
  box->addLayout(figures);

  waterfall_ = new MoneyBars{tr("From price to profit"), tr("from price to profit, %1").arg(code),
                             session().currency()};
  waterfall_->setObjectName(QStringLiteral("booksWaterfall"));
  no_profit_ = faded({});
  no_profit_->setObjectName(QStringLiteral("booksNoProfit"));
  no_profit_->setWordWrap(true);
  no_profit_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
  one_ = new QStackedWidget;
  one_->addWidget(waterfall_);
  one_->addWidget(no_profit_);
  box->addWidget(one_, 5);
  return side;
}

void BooksPage::reload() {
  stale_ = false;
  const std::optional<Problem> trouble = session().booksProblem();
  problem_->setText(trouble ? QString::fromStdString(trouble->sentence) : QString{});
  problem_->setVisible(trouble.has_value());
  const int kept = table_->currentSourceRow();
  const bool one_was_chosen = kept >= 0 && kept < static_cast<int>(rows_.size());
  const MachineId chosen =
      one_was_chosen ? rows_[static_cast<std::size_t>(kept)].figures.machine : MachineId{};
  rows_ = earningRows(session());
  model_->setRows(rows_);
  whole_->setCurrentIndex(rows_.empty() ? 0 : 1);
  regroup();
  if (one_was_chosen && single()) openMachine(chosen);
}

void BooksPage::regroup() {
  if (!single()) {
    groups_ = grouped(rows_, by());
    auto* model = new RowModel<GroupRow>{groupColumns(session(), by()), this};
    model->setRows(groups_);
    groups_table_->setRowModel(model);
    delete groups_model_;
    groups_model_ = model;
    groups_table_->sortBy(by() == GroupBy::month ? QStringLiteral("group") : QStringLiteral("profit"),
                          Qt::DescendingOrder);
  }
  if (!only_) {
    only_rows_.clear();
    table_->setRowFilter({});
  } else {
    table_->setRowFilter([this](int row) { return only_rows_.contains(row); });
  }
  all_->setVisible(only_.has_value());
  all_->setText(only_ ? tr("only %1: show all").arg(*only_) : QString{});
  tables_->setCurrentIndex(single() ? 0 : 1);
  rowsMoved();
  if (!order_.empty() && currentTable()->currentSourceRow() < 0)
    currentTable()->selectSourceRow(order_.front());
  rowChosen();
}

void BooksPage::showOnly(const GroupRow& group) {
  only_ = group.key;
  only_rows_ = {group.rows.begin(), group.rows.end()};
  group_by_->setCurrent(0);
  regroup();
  table_->setFocus();
}

void BooksPage::showAll() {
  only_.reset();
  regroup();
  currentTable()->setFocus();
}

void BooksPage::rowsMoved() {
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

void BooksPage::showTotals() {
  std::vector<const MachineFigures*> figures;
  const auto take = [&](int row) { figures.push_back(&rows_[static_cast<std::size_t>(row)].figures); };
  for (const int row : order_) {
    if (single())
      take(row);
    else
      for (const int member : groups_[static_cast<std::size_t>(row)].rows)
        take(member);
  }
  const Earned sum = earned(figures);
  const QString whose = tr("Added up over the %n machine(s) shown that have a profit.", nullptr,
                           static_cast<int>(sum.machines));
  total_gross_->setFigure(
      session().money(sum.gross_profit),
      tr("%1 Net proceeds %2 less cost %3.")
          .arg(whose, session().money(sum.net_proceeds), session().money(sum.cost_basis)));
  total_profit_->setFigure(
      session().money(sum.profit),
      tr("%1 Gross profit %2 less trips and the share of the shop's costs %3, so far.")
          .arg(whose, session().money(sum.gross_profit), session().money(sum.running_costs)));
  total_hours_->setFigure(QString::fromStdString(shown(sum.minutes)), whose);
  total_pay_->setFigure(session().money(sum.pay_per_hour),
                        perHourInWords(session(), sum.profit, sum.minutes));
}

void BooksPage::rowChosen() {
  const int row = currentTable()->currentSourceRow();
  const auto at = std::find(bars_.begin(), bars_.end(), row);
  profit_bars_->setCurrent(at == bars_.end() ? -1 : static_cast<int>(at - bars_.begin()));
  if (row < 0) return showNothing(tr("Choose a row to see how it went from price to profit."));
  if (!single()) {
    const GroupRow& group = groups_[static_cast<std::size_t>(row)];
    std::vector<FigureLine> lines;
    for (const int member : group.rows) {
      const MachineFigures& machine = rows_[static_cast<std::size_t>(member)].figures;
      if (!machine.profit) continue;
      const std::vector<FigureLine> its = session().books()->lines(machine.machine);
      lines.insert(lines.end(), its.begin(), its.end());
    }
    const QString gross =
        tr("Net proceeds %1 less cost %2.")
            .arg(session().money(group.earned.net_proceeds), session().money(group.earned.cost_basis));
    const QString profit =
        tr("Gross profit %1 less trips and the share of the shop's costs %2, so far.")
            .arg(session().money(group.earned.gross_profit), session().money(group.earned.running_costs));
    return showOne(group.key, group.earned, lines, gross, profit);
  }
  const EarningRow& machine = rows_[static_cast<std::size_t>(row)];
  const MachineFigures* figures[] = {&machine.figures};
  const MachineId id = machine.figures.machine;
  if (!machine.figures.profit) {
    one_title_->setText(QStringLiteral("#%1 %2").arg(machine.tag, machine.name));
    return showNothing(
        machine.figures.stage == Stage::kept
            ? tr("Kept for own use: it left at its cost of %1, and there is no profit to show.")
                  .arg(session().money(machine.figures.cost_basis))
            : tr("Its hulk is still here; what it earned is known once that has gone."));
  }
  showOne(QStringLiteral("#%1 %2").arg(machine.tag, machine.name), earned(figures),
          session().books()->lines(id), whyGrossProfit(session(), id), whyProfit(session(), id));
}

void BooksPage::showOne(const QString& title, const Earned& sum, const std::vector<FigureLine>& lines,
                        const QString& why_gross, const QString& why_profit) {
  one_title_->setText(title);
  gross_->setFigure(
      session().money(sum.gross_profit),
      why_gross + QStringLiteral("<p>%1</p>").arg(perHourInWords(session(), sum.gross_profit, sum.minutes)));
  profit_->setFigure(session().money(sum.profit), why_profit);
  pay_->setFigure(session().money(sum.pay_per_hour), perHourInWords(session(), sum.profit, sum.minutes));
  for (WhyFigure* one : {gross_, profit_, pay_})
    one->setVisible(true);
  std::vector<MoneyBar> bars;
  for (const WaterfallStep& step : waterfall(lines)) {
    bars.push_back({.name = app::word(step.kind),
                    .amount = session().money(step.amount),
                    .from = step.from,
                    .to = step.to,
                    .kind = step.is_level()         ? MoneyBar::Kind::level
                            : step.amount < Money{} ? MoneyBar::Kind::loss
                                                    : MoneyBar::Kind::gain});
  }
  waterfall_->setBars(std::move(bars));
  one_->setCurrentIndex(0);
}

void BooksPage::showNothing(const QString& sentence) {
  for (WhyFigure* one : {gross_, profit_, pay_})
    one->setVisible(false);
  no_profit_->setText(sentence);
  one_->setCurrentIndex(1);
}

void BooksPage::openMachine(MachineId machine) {
  if (stale_) reload();
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

std::vector<Page::Deed> BooksPage::deeds() {
  const auto group = [this](int index) {
    return [this, index] {
      emit wantsPage(word(), MachineId{});
      group_by_->setCurrent(index);
      only_.reset();
      regroup();
    };
  };
  return {{tr("what each machine earned"), {}, group(0)},
          {tr("what each kind earned"), {}, group(1)},
          {tr("what each source earned"), {}, group(2)},
          {tr("what each make earned"), {}, group(3)},
          {tr("what each month earned"), {}, group(4)}};
}

}  // namespace

Page* makeBooksPage(Session& session, QWidget* parent) {
  return new BooksPage{session, parent};
}

}  // namespace secondpull::app
