#include "app/books/books_panel.h"

#include <QVBoxLayout>

#include "app/parts/form.h"

namespace secondpull::app {

QStackedWidget* BooksPanel::layOut(QWidget* content, const QString& when_empty, const QString& step,
                                   const QString& screen) {
  auto* empty = new EmptyState{QStringLiteral("books"), when_empty, step};
  connect(empty, &EmptyState::stepTaken, this, [this, screen] { emit wantsPage(screen); });
  auto* whole = new QStackedWidget;
  whole->addWidget(empty);
  whole->addWidget(content);
  auto* outer = new QVBoxLayout{this};
  outer->setContentsMargins(0, 0, 0, 0);
  outer->addWidget(whole);
  return whole;
}

}  // namespace secondpull::app
