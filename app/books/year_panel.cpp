#include "app/books/year_panel.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>

#include "app/books/why_panel.h"
#include "app/books/year_table.h"
#include "app/parts/form.h"
#include "app/parts/look.h"
#include "app/parts/two_sides.h"
#include "core/books/closing.h"

namespace secondpull::app {
namespace {

constexpr int kLinesLeast = 60 * kGrid;
constexpr int kWhyLeast = 40 * kGrid;

}  // namespace

YearPanel::YearPanel(Session& session, QWidget* parent) : BooksPanel(session, parent) {
  auto* content = new QWidget;
  auto* box = new QVBoxLayout{content};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  auto* head = new QHBoxLayout;
  head->setSpacing(2 * kGrid);
  heading_ = heading({});
  closed_ = faded({});
  closed_->setObjectName(QStringLiteral("yearClosed"));
  head->addWidget(heading_);
  head->addWidget(closed_, 1, Qt::AlignBottom);
  box->addLayout(head);
  problem_ = new QLabel;
  problem_->setObjectName(QStringLiteral("yearProblem"));
  problem_->setWordWrap(true);
  setRank(problem_, "problem");
  box->addWidget(problem_);

  rows_ = new YearTable{this};
  table_ = new QTableView;
  table_->setObjectName(QStringLiteral("yearTable"));
  table_->setAccessibleName(tr("The figures of the year"));
  table_->setModel(rows_);
  table_->verticalHeader()->hide();
  table_->setShowGrid(false);
  table_->setWordWrap(true);
  table_->setSelectionBehavior(QAbstractItemView::SelectRows);
  table_->setSelectionMode(QAbstractItemView::SingleSelection);
  table_->setTabKeyNavigation(false);
  table_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  table_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  table_->viewport()->installEventFilter(this);
  why_ = new WhyPanel{session};
  sides_ = new TwoSides{tr("Lines of the year, or why"),
                        QStringLiteral("yearSides"),
                        {table_, tr("lines"), kLinesLeast, 3},
                        {why_, tr("why"), kWhyLeast, 2},
                        TwoSides::Between::handle};
  head->addWidget(sides_->words());
  box->addWidget(sides_, 1);

  connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, [this] { ask(); });
  connect(table_, &QTableView::activated, this, [this] {
    sides_->turnTo(1);
    if (!why_->table().isHidden())
      why_->table().setFocus();
    else if (!sides_->both())
      sides_->words()->setFocus();
  });
  connect(why_, &WhyPanel::wantsMachine, this, &BooksPanel::wantsMachine);
  connect(why_, &WhyPanel::wantsLine, this, [this](YearLine line) {
    if (const int row = rows_->rowOf(line); row >= 0) {
      table_->setCurrentIndex(rows_->index(row, 1));
      sides_->turnTo(0);
      table_->setFocus();
    }
  });

  whole_ = layOut(content,
                  tr("The year's figures stand here, laid out as the tax form asks for them, once "
                     "something was bought or sold."),
                  tr("Log a machine"), tr("Yard"));
}

void YearPanel::refresh() {
  const auto books = session().books();
  whole_->setCurrentIndex(books->years() ? 1 : 0);
  heading_->setText(tr("The year %1").arg(year()));
  const ClosedYear* kept = closed(*session().shop(), year());
  closed_->setText(
      kept != nullptr
          ? tr("closed on %1: its figures are kept").arg(QString::fromStdString(shown(kept->closed)))
          : tr("open: it moves with every entry"));
  const int before = table_->currentIndex().row();
  const auto figures = books->year(year(), session().taxRates());
  problem_->setVisible(!figures);
  if (!figures) problem_->setText(QString::fromStdString(figures.error().sentence));
  sections_ = figures ? yearSections(session(), *figures) : std::vector<YearSection>{};
  rows_->setSections(sections_);
  rows_->layOut(*table_);
  if (rows_->rowAt(before) != nullptr) table_->setCurrentIndex(rows_->index(before, 1));
  ask();
}

bool YearPanel::eventFilter(QObject* watched, QEvent* event) {
  if (watched == table_->viewport() && event->type() == QEvent::Resize) rows_->layOut(*table_);
  return BooksPanel::eventFilter(watched, event);
}

void YearPanel::start() {
  if (whole_->currentIndex() == 0) return;
  sides_->turnTo(0);
  if (rows_->rowAt(table_->currentIndex().row()) == nullptr && rows_->rowCount() > 1)
    table_->setCurrentIndex(rows_->index(1, 1));
  table_->setFocus();
}

void YearPanel::ask() {
  const YearRow* row = rows_->rowAt(table_->currentIndex().row());
  if (row != nullptr)
    why_->show(year(), *row);
  else
    why_->showNothing();
}

Report YearPanel::report() const {
  Report made{.title = tr("The year %1").arg(year()),
              .sections = reportOf(sections_),
              .file_name = QStringLiteral("year-%1").arg(year())};
  made.notes << closed_->text();
  return made;
}

}  // namespace secondpull::app
