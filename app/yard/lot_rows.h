#pragma once

#include <vector>

#include <QJsonArray>
#include <QWidget>

#include "core/shop/guess.h"
#include "core/shop/intake.h"

namespace secondpull::app {

class Session;

/// The machines of a lot, a row each: kind, what it is, what it does wrong, what else it needs, how good it
/// looks (good, middling, for parts: one key each), its value that day, guessed from the shop's own record
/// until it is typed over, and the share of the price that this gives it, live.
///
/// Object names, with the row's number from 0: "lotKind0", "lotWhat0", "lotSymptom0", "lotSeen0",
/// "lotWorth0", "lotValue0", "lotShare0".
class LotRows : public QWidget {
  Q_OBJECT
 public:
  explicit LotRows(Session& session, QWidget* parent = nullptr);
  ~LotRows() override;
  /// Rows are added at the end or taken from it; what is typed in the others stays.
  void setCount(int count, const QString& first_tag);
  int count() const;
  /// Price and pickup together: what is split over the machines by their values.
  void setPaid(Money paid);
  std::optional<Problem> problem() const;  ///< a value that cannot be read
  std::vector<NewMachine> machines() const;
  void clear();                      ///< empties the rows
  void setTabAfter(QWidget* field);  ///< the field that Tab goes on from

  QJsonArray draft() const;
  void restore(const QJsonArray& draft);  ///< fills the rows there are

 signals:
  void edited();

 private:
  struct Impl;
  Impl* impl_;  // a child object
};

/// The share of `paid` that each machine gets, as the books will split it: by the values, or equally if one
/// of them has none.
std::vector<Money> lotShares(Money paid, const std::vector<std::optional<Money>>& values);

}  // namespace secondpull::app
