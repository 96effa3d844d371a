#include "app/sale/sale_page.h"

#include <algorithm>

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "app/frame/page.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/data_table.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/parts/tag_delegate.h"
#include "app/sale/coming_list.h"
#include "app/sale/machine_panel.h"
#include "app/sale/sale_rows.h"

namespace secondpull::app {
namespace {

constexpr SaleView kViews[] = {SaleView::to_sell, SaleView::coming, SaleView::here, SaleView::sold};

class SalePage : public Page {
 public:
  SalePage(Session& session, QWidget* parent);

  QString word() const override { return tr("For sale"); }
  QString iconName() const override { return QStringLiteral("sale"); }
  QKeySequence key() const override { return {Qt::ALT | Qt::Key_4}; }
  void refresh(const std::vector<AnyId>&) override {
    stale_ = true;
    if (isVisible()) reload();
  }
  void openMachine(MachineId machine) override;
  void start() override { tableInView()->setFocus(); }
  std::vector<Deed> deeds() override;

 protected:
  void showEvent(QShowEvent* event) override {
    Page::showEvent(event);
    if (stale_) reload();
  }

 private:
  SaleView view() const {
    return kViews[std::clamp(view_->current(), 0, static_cast<int>(std::size(kViews)) - 1)];
  }
  void setView(SaleView view);
  QWidget* makeTable();
  DataTable* tableInView() const {
    return view() == SaleView::coming ? static_cast<DataTable*>(coming_) : table_;
  }
  /// Shows who comes, and the machine of the first of them where none is in hand.
  void reloadComing(bool keep_in_hand);
  /// Reads the rows again. A machine in hand that is no longer among them, because it was just sold, stays in
  /// sight; with another view the first row is taken.
  void reload(bool keep_in_hand = true);
  bool choose(MachineId machine);  ///< false if it is not among the rows
  int rowOf(std::optional<MachineId> machine) const;

  bool stale_ = true;
  bool loading_ = false;
  std::vector<SaleRow> rows_;
  QStackedWidget* whole_;
  WordRow* view_;
  QLineEdit* filter_;
  DataTable* table_;
  ComingList* coming_;
  QLabel* none_;
  RowModel<SaleRow>* model_;
  MachinePanel* panel_;
};

SalePage::SalePage(Session& session, QWidget* parent) : Page(session, parent) {
  setObjectName(QStringLiteral("salePage"));
  auto* content = new QWidget;
  auto* box = new QVBoxLayout{content};
  box->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, kGrid);
  auto* sides = new QSplitter{Qt::Horizontal};
  sides->setChildrenCollapsible(false);
  sides->setHandleWidth(3 * kGrid);
  sides->addWidget(makeTable());
  panel_ = new MachinePanel{session};
  sides->addWidget(panel_);
  sides->setStretchFactor(0, 1);
  sides->setStretchFactor(1, 1);
  box->addWidget(sides, 1);
  connect(panel_, &MachinePanel::wantsMachine, this, &Page::wantsMachine);
  connect(panel_, &MachinePanel::wantsSaid, this, &Page::wantsSaid);
  connect(panel_, &MachinePanel::formClosed, this, [this] {
    // A table that takes the focus without a row in hand turns to its first; the panel stays with its
    // machine.
    loading_ = true;
    tableInView()->setFocus();
    loading_ = false;
  });

  auto* empty = new EmptyState{QStringLiteral("sale"),
                               tr("Machines that are out front, or ready to be, stand here with their asking "
                                  "price, their offers and their sale."),
                               tr("Log a machine")};
  connect(empty, &EmptyState::stepTaken, this, [this] { emit wantsPage(tr("Yard"), MachineId{}); });
  whole_ = new QStackedWidget;
  whole_->addWidget(empty);
  whole_->addWidget(content);
  auto* outer = new QVBoxLayout{this};
  outer->setContentsMargins(0, 0, 0, 0);
  outer->addWidget(whole_);
}

QWidget* SalePage::makeTable() {
  auto* side = new QWidget;
  auto* box = new QVBoxLayout{side};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  view_ = new WordRow{tr("Machines"), {tr("to sell"), tr("coming"), tr("all here"), tr("sold")}};
  view_->setObjectName(QStringLiteral("saleView"));
  connect(view_, &WordRow::chosen, this, [this] { reload(false); });
  filter_ = new QLineEdit;
  filter_->setObjectName(QStringLiteral("saleFilter"));
  filter_->setPlaceholderText(tr("Show only..."));
  filter_->setAccessibleName(tr("Show only rows with these words"));
  filter_->setClearButtonEnabled(true);
  filter_->setMaximumWidth(grown(25 * kGrid));
  auto* line = new QHBoxLayout;
  line->addWidget(heading(tr("For sale")));
  line->addSpacing(2 * kGrid);
  line->addWidget(view_);
  line->addStretch(1);
  line->addWidget(filter_);
  box->addLayout(line);

  none_ = faded({});
  none_->setObjectName(QStringLiteral("saleNone"));
  none_->setWordWrap(true);
  box->addWidget(none_);
  model_ = new RowModel<SaleRow>{saleColumns(session()), this};
  table_ = new DataTable{session(), QStringLiteral("sale_machines")};
  table_->setObjectName(QStringLiteral("saleTable"));
  table_->setAccessibleName(tr("Machines to sell"));
  table_->setRowModel(model_);
  table_->setItemDelegateForColumn(0, new TagDelegate{table_});
  table_->sortBy(QStringLiteral("days"), Qt::DescendingOrder);
  box->addWidget(table_, 1);
  coming_ = new ComingList{session()};
  box->addWidget(coming_, 1);
  connect(filter_, &QLineEdit::textChanged, table_, &DataTable::setFilterText);
  connect(filter_, &QLineEdit::textChanged, coming_, &DataTable::setFilterText);
  connect(coming_, &ComingList::chosen, this, [this](OfferId offer, MachineId machine) {
    if (loading_) return;
    panel_->setMachine(machine);
    panel_->chooseOffer(offer);
  });
  connect(coming_, &DataTable::opened, this, [this](int row) {
    const Coming& one = coming_->rows()[static_cast<std::size_t>(row)];
    panel_->setMachine(one.machine);
    panel_->openSale(one.offer);
  });
  connect(table_, &DataTable::currentRowChanged, this, [this](int row) {
    if (loading_ || row < 0) return;
    panel_->setMachine(rows_[static_cast<std::size_t>(row)].machine);
  });
  connect(table_, &DataTable::opened, this, [this](int row) {
    panel_->setMachine(rows_[static_cast<std::size_t>(row)].machine);
    view() == SaleView::sold ? panel_->openReturn() : panel_->openSale();
  });
  return side;
}

void SalePage::setView(SaleView view) {
  view_->setCurrent(static_cast<int>(std::find(std::begin(kViews), std::end(kViews), view) - kViews));
  reload(false);
}

int SalePage::rowOf(std::optional<MachineId> machine) const {
  const auto found = std::find_if(rows_.begin(), rows_.end(),
                                  [machine](const SaleRow& row) { return row.machine == machine; });
  return machine && found != rows_.end() ? static_cast<int>(found - rows_.begin()) : -1;
}

void SalePage::reloadComing(bool keep_in_hand) {
  loading_ = true;
  coming_->reload();
  loading_ = false;
  const std::vector<Coming>& rows = coming_->rows();
  none_->setVisible(rows.empty());
  none_->setText(
      tr("Nobody said that they would come. Write down an offer with the day on which they come, and it "
         "stands here."));
  panel_->refresh();
  auto kept = std::find_if(rows.begin(), rows.end(),
                           [this](const Coming& row) { return row.offer == panel_->chosenOffer(); });
  if (kept == rows.end())
    kept = std::find_if(rows.begin(), rows.end(),
                        [this](const Coming& row) { return row.machine == panel_->machine(); });
  // A machine in hand that nobody comes for any more, because it was just sold, stays in sight.
  const bool in_hand = keep_in_hand && panel_->machine() && session().shop()->find(*panel_->machine());
  if (rows.empty() || (kept == rows.end() && in_hand)) return;
  const auto at = kept == rows.end() ? rows.begin() : kept;
  coming_->selectSourceRow(static_cast<int>(at - rows.begin()));
  panel_->setMachine(at->machine);
  panel_->chooseOffer(at->offer);
}

void SalePage::reload(bool keep_in_hand) {
  stale_ = false;
  table_->setVisible(view() != SaleView::coming);
  coming_->setVisible(view() == SaleView::coming);
  loading_ = true;
  rows_ = saleRows(session(), view());
  model_->setRows(rows_);
  whole_->setCurrentIndex(session().shop()->all<Machine>().empty() ? 0 : 1);
  if (view() == SaleView::coming) return reloadComing(keep_in_hand);
  none_->setVisible(rows_.empty());
  none_->setText(
      view() == SaleView::to_sell
          ? tr("Nothing is out front, and nothing is mended and waiting to be. A machine can be sold "
               "from \"all here\" as it is.")
      : view() == SaleView::here ? tr("No machine is here.")
                                 : tr("No machine has been sold yet."));
  loading_ = false;
  const int kept = rowOf(panel_->machine());
  if (kept >= 0) {
    table_->selectSourceRow(kept);
    panel_->refresh();
  } else if (keep_in_hand && panel_->machine() && session().shop()->find(*panel_->machine()) != nullptr) {
    panel_->refresh();
  } else {
    panel_->setMachine(std::nullopt);
    table_->selectRow(0);
  }
}

bool SalePage::choose(MachineId machine) {
  const int row = rowOf(machine);
  if (row < 0) return false;
  filter_->clear();
  table_->selectSourceRow(row);
  panel_->setMachine(machine);
  return true;
}

void SalePage::openMachine(MachineId machine) {
  if (stale_) reload();
  if (choose(machine)) return;
  const MachineFigures* figures = session().books()->machine(machine);
  if (figures == nullptr) return;
  if (is_here(figures->stage))
    setView(SaleView::here);
  else if (figures->stage == Stage::sold)
    setView(SaleView::sold);
  else
    return;
  choose(machine);
}

std::vector<Page::Deed> SalePage::deeds() {
  // The machine shown here, else the one in hand.
  const auto meant = [this] {
    const std::vector<MachineId> in_hand = session().inHand();
    return panel_->machine().value_or(in_hand.empty() ? MachineId{} : in_hand.front());
  };
  const auto deed = [this, meant](void (MachinePanel::*open)()) {
    return [this, meant, open] {
      emit wantsPage(word(), meant());
      (panel_->*open)();
    };
  };
  return {{tr("sell the machine in hand"),
           {},
           [this, meant] {
             emit wantsPage(word(), meant());
             panel_->openSale();
           }},
          {tr("change the asking price"), {}, deed(&MachinePanel::openAsking)},
          {tr("write down an offer"), {}, deed(&MachinePanel::openOffer)},
          {tr("a machine came back"),
           {},
           [this] {
             emit wantsPage(word(), MachineId{});
             if (view() != SaleView::sold) setView(SaleView::sold);
             panel_->openReturn();
           }},
          {tr("give money back on a machine that stays sold"),
           {},
           [this] {
             emit wantsPage(word(), MachineId{});
             if (view() != SaleView::sold) setView(SaleView::sold);
             panel_->openAllowance();
           }},
          {tr("scrap a machine or keep it"), {}, deed(&MachinePanel::openDispose)},
          {tr("take a machine in without a sale"), {}, deed(&MachinePanel::openEndListing)},
          {tr("write the words of a listing"), {}, deed(&MachinePanel::openListing)},
          {tr("who comes when"), {}, [this] {
             emit wantsPage(word(), MachineId{});
             setView(SaleView::coming);
           }}};
}

}  // namespace

Page* makeSalePage(Session& session, QWidget* parent) {
  return new SalePage{session, parent};
}

}  // namespace secondpull::app
