#include "app/bench/part_offers.h"

#include <algorithm>
#include <unordered_map>

namespace secondpull::app {
namespace {

bool holdsEveryWord(const PartOffer& offer, const QStringList& words) {
  return std::all_of(words.begin(), words.end(), [&](const QString& word) {
    return offer.name.contains(word, Qt::CaseInsensitive) || offer.number.contains(word, Qt::CaseInsensitive);
  });
}

bool names(const PartOffer& offer, const QString& text) {
  return offer.name.compare(text, Qt::CaseInsensitive) == 0 ||
         (!offer.number.isEmpty() && offer.number.compare(text, Qt::CaseInsensitive) == 0);
}

}  // namespace

std::vector<PartOffer> partOffers(const Books& books) {
  const Shop& shop = books.shop();
  std::unordered_map<PartId, std::int64_t> ordered;
  for (const OrderLine& line : shop.all<OrderLine>())
    if (const Order* order = shop.find(line.order); order != nullptr && !order->arrived)
      ordered[line.part] += line.quantity;
  std::unordered_map<PartId, std::int64_t> fitted;
  for (const Fitted& line : shop.all<Fitted>())
    if (line.machine) ++fitted[line.part];

  std::vector<PartOffer> offers;
  offers.reserve(shop.all<Part>().size());
  for (const Part& part : shop.all<Part>())
    offers.push_back({.part = part.id,
                      .name = QString::fromStdString(part.name),
                      .number = QString::fromStdString(part.number),
                      .on_hand = books.on_hand(part.id),
                      .ordered = ordered[part.id],
                      .times_fitted = fitted[part.id],
                      .next = books.cost_of_next(part.id, 1)});
  std::stable_sort(offers.begin(), offers.end(), [](const PartOffer& a, const PartOffer& b) {
    return a.name.compare(b.name, Qt::CaseInsensitive) < 0;
  });
  return offers;
}

std::vector<PartOffer> matching(const std::vector<PartOffer>& offers, const QString& text) {
  const QString sought = text.simplified();
  const QStringList words = sought.split(u' ', Qt::SkipEmptyParts);
  if (words.empty()) return {};
  std::vector<PartOffer> found;
  std::copy_if(offers.begin(), offers.end(), std::back_inserter(found),
               [&](const PartOffer& offer) { return holdsEveryWord(offer, words); });
  const auto rank = [&](const PartOffer& offer) {
    return std::tuple{!names(offer, sought), offer.on_hand <= 0,
                      !offer.name.startsWith(sought, Qt::CaseInsensitive), -offer.times_fitted};
  };
  std::stable_sort(found.begin(), found.end(),
                   [&](const PartOffer& a, const PartOffer& b) { return rank(a) < rank(b); });
  return found;
}

void PartOfferModel::setOffers(std::vector<PartOffer> offers, const Currency& currency) {
  beginResetModel();
  offers_ = std::move(offers);
  currency_ = currency;
  endResetModel();
}

int PartOfferModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(offers_.size());
}

QVariant PartOfferModel::data(const QModelIndex& index, int role) const {
  if (!checkIndex(index, CheckIndexOption::IndexIsValid)) return {};
  const PartOffer& offer = offers_[static_cast<std::size_t>(index.row())];
  if (role == Qt::EditRole) {
    // A name that two parts share is completed with its number, so that it means the one chosen.
    const auto same_name = [&](const PartOffer& other) { return other.name == offer.name; };
    const bool alone = std::count_if(offers_.begin(), offers_.end(), same_name) == 1;
    return alone || offer.number.isEmpty() ? offer.name : offer.name + u' ' + offer.number;
  }
  if (role != Qt::DisplayRole && role != Qt::AccessibleTextRole) return {};
  QString text = offer.name;
  if (!offer.number.isEmpty()) text += QStringLiteral("  ") + offer.number;
  if (offer.on_hand > 0 && offer.next) {
    text += tr("  ·  %1 on hand, the next costs %2")
                .arg(offer.on_hand)
                .arg(QString::fromStdString(shown(*offer.next, currency_)));
  } else if (offer.ordered > 0) {
    text += tr("  ·  none on hand, %1 on order").arg(offer.ordered);
  } else {
    text += tr("  ·  none on hand");
  }
  return text;
}

}  // namespace secondpull::app
