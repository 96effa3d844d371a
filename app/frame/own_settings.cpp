#include "app/frame/own_settings.h"

#include <QApplication>
#include <QSettings>

namespace secondpull::app {
namespace {

constexpr auto kLastShop = "last-shop";
constexpr auto kTheme = "theme";
constexpr auto kPoints = "text-points";
constexpr auto kGeometry = "geometry";

QSettings settings() {
  return QSettings{QSettings::IniFormat, QSettings::UserScope, "secondpull", "secondpull"};
}

QVariant kept(const char* key) {
  return settings().value(key);
}
void keep(const char* key, const QVariant& value) {
  settings().setValue(key, value);
}

}  // namespace

std::optional<std::filesystem::path> OwnSettings::lastShop() {
  const QString folder = kept(kLastShop).toString();
  return folder.isEmpty() ? std::nullopt : std::optional<std::filesystem::path>{folder.toStdString()};
}

void OwnSettings::setLastShop(const std::filesystem::path& folder) {
  keep(kLastShop, QString::fromStdString(folder.string()));
}

Theme OwnSettings::theme() {
  const QString word = kept(kTheme).toString();
  return word == "light" ? Theme::light : word == "dark" ? Theme::dark : Theme::system;
}

void OwnSettings::setTheme(Theme theme) {
  keep(kTheme, QString{theme == Theme::light ? "light" : theme == Theme::dark ? "dark" : "system"});
}

qreal OwnSettings::textPoints() {
  return kept(kPoints).toReal();
}
void OwnSettings::setTextPoints(qreal points) {
  keep(kPoints, points);
}
QByteArray OwnSettings::geometry() {
  return kept(kGeometry).toByteArray();
}
void OwnSettings::setGeometry(const QByteArray& geometry) {
  keep(kGeometry, geometry);
}

void OwnSettings::dress(QApplication& app) {
  secondpull::app::setTextPoints(textPoints());
  secondpull::app::setTheme(app, theme());
}

}  // namespace secondpull::app
