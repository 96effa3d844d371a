#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {

struct WhyFigure::Impl : public QObject {
  using QObject::QObject;
  QLabel* figure = nullptr;
  QLabel* note = nullptr;
  QPushButton* ask = nullptr;
  QLabel* answer = nullptr;
  bool shrinks = false;
};

WhyFigure::WhyFigure(const QString& label, QWidget* parent) : QWidget(parent), impl_{new Impl{this}} {
  auto* layout = new QVBoxLayout{this};
  layout->setContentsMargins(0, 0, 0, 0);
  layout->setSpacing(kGrid / 4);
  auto* name = new QLabel{label, this};
  setRank(name, "small");
  auto* line = new QHBoxLayout;
  line->setSpacing(kGrid);
  impl_->figure = new QLabel{this};
  impl_->figure->setTextInteractionFlags(Qt::TextSelectableByMouse);
  impl_->figure->setAccessibleName(label);
  setRank(impl_->figure, "figure");
  impl_->note = new QLabel{this};
  setRank(impl_->note, "small");
  impl_->note->hide();
  impl_->ask = new QPushButton{tr("why?"), this};
  impl_->ask->setAccessibleName(tr("why %1?").arg(label));
  setRank(impl_->ask, "quiet");
  impl_->ask->hide();
  impl_->answer = new QLabel{this};
  impl_->answer->setWordWrap(true);
  impl_->answer->setTextFormat(Qt::RichText);
  impl_->answer->setObjectName("why");
  impl_->answer->hide();
  line->addWidget(impl_->figure);
  line->addWidget(impl_->note);
  line->addWidget(impl_->ask);
  line->addStretch(1);
  layout->addWidget(name);
  layout->addLayout(line);
  layout->addWidget(impl_->answer);
  connect(impl_->ask, &QPushButton::clicked, this,
          [this] { impl_->answer->setVisible(!impl_->answer->isVisibleTo(this)); });
}

void WhyFigure::setFigure(const QString& text, const QString& why) {
  impl_->figure->setText(text);
  impl_->answer->setText(why);
  impl_->ask->setVisible(!why.isEmpty());
  if (why.isEmpty()) impl_->answer->hide();
}

void WhyFigure::setShrinks() {
  impl_->shrinks = true;
  fit();
}

void WhyFigure::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) fit();
}

void WhyFigure::fit() {
  const char* rank = impl_->shrinks && isTextLarge() ? "subheading" : "figure";
  if (impl_->figure->property("rank").toString() != QLatin1String(rank)) setRank(impl_->figure, rank);
}

void WhyFigure::setNote(const QString& small) {
  impl_->note->setText(small);
  impl_->note->setVisible(!small.isEmpty());
}

}  // namespace secondpull::app
