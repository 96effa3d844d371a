#include "app/yard/yard_page.h"

#include <algorithm>

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QTimer>
#include <QVBoxLayout>

#include "app/frame/page.h"
#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/data_table.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/parts/tag_delegate.h"
#include "app/planning/planning.h"
#include "app/print/paper_button.h"
#include "app/yard/log_form.h"
#include "app/yard/machine_strip.h"
#include "app/yard/yard_rows.h"

namespace secondpull::app {
namespace {

constexpr int kStripWidth = 35 * kGrid;
constexpr int kPlansTogether = 100;      // ms; plans come by the dozen
constexpr int kLeastTable = 12 * kGrid;  // what stays of the table below a tall form

/// Holds the form at its full height where there is room, and scrolls it where there is not. It is there as
/// long as the form is.
class FormScroll : public QScrollArea {
 public:
  FormScroll(QWidget* form, QWidget* parent) : QScrollArea(parent) {
    setFrameShape(QFrame::NoFrame);
    setWidgetResizable(true);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setFocusPolicy(Qt::NoFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Maximum);
    const bool open = !form->isHidden();
    setWidget(form);  // which shows it
    form->setVisible(open);
    setVisible(open);
  }
  QSize sizeHint() const override {
    const QSize form = widget()->sizeHint();
    const int width = viewport()->width();
    return {form.width(), widget()->hasHeightForWidth() ? widget()->heightForWidth(width) : form.height()};
  }
  QSize minimumSizeHint() const override { return {widget()->minimumSizeHint().width(), kLeastTable}; }

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override {
    const bool handled = QScrollArea::eventFilter(watched, event);
    if (watched == widget()) {
      if (event->type() == QEvent::ShowToParent) show();
      if (event->type() == QEvent::HideToParent) hide();
      if (event->type() == QEvent::LayoutRequest) updateGeometry();
    }
    return handled;
  }
  void resizeEvent(QResizeEvent* event) override {
    QScrollArea::resizeEvent(event);
    updateGeometry();  // rows of words break elsewhere, and the form is as high as that makes it
  }
};

class YardPage : public Page {
 public:
  YardPage(Session& session, QWidget* parent);

  QString word() const override { return tr("Yard"); }
  QString iconName() const override { return QStringLiteral("yard"); }
  QKeySequence key() const override { return QKeySequence{"Alt+1"}; }
  void refresh(const std::vector<AnyId>& ids) override;
  void openMachine(MachineId machine) override;
  void start() override;
  std::vector<Deed> deeds() override;

 protected:
  void showEvent(QShowEvent* event) override;

 private:
  void buildHead(QVBoxLayout* page);
  QWidget* buildTable();
  void reload();
  void showToday();
  void showPlans();
  void showGroup();
  void countGroups();
  void showChosen();
  void logOne();
  void logLot();
  void select(MachineId machine);
  std::optional<MachineId> machineAt(int row) const;
  void bench(MachineId machine) { emit wantsMachine(machine); }
  YardGroup group() const { return kYardGroups[static_cast<std::size_t>(words_->current())]; }

  QLabel* today_ = nullptr;
  WordRow* words_ = nullptr;
  QLineEdit* filter_ = nullptr;
  QPushButton* log_ = nullptr;
  LogForm* form_ = nullptr;
  QStackedWidget* below_ = nullptr;  // the table, or what an empty shop is told
  EmptyState* empty_ = nullptr;
  QLabel* none_ = nullptr;
  RowModel<YardRow> rows_;
  DataTable* table_ = nullptr;
  MachineStrip* strip_ = nullptr;
  std::optional<MachineId> chosen_;
  QTimer* plans_came_ = nullptr;
  QString week_;  // this week's hours against the machines that wait, as last worked out
  bool stale_ = true;
};

YardPage::YardPage(Session& session, QWidget* parent) : Page(session, parent), rows_{yardColumns(session)} {
  setObjectName("yardPage");
  auto* page = new QVBoxLayout{this};
  page->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, 2 * kGrid);
  page->setSpacing(kGrid);
  buildHead(page);
  form_ = new LogForm{session, this};
  page->addWidget(new FormScroll{form_, this});
  below_ = new QStackedWidget{this};
  below_->setMinimumHeight(kLeastTable);
  empty_ =
      new EmptyState{"yard",
                     tr("Every machine on the place will hang here by its tag. Log the first one: what it "
                        "is, where it came from, what it cost."),
                     tr("Log a machine"), this};
  empty_->setObjectName("emptyYard");
  connect(empty_, &EmptyState::stepTaken, this, &YardPage::logOne);
  below_->addWidget(buildTable());
  below_->addWidget(empty_);
  page->addWidget(below_, 1);

  plans_came_ = new QTimer{this};
  plans_came_->setSingleShot(true);
  plans_came_->setInterval(kPlansTogether);
  connect(plans_came_, &QTimer::timeout, this, &YardPage::showPlans);
  const auto came = [this] {
    if (isVisible() && !plans_came_->isActive()) plans_came_->start();
  };
  connect(&session.planning(), &Planning::planned, this, came);
  connect(&session.planning(), &Planning::hourValueChanged, this, came);
  connect(&session.planning(), &Planning::settled, this, came);
  connect(form_, &LogForm::logged, this, &YardPage::select);
  connect(form_, &Form::left, this, [this] { table_->setFocus(); });
}

void YardPage::buildHead(QVBoxLayout* page) {
  today_ = faded({}, this);
  today_->setObjectName("todayLines");
  today_->setAccessibleName(tr("Today"));
  today_->setTextFormat(Qt::RichText);
  today_->setWordWrap(true);
  today_->setTextInteractionFlags(Qt::LinksAccessibleByMouse | Qt::LinksAccessibleByKeyboard);
  connect(today_, &QLabel::linkActivated, this,
          [this](const QString& id) { bench(static_cast<MachineId>(id.toLongLong())); });
  page->addWidget(today_);

  QStringList words;
  for (const YardGroup group : kYardGroups)
    words.push_back(wordOf(group));
  words_ = new WordRow{"standingRow", words, this};
  words_->setAccessibleName(tr("Where it stands"));
  connect(words_, &WordRow::chosen, this, &YardPage::showGroup);
  filter_ = new QLineEdit{this};
  filter_->setObjectName("filterEdit");
  filter_->setAccessibleName(tr("Show only machines with these words"));
  filter_->setPlaceholderText(tr("Filter"));
  filter_->setClearButtonEnabled(true);
  filter_->setMaximumWidth(grown(28 * kGrid));
  connect(filter_, &QLineEdit::textChanged, this, [this](const QString& text) {
    table_->setFilterText(text);
    showChosen();
  });
  log_ = new QPushButton{tr("Log a machine"), this};
  log_->setObjectName("logButton");
  log_->setToolTip(QKeySequence{"Ctrl+N"}.toString(QKeySequence::NativeText));
  setRank(log_, "first");
  connect(log_, &QPushButton::clicked, this, &YardPage::logOne);
  auto* line = new QHBoxLayout;
  line->setSpacing(kGrid);
  line->addWidget(words_, 1);
  line->addWidget(filter_);
  line->addWidget(log_);
  page->addLayout(line);
}

QWidget* YardPage::buildTable() {
  auto* both = new QWidget{this};
  auto* line = new QHBoxLayout{both};
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(2 * kGrid);
  auto* left = new QVBoxLayout;
  left->setSpacing(kGrid);
  table_ = new DataTable{session(), "yardTable", both};
  table_->setAccessibleName(tr("Machines"));
  table_->setItemDelegateForColumn(0, new TagDelegate{table_});
  table_->setRowModel(&rows_);
  table_->sortBy("worth", Qt::DescendingOrder);
  connect(table_, &DataTable::currentRowChanged, this, &YardPage::showChosen);
  connect(table_, &DataTable::opened, this, [this](int row) {
    if (const auto machine = machineAt(row)) bench(*machine);
  });
  none_ = faded(tr("No machine stands there, or none has these words."), both);
  none_->setObjectName("noneShown");
  left->addWidget(none_);
  left->addWidget(table_, 1);
  line->addLayout(left, 1);

  strip_ = new MachineStrip{session(), both};
  connect(strip_, &MachineStrip::wantsBench, this, &YardPage::bench);
  connect(strip_, &MachineStrip::wantsSaid, this, &Page::wantsSaid);
  auto* scroll = new QScrollArea{both};
  scroll->setFrameShape(QFrame::NoFrame);
  scroll->setWidgetResizable(true);
  scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  scroll->setFocusPolicy(Qt::NoFocus);
  scroll->setFixedWidth(kStripWidth);
  scroll->setWidget(strip_);
  line->addWidget(scroll);
  return both;
}

void YardPage::refresh(const std::vector<AnyId>&) {
  // Money in and standing of a machine hang on other records too, so every change shows the table afresh.
  stale_ = true;
  if (isVisible()) reload();
}

void YardPage::showEvent(QShowEvent* event) {
  Page::showEvent(event);
  if (stale_) reload();
}

void YardPage::reload() {
  stale_ = false;
  const auto chosen = chosen_;
  std::vector<YardRow> rows = yardRows(session());
  for (YardRow& row : rows)
    addPlan(session(), row);
  rows_.setRows(std::move(rows));
  countGroups();
  showToday();
  plans_came_->start();  // plans are asked for once the table is on screen
  below_->setCurrentIndex(rows_.rows().empty() ? 1 : 0);
  for (QWidget* head :
       {static_cast<QWidget*>(words_), static_cast<QWidget*>(filter_), static_cast<QWidget*>(log_)})
    head->setVisible(!rows_.rows().empty());
  showGroup();
  if (chosen) select(*chosen);
}

void YardPage::countGroups() {
  QStringList words;
  for (const YardGroup group : kYardGroups) {
    const auto count = std::count_if(rows_.rows().begin(), rows_.rows().end(),
                                     [group](const YardRow& row) { return isIn(group, row); });
    words.push_back(QStringLiteral("%1 %2").arg(wordOf(group)).arg(count));
  }
  words_->setWords(words);
}

void YardPage::showToday() {
  QStringList lines = todayLines(session());
  if (!week_.isEmpty()) lines << week_;
  today_->setText(lines.join("<br>"));
  today_->setVisible(!lines.isEmpty());
}

void YardPage::showPlans() {
  rows_.updateRows([this](YardRow& row) { addPlan(session(), row); });
  week_ = weekLine(session());
  showToday();
}

void YardPage::showGroup() {
  table_->setRowFilter([this, shown = group()](int row) { return isIn(shown, rows_.row(row)); });
  showChosen();
}

void YardPage::showChosen() {
  none_->setVisible(table_->shownRows() == 0);
  chosen_ = machineAt(table_->currentSourceRow());
  strip_->setMachine(chosen_);
}

std::optional<MachineId> YardPage::machineAt(int row) const {
  if (row < 0 || row >= rows_.rowCount()) return std::nullopt;
  return rows_.row(row).machine;
}

void YardPage::select(MachineId machine) {
  const auto at = std::find_if(rows_.rows().begin(), rows_.rows().end(),
                               [machine](const YardRow& row) { return row.machine == machine; });
  if (at == rows_.rows().end()) return;
  table_->selectSourceRow(static_cast<int>(at - rows_.rows().begin()));
  showChosen();
}

void YardPage::openMachine(MachineId machine) {
  if (stale_) reload();
  const auto at = std::find_if(rows_.rows().begin(), rows_.rows().end(),
                               [machine](const YardRow& row) { return row.machine == machine; });
  if (at == rows_.rows().end()) return;
  filter_->clear();
  if (!isIn(group(), *at))
    words_->setCurrent(static_cast<int>(at->here ? YardGroup::all_here : YardGroup::gone));
  showGroup();
  select(machine);
}

void YardPage::start() {
  if (form_->isVisible()) return;
  if (rows_.rows().empty()) {
    empty_->setFocus();
    return;
  }
  table_->setFocus();
  if (table_->currentSourceRow() < 0 && table_->shownRows() > 0)
    table_->setCurrentIndex(table_->model()->index(0, 0));
}

void YardPage::logOne() {
  emit wantsPage(word(), MachineId{});
  form_->openForOne();
}

void YardPage::logLot() {
  emit wantsPage(word(), MachineId{});
  form_->openForLot();
}

std::vector<Page::Deed> YardPage::deeds() {
  const auto here = [this](auto act) {
    return [this, act] {
      emit wantsPage(word(), MachineId{});
      act();
    };
  };
  std::vector<Deed> all{
      {tr("log a machine"), QKeySequence{"Ctrl+N"}, [this] { logOne(); }},
      {tr("log a lot"), QKeySequence{"Ctrl+Shift+N"}, [this] { logLot(); }},
      {tr("filter the yard"), QKeySequence{"Ctrl+F"}, here([this] { filter_->setFocus(); })},
      {tr("add a photo"), QKeySequence{"Ctrl+Shift+P"}, here([this] { strip_->addPhotos(); })},
      {tr("put for sale"), QKeySequence{"Ctrl+Shift+S"}, here([this] { strip_->putForSale(); })},
      {tr("scrap"), QKeySequence{"Ctrl+Shift+X"}, here([this] { strip_->scrap(); })},
  };
  for (const Deed& paper : strip_->papers().deeds())
    all.push_back({paper.words, paper.key, here(paper.run)});
  return all;
}

}  // namespace

Page* makeYardPage(Session& session, QWidget* parent) {
  return new YardPage{session, parent};
}

}  // namespace secondpull::app
