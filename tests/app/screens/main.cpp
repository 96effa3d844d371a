// Draws every page of the program, and looks over each picture for what a machine can see: that it is not
// blank and that no label or button is smaller than its text. The rest is for eyes.
//   screens [FOLDER] [WORD] [POINTS]     WORD: only the pages whose name holds it; POINTS: the size of the
//   text

#include <cstdio>

#include <QAbstractButton>
#include <QApplication>
#include <QDeadlineTimer>
#include <QDir>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QPixmap>
#include <QPushButton>
#include <QSettings>
#include <QStandardPaths>
#include <QTableWidget>
#include <QTemporaryDir>

#include "app/books/year_chooser.h"
#include "app/frame/data_panel.h"
#include "app/frame/first_run.h"
#include "app/frame/main_window.h"
#include "app/frame/session.h"
#include "app/frame/what_now.h"
#include "app/lessons/knowledge_panel.h"
#include "app/parts/choices.h"
#include "app/parts/form.h"
#include "app/parts/look.h"
#include "app/planning/planning.h"
#include "app/print/report_bar.h"
#include "core/books/closing.h"
#include "core/learning/knowledge_base.h"
#include "db/exchange/exchange.h"
#include "tests/app/screens/papers.h"
#include "tests/app/screens/sale_moments.h"

using namespace secondpull;
using namespace secondpull::app;

namespace {

constexpr QSize kSizes[] = {{1280, 800}, {1920, 1080}};
constexpr int kLeastColours = 12;  // fewer different ones in a picture: it is blank
constexpr int kSlack = 2;          // rounding of a label's place
const std::chrono::sys_days kDay = std::chrono::year{2026} / 11 / 25;

db::Instant noon() {
  return kDay + std::chrono::hours{18};
}

int faults = 0;

void fault(const QString& picture, const QString& what) {
  std::fprintf(stderr, "%s: %s\n", qUtf8Printable(picture), qUtf8Printable(what));
  ++faults;
}

bool isBlank(const QImage& image) {
  QSet<QRgb> colours;
  for (int y = 0; y < image.height(); y += 3)
    for (int x = 0; x < image.width(); x += 3) {
      colours.insert(image.pixel(x, y));
      if (colours.size() > kLeastColours) return false;
    }
  return true;
}

QStringList cutTexts(const QWidget& window) {
  QStringList cut;
  for (const QWidget* widget : window.findChildren<QWidget*>()) {
    if (!widget->isVisible()) continue;
    const auto* label = qobject_cast<const QLabel*>(widget);
    const auto* button = qobject_cast<const QPushButton*>(widget);
    if (label == nullptr && button == nullptr) continue;
    const QString text = label != nullptr ? label->text() : button->text();
    if (text.isEmpty() ||
        (label != nullptr && label->sizePolicy().horizontalPolicy() == QSizePolicy::Ignored))
      continue;
    const QSize wanted = label != nullptr && label->wordWrap()
                             ? QSize{0, label->heightForWidth(label->width())}
                             : widget->minimumSizeHint();
    if (wanted.width() > widget->width() + kSlack || wanted.height() > widget->height() + kSlack)
      cut << QString{"“%1” is cut off (%2 x %3 of %4 x %5)"}
                 .arg(text.left(60))
                 .arg(widget->width())
                 .arg(widget->height())
                 .arg(wanted.width())
                 .arg(wanted.height());
  }
  return cut;
}

class Screens {
 public:
  Screens(QString folder, QString only) : folder_{std::move(folder)}, only_{std::move(only)} {
    QDir{}.mkpath(folder_);
  }

  void take(QWidget& window, const QString& name, const QSize& size) {
    const QString picture =
        QString{"%1-%2-%3.png"}.arg(name, look().dark ? "dark" : "light").arg(size.width());
    window.resize(size);
    // Layouts settle in a few rounds: wrapped text learns its height from its width. A plan that comes in
    // between has them settle again.
    QStringList cut;
    for (QDeadlineTimer patience{2000}; !patience.hasExpired();) {
      for (int round = 0; round < 3; ++round)
        QApplication::processEvents();
      cut = cutTexts(window);
      if (cut.isEmpty()) break;
    }
    const QPixmap drawn = window.grab();
    if (isBlank(drawn.toImage())) fault(picture, "is blank");
    for (const QString& each : cut)
      fault(picture, each);
    if (!drawn.save(folder_ + "/" + picture)) fault(picture, "cannot be written");
  }
  QString path(const QString& file) const { return folder_ + "/" + file; }
  bool wants(const QString& name) const { return only_.isEmpty() || name.contains(only_); }

 private:
  QString folder_, only_;
};

QString fileWord(QString word) {
  return word.toLower().replace(' ', '-');
}

/// Plans come in the background: a picture waits for them.
void waitForPlans(Session& session) {
  session.planning().backlog();
  for (QDeadlineTimer patience{20000}; !session.planning().isSettled() && !patience.hasExpired();)
    QApplication::processEvents(QEventLoop::WaitForMoreEvents, 50);
  // The Yard shows plans a dozen at a time.
  for (QDeadlineTimer shown{300}; !shown.hasExpired();)
    QApplication::processEvents(QEventLoop::AllEvents, 50);
}

/// The card of a machine at each moment of its way over the bench.
void drawBench(Screens& screens, Session& session, MainWindow& window) {
  if (!screens.wants("bench-moments")) return;
  for (const planning::Waiting& waiting : session.planning().backlog().machines) {
    const QString tag = session.tagOf(waiting.machine);
    for (const Theme theme : {Theme::light, Theme::dark}) {
      setTheme(*qApp, theme);
      window.openMachine(waiting.machine);
      waitForPlans(session);
      screens.take(window, "bench-moments-" + tag, kSizes[0]);
    }
  }
}

/// A find with something said of it: what to offer, and what to ask.
void drawScout(Screens& screens, MainWindow& window) {
  if (!screens.wants("scout-find")) return;
  for (const Theme theme : {Theme::light, Theme::dark}) {
    setTheme(*qApp, theme);
    window.goTo("Scout");
    const auto put = [&](const char* name, const char* text) {
      if (auto* field = window.findChild<QLineEdit*>(name)) field->setText(text);
    };
    put("findSymptom", "pulls over, does not start");
    put("findAsking", "20");
    put("findMiles", "12");
    const QLabel* offer = window.findChild<QLabel*>("scoutOffer");
    for (QDeadlineTimer patience{20000};
         offer != nullptr && offer->text().isEmpty() && !patience.hasExpired();)
      QApplication::processEvents(QEventLoop::WaitForMoreEvents, 50);
    for (QDeadlineTimer questions{10000};
         window.findChild<QWidget*>("scoutAnswer1") == nullptr && !questions.hasExpired();)
      QApplication::processEvents(QEventLoop::WaitForMoreEvents, 50);
    screens.take(window, "scout-find", kSizes[0]);
  }
}

/// Entries of the knowledge base, one of them changed and not saved, one kept as the shop's own.
void drawKnowledge(Screens& screens, MainWindow& window) {
  if (!screens.wants("lessons-knowledge-demo")) return;
  const auto settle = [](const KnowledgePanel& panel) {
    for (QDeadlineTimer patience{120000}; panel.isWorking() && !patience.hasExpired();)
      QApplication::processEvents(QEventLoop::WaitForMoreEvents, 50);
  };
  const auto put = [](QTableWidget* table, const char* id, const char* text) {
    for (int row = 0; row < table->rowCount(); ++row)
      if (table->item(row, 0)->data(Qt::UserRole).toString() == id) table->item(row, 1)->setText(text);
  };
  for (const Theme theme : {Theme::light, Theme::dark}) {
    setTheme(*qApp, theme);
    window.goTo("Lessons");
    for (Page* page : window.findChildren<Page*>())
      for (const Page::Deed& one : page->deeds())
        if (one.words == QString{"read or change the knowledge base"}) one.run();
    auto* panel = window.findChild<KnowledgePanel*>();
    panel->open("repairs", "mend-carb-clean-wb");
    panel->open("symptoms", "nostart-pull");
    put(panel->findChild<QTableWidget*>("knowledge.causes"), "fuel-stale", "60");
    settle(*panel);
    screens.take(window, "lessons-knowledge-demo-symptom", kSizes[0]);
    panel->findChild<QAbstractButton*>("knowledgeSave")->click();
    settle(*panel);
    screens.take(window, "lessons-knowledge-demo-kept", kSizes[0]);
    screens.take(window, "lessons-knowledge-demo-kept", kSizes[1]);
    panel->findChild<QAbstractButton*>("knowledgePublishedAgain")->click();
    panel->open("tests", "test-spark");
    settle(*panel);
    if (auto* table = panel->findChild<QTableWidget*>("knowledge.likelihood"))
      table->item(0, 1)->setText("70");
    settle(*panel);
    panel->findChild<QAbstractButton*>("knowledgeSave")->click();
    screens.take(window, "lessons-knowledge-demo-refused", kSizes[0]);
    panel->findChild<QAbstractButton*>("knowledgeAsItWas")->click();
    panel->open("repairs", "mend-fresh-fuel");
    settle(*panel);
    screens.take(window, "lessons-knowledge-demo-repair", kSizes[0]);
  }
}

/// The sub-pages of the Books, the mileage log, and a year that is over.
void drawBooks(Screens& screens, MainWindow& window, const QString& shop) {
  const char* const names[] = {"machines", "months", "year", "money-out", "sales-tax", "tied-up", "closing"};
  const auto turn = [&](const char* row, int index) {
    auto* words = window.findChild<WordRow*>(row);
    words->setCurrent(index);
    emit words->chosen(index);
  };
  for (int view = 1; view < static_cast<int>(std::size(names)); ++view) {
    const QString name = QString{"books-%1-%2"}.arg(names[view], shop);
    if (!screens.wants(name)) continue;
    for (const Theme theme : {Theme::light, Theme::dark}) {
      setTheme(*qApp, theme);
      window.goTo("Books");
      turn("booksWords", view);
      screens.take(window, name, kSizes[0]);
      if (theme == Theme::dark)  // paper is white in any look
        window.findChild<ReportBar*>()->writePdfTo(screens.path(name + ".pdf"));
      if (QString{names[view]} != "money-out") continue;
      turn("moneyOutWhich", 1);
      screens.take(window, "books-trips-" + shop, kSizes[0]);
      turn("moneyOutWhich", 0);
    }
  }
}

/// Forecasts for the demo shop, which has none: they do not travel in its folder. Invented, somewhat off from
/// what came.
Change someForecasts(const Session& session) {
  Change change{*session.shop(), "Forecasts for the pictures"};
  int at = 0;
  for (const Fault& fault : session.shop()->all<Fault>()) {
    const MachineFigures* figures = session.books()->machine(fault.machine);
    const double chance = 0.45 + 0.1 * (++at % 6);
    const double gross = figures != nullptr && figures->gross_profit
                             ? static_cast<double>(figures->gross_profit->minor()) / 100
                             : 60;
    const double cash = gross + 10 + 17.0 * (at % 5);
    const ForecastId forecast = change.add(Forecast{.machine = fault.machine,
                                                    .fault = fault.id,
                                                    .date = fault.date,
                                                    .chance_revived = chance,
                                                    .cash = cash,
                                                    .low = cash - 45,
                                                    .high = cash + 45,
                                                    .hours = 2.0 + at % 3,
                                                    .days = 20.0 + at % 9,
                                                    .sunk_cash = 30,
                                                    .sunk_hours = 0.5});
    const auto* cause = session.knowledge()->knowledge.cause(fault.cause);
    if (cause != nullptr)
      change.add(ForecastCause{.forecast = forecast, .cause = cause->id, .chance = chance});
    change.add(ForecastCause{.forecast = forecast, .cause = "unlisted", .chance = 1 - chance});
  }
  return change;
}

/// The sub-pages of the Lessons, each with its views.
void drawLessons(Screens& screens, Session& session, MainWindow& window, const QString& shop) {
  if (!screens.wants("lessons-")) return;
  const std::pair<const char*, int> panels[] = {
      {"works", 3}, {"pays", 5}, {"sells", 3}, {"forecasts", 4}, {"hours", 2}};
  const bool foretold = shop == "demo" && !session.perform(someForecasts(session));
  const auto turn = [&](const QString& row, int index) {
    auto* words = window.findChild<WordRow*>(row);
    words->setCurrent(index);
    emit words->chosen(index);
  };
  for (const Theme theme : {Theme::light, Theme::dark}) {
    setTheme(*qApp, theme);
    window.goTo("Lessons");
    for (int at = 0; at < static_cast<int>(std::size(panels)); ++at) {
      const auto [panel, views] = panels[at];
      turn("lessonsWords", at);
      if (QString{panel} == "hours") waitForPlans(session);
      for (int view = 0; view < (shop == "demo" ? views : 1); ++view) {
        turn(QString{panel} + "Views", view);
        screens.take(
            window,
            QString{"lessons-%1-%2%3"}.arg(panel, shop, view > 0 ? QString{"-%1"}.arg(view + 1) : QString{}),
            kSizes[0]);
      }
      turn(QString{panel} + "Views", 0);
    }
    turn("lessonsWords", 0);
  }
  if (foretold) session.undo();
}

/// A year that is closed: its page, and the page of closing.
void drawClosedYear(Screens& screens, Session& session, MainWindow& window) {
  if (!screens.wants("books-closed")) return;
  const Date last = std::chrono::year{2025} / std::chrono::December / 31;
  if (const auto wrong = session.perform(close_year(*session.books(), session.taxRates(), 2025, last)))
    fault("books-closed", QString::fromStdString(wrong->sentence));
  for (const Theme theme : {Theme::light, Theme::dark}) {
    setTheme(*qApp, theme);
    window.goTo("Books");
    window.findChild<YearChooser*>()->setYear(2025);
    auto* words = window.findChild<WordRow*>("booksWords");
    for (const int view : {2, 6}) {
      words->setCurrent(view);
      emit words->chosen(view);
      screens.take(window, QString{"books-closed-%1"}.arg(view == 6 ? "closing" : "year"), kSizes[0]);
    }
  }
  session.undo();
}

/// Forms that open where a person looks for them.
void drawForms(Screens& screens, MainWindow& window) {
  const std::tuple<const char*, const char*, const char*> forms[] = {
      {"For sale", "give money back on a machine that stays sold", "form-money-back"},
      {"For sale", "a machine came back", "form-came-back"},
      {"For sale", "sell the machine in hand", "form-sale"},
      {"For sale", "change the asking price", "form-asking"},
      {"For sale", "write down an offer", "form-offer"},
      {"For sale", "take a machine in without a sale", "form-take-in"},
      {"For sale", "write the words of a listing", "form-listing"},
      {"For sale", "who comes when", "form-coming"},
      {"Shelf", "place an order", "form-order"},
      {"Shelf", "sell a part by itself", "form-sell-part"},
      {"Shelf", "a part turned up", "form-found-part"}};
  for (const auto& [word, deed, name] : forms) {
    if (!screens.wants(name)) continue;
    setTheme(*qApp, Theme::light);
    window.goTo(word);
    for (Page* page : window.findChildren<Page*>())
      for (const Page::Deed& one : page->deeds())
        if (one.words == QString{deed}) one.run();
    waitForSuggestion(window);
    screens.take(window, name, kSizes[0]);
  }
}

/// What is printed, as PDF.
void drawPapers(Screens& screens, Session& session, MainWindow& window) {
  if (!screens.wants("papers")) return;
  window.goTo("Scout");
  for (Page* page : window.findChildren<Page*>())
    for (const Page::Deed& one : page->deeds())
      if (one.words == QString{"pocket card: most to pay"}) one.run();
  waitForPlans(session);
  const QWidget* table = nullptr;
  for (QDeadlineTimer patience{20000}; table == nullptr && !patience.hasExpired();
       table = window.findChild<QWidget*>("pocketTable"))
    QApplication::processEvents(QEventLoop::WaitForMoreEvents, 50);
  for (const QString& wrong : writePapers(session, window, screens.path({})))
    fault("papers", wrong);
}

/// What For sale says of a machine at each moment of its sale.
void drawSale(Screens& screens, Session& session, MainWindow& window) {
  if (!screens.wants("sale-moments")) return;
  const auto take = [&](const QString& name) { screens.take(window, "sale-moments-" + name, kSizes[0]); };
  for (const QString& wrong : drawSaleMoments(session, window, take))
    fault("sale-moments", wrong);
}

void draw(Screens& screens, Session& session, const QString& shop) {
  MainWindow window(session);
  window.show();
  std::vector<QString> words;
  for (const PageEntry& entry : pageEntries())
    words.push_back(entry.word);
  for (const char* word : {"History", "Settings"})
    words.push_back(word);
  std::optional<MachineId> machine;
  if (const auto in_hand = session.inHand(); !in_hand.empty()) machine = in_hand.front();
  for (const QString& word : words) {
    const QString name = fileWord(word) + "-" + shop;
    if (!screens.wants(name)) continue;
    for (const Theme theme : {Theme::light, Theme::dark}) {
      setTheme(*qApp, theme);
      window.goTo(word, word == "Bench" && machine ? *machine : MachineId{});
      if (word == "Bench" || word == "Yard") waitForPlans(session);
      if (word == "For sale") waitForSuggestion(window);
      for (const QSize& size : kSizes)
        screens.take(window, name, size);
    }
  }
  drawBooks(screens, window, shop);
  drawLessons(screens, session, window, shop);
  if (shop == "demo") {
    drawBench(screens, session, window);
    drawScout(screens, window);
    drawKnowledge(screens, window);
    drawForms(screens, window);
    drawSale(screens, session, window);
    drawClosedYear(screens, session, window);
    drawPapers(screens, session, window);
  }
  if (screens.wants("what-now-" + shop))
    for (const Theme theme : {Theme::light, Theme::dark}) {
      setTheme(*qApp, theme);
      window.goTo("Yard");
      window.findChild<WhatNow*>("whatNow")->go();
      screens.take(window, "what-now-" + shop, kSizes[0]);
    }
}

/// What an import shows that found faults in its folder.
void drawImportErrors(Screens& screens, Session& session, const QString& folder) {
  const auto write = [&](const char* name, const char* text) {
    QFile file{folder + "/" + name};
    if (!QDir{}.mkpath(folder) || !file.open(QIODevice::WriteOnly) || file.write(text) < 0)
      fault("import-errors", file.errorString());
  };
  write("shop.csv", "name,currency\nWendle,USD\n");
  write("people.csv", "person,name,shoe_size\nP1,Ruel,44\n");
  write("acquisitions.csv",
        "acquisition,date,source,price\nL1,2026-02-30,private,100.00\nL2,2026-03-01,found,ten\n");
  write("machines.csv", "tag,acquisition,kind\nM1,L1,pusher\nM2,L9,push\n");
  MainWindow window(session);
  window.show();
  window.goTo("Settings");
  auto* panel = window.findChild<DataPanel*>("dataPanel");
  panel->importFrom(folder.toStdString());
  const QLabel* told = panel->findChild<QLabel*>("dataTold");
  for (QDeadlineTimer patience{10000}; told->isHidden() && !patience.hasExpired();)
    QApplication::processEvents(QEventLoop::WaitForMoreEvents, 50);
  for (const Theme theme : {Theme::light, Theme::dark}) {
    setTheme(*qApp, theme);
    screens.take(window, "import-errors", kSizes[0]);
  }
  write("mowers.csv", "No,Brand,Bought,Paid,Date sold,Sale price\n7,Tarnwick,3/4/26,$40,5/1/26,$160\n");
  panel->openSheet((folder + "/mowers.csv").toStdString());
  screens.take(window, "import-sheet", kSizes[0]);
}

/// Some machines in hand and a clock that runs, so that the wire has something to carry.
void takeSomeInHand(Session& session) {
  std::vector<MachineId> here;
  for (const MachineFigures& figures : session.books()->machines())
    if (is_here(figures.stage)) here.push_back(figures.machine);
  for (std::size_t i = 0; i < std::min<std::size_t>(here.size(), 5); ++i)
    session.takeInHand(here[i]);
  if (!here.empty()) session.startClock(here[std::min<std::size_t>(here.size(), 5) - 1]);
}

}  // namespace

int main(int argc, char** argv) {
  const QTemporaryDir own;
  QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, own.path());
  QStandardPaths::setTestModeEnabled(true);
  QApplication program(argc, argv);
  const QStringList call = QApplication::arguments();
  if (call.size() > 3) setTextPoints(call[3].toDouble());
  setTheme(program, Theme::light);
  Screens screens(call.size() > 1 ? call[1] : QString{SECONDPULL_SCREENS},
                  call.size() > 2 ? call[2] : QString{});

  const auto shopOf = [&](const char* name) {
    return std::filesystem::path{(own.path() + "/" + name).toStdString()};
  };
  {
    const db::ImportResult read = db::read_folder(SECONDPULL_SOURCE_DIR "/demo-data/shop", Shop{});
    for (const db::ImportError& error : read.errors)
      fault("demo", QString::fromStdString(db::shown(error)));
    if (faults > 0) return 1;
    Result<db::Store> store = db::Store::create(shopOf("demo"), read.shop.settings, noon());
    if (!store) return fault("demo", QString::fromStdString(store.error().sentence)), 1;
    if (const auto done = store->perform(db::import_change(*store->shop(), read.shop), noon()); !done)
      return fault("demo", QString::fromStdString(done.error().sentence)), 1;
    db::Instant now = noon();
    Session session(*std::move(store), [&now] { return now; });
    takeSomeInHand(session);
    now += std::chrono::minutes{42};
    draw(screens, session, "demo");
    if (screens.wants("import-errors")) drawImportErrors(screens, session, own.path() + "/bad-folder");
  }
  {
    Result<db::Store> store = db::Store::create(shopOf("empty"), Settings{}, noon());
    if (!store) return fault("empty", QString::fromStdString(store.error().sentence)), 1;
    Session session(*std::move(store), noon);
    draw(screens, session, "empty");
  }
  if (screens.wants("first-run"))
    for (const Theme theme : {Theme::light, Theme::dark}) {
      setTheme(program, theme);
      FirstRun page(shopOf("home"), noon);
      page.show();
      screens.take(page, "first-run", kSizes[0]);
      page.startNew();
      screens.take(page, "first-run-new", kSizes[0]);
    }
  std::printf("%d faults\n", faults);
  return faults == 0 ? 0 : 1;
}
