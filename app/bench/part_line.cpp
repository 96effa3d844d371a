#include "app/bench/part_line.h"

#include <algorithm>

#include <QAbstractItemView>
#include <QComboBox>
#include <QCompleter>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/bench/guesses.h"
#include "app/bench/quick_lines.h"
#include "app/parts/edits.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "core/shop/bench.h"

namespace secondpull::app {
namespace {

QString pieces(const QString& name, std::int64_t quantity) {
  return quantity == 1 ? name : QStringLiteral("%1 × %2").arg(quantity).arg(name);
}

/// A receipt as a choice of where a part comes from: orders positive, donors negative, 0 for first in, first
/// out.
QVariant keyOf(const StockReceipt& receipt) {
  return receipt.order ? QVariant::fromValue(number(*receipt.order))
                       : QVariant::fromValue(-number(*receipt.donor));
}

}  // namespace

PartLine::PartLine(Session& session, std::function<Date()> day, QWidget* parent)
    : BenchPanel(session, parent),
      day_{std::move(day)},
      model_{new PartOfferModel(this)},
      line_{new PartField(this)},
      from_{new QComboBox(this)},
      fit_{new QPushButton(tr("Fit"), this)},
      found_{new QPushButton(tr("In hand, not on the shelf"), this)},
      cost_{new MoneyEdit(QStringLiteral("cost"), session.currency(), this)},
      hint_{new HintLine(QStringLiteral("part"), this)} {
  line_->setObjectName(QStringLiteral("partLine"));
  line_->setAccessibleName(tr("Part fitted"));
  line_->setPlaceholderText(tr("any bit of its name or number, x2 for two"));
  from_->setObjectName(QStringLiteral("partFrom"));
  from_->setAccessibleName(tr("Where the part comes from"));
  fit_->setObjectName(QStringLiteral("partFit"));
  fit_->setToolTip(tr("Enter"));
  found_->setObjectName(QStringLiteral("partFound"));
  found_->setToolTip(tr("Ctrl+Enter: takes it in at the cost beside it and fits it"));
  cost_->setObjectName(QStringLiteral("foundCost"));
  cost_->setAccessibleName(tr("Cost of each, of a part taken from the hand"));
  cost_->setFixedWidth(grown(12 * kGrid));

  auto* completer = new QCompleter(model_, this);
  completer->setCompletionRole(Qt::EditRole);
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  completer->setFilterMode(Qt::MatchContains);
  line_->setCompleter(completer);

  QHBoxLayout* row = typedRow(tr("Part"), QStringLiteral("F7"), line_, this);
  row->addWidget(from_);
  row->addWidget(fit_);
  row->addWidget(cost_);
  row->addWidget(found_);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(kGrid / 2);
  column->addLayout(row);
  column->addWidget(hint_);

  connect(line_, &QLineEdit::textChanged, this, &PartLine::explain);
  connect(line_, &QLineEdit::returnPressed, this, &PartLine::fit);
  connect(line_, &PartField::controlReturnPressed, this, &PartLine::fitFound);
  connect(from_, &QComboBox::currentIndexChanged, this, [this] { explain(); });
  connect(cost_, &QLineEdit::returnPressed, this, &PartLine::fitFound);
  connect(fit_, &QPushButton::clicked, this, &PartLine::fit);
  connect(found_, &QPushButton::clicked, this, &PartLine::fitFound);
  explain();
}

void PartLine::start() {
  line_->setFocus();
  line_->selectAll();
}

void PartLine::turned() {
  line_->clear();
  cost_->clear();
  hint_->clearHint();
}

void PartLine::refresh() {
  offers_ = partOffers(*session().books());
  model_->setOffers(offers_, session().currency());
  explain();
}

PartLine::Meant PartLine::meant() const {
  const PartEntry entry =
      readPart(line_->text(), [this](const QString& text) { return !matching(offers_, text).empty(); });
  const std::vector<PartOffer> found = matching(offers_, entry.name);
  return {found.empty() ? std::nullopt : std::optional{found.front()}, entry.name, entry.quantity};
}

void PartLine::explain() {
  const Meant now = meant();
  const bool typed = !now.name.isEmpty();
  const bool enough = now.offer && now.offer->on_hand >= now.quantity;
  fit_->setEnabled(enough);
  found_->setVisible(typed && !enough);
  cost_->setVisible(typed && !enough);
  showSources(now);
  hint_->careFor(now.offer ? now.offer->name : now.name);
  if (!typed) return hint_->clearHint();
  if (!enough) guessCost(now);

  if (enough) {
    const auto cost = session().books()->cost_of_next(now.offer->part, now.quantity);
    const bool in_turn = from_->currentIndex() <= 0;
    hint_->quiet((
        in_turn
            ? tr("Enter fits %1: %2 on hand, costs %3.")
                  .arg(pieces(now.offer->name, now.quantity))
                  .arg(now.offer->on_hand)
                  .arg(session().money(cost))
            : tr("Enter fits %1 from %2.").arg(pieces(now.offer->name, now.quantity), from_->currentText())));
  } else if (now.offer) {
    hint_->quiet(tr("%1: %2 on hand. If it is in your hand, Ctrl+Enter takes it in and fits it.")
                     .arg(now.offer->name)
                     .arg(now.offer->on_hand));
  } else {
    hint_->quiet(tr("No part of that name yet. Ctrl+Enter takes in “%1” and fits it.").arg(now.name));
  }
}

void PartLine::showSources(const Meant& now) {
  const QVariant chosen = from_->currentData();
  const QSignalBlocker quiet{from_};
  from_->clear();
  if (now.offer) {
    from_->addItem(tr("first in, first out"), QVariant::fromValue<std::int64_t>(0));
    const auto books = session().books();
    for (const StockReceipt& receipt : books->stock()) {
      if (receipt.part != now.offer->part || receipt.quantity < now.quantity ||
          (!receipt.order && !receipt.donor))
        continue;
      const QString each = session().money(scale(receipt.cost, 1, receipt.quantity));
      from_->addItem(
          receipt.donor
              ? tr("off #%1, %2 each").arg(session().tagOf(*receipt.donor), each)
              : tr("in since %1, %2 each")
                    .arg(QString::fromStdString(shown_short(receipt.received, session().today())), each),
          keyOf(receipt));
    }
  }
  // One receipt leaves nothing to choose: two rows are "in turn" and that one.
  from_->setVisible(from_->count() > 2);
  from_->setCurrentIndex(std::max(0, from_->findData(chosen)));
}

void PartLine::guessCost(const Meant& now) {
  if (!cost_->isBlank() && !cost_->isGuess()) return;
  const auto shop = session().shop();
  const std::optional<Money> last = now.offer ? lastPrice(*shop, now.offer->part) : std::nullopt;
  cost_->setGuess(QString::fromStdString(plain(last.value_or(Money{}), session().currency())));
}

void PartLine::fit() {
  const Meant now = meant();
  if (now.name.isEmpty()) return;
  if (!now.offer || now.offer->on_hand < now.quantity) return explain();
  std::optional<OrderId> order;
  std::optional<MachineId> donor;
  if (const std::int64_t key = from_->currentData().toLongLong(); key > 0)
    order = static_cast<OrderId>(key);
  else if (key < 0)
    donor = static_cast<MachineId>(-key);
  const auto shop = session().shop();
  if (const auto failed =
          session().perform(fit_part(*shop, machine(), day_(), now.offer->part, now.quantity, order, donor)))
    return hint_->problem(*failed);
  turned();
  line_->setFocus();
}

void PartLine::fitFound() {
  const Meant now = meant();
  if (now.name.isEmpty()) return;
  if (const auto wrong = cost_->problem()) return hint_->problem(*wrong);
  PartChoice part;
  if (now.offer)
    part.known = now.offer->part;
  else
    part.new_name = now.name.toStdString();
  if (cost_->isBlank()) guessCost(now);
  const auto shop = session().shop();
  if (const auto failed = session().perform(
          fit_found_part(*shop, machine(), day_(), part, now.quantity, cost_->value().value_or(Money{}))))
    return hint_->problem(*failed);
  turned();
  line_->setFocus();
}

void PartField::keyPressEvent(QKeyEvent* event) {
  const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
  if (!enter || !(event->modifiers() & Qt::ControlModifier)) return QLineEdit::keyPressEvent(event);
  if (completer() != nullptr) completer()->popup()->hide();
  event->accept();
  emit controlReturnPressed();
}

}  // namespace secondpull::app
