#pragma once

#include <vector>

#include <QAbstractButton>
#include <QWidget>

class QGridLayout;

namespace secondpull::app {

/// A large button for gloved hands: its number, what it says, and under it, quiet, what follows.
class ChoiceButton : public QAbstractButton {
  Q_OBJECT
 public:
  ChoiceButton(int number, const QString& text, const QString& follows, QWidget* parent);
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;
  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  QFont smallFont() const;
  int textWidth(int width) const;
  int number_;
  QString follows_;
};

/// What can be chosen now, numbered from 1: a click, Space or Enter on a button, or its digit (on the number
/// pad too) wherever in here the focus is. Arrow keys go from one to the other. Buttons are called `name` +
/// number.
class NumberedChoices : public QWidget {
  Q_OBJECT
 public:
  struct Choice {
    QString text;
    QString follows;
  };
  NumberedChoices(const QString& name, QWidget* parent);
  void setChoices(const std::vector<Choice>& choices);
  int count() const { return static_cast<int>(buttons_.size()); }
  /// Chooses the one of that number (from 1), if there is one and it can be chosen.
  bool press(int number);
  /// The focus on the first one.
  void start();

 signals:
  void chosen(int index);  ///< from 0

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  QString name_;
  QGridLayout* grid_;
  std::vector<Choice> shown_;
  std::vector<ChoiceButton*> buttons_;
};

bool operator==(const NumberedChoices::Choice& a, const NumberedChoices::Choice& b);

/// The digit that a key event stands for, 1 to 9, on the row above the letters or on the number pad; 0: none.
int digitOf(const QKeyEvent& event);

}  // namespace secondpull::app
