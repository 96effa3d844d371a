#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/parts/form.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr int kEmptyWidth = 60 * kGrid;
constexpr int kPictureSide = 6 * kGrid;

/// An icon in the accent of the look in force, large.
class Picture : public QWidget {
 public:
  Picture(const QString& name, QWidget* parent) : QWidget(parent), name_{name} {
    setFixedSize(kPictureSide, kPictureSide);
  }

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    icon(name_, look().accent).paint(&painter, rect());
  }

 private:
  QString name_;
};

}  // namespace

EmptyState::EmptyState(const QString& icon_name, const QString& sentence, const QString& step,
                       QWidget* parent)
    : QWidget(parent) {
  auto* layout = new QVBoxLayout{this};
  layout->setSpacing(2 * kGrid);
  layout->addStretch(2);
  layout->addWidget(new Picture{icon_name, this}, 0, Qt::AlignHCenter);
  auto* words = new QLabel{sentence, this};
  words->setWordWrap(true);
  words->setAlignment(Qt::AlignCenter);
  words->setMaximumWidth(kEmptyWidth);
  setRank(words, "subheading");
  auto* row = new QHBoxLayout;
  row->addStretch(1);
  row->addWidget(words, 100);  // as wide as it may be, and in the middle
  row->addStretch(1);
  layout->addLayout(row);
  if (!step.isEmpty()) {
    auto* button = new QPushButton{step, this};
    button->setObjectName("firstStep");
    setRank(button, "first");
    layout->addWidget(button, 0, Qt::AlignHCenter);
    connect(button, &QPushButton::clicked, this, &EmptyState::stepTaken);
  }
  layout->addStretch(3);
}

}  // namespace secondpull::app
