#pragma once

#include <functional>
#include <vector>

#include <QFrame>
#include <QPointer>

class QHBoxLayout;
class QLabel;

namespace secondpull::app {

/// A question in place, above the What-now line: a sentence and its answers as buttons. Enter takes the one
/// with the focus, arrow keys move, Esc leaves everything as it is.
class AskBar : public QFrame {
  Q_OBJECT
 public:
  struct Answer {
    QString words;
    std::function<void()> run;
  };
  explicit AskBar(QWidget* parent = nullptr);
  /// Asks, in the place of whatever was asked before. `beside` (owned from now on) stands before the answers:
  /// a field that one of them reads.
  void ask(const QString& sentence, const std::vector<Answer>& answers, QWidget* beside = nullptr);
  void dismiss();

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  QLabel* sentence_;
  QHBoxLayout* row_;
  std::vector<QWidget*> widgets_;  // of the present question
  QPointer<QWidget> before_;       // where the focus was
};

}  // namespace secondpull::app
