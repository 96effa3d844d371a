#pragma once

#include <optional>
#include <vector>

#include <QScrollArea>

#include "app/parts/data_table.h"
#include "core/books/books.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace secondpull::app {

class Form;
class Session;
class TagBadge;
class WhyFigure;

/// One machine as one who sells it needs it: what it stands at, what it would bring, its offers, and what can
/// be done with it, each in a form in place. Object names: salePanel, saleTag, saleHistory, saleCost,
/// saleHours, saleIfProfit, saleIfPay, saleOffers; buttons doAsking, doSell, doOffer, doReturn, doAllowance,
/// doDispose, doEndListing, offerTake, offerRefuse, offerNoShow.
class MachinePanel : public QScrollArea {
  Q_OBJECT
 public:
  explicit MachinePanel(Session& session, QWidget* parent = nullptr);

  /// Shows a machine, or none. Another machine leaves the open form; its draft is kept.
  void setMachine(std::optional<MachineId> machine);
  std::optional<MachineId> machine() const { return machine_; }
  void refresh();  ///< after records changed

  void openAsking();
  void openSale(std::optional<OfferId> taken = std::nullopt);
  void openOffer();
  void openReturn();
  void openAllowance();
  void openDispose();

 signals:
  void wantsMachine(secondpull::MachineId machine);
  void wantsSaid(const QString& sentence, bool problem);
  void formClosed();  ///< saved or left: the focus may go back to the table

 private:
  QWidget* makeHead();
  QWidget* makeFigures();
  QWidget* makeDeeds();
  QWidget* makeOffers();
  void openForm(Form* form);
  void closeForm();
  void showFigures(const MachineFigures& figures);
  void showOffers(const std::vector<const Offer*>& offers);
  std::optional<OfferId> chosenOffer() const;
  void settle(OfferResult result);
  void endListing();
  void offerChosen();

  Session& session_;
  std::optional<MachineId> machine_;
  Form* form_ = nullptr;
  QVBoxLayout* form_place_ = nullptr;
  TagBadge* tag_;
  QLabel *name_, *stands_, *history_, *warning_;
  WhyFigure *cost_, *hours_, *profit_, *pay_;
  QPushButton *asking_, *sell_, *offer_, *return_, *allowance_, *dispose_, *end_listing_;
  QWidget* offers_side_;
  QLabel* offers_title_;
  DataTable* offers_;
  RowModel<Offer>* offers_model_;
  QPushButton *take_, *refuse_, *no_show_;
};

}  // namespace secondpull::app
