// The main of every test that needs widgets: no display, and nothing of the person's own settings is touched.
#include <QApplication>
#include <QSettings>
#include <QStandardPaths>
#include <QTemporaryDir>
#include <gmock/gmock.h>

#include "app/parts/look.h"

int main(int argc, char** argv) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  const QTemporaryDir own;
  QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, own.path());
  QStandardPaths::setTestModeEnabled(true);
  ::testing::InitGoogleMock(&argc, argv);
  QApplication program(argc, argv);
  secondpull::app::setTheme(program, secondpull::app::Theme::light);
  return RUN_ALL_TESTS();
}
