#pragma once

#include <optional>
#include <vector>

#include <QAbstractListModel>
#include <QString>

#include "core/books/books.h"

namespace secondpull::app {

/// A part as the shelf offers it: what it is, how many there are, what the next one costs.
struct PartOffer {
  PartId part{};
  QString name;
  QString number;
  std::int64_t on_hand = 0;
  std::int64_t ordered = 0;       ///< on order and not arrived
  std::int64_t times_fitted = 0;  ///< how often this shop fitted it: what is used often comes first
  std::optional<Money> next;      ///< first in, first out; absent if there is none
};

/// Every part of the shop, in order of name.
std::vector<PartOffer> partOffers(const Books& books);

/// The offers that hold every word of the text in name or number, best first: an exact name or number, then
/// what is on hand, then a name that begins with the text, then what was fitted most often.
std::vector<PartOffer> matching(const std::vector<PartOffer>& offers, const QString& text);

/// The offers as a list for completing: shown with stock and cost, completed by name.
class PartOfferModel : public QAbstractListModel {
  Q_OBJECT
 public:
  using QAbstractListModel::QAbstractListModel;
  void setOffers(std::vector<PartOffer> offers, const Currency& currency);
  const std::vector<PartOffer>& offers() const { return offers_; }
  int rowCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;

 private:
  std::vector<PartOffer> offers_;
  Currency currency_;
};

}  // namespace secondpull::app
