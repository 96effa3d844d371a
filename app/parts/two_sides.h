#pragma once

#include <array>
#include <optional>

#include <QWidget>

#include "app/parts/choices.h"

class QHBoxLayout;
class QSplitter;

namespace secondpull::app {

/// Two widgets side by side, with or without a handle between them, while the width has room for both; where
/// it has not, as with large text, one at a time, chosen by a row of two words. While one is shown, Esc in
/// the second goes back to the first.
class TwoSides : public QWidget {
  Q_OBJECT
 public:
  /// One of the two.
  struct Side {
    QWidget* widget;
    QString word;     ///< what chooses it
    int least;        ///< the width it needs, in pixels for text of the usual size
    int stretch = 1;  ///< its share of the width; 0: always `least`, and the other takes the rest
  };

  enum class Between { handle, gap };  ///< whether a person can shift what is between them

  /// `name` is what a screen reader calls the row of words, `object` its object name.
  TwoSides(const QString& name, const QString& object, const Side& first, const Side& second, Between between,
           QWidget* parent = nullptr);

  /// The words, for the page to place where it has room; hidden while both sides are shown
  /// or neither is.
  WordRow* words() const { return words_; }
  void setGap(int pixels);  ///< 3 * kGrid if not set
  /// While that side (0 or 1) has nothing to show: the other alone, and no words. Nothing: both have.
  void setGone(std::optional<int> side);
  bool both() const { return both_; }
  /// Shows that side (0 or 1) if there is room for one only; else nothing changes on the screen.
  void turnTo(int side);

  QSize minimumSizeHint() const override;  ///< as wide as the wider side alone

 signals:
  void bothChanged(bool both);

 protected:
  void showEvent(QShowEvent* event) override;
  void hideEvent(QHideEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void changeEvent(QEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void decide();
  void showChosen();
  std::array<Side, 2> sides_;
  WordRow* words_;
  QHBoxLayout* box_;
  QSplitter* splitter_ = nullptr;
  int gap_ = 0;
  bool both_ = true;
  std::optional<int> gone_;
};

}  // namespace secondpull::app
