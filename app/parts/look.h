#pragma once

#include <array>

#include <QColor>
#include <QFont>
#include <QIcon>
#include <QPalette>
#include <QString>

class QApplication;
class QChart;
class QLabel;

namespace secondpull::app {

enum class Theme { light, dark, system };

/// The program's colours. Surfaces are paper-white or charcoal, text is ink, one accent; never colour alone
/// for a meaning.
struct Look {
  bool dark = false;
  QColor paper;   ///< window
  QColor card;    ///< raised surface: fields, cards
  QColor line;    ///< hairlines
  QColor ink;     ///< text
  QColor faded;   ///< second-rank text, at least 4.5:1 on paper
  QColor accent;  ///< what can be done, what is current
  QColor on_accent;
  QColor good;  ///< always beside a word or sign
  QColor bad;
  std::array<QColor, 6> series;  ///< chart colours, apart for colour-blind eyes
  QColor edge;    ///< borders of what can be typed in or pressed, at least 3:1 on paper and card
  QColor hover;   ///< a surface under the pointer
  QColor select;  ///< a chosen row or word, with ink on it
};

/// The tokens of the light and of the dark look, whichever is in force.
const Look& lightLook();
const Look& darkLook();

/// The look in force; changes with setTheme.
const Look& look();
/// Sets palette, style sheet and font of the whole program. `system` is the lightness of the start palette.
void setTheme(QApplication& app, Theme theme);
/// The size of running text in points, for eyes and screens that need another; 0 is the start font's own
/// size, or kTextPoints if that is smaller. Takes effect with the next setTheme.
void setTextPoints(qreal points);
constexpr qreal kTextPoints = 10.5;

/// An icon of resources/icons in the ink (or another colour) of the look in force, sharp at any scale.
QIcon icon(const QString& name);
QIcon icon(const QString& name, const QColor& colour);

constexpr int kGrid = 8;  ///< spacing grid in device-independent pixels

QFont headingFont();  ///< a page's or card's heading
QFont figureFont();   ///< large figures
QLabel* heading(const QString& text, QWidget* parent = nullptr);
QLabel* faded(const QString& text, QWidget* parent = nullptr);

/// Marks a widget's place in the order of weight, which the style sheet dresses: labels "heading",
/// "subheading", "figure", "faded", "small", "problem", "caution"; buttons "first" (the one that Enter
/// means), "quiet"; a QFrame "card".
void setRank(QWidget* widget, const char* rank);

/// Gives a chart the look: no frame, quiet axes, our type, direct labels, no animation.
void dressChart(QChart& chart);

}  // namespace secondpull::app
