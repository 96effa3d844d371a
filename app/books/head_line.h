#pragma once

#include <initializer_list>

#include <QWidget>

#include "app/parts/flow.h"
#include "app/parts/look.h"

namespace secondpull::app {

/// What a sub-page begins with and its figures, in one line, or in several where the text is large.
inline QWidget* headLine(std::initializer_list<QWidget*> widgets) {
  auto* head = new QWidget;
  auto* line = new Flow{head, 4 * kGrid};
  line->setContentsMargins(0, 0, 0, 0);
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
  policy.setHeightForWidth(true);
  head->setSizePolicy(policy);
  for (QWidget* widget : widgets)
    line->addWidget(widget);
  return head;
}

}  // namespace secondpull::app
