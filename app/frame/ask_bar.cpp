#include "app/frame/ask_bar.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>

#include "app/parts/look.h"

namespace secondpull::app {

AskBar::AskBar(QWidget* parent) : QFrame(parent), sentence_{new QLabel{this}}, row_{new QHBoxLayout{this}} {
  setObjectName("ask");
  setRank(this, "ask");
  row_->setContentsMargins(3 * kGrid, kGrid, 3 * kGrid, kGrid);
  row_->setSpacing(kGrid);
  sentence_->setWordWrap(true);
  sentence_->setObjectName("ask.sentence");
  row_->addWidget(sentence_, 1);
  hide();
}

void AskBar::ask(const QString& sentence, const std::vector<Answer>& answers, QWidget* beside) {
  if (isHidden()) before_ = QApplication::focusWidget();
  for (QWidget* widget : widgets_)
    widget->deleteLater();
  widgets_.clear();
  sentence_->setText(sentence);
  setAccessibleName(sentence);
  if (beside != nullptr) {
    row_->addWidget(beside);
    widgets_.push_back(beside);
  }
  QPushButton* first = nullptr;
  for (const Answer& answer : answers) {
    auto* button = new QPushButton{answer.words, this};
    button->setObjectName("ask." + answer.words);
    connect(button, &QPushButton::clicked, this, [this, run = answer.run] {
      const QPointer<AskBar> here{this};
      dismiss();
      if (run && here) run();
    });
    if (first == nullptr) setRank(first = button, "first");
    row_->addWidget(button);
    widgets_.push_back(button);
  }
  show();
  if (first != nullptr) first->setFocus();
}

void AskBar::dismiss() {
  hide();
  if (before_) before_->setFocus();
  before_.clear();
}

void AskBar::keyPressEvent(QKeyEvent* event) {
  switch (event->key()) {
    case Qt::Key_Escape:
      return dismiss();
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (auto* button = qobject_cast<QPushButton*>(focusWidget())) return button->click();
      break;
    case Qt::Key_Left:
      focusPreviousChild();
      return;
    case Qt::Key_Right:
      focusNextChild();
      return;
    default:
      break;
  }
  QFrame::keyPressEvent(event);
}

}  // namespace secondpull::app
