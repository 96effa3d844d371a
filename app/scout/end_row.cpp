#include "app/scout/end_row.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/bench/bench_panel.h"
#include "app/parts/edits.h"
#include "app/parts/look.h"

namespace secondpull::app {

EndRow::EndRow(const Currency& currency, QWidget* parent) : QWidget(parent), currency_{currency} {
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  auto* line = new QHBoxLayout;
  const auto button = [&](const char* name, const QString& words) {
    auto* made = new QPushButton{words, this};
    made->setObjectName(QString::fromLatin1(name));
    line->addWidget(made);
    return made;
  };
  buy_ = button("scoutBuy", tr("Bought it"));
  buy_->setToolTip(tr("Ctrl+B"));
  pass_on_ = button("scoutPassOn", tr("Passed on"));
  gone_ = button("scoutGone", tr("Gone"));
  line->addStretch(1);
  box->addLayout(line);

  price_row_ = new QWidget{this};
  auto* price_line = new QHBoxLayout{price_row_};
  price_line->setContentsMargins(0, 0, 0, 0);
  price_ = new MoneyEdit{QStringLiteral("scoutPrice"), currency, price_row_};
  price_->setAccessibleName(tr("Price paid"));
  price_->setRequired(true);  // 0 is an answer, nothing is none
  auto* label = new QLabel{tr("Price paid"), price_row_};
  label->setBuddy(price_);
  auto* take_in = new QPushButton{tr("Take it in"), price_row_};
  take_in->setObjectName(QStringLiteral("scoutTakeIn"));
  setRank(take_in, "first");
  price_line->addWidget(label);
  price_line->addWidget(price_, 1);
  price_line->addWidget(take_in);
  price_row_->hide();
  box->addWidget(price_row_);
  hint_ = new HintLine{QStringLiteral("scout"), this};
  box->addWidget(hint_);

  connect(buy_, &QPushButton::clicked, this, &EndRow::asked);
  connect(take_in, &QPushButton::clicked, this, &EndRow::takeIn);
  connect(price_, &QLineEdit::returnPressed, this, &EndRow::takeIn);
  connect(pass_on_, &QPushButton::clicked, this, [this] { emit ended(FindEnd::passed_on); });
  connect(gone_, &QPushButton::clicked, this, [this] { emit ended(FindEnd::gone); });
}

void EndRow::setEndable(bool endable) {
  for (QPushButton* each : {buy_, pass_on_, gone_})
    each->setEnabled(endable);
}

void EndRow::askPrice(Money guess) {
  price_row_->show();
  price_->setGuess(QString::fromStdString(plain(guess, currency_)));
  price_->setFocus();
  price_->selectAll();
}

bool EndRow::isAsking() const {
  return !price_row_->isHidden();
}

void EndRow::stopAsking() {
  price_row_->hide();
}

void EndRow::takeIn() {
  if (const auto wrong = price_->problem()) return hint_->problem(*wrong);
  emit bought(price_->value().value_or(Money{}));
}

void EndRow::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape && isAsking()) {
    stopAsking();
    buy_->setFocus();
    return;
  }
  QWidget::keyPressEvent(event);
}

}  // namespace secondpull::app
