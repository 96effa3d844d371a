#include "app/frame/main_window.h"

#include <QApplication>
#include <QCheckBox>
#include <QCloseEvent>
#include <QComboBox>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QShortcut>
#include <QStackedWidget>
#include <QTextEdit>
#include <QVBoxLayout>

#include "app/frame/ask_bar.h"
#include "app/frame/clock_keeper.h"
#include "app/frame/history_page.h"
#include "app/frame/own_settings.h"
#include "app/frame/session.h"
#include "app/frame/settings_page.h"
#include "app/frame/what_now.h"
#include "app/frame/wire.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr QSize kUsualSize{1280, 800};
constexpr int kHandKeys = 6;  // Ctrl+1 to Ctrl+6 open the machines in hand

/// Can what has the focus take back something of its own?
bool hasOwnUndo(QWidget* widget, bool redo) {
  if (auto* line = qobject_cast<QLineEdit*>(widget))
    return redo ? line->isRedoAvailable() : line->isUndoAvailable();
  if (auto* plain = qobject_cast<QPlainTextEdit*>(widget))
    return redo ? plain->document()->isRedoAvailable() : plain->document()->isUndoAvailable();
  if (auto* rich = qobject_cast<QTextEdit*>(widget))
    return redo ? rich->document()->isRedoAvailable() : rich->document()->isUndoAvailable();
  return false;
}

bool isTyping(QWidget* widget) {
  auto* combo = qobject_cast<QComboBox*>(widget);
  return qobject_cast<QLineEdit*>(widget) != nullptr || qobject_cast<QPlainTextEdit*>(widget) != nullptr ||
         qobject_cast<QTextEdit*>(widget) != nullptr || (combo != nullptr && combo->isEditable());
}

}  // namespace

MainWindow::MainWindow(Session& session, std::span<const PageEntry> pages)
    : session_{session}, entries_{pages}, currency_{session.currency()}, points_{font().pointSizeF()} {
  setObjectName("mainWindow");
  auto* middle = new QWidget{this};
  auto* layout = new QVBoxLayout{middle};
  layout->setContentsMargins(0, 0, 0, 0);
  layout->setSpacing(0);
  wire_ = new Wire{middle};
  stack_ = new QStackedWidget{middle};
  ask_ = new AskBar{middle};
  const Ways ways{[this](MachineId machine) { openMachine(machine); },
                  [this](const QString& word) { goTo(word); },
                  [this](const QString& sentence) { what_now_->say(sentence); }};
  what_now_ =
      new WhatNow{[this, ways](const QString& typed) { return findWhatNow(typed, session_, deeds(), ways); },
                  middle, middle};
  clock_ = new ClockKeeper{session, *ask_, this};
  layout->addWidget(wire_);
  layout->addWidget(stack_, 1);
  layout->addWidget(ask_);
  layout->addWidget(what_now_);
  setCentralWidget(middle);

  std::vector<Wire::Word> words;
  for (const PageEntry& entry : entries_)
    words.push_back({tr(entry.word), QKeySequence{entry.key}, entry.small});
  words.push_back({tr("History"), QKeySequence{"Ctrl+H"}, true, QStringLiteral("history")});
  words.push_back({tr("Settings"), QKeySequence{"Ctrl+,"}, true, QStringLiteral("settings")});
  wire_->setWords(words);
  connect(wire_, &Wire::wordChosen, this, [this](const QString& word) { goTo(word); });
  connect(wire_, &Wire::machineChosen, this, &MainWindow::openMachine);
  connect(wire_, &Wire::clockChosen, clock_, &ClockKeeper::askToStop);
  connect(clock_, &ClockKeeper::ticked, this, &MainWindow::showClock);
  connect(clock_, &ClockKeeper::wentWrong, this,
          [this](const QString& sentence) { what_now_->say(sentence, true); });
  connect(&session, &Session::said, this, [this](const QString& sentence) { what_now_->say(sentence); });
  connect(&session, &Session::inHandChanged, this, &MainWindow::showWire);
  connect(&session, &Session::clockChanged, this, &MainWindow::showClock);
  connect(&session, &Session::changed, this, [this](const std::vector<AnyId>& ids) {
    for (const auto& [word, page] : pages_)
      page->refresh(ids);
    showWire();
    showClock();
    showTitle();
    if (session_.currency() != currency_) remakeLater();
  });
  makeKeys();
  qApp->installEventFilter(this);
  showWire();
  showClock();
  showTitle();
  if (!entries_.empty()) goTo(tr(entries_.front().word));
  resize(kUsualSize);
  if (const QByteArray geometry = OwnSettings::geometry(); !geometry.isEmpty()) restoreGeometry(geometry);
  QMetaObject::invokeMethod(clock_, &ClockKeeper::askIfForgotten, Qt::QueuedConnection);
}

MainWindow::~MainWindow() {
  qApp->removeEventFilter(this);
}

void MainWindow::makeKeys() {
  const auto bind = [this](const QKeySequence& key, auto run) {
    connect(new QShortcut{key, this}, &QShortcut::activated, this, run);
  };
  for (const PageEntry& entry : entries_)
    bind(QKeySequence{entry.key}, [this, word = tr(entry.word)] { goTo(word); });
  for (const char* key : {"Ctrl+K", "/"})
    bind(QKeySequence{key}, [this] { what_now_->go(); });
  bind(QKeySequence{"Ctrl+Z"}, [this] { undo(); });
  bind(QKeySequence{"Ctrl+Shift+Z"}, [this] { redo(); });
  bind(QKeySequence{"Ctrl+T"}, [this] { clock_->toggle(); });
  bind(QKeySequence{"Ctrl+H"}, [this] { goTo(tr("History")); });
  bind(QKeySequence{"Ctrl+,"}, [this] { goTo(tr("Settings")); });
  for (int place = 0; place < kHandKeys; ++place)
    bind(QKeySequence{Qt::CTRL | static_cast<Qt::Key>(Qt::Key_1 + place)}, [this, place] {
      const std::vector<MachineId> in_hand = session_.inHand();
      if (const auto at = static_cast<std::size_t>(place); at < in_hand.size()) openMachine(in_hand[at]);
    });
}

Page* MainWindow::add(Page* page) {
  pages_.emplace(page->word(), page);
  stack_->addWidget(page);
  connect(page, &Page::wantsMachine, this, &MainWindow::openMachine);
  connect(page, &Page::wantsPage, this, &MainWindow::goTo);
  connect(page, &Page::wantsSaid, what_now_, &WhatNow::say);
  bindDeeds(*page);
  return page;
}

/// A deed's key works while its page is shown, unless the page has bound it itself.
void MainWindow::bindDeeds(Page& page) {
  const QList<QShortcut*> own = page.findChildren<QShortcut*>();
  for (const Page::Deed& deed : page.deeds()) {
    const bool bound = deed.key.isEmpty() || std::any_of(own.begin(), own.end(), [&](const QShortcut* at) {
                         return at->keys().contains(deed.key);
                       });
    if (bound) continue;
    connect(new QShortcut{deed.key, &page}, &QShortcut::activated, &page, [&page, key = deed.key] {
      for (const Page::Deed& now : page.deeds())
        if (now.key == key) return now.run();
    });
  }
}

Page* MainWindow::page(const QString& word) {
  if (const auto found = pages_.find(word); found != pages_.end()) return found->second;
  for (const PageEntry& entry : entries_)
    if (tr(entry.word) == word) return add(entry.make(session_, stack_));
  if (word == tr("History")) {
    auto* history = new HistoryPage{session_, stack_};
    connect(history, &HistoryPage::wantsUndo, this, &MainWindow::undo);
    connect(history, &HistoryPage::wantsRedo, this, &MainWindow::redo);
    return add(history);
  }
  if (word == tr("Settings")) {
    auto* settings = new SettingsPage{session_, stack_};
    connect(settings, &SettingsPage::wantsBack, this, &MainWindow::goBack);
    return add(settings);
  }
  return nullptr;
}

QString MainWindow::currentWord() const {
  const auto* current = qobject_cast<const Page*>(stack_->currentWidget());
  return current != nullptr ? current->word() : QString{};
}

void MainWindow::goTo(const QString& word, MachineId about) {
  Page* to = page(word);
  if (to == nullptr) return;
  if (currentWord() != word) before_ = currentWord();
  stack_->setCurrentWidget(to);
  wire_->setCurrent(word);
  if (about != MachineId{}) {
    session_.takeInHand(about);
    to->openMachine(about);
  }
  wire_->setCurrentMachine(about != MachineId{} ? std::optional{about} : std::nullopt);
  to->start();
}

void MainWindow::goBack() {
  goTo(before_.isEmpty() && !entries_.empty() ? tr(entries_.front().word) : before_);
}

void MainWindow::remakeLater() {
  if (std::exchange(remaking_, true)) return;
  QMetaObject::invokeMethod(
      this, [this] { remakePages(); }, Qt::QueuedConnection);
}

void MainWindow::remakePages() {
  remaking_ = false;
  points_ = font().pointSizeF();
  currency_ = session_.currency();
  const QString word = currentWord();
  for (const auto& [name, page] : std::exchange(pages_, {})) {
    stack_->removeWidget(page);
    page->deleteLater();
  }
  goTo(word);
}

void MainWindow::openMachine(MachineId machine) {
  goTo(tr("Bench"), machine);
}

void MainWindow::logWhatIsHere() {
  Page* yard = page(tr("Yard"));
  if (yard == nullptr) return;
  goTo(yard->word());
  for (const Page::Deed& deed : yard->deeds())
    if (deed.words == tr("log a machine")) deed.run();
  if (auto* opening = yard->findChild<QCheckBox*>("openingBox")) opening->setChecked(true);
}

void MainWindow::undo() {
  const std::vector<db::HistoryEntry> history = session_.history();
  const auto last =
      std::find_if(history.begin(), history.end(), [](const auto& entry) { return !entry.undone; });
  if (last == history.end()) return what_now_->say(tr("There is nothing to take back."));
  if (!last->undoable) return report(session_.undo());
  if (const std::vector<int> years = session_.yearsUndoOpens(); !years.empty()) {
    ask_->ask(tr("“%1” is the last thing done. Taking it back opens %2 again, and its figures can move.")
                  .arg(QString::fromStdString(last->title))
                  .arg(years.front()),
              {{tr("Open %1 again").arg(years.front()), [this] { report(session_.undo()); }},
               {tr("Leave it closed"), {}}});
    return;
  }
  if (last->this_sitting) return report(session_.undo());
  const QDateTime at = QDateTime::fromMSecsSinceEpoch(last->at.time_since_epoch().count());
  ask_->ask(tr("“%1” was done in an earlier sitting, on %2. Take it back?")
                .arg(QString::fromStdString(last->title), QLocale::c().toString(at, "d MMMM yyyy, HH:mm")),
            {{tr("Take it back"), [this] { report(session_.undo()); }}, {tr("Leave it"), {}}});
}

void MainWindow::redo() {
  const std::vector<db::HistoryEntry> history = session_.history();
  if (std::none_of(history.begin(), history.end(), [](const auto& entry) { return entry.undone; }))
    return what_now_->say(tr("There is nothing to do again."));
  report(session_.redo());
}

void MainWindow::report(const std::optional<Problem>& problem) {
  if (problem) what_now_->say(QString::fromStdString(problem->sentence), true);
}

std::vector<Page::Deed> MainWindow::deeds() {
  std::vector<Page::Deed> all;
  auto* current = qobject_cast<Page*>(stack_->currentWidget());
  if (current != nullptr) all = current->deeds();
  const bool has_clock = std::any_of(
      all.begin(), all.end(), [](const Page::Deed& deed) { return deed.key == QKeySequence{"Ctrl+T"}; });
  if (!has_clock)
    all.push_back({session_.clock() ? tr("stop the clock") : tr("start the clock"), QKeySequence{"Ctrl+T"},
                   [this] { clock_->toggle(); }});
  all.push_back({tr("undo: take back the last"), QKeySequence{"Ctrl+Z"}, [this] { undo(); }});
  all.push_back({tr("redo: do it again"), QKeySequence{"Ctrl+Shift+Z"}, [this] { redo(); }});
  for (const PageEntry& entry : entries_) {
    Page* other = page(tr(entry.word));
    if (other == current) continue;
    all.push_back({tr("go to %1").arg(other->word()), QKeySequence{entry.key},
                   [this, word = other->word()] { goTo(word); }});
  }
  std::vector<QString> words;
  for (const PageEntry& entry : entries_)
    words.push_back(tr(entry.word));
  words.push_back(tr("Settings"));
  for (const QString& word : words) {
    Page* other = page(word);
    if (other == current) continue;
    for (Page::Deed& deed : other->deeds()) {
      // Its key works on its own page alone, so it is not shown here; what it does is done there.
      all.push_back({deed.words, {}, [this, word, run = deed.run] {
                       goTo(word);
                       run();
                     }});
    }
  }
  all.push_back({tr("history of what was done"), QKeySequence{"Ctrl+H"}, [this] { goTo(tr("History")); }});
  all.push_back({tr("settings"), QKeySequence{"Ctrl+,"}, [this] { goTo(tr("Settings")); }});
  all.push_back({tr("open another shop"), {}, [this] { emit wantsOtherShop(); }});
  return all;
}

void MainWindow::showWire() {
  std::vector<Wire::Tag> tags;
  const std::shared_ptr<const Books> books = session_.books();
  int place = 0;
  for (const MachineId machine : session_.inHand()) {
    const std::string where = standing(*session_.shop(), books->by_machine().of(machine), session_.today());
    tags.push_back({machine, session_.tagOf(machine),
                    QString{"%1, %2   Ctrl+%3"}
                        .arg(session_.nameOf(machine), QString::fromStdString(where))
                        .arg(++place)});
  }
  wire_->setTags(tags);
}

void MainWindow::showClock() {
  const std::optional<db::Clock> clock = session_.clock();
  wire_->setClock(
      clock ? std::optional{Wire::Running{clock->machine, session_.tagOf(clock->machine), clock_->time()}}
            : std::nullopt);
}

void MainWindow::showTitle() {
  const QString shop = QString::fromStdString(session_.shop()->settings.name);
  setWindowTitle(shop.isEmpty() ? tr("Second Pull") : tr("%1 – Second Pull").arg(shop));
}

bool MainWindow::eventFilter(QObject* watched, QEvent* event) {
  auto* widget = qobject_cast<QWidget*>(watched);
  if (widget == nullptr || widget->window() != this) return QMainWindow::eventFilter(watched, event);
  if (event->type() == QEvent::ShortcutOverride) {
    // A field claims undo and redo for itself even when it has nothing to take back; then they are the
    // window's.
    auto* key = static_cast<QKeyEvent*>(event);
    const bool undo_key = key->matches(QKeySequence::Undo), redo_key = key->matches(QKeySequence::Redo);
    if ((undo_key || redo_key) && isTyping(widget) && !hasOwnUndo(widget, redo_key)) {
      event->ignore();
      return true;
    }
  }
  if (event->type() == QEvent::KeyPress) {
    auto* key = static_cast<QKeyEvent*>(event);
    if (key->key() == Qt::Key_Plus && (key->modifiers() & Qt::KeypadModifier) != 0 && widget->hasFocus() &&
        !isTyping(widget)) {
      clock_->toggle();
      return true;
    }
  }
  return QMainWindow::eventFilter(watched, event);
}

void MainWindow::changeEvent(QEvent* event) {
  QMainWindow::changeEvent(event);
  if (event->type() == QEvent::FontChange && font().pointSizeF() != points_) remakeLater();
  if (event->type() == QEvent::ActivationChange && isActiveWindow() && ask_->isHidden())
    clock_->askIfForgotten();
}

void MainWindow::closeEvent(QCloseEvent* event) {
  OwnSettings::setGeometry(saveGeometry());
  QMainWindow::closeEvent(event);
}

}  // namespace secondpull::app
