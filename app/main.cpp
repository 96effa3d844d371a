#include <cstdlib>
#include <iostream>

#include <QApplication>
#include <QCommandLineParser>
#include <QEvent>
#include <QTimer>

#include "app/frame/main_window.h"
#include "app/frame/own_settings.h"
#include "app/frame/shell.h"
#include "core/calendar/date.h"

namespace {

using namespace secondpull;

constexpr int kBadCall = 2;  // the exit status of the command line for a call that is wrong

/// Ends the program once its window has been painted: what the start is measured by.
class QuitAfterFirstPicture : public QObject {
 public:
  using QObject::QObject;

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override {
    // The paint itself comes after the filter, and what is posted comes after the paint.
    if (event->type() == QEvent::Paint) QTimer::singleShot(0, qApp, &QApplication::quit);
    return QObject::eventFilter(watched, event);
  }
};

}  // namespace

int main(int argc, char** argv) {
  QApplication program(argc, argv);
  QApplication::setApplicationName("secondpull");
  QApplication::setApplicationDisplayName("Second Pull");
  QApplication::setApplicationVersion(SECONDPULL_VERSION);
  QApplication::setDesktopFileName("secondpull");

  QCommandLineParser call;
  call.setApplicationDescription(
      QObject::tr("The bench, the shelf and the books of a one-person mower shop."));
  call.addHelpOption();
  call.addVersionOption();
  call.addPositionalArgument("shop", QObject::tr("The folder of a shop; without it the one opened last."),
                             "[SHOP]");
  const QCommandLineOption demo_if_new{"demo-if-new",
                                       QObject::tr("Where no shop was opened yet, look at the demo shop.")};
  const QCommandLineOption today_option{"today", QObject::tr("Take this day for today (YYYY-MM-DD)."), "day"};
  QCommandLineOption quit_option{"quit-after-first-picture"};
  quit_option.setFlags(QCommandLineOption::HiddenFromHelp);
  call.addOptions({demo_if_new, today_option, quit_option});
  call.process(program);

  std::optional<Date> today;
  if (call.isSet(today_option)) {
    const Result<Date> read = parse_date(call.value(today_option).toStdString(), "today");
    if (!read) {
      std::cerr << read.error().sentence << '\n';
      return kBadCall;
    }
    today = *read;
  }

  app::OwnSettings::dress(program);
  app::Shell shell{app::Shell::defaultHome(), today};
  const QStringList shops = call.positionalArguments();
  if (!shops.isEmpty())
    shell.open(shops.front().toStdString());
  else if (const auto last = app::OwnSettings::lastShop())
    shell.open(*last);
  else if (call.isSet(demo_if_new))
    shell.lookAtDemo();
  else
    shell.showFirstRun();
  if (!shell.hasWindow()) return EXIT_SUCCESS;  // another window of this shop was raised

  QuitAfterFirstPicture first_picture;
  if (call.isSet(quit_option) && shell.window() != nullptr)
    shell.window()->installEventFilter(&first_picture);
  return QApplication::exec();
}
