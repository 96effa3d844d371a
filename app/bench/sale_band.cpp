#include "app/bench/sale_band.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QVBoxLayout>

#include "app/bench/guesses.h"
#include "app/parts/edits.h"
#include "app/parts/figure_words.h"
#include "app/parts/flow.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

constexpr int kAlreadyWidth = 46 * kGrid;  // two lines of text

}  // namespace

SaleBand::SaleBand(Session& session, QWidget* parent)
    : BenchPanel(session, parent),
      price_{new MoneyEdit(QStringLiteral("price"), session.currency(), this)},
      from_{new QLabel(this)},
      gross_{new WhyFigure(tr("gross profit"), this)},
      running_{new WhyFigure(tr("running costs"), this)},
      profit_{new WhyFigure(tr("profit"), this)},
      per_hour_{new WhyFigure(tr("an hour"), this)},
      already_{faded({}, this)} {
  price_->setObjectName(QStringLiteral("ifSoldPrice"));
  price_->setAccessibleName(tr("If sold at"));
  price_->setFixedWidth(grown(15 * kGrid));
  gross_->setObjectName(QStringLiteral("ifSoldGross"));
  running_->setObjectName(QStringLiteral("ifSoldRunning"));
  profit_->setObjectName(QStringLiteral("ifSoldProfit"));
  per_hour_->setObjectName(QStringLiteral("ifSoldPerHour"));
  already_->setObjectName(QStringLiteral("alreadyIn"));
  setRank(from_, "small");

  auto* label = new QLabel(tr("If sold at"), this);
  label->setBuddy(price_);
  auto* key = new QLabel(QStringLiteral("F3"), this);
  setRank(key, "small");
  auto* asked = new QHBoxLayout;
  asked->setSpacing(kGrid);
  asked->addWidget(label);
  asked->addWidget(key);
  asked->addWidget(price_);
  auto* asking_box = new QWidget(this);
  auto* asking = new QVBoxLayout(asking_box);
  asking->setContentsMargins(0, 0, 0, 0);
  asking->setSpacing(kGrid / 2);
  asking->addLayout(asked);
  asking->addWidget(from_);

  auto* inner = new QWidget(this);
  inner->setMaximumWidth(grown(kWidestCard * kGrid));
  auto* outer = new QHBoxLayout(this);
  outer->setContentsMargins(0, 0, 0, 0);
  outer->addWidget(inner);
  auto* row = new Flow(inner, 4 * kGrid);
  row->setContentsMargins(3 * kGrid, kGrid, 3 * kGrid, kGrid);
  row->addWidget(asking_box);
  for (WhyFigure* figure : {gross_, running_, profit_, per_hour_})
    row->addWidget(figure);
  already_->setFixedWidth(grown(kAlreadyWidth));
  row->addWidget(already_);
  connect(price_, &QLineEdit::textChanged, this, &SaleBand::showFigures);
  connect(price_, &TypedEdit::valueEdited, this, [this] { from_->setText({}); });
}

void SaleBand::start() {
  price_->setFocus();
  price_->selectAll();
}

void SaleBand::turned() {
  price_->clear();
}

void SaleBand::refresh() {
  const auto books = session().books();
  const MachineFigures* figures = books->machine(machine());
  setVisible(figures != nullptr && is_here(figures->stage));
  if (!isVisibleTo(parentWidget())) return;
  if (price_->isBlank() || price_->isGuess()) {
    const auto guess = sellingPriceGuess(*session().shop(), books->by_machine(), machine());
    if (guess) price_->setGuess(QString::fromStdString(plain(guess->amount, session().currency())));
    from_->setText(guess ? tr("a guess: %1").arg(guess->from) : tr("say a price"));
  }
  showFigures();
}

void SaleBand::showFigures() {
  const auto books = session().books();
  const std::optional<Money> price = price_->value();
  const auto sold =
      price ? books->if_sold(machine(), *price, Money{}, Money{}, session().today()) : std::nullopt;
  const QString why = sold ? whyIfSold(session(), *sold, *price) : QString{};
  gross_->setFigure(session().money(sold ? sold->gross_profit : std::nullopt), {});
  running_->setFigure(session().money(sold ? std::optional{sold->running_costs} : std::nullopt), {});
  profit_->setFigure(session().money(sold ? sold->profit : std::nullopt), why);
  per_hour_->setFigure(session().money(sold ? sold->pay_per_hour : std::nullopt), {});
  if (const MachineFigures* now = books->machine(machine()))
    already_->setText(
        tr("Already in it: %1 and %2. That is spent either way, and does not count for whether to go on.")
            .arg(session().money(now->cost_basis), QString::fromStdString(shown(now->minutes))));
}

void SaleBand::paintEvent(QPaintEvent*) {
  QPainter painter{this};
  painter.fillRect(rect(), look().card);
  painter.fillRect(0, 0, width(), 1, look().line);
}

}  // namespace secondpull::app
