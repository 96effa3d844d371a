#pragma once

#include <initializer_list>

#include <QEvent>
#include <QWidget>

#include "app/parts/flow.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {

/// What a sub-page begins with and its figures, in one line, or in several where the width ends. With large
/// text the heading gives its place to them: the row of words above says what it does.
class HeadLine : public QWidget {
 public:
  explicit HeadLine(std::initializer_list<QWidget*> widgets, QWidget* heading = nullptr) : heading_{heading} {
    auto* line = new Flow{this};
    line->setContentsMargins(0, 0, 0, 0);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    if (heading_ != nullptr) line->addWidget(heading_);
    for (QWidget* widget : widgets)
      line->addWidget(widget);
    fit();
  }

 protected:
  void changeEvent(QEvent* event) override {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) fit();
  }

 private:
  void fit() {
    const bool large = isTextLarge();
    static_cast<Flow*>(layout())->setGap((large ? 2 : 4) * kGrid);
    if (heading_ != nullptr && heading_->isHidden() != large) heading_->setVisible(!large);
  }
  QWidget* heading_;
};

}  // namespace secondpull::app
