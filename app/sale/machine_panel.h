#pragma once

#include <optional>
#include <vector>

#include <QScrollArea>

#include "core/books/books.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace secondpull::app {

class Form;
class ListingPanel;
class OffersPanel;
class ReceiptLine;
class Session;
class SuggestionPanel;
class TagBadge;
class WhyFigure;

/// One machine as one who sells it needs it: what to ask for it, what it stands at, what it would bring, its
/// offers, its listing or its receipt, and what can be done with it, each in a form in place. Object names:
/// salePanel, saleTag, saleHistory, saleWarning, saleCost, saleHours, saleIfProfit, saleIfPay; buttons
/// doAsking, doSell, doOffer, doReturn, doAllowance, doDispose, doEndListing; and those of SuggestionPanel,
/// OffersPanel, ListingPanel and ReceiptLine.
class MachinePanel : public QScrollArea {
  Q_OBJECT
 public:
  explicit MachinePanel(Session& session, QWidget* parent = nullptr);

  /// Shows a machine, or none. Another machine leaves the open form; its draft is kept.
  void setMachine(std::optional<MachineId> machine);
  std::optional<MachineId> machine() const { return machine_; }
  void refresh();  ///< after records changed

  void openAsking() { openAskingAt(std::nullopt); }
  void openSale(std::optional<OfferId> taken = std::nullopt);
  void openOffer();
  void openReturn();
  void openAllowance();
  void openDispose();
  void openEndListing();
  void openListing();  ///< its words, to be edited
  void openDeposit(OfferId offer);
  void chooseOffer(OfferId offer);
  std::optional<OfferId> chosenOffer() const;
  SuggestionPanel& suggestion() { return *suggestion_; }
  ListingPanel& listing() { return *listing_; }

 signals:
  void wantsMachine(secondpull::MachineId machine);
  void wantsSaid(const QString& sentence, bool problem);
  void formClosed();  ///< saved or left: the focus may go back to the table

 private:
  QWidget* makeHead();
  QWidget* makeFigures();
  QWidget* makeDeeds();
  void openAskingAt(std::optional<Money> suggested);
  void openForm(Form* form);
  void closeForm();
  void showFigures(const MachineFigures& figures);

  Session& session_;
  std::optional<MachineId> machine_;
  Form* form_ = nullptr;
  QVBoxLayout* form_place_ = nullptr;
  TagBadge* tag_;
  QLabel *name_, *stands_, *history_, *warning_;
  WhyFigure *cost_, *hours_, *profit_, *pay_;
  QPushButton *asking_, *sell_, *offer_, *return_, *allowance_, *dispose_, *end_listing_;
  SuggestionPanel* suggestion_;
  OffersPanel* offers_;
  ListingPanel* listing_;
  ReceiptLine* receipt_;
};

}  // namespace secondpull::app
