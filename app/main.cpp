#include <QApplication>
#include <QCommandLineParser>

#include "app/frame/own_settings.h"
#include "app/frame/shell.h"

using namespace secondpull;
using namespace secondpull::app;

namespace {

constexpr int kWrongCall = 2;

int refuse(const QString& sentence) {
  std::fprintf(stderr, "%s\n", qUtf8Printable(sentence));
  return kWrongCall;
}

}  // namespace

int main(int argc, char** argv) {
  QApplication program(argc, argv);
  QApplication::setApplicationName("secondpull");
  QApplication::setApplicationDisplayName("Second Pull");
  QApplication::setApplicationVersion(SECONDPULL_VERSION);
  QApplication::setDesktopFileName("secondpull");

  QCommandLineParser call;
  call.setApplicationDescription("The books, the bench and the plan of a one-person mower shop.");
  call.addHelpOption();
  call.addVersionOption();
  call.addPositionalArgument("shop", "The folder of a shop; without it, the one open last.", "[SHOP]");
  const QCommandLineOption demo("demo", "Open the demo shop; it is made the first time.");
  const QCommandLineOption first_demo("first-run-demo",
                                      "The same, but only if no shop was ever opened here.");
  const QCommandLineOption day("today", "Take this day for today.", "YYYY-MM-DD");
  call.addOptions({demo, first_demo, day});
  call.process(program);

  std::optional<Date> today;
  if (call.isSet(day)) {
    const Result<Date> given = parse_date(call.value(day).toStdString(), "today");
    if (!given) return refuse(QString::fromStdString(given.error().sentence));
    today = *given;
  }
  const QStringList shops = call.positionalArguments();
  if (shops.size() > 1) return refuse("One shop at a time: more than one folder was given.");

  OwnSettings::dress(program);
  Shell shell(Shell::defaultHome(), today);
  const std::optional<std::filesystem::path> last = OwnSettings::lastShop();
  if (!shops.isEmpty())
    shell.open(shops.front().toStdString());
  else if (call.isSet(demo) || (call.isSet(first_demo) && !last))
    shell.lookAtDemo();
  else if (last)
    shell.open(*last);
  else
    shell.showFirstRun();
  return shell.hasWindow() ? QApplication::exec() : 0;
}
