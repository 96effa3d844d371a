#pragma once

#include <optional>

#include <QWidget>

#include "app/parts/data_table.h"
#include "core/shop/records.h"
#include "core/shop/stage.h"

class QLabel;
class QPushButton;

namespace secondpull::app {

class Session;

/// An offer as its row shows it.
struct OfferRow {
  Offer offer;
  Money deposit;               ///< left with it and not given back
  std::optional<Money> floor;  ///< below which waiting is better; absent: not known
};

/// The offers for one machine: who, how much and how that stands to the floor, who comes when, who did not
/// come, what was left as a deposit. Hidden while there is none. Object names: saleOffers; buttons offerTake,
/// offerRefuse, offerNoShow, offerDeposit, offerDepositBack.
class OffersPanel : public QWidget {
  Q_OBJECT
 public:
  explicit OffersPanel(Session& session, QWidget* parent = nullptr);

  void showOffers(const ByMachine::Lines& lines, bool here);
  void setFloor(std::optional<Money> floor);  ///< of the machine shown
  void choose(OfferId offer);
  std::optional<OfferId> chosen() const;

 signals:
  void taken(secondpull::OfferId offer);         ///< is to be sold to whoever made it
  void wantsDeposit(secondpull::OfferId offer);  ///< is to be written down
  void wantsSaid(const QString& sentence, bool problem);

 private:
  const OfferRow* current() const;
  void settle(OfferResult result);
  void giveBack();
  void rowChosen();

  Session& session_;
  std::optional<MachineId> machine_;
  bool here_ = false;
  std::optional<Money> floor_;
  DataTable* table_;
  RowModel<OfferRow>* model_;
  QPushButton *take_, *refuse_, *no_show_, *deposit_, *deposit_back_;
};

}  // namespace secondpull::app
