// Opens a shop, types half a machine into the log form and waits to be killed: the first half of the crash
// journey.
//   half_typed SHOP

#include <chrono>
#include <cstdio>

#include <QApplication>
#include <QLineEdit>
#include <QSettings>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <QTest>

#include "app/frame/main_window.h"
#include "app/frame/session.h"

int main(int argc, char** argv) {
  using namespace secondpull;
  if (argc != 2) return 2;
  const QTemporaryDir own;
  QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, own.path());
  QStandardPaths::setTestModeEnabled(true);
  const QApplication program(argc, argv);
  const auto now = [] {
    return std::chrono::time_point_cast<std::chrono::milliseconds>(std::chrono::system_clock::now());
  };
  Result<db::Store> store = db::Store::open(argv[1], db::Access::write, now());
  if (!store) {
    std::fprintf(stderr, "%s\n", store.error().sentence.c_str());
    return 1;
  }
  app::Session session{*std::move(store), now};
  app::MainWindow window{session};
  window.show();
  window.activateWindow();
  if (!QTest::qWaitForWindowActive(&window)) return 1;
  QTest::keyClick(&window, Qt::Key_N, Qt::ControlModifier);
  auto* what = window.findChild<QLineEdit*>("whatEdit");
  auto* symptom = window.findChild<QLineEdit*>("symptomEdit");
  if (what == nullptr || symptom == nullptr) return 1;
  QTest::keyClicks(what, "Tarnwick Stride");
  QTest::keyClicks(symptom, "surges when wa");
  QTest::qWait(1500);  // a draft is kept one second after the last key
  std::puts("typed");
  std::fflush(stdout);
  return QApplication::exec();
}
