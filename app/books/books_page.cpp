#include "app/books/books_page.h"

#include <array>

#include <QLabel>
#include <QShortcut>
#include <QStackedLayout>
#include <QVBoxLayout>

#include "app/books/closing_panel.h"
#include "app/books/machines_panel.h"
#include "app/books/money_out_panel.h"
#include "app/books/months_panel.h"
#include "app/books/sales_tax_panel.h"
#include "app/books/tied_up_panel.h"
#include "app/books/year_chooser.h"
#include "app/books/year_panel.h"
#include "app/frame/page.h"
#include "app/parts/choices.h"
#include "app/parts/look.h"
#include "app/print/paper.h"
#include "app/print/report_bar.h"

namespace secondpull::app {
namespace {

template <class Panel>
BooksPanel* make(Session& session, QWidget* parent) {
  return new Panel(session, parent);
}

/// A sub-page: its word, what the What-now line calls it, its key.
struct View {
  BooksView view;
  const char* word;
  const char* deed;
  Qt::Key key;
  BooksPanel* (*make)(Session&, QWidget*);
};

constexpr View kViews[] = {
    {BooksView::machines, QT_TRANSLATE_NOOP("BooksPage", "Machines"),
     QT_TRANSLATE_NOOP("BooksPage", "what each machine earned"), Qt::Key_F5, &make<MachinesPanel>},
    {BooksView::months, QT_TRANSLATE_NOOP("BooksPage", "Months"),
     QT_TRANSLATE_NOOP("BooksPage", "profit and hours by month"), Qt::Key_F6, &make<MonthsPanel>},
    {BooksView::year, QT_TRANSLATE_NOOP("BooksPage", "The year"),
     QT_TRANSLATE_NOOP("BooksPage", "the year's figures for the tax form"), Qt::Key_F7, &make<YearPanel>},
    {BooksView::money_out, QT_TRANSLATE_NOOP("BooksPage", "Money out"),
     QT_TRANSLATE_NOOP("BooksPage", "expenses and trips of a year"), Qt::Key_F8, &make<MoneyOutPanel>},
    {BooksView::sales_tax, QT_TRANSLATE_NOOP("BooksPage", "Sales tax"),
     QT_TRANSLATE_NOOP("BooksPage", "sales tax by place"), Qt::Key_F9, &make<SalesTaxPanel>},
    {BooksView::tied_up, QT_TRANSLATE_NOOP("BooksPage", "Tied up"),
     QT_TRANSLATE_NOOP("BooksPage", "money tied up in machines and parts"), Qt::Key_F10, &make<TiedUpPanel>},
    {BooksView::closing, QT_TRANSLATE_NOOP("BooksPage", "Closing"),
     QT_TRANSLATE_NOOP("BooksPage", "close a year, or open it again"), Qt::Key_F11, &make<ClosingPanel>},
};

class BooksPage : public Page {
 public:
  BooksPage(Session& session, QWidget* parent);

  QString word() const override { return tr("Books"); }
  QString iconName() const override { return QStringLiteral("books"); }
  QKeySequence key() const override { return {Qt::ALT | Qt::Key_5}; }
  void refresh(const std::vector<AnyId>&) override {
    stale_.fill(true);
    if (isVisible()) showCurrent();
  }
  void openMachine(MachineId machine) override {
    turnTo(BooksView::machines);
    current()->openMachine(machine);
  }
  void start() override { current()->start(); }
  std::vector<Deed> deeds() override;

 protected:
  void showEvent(QShowEvent* event) override {
    Page::showEvent(event);
    showCurrent();
  }

 private:
  static std::size_t placeOf(BooksView view);
  BooksPanel* panel(std::size_t place);
  BooksPanel* current() { return panel(static_cast<std::size_t>(words_->current())); }
  void turnTo(BooksView view);
  void turnToPlace(int place);
  void showCurrent();
  Report report();

  WordRow* words_;
  YearChooser* year_;
  QStackedLayout* stack_;
  std::array<BooksPanel*, std::size(kViews)> panels_{};
  std::array<bool, std::size(kViews)> stale_{};
};

QStringList words() {
  QStringList all;
  for (const View& view : kViews)
    all << BooksPage::tr(view.word);
  return all;
}

BooksPage::BooksPage(Session& session, QWidget* parent)
    : Page(session, parent),
      words_{new WordRow(tr("What is shown"), words(), this)},
      year_{new YearChooser(int{session.today().year()}, this)},
      stack_{new QStackedLayout} {
  setObjectName(QStringLiteral("booksPage"));
  words_->setObjectName(QStringLiteral("booksWords"));
  stale_.fill(true);
  auto* bar = new ReportBar([this] { return report(); }, this);
  connect(bar, &ReportBar::said, this, &Page::wantsSaid);
  auto* head = new QHBoxLayout;
  head->setSpacing(3 * kGrid);
  head->addWidget(words_, 1);
  head->addWidget(year_);
  head->addWidget(bar);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, kGrid);
  column->setSpacing(2 * kGrid);
  column->addLayout(head);
  column->addLayout(stack_, 1);
  auto* advice = faded(noTaxAdvice(), this);
  advice->setWordWrap(true);
  column->addWidget(advice);
  connect(words_, &WordRow::chosen, this, &BooksPage::turnToPlace);
  connect(year_, &YearChooser::chosen, this, [this] {
    stale_.fill(true);
    showCurrent();
  });

  const auto bind = [this](const QKeySequence& keys, const std::function<void()>& run) {
    auto* shortcut = new QShortcut(keys, this);
    shortcut->setContext(Qt::WidgetWithChildrenShortcut);
    connect(shortcut, &QShortcut::activated, this, run);
  };
  for (const View& view : kViews)
    bind(view.key, [this, which = view.view] { turnTo(which); });
  bind(QKeySequence{"Ctrl+PgUp"}, [this] { year_->step(-1); });
  bind(QKeySequence{"Ctrl+PgDown"}, [this] { year_->step(1); });
  bind(QKeySequence{"Ctrl+P"}, [bar] { bar->print(); });
  bind(QKeySequence{"Ctrl+Shift+P"}, [bar] { bar->pdf(); });
  bind(QKeySequence{"Ctrl+Shift+S"}, [bar] { bar->csv(); });
  turnToPlace(0);
}

std::size_t BooksPage::placeOf(BooksView view) {
  std::size_t place = 0;
  while (place + 1 < std::size(kViews) && kViews[place].view != view)
    ++place;
  return place;
}

BooksPanel* BooksPage::panel(std::size_t place) {
  BooksPanel*& made = panels_[place];
  if (made != nullptr) return made;
  made = kViews[place].make(session(), this);
  stack_->addWidget(made);
  connect(made, &BooksPanel::said, this, &Page::wantsSaid);
  connect(made, &BooksPanel::wantsMachine, this, &Page::wantsMachine);
  connect(made, &BooksPanel::wantsPage, this, [this](const QString& to) { emit wantsPage(to, MachineId{}); });
  connect(made, &BooksPanel::wantsView, this, &BooksPage::turnTo);
  connect(made, &BooksPanel::wantsYear, this, [this](int year) {
    year_->setYear(year);
    stale_.fill(true);
    showCurrent();
  });
  connect(made, &BooksPanel::wantsTrips, this, [this] {
    turnTo(BooksView::money_out);
    static_cast<MoneyOutPanel*>(current())->showTrips();
  });
  return made;
}

void BooksPage::turnTo(BooksView view) {
  const auto place = static_cast<int>(placeOf(view));
  words_->setCurrent(place);
  turnToPlace(place);
}

void BooksPage::turnToPlace(int place) {
  BooksPanel* shown = panel(static_cast<std::size_t>(place));
  stack_->setCurrentWidget(shown);
  year_->setVisible(shown->isAboutAYear());
  if (!isVisible()) return;
  showCurrent();
  shown->start();
}

void BooksPage::showCurrent() {
  const int this_year = int{session().today().year()};
  std::pair<int, int> years{this_year, this_year};
  if (const auto dated = session().books()->years())
    years = {std::min(dated->first, this_year), std::max(dated->second, this_year)};
  year_->setLimits(years.first, years.second);
  const auto place = static_cast<std::size_t>(words_->current());
  if (!std::exchange(stale_[place], false)) return;
  BooksPanel* shown = panel(place);
  shown->setYear(year_->year());
  shown->refresh();
}

Report BooksPage::report() {
  showCurrent();
  Report made = current()->report();
  const QString shop = QString::fromStdString(session().shop()->settings.name);
  const QString day = tr("as of %1").arg(QString::fromStdString(shown(session().today())));
  made.subtitle = shop.isEmpty() ? day : QStringLiteral("%1, %2").arg(shop, day);
  made.notes << noTaxAdvice();
  return made;
}

std::vector<Page::Deed> BooksPage::deeds() {
  std::vector<Deed> all;
  for (const View& view : kViews)
    all.push_back({tr(view.deed), view.key, [this, which = view.view] {
                     emit wantsPage(word(), MachineId{});
                     turnTo(which);
                   }});
  const std::pair<QString, GroupBy> groups[]{{tr("what each kind earned"), GroupBy::kind},
                                             {tr("what each source earned"), GroupBy::source},
                                             {tr("what each make earned"), GroupBy::make},
                                             {tr("what each month earned"), GroupBy::month},
                                             {tr("what each year earned"), GroupBy::year}};
  for (const auto& [words, by] : groups)
    all.push_back({words, {}, [this, group = by] {
                     emit wantsPage(word(), MachineId{});
                     turnTo(BooksView::machines);
                     static_cast<MachinesPanel*>(current())->groupBy(group);
                   }});
  return all;
}

}  // namespace

Page* makeBooksPage(Session& session, QWidget* parent) {
  return new BooksPage{session, parent};
}

}  // namespace secondpull::app
