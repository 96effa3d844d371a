#include "app/lessons/lessons_page.h"

#include <array>

#include <QShortcut>
#include <QStackedLayout>
#include <QVBoxLayout>

#include "app/frame/page.h"
#include "app/lessons/forecasts_panel.h"
#include "app/lessons/hours_panel.h"
#include "app/lessons/knowledge_panel.h"
#include "app/lessons/pays_panel.h"
#include "app/lessons/sells_panel.h"
#include "app/lessons/works_panel.h"
#include "app/parts/choices.h"
#include "app/parts/look.h"
#include "app/print/report_bar.h"

namespace secondpull::app {
namespace {

template <class Panel>
LessonsPanel* make(Session& session, QWidget* parent) {
  return new Panel(session, parent);
}

/// A sub-page: its word, what the What-now line calls it, its key.
struct View {
  const char* word;
  const char* deed;
  Qt::Key key;
  LessonsPanel* (*make)(Session&, QWidget*);
};

constexpr View kViews[] = {
    {QT_TRANSLATE_NOOP("LessonsPage", "What works"),
     QT_TRANSLATE_NOOP("LessonsPage", "see what works for me"), Qt::Key_F5, &make<WorksPanel>},
    {QT_TRANSLATE_NOOP("LessonsPage", "What pays"),
     QT_TRANSLATE_NOOP("LessonsPage", "see what pays by the hour"), Qt::Key_F6, &make<PaysPanel>},
    {QT_TRANSLATE_NOOP("LessonsPage", "What sells"),
     QT_TRANSLATE_NOOP("LessonsPage", "see what sells how fast"), Qt::Key_F7, &make<SellsPanel>},
    {QT_TRANSLATE_NOOP("LessonsPage", "Forecasts"),
     QT_TRANSLATE_NOOP("LessonsPage", "see whether forecasts held"), Qt::Key_F8, &make<ForecastsPanel>},
    {QT_TRANSLATE_NOOP("LessonsPage", "Hours"), QT_TRANSLATE_NOOP("LessonsPage", "see what an hour is worth"),
     Qt::Key_F9, &make<HoursPanel>},
    {QT_TRANSLATE_NOOP("LessonsPage", "Knowledge base"),
     QT_TRANSLATE_NOOP("LessonsPage", "read or change the knowledge base"), Qt::Key_F10,
     &make<KnowledgePanel>},
};

QStringList words();

class LessonsPage : public Page {
 public:
  LessonsPage(Session& session, QWidget* parent);

  QString word() const override { return tr("Lessons"); }
  QString iconName() const override { return QStringLiteral("lessons"); }
  QKeySequence key() const override { return {Qt::ALT | Qt::Key_7}; }
  void refresh(const std::vector<AnyId>&) override {
    stale_.fill(true);
    if (isVisible()) showCurrent();
  }
  void start() override { panel(place())->start(); }
  std::vector<Deed> deeds() override;

 protected:
  void showEvent(QShowEvent* event) override {
    Page::showEvent(event);
    showCurrent();
  }

 private:
  std::size_t place() const { return static_cast<std::size_t>(words_->current()); }
  LessonsPanel* panel(std::size_t place);
  void turnTo(int place);
  void showCurrent();
  Report report();

  WordRow* words_;
  QStackedLayout* stack_;
  std::array<LessonsPanel*, std::size(kViews)> panels_{};
  std::array<bool, std::size(kViews)> stale_{};
};

QStringList words() {
  QStringList all;
  for (const View& view : kViews)
    all << LessonsPage::tr(view.word);
  return all;
}

LessonsPage::LessonsPage(Session& session, QWidget* parent)
    : Page(session, parent),
      words_{new WordRow(tr("What is shown"), words(), this)},
      stack_{new QStackedLayout} {
  setObjectName(QStringLiteral("lessonsPage"));
  words_->setObjectName(QStringLiteral("lessonsWords"));
  stale_.fill(true);
  auto* bar = new ReportBar([this] { return report(); }, this);
  connect(bar, &ReportBar::said, this, &Page::wantsSaid);
  auto* head = new QHBoxLayout;
  head->setSpacing(3 * kGrid);
  head->addWidget(words_, 1);
  head->addWidget(bar);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(3 * kGrid, 2 * kGrid, 3 * kGrid, kGrid);
  column->setSpacing(2 * kGrid);
  column->addLayout(head);
  column->addLayout(stack_, 1);
  connect(words_, &WordRow::chosen, this, &LessonsPage::turnTo);

  const auto bind = [this](const QKeySequence& keys, const std::function<void()>& run) {
    auto* shortcut = new QShortcut(keys, this);
    shortcut->setContext(Qt::WidgetWithChildrenShortcut);
    connect(shortcut, &QShortcut::activated, this, run);
  };
  for (int at = 0; at < static_cast<int>(std::size(kViews)); ++at)
    bind(kViews[at].key, [this, at] {
      words_->setCurrent(at);
      turnTo(at);
    });
  bind(QKeySequence{"Ctrl+P"}, [bar] { bar->print(); });
  bind(QKeySequence{"Ctrl+Shift+P"}, [bar] { bar->pdf(); });
  bind(QKeySequence{"Ctrl+Shift+S"}, [bar] { bar->csv(); });
  turnTo(0);
}

LessonsPanel* LessonsPage::panel(std::size_t place) {
  LessonsPanel*& made = panels_[place];
  if (made != nullptr) return made;
  made = kViews[place].make(session(), this);
  stack_->addWidget(made);
  connect(made, &LessonsPanel::said, this, &Page::wantsSaid);
  connect(made, &LessonsPanel::wantsMachine, this, &Page::wantsMachine);
  connect(made, &LessonsPanel::wantsPage, this,
          [this](const QString& to) { emit wantsPage(to, MachineId{}); });
  return made;
}

void LessonsPage::turnTo(int at) {
  LessonsPanel* shown = panel(static_cast<std::size_t>(at));
  stack_->setCurrentWidget(shown);
  if (!isVisible()) return;
  showCurrent();
  shown->start();
}

void LessonsPage::showCurrent() {
  if (!std::exchange(stale_[place()], false)) return;
  panel(place())->refresh();
}

Report LessonsPage::report() {
  showCurrent();
  Report made = panel(place())->report();
  const QString shop = QString::fromStdString(session().shop()->settings.name);
  const QString day = tr("as of %1").arg(QString::fromStdString(shown(session().today())));
  made.subtitle = shop.isEmpty() ? day : QStringLiteral("%1, %2").arg(shop, day);
  return made;
}

std::vector<Page::Deed> LessonsPage::deeds() {
  std::vector<Deed> all;
  for (int at = 0; at < static_cast<int>(std::size(kViews)); ++at)
    all.push_back({tr(kViews[at].deed), kViews[at].key, [this, at] {
                     emit wantsPage(word(), MachineId{});
                     words_->setCurrent(at);
                     turnTo(at);
                   }});
  return all;
}

}  // namespace

Page* makeLessonsPage(Session& session, QWidget* parent) {
  return new LessonsPage{session, parent};
}

}  // namespace secondpull::app
