#include "app/bench/shelf_choice.h"

#include <algorithm>

#include <QComboBox>
#include <QHBoxLayout>

#include "app/bench/part_offers.h"
#include "app/bench/step_words.h"
#include "app/frame/session.h"
#include "app/parts/look.h"

namespace secondpull::app {

ShelfChoice::ShelfChoice(Session& session, QWidget* parent)
    : QWidget(parent), session_{session}, parts_{new QComboBox(this)}, from_{new QLabel(this)} {
  parts_->setObjectName(QStringLiteral("stepPart"));
  parts_->setAccessibleName(tr("Part from the shelf"));
  setRank(from_, "small");
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(kGrid);
  row->addWidget(parts_);
  row->addWidget(from_, 1);
}

void ShelfChoice::showFor(const std::string& repair, const learning::RepairPart* own) {
  const bool first = repair != repair_;
  const QVariant before = parts_->currentData();
  repair_ = repair;
  parts_->clear();
  parts_->addItem(tr("no part from the shelf"), QVariant{});
  const auto books = session_.books();
  for (const PartOffer& offer : partOffers(*books))
    if (offer.on_hand > 0)
      parts_->addItem(
          tr("%1, %2 on hand, %3").arg(offer.name).arg(offer.on_hand).arg(session_.money(offer.next)),
          QVariant::fromValue(number(offer.part)));
  from_->setText(own != nullptr ? partWords(*own, session_.currency()) : QString{});
  QVariant wanted = first ? QVariant{} : before;
  if (first && own != nullptr && own->from == learning::ComesFrom::shelf && own->part)
    wanted = QVariant::fromValue(number(*own->part));
  parts_->setCurrentIndex(wanted.isValid() ? std::max(0, parts_->findData(wanted)) : 0);
}

void ShelfChoice::clear() {
  repair_.clear();
}

std::optional<PartId> ShelfChoice::chosen() const {
  const QVariant part = parts_->currentData();
  return part.isValid() ? std::optional{static_cast<PartId>(part.toLongLong())} : std::nullopt;
}

}  // namespace secondpull::app
