#pragma once

#include <filesystem>
#include <optional>

#include <QByteArray>

#include "app/parts/look.h"

namespace secondpull::app {

/// What belongs to the person at this computer, not to a shop: kept in the desktop's folder for settings.
struct OwnSettings {
  static std::optional<std::filesystem::path> lastShop();
  static void setLastShop(const std::filesystem::path& folder);
  static Theme theme();
  static void setTheme(Theme theme);
  static qreal textPoints();  ///< 0: the usual size
  static void setTextPoints(qreal points);
  static QByteArray geometry();
  static void setGeometry(const QByteArray& geometry);

  /// Dresses the program as kept here.
  static void dress(QApplication& app);
};

}  // namespace secondpull::app
