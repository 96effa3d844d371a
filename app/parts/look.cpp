#include "app/parts/look.h"

#include <QApplication>
#include <QFile>
#include <QFontDatabase>
#include <QLabel>
#include <QStyle>
#include <QStyleFactory>
#include <QtCharts/QAbstractAxis>
#include <QtCharts/QChart>
#include <QtCharts/QLegend>

namespace secondpull::app {
namespace {

constexpr qreal kSmall = 0.88, kSubheading = 1.15, kHeading = 1.5, kFigure = 1.9;  // times running text

Look makeLight() {
  Look look;
  look.paper = "#FAF7F0";
  look.card = "#FFFDF9";
  look.line = "#E0DACD";
  look.ink = "#22282A";
  look.faded = "#5D615C";
  look.accent = "#0F6B66";
  look.on_accent = "#FFFFFF";
  look.good = "#2C6A35";
  look.bad = "#A3321C";
  look.series = {"#0F6B66", "#923E04", "#1F1566", "#A583B8", "#82966D", "#2C0705"};
  look.edge = "#8E8A7F";
  look.hover = "#F1ECE1";
  look.select = "#DCEBE6";
  return look;
}

Look makeDark() {
  Look look;
  look.dark = true;
  look.paper = "#1E2123";
  look.card = "#272B2D";
  look.line = "#3A3F41";
  look.ink = "#ECE7DC";
  look.faded = "#ABA99F";
  look.accent = "#63C1B4";
  look.on_accent = "#10201F";
  look.good = "#8FC78B";
  look.bad = "#F2957F";
  look.series = {"#63C1B4", "#C49A45", "#5A69B8", "#B998EC", "#F0EDA8", "#9A5C4A"};
  look.edge = "#7C807F";
  look.hover = "#2F3436";
  look.select = "#263F3C";
  return look;
}

const Look* current = nullptr;
qreal text_points = 0;

/// What the desktop gave us before we dressed the program.
struct Start {
  bool dark = false;
  qreal points = kTextPoints;
};
const Start& startOf(QApplication& app) {
  static const Start start{app.palette().color(QPalette::Window).lightness() < 128, app.font().pointSizeF()};
  return start;
}

QString points(qreal size) {
  return QString::number(size, 'f', 1) + "pt";
}

QString styleSheet(const Look& look, qreal text) {
  QFile file(":/style/look.qss");
  if (!file.open(QIODevice::ReadOnly)) return {};
  QString sheet = QString::fromUtf8(file.readAll());
  const QString shade = look.dark ? "dark" : "light";
  // Longer names stand before the names that they begin with.
  const std::vector<std::pair<QString, QString>> tokens{
      {"@subheadingpt", points(text * kSubheading)},
      {"@headingpt", points(text * kHeading)},
      {"@figurept", points(text * kFigure)},
      {"@smallpt", points(text * kSmall)},
      {"@accenthover", (look.dark ? look.accent.lighter(112) : look.accent.darker(118)).name()},
      {"@on_accent", look.on_accent.name()},
      {"@accent", look.accent.name()},
      {"@paper", look.paper.name()},
      {"@pressed", look.line.name()},
      {"@card", look.card.name()},
      {"@line", look.line.name()},
      {"@hair", look.line.name()},
      {"@ink", look.ink.name()},
      {"@faded", look.faded.name()},
      {"@good", look.good.name()},
      {"@bad", look.bad.name()},
      {"@edge", look.edge.name()},
      {"@hover", look.hover.name()},
      {"@select", look.select.name()},
      {"@down", ":/style/down-" + shade + ".svg"},
      {"@up", ":/style/up-" + shade + ".svg"},
      {"@tick", ":/style/tick-" + shade + ".svg"},
      {"@check", ":/style/check-" + shade + ".svg"},
  };
  for (const auto& [token, value] : tokens)
    sheet.replace(token, value);
  return sheet;
}

QPalette paletteOf(const Look& look) {
  QPalette palette;
  const auto all = [&](QPalette::ColorRole role, const QColor& colour) { palette.setColor(role, colour); };
  all(QPalette::Window, look.paper);
  all(QPalette::WindowText, look.ink);
  all(QPalette::Base, look.card);
  all(QPalette::AlternateBase, look.paper);
  all(QPalette::Text, look.ink);
  all(QPalette::Button, look.card);
  all(QPalette::ButtonText, look.ink);
  all(QPalette::BrightText, look.bad);
  all(QPalette::ToolTipBase, look.card);
  all(QPalette::ToolTipText, look.ink);
  all(QPalette::Highlight, look.accent);
  all(QPalette::HighlightedText, look.on_accent);
  all(QPalette::Link, look.accent);
  all(QPalette::LinkVisited, look.accent);
  all(QPalette::PlaceholderText, look.faded);
  all(QPalette::Light, look.card);
  all(QPalette::Midlight, look.hover);
  all(QPalette::Mid, look.line);
  all(QPalette::Dark, look.edge);
  all(QPalette::Shadow, look.edge);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
    palette.setColor(QPalette::Disabled, role, look.faded);
  return palette;
}

}  // namespace

const Look& lightLook() {
  static const Look light = makeLight();
  return light;
}

const Look& darkLook() {
  static const Look dark = makeDark();
  return dark;
}

const Look& look() {
  return current != nullptr ? *current : lightLook();
}

void setTextPoints(qreal points) {
  text_points = points;
}

void setTheme(QApplication& app, Theme theme) {
  const Start& start = startOf(app);
  const bool dark = theme == Theme::dark || (theme == Theme::system && start.dark);
  current = dark ? &darkLook() : &lightLook();

  QFont font = app.font();
  if (QFontDatabase::hasFamily("Lato")) font.setFamily("Lato");
  font.setPointSizeF(text_points > 0 ? text_points : std::max(start.points, kTextPoints));
  app.setStyle(QStyleFactory::create("Fusion"));
  app.setFont(font);
  app.setPalette(paletteOf(*current));
  app.setStyleSheet(styleSheet(*current, font.pointSizeF()));
  // Links keep the colour of the look in which they were laid out; a text set anew is laid out anew.
  for (QWidget* widget : QApplication::allWidgets())
    if (auto* label = qobject_cast<QLabel*>(widget); label != nullptr && label->text().contains("<a ")) {
      const QString text = label->text();
      label->clear();
      label->setText(text);
    }
}

QFont headingFont() {
  QFont font = QApplication::font();
  font.setPointSizeF(font.pointSizeF() * kHeading);
  font.setWeight(QFont::DemiBold);
  return font;
}

QFont figureFont() {
  QFont font = QApplication::font();
  font.setPointSizeF(font.pointSizeF() * kFigure);
  font.setWeight(QFont::DemiBold);
  return font;
}

void setRank(QWidget* widget, const char* rank) {
  widget->setProperty("rank", QString::fromLatin1(rank));
  widget->style()->unpolish(widget);
  widget->style()->polish(widget);
}

QLabel* heading(const QString& text, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  setRank(label, "heading");
  return label;
}

QLabel* faded(const QString& text, QWidget* parent) {
  auto* label = new QLabel(text, parent);
  label->setWordWrap(true);
  setRank(label, "faded");
  return label;
}

void dressChart(QChart& chart) {
  const Look& now = look();
  chart.setAnimationOptions(QChart::NoAnimation);
  chart.setBackgroundVisible(false);
  chart.setBackgroundRoundness(0);
  chart.setMargins(QMargins{0, 0, 0, 0});
  chart.legend()->hide();  // names stand beside what they name
  chart.setTitleBrush(now.ink);
  QFont title = QApplication::font();
  title.setWeight(QFont::DemiBold);
  chart.setTitleFont(title);
  QFont small = QApplication::font();
  small.setPointSizeF(small.pointSizeF() * kSmall);
  for (QAbstractAxis* axis : chart.axes()) {
    axis->setLabelsFont(small);
    axis->setTitleFont(small);
    axis->setLabelsBrush(now.faded);
    axis->setTitleBrush(now.faded);
    axis->setLinePen(QPen{now.edge, 1});
    axis->setGridLinePen(QPen{now.line, 1});
    axis->setMinorGridLineVisible(false);
    axis->setShadesVisible(false);
  }
}

}  // namespace secondpull::app
