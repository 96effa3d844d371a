#pragma once

#include <optional>

#include "app/parts/form.h"
#include "core/shop/ids.h"

namespace secondpull::app {

class CountEdit;
class DateEdit;
class MinutesEdit;
class MoneyEdit;
class RecordPicker;
class WordRow;

// The forms of the For sale screen, each about one machine. A form is made when it is opened and goes when it
// is left; its draft is kept under the machine.

/// Puts a machine out front at an asking price, or changes the price. Object names: askingForm, askingPrice,
/// askingChannel, askingSoldAs, askingDate, askingCaution.
class AskingForm : public Form {
  Q_OBJECT
 public:
  AskingForm(Session& session, MachineId machine, QWidget* parent = nullptr);

 private:
  std::optional<Problem> save();
  Session& session_;
  MachineId machine_;
  MoneyEdit* price_;
  QLineEdit* channel_;
  WordRow* sold_as_;
  DateEdit* date_;
};

/// The sale: who, for how much, and what it would give, as it is typed. Object names: saleForm, saleBuyer,
/// salePrice, saleFee, saleDelivery, saleTax, salePlace, salePayment, saleSoldAs, saleWarranty, saleMinutes,
/// saleDate, saleCaution, and the figures saleProfit and salePay.
class SaleForm : public Form {
  Q_OBJECT
 public:
  /// @param taken  the offer that the sale takes up: its amount and who made it stand in the fields
  SaleForm(Session& session, MachineId machine, std::optional<OfferId> taken, QWidget* parent = nullptr);

 private:
  void fill();
  void showWhatItGives();
  std::optional<Problem> save();
  Session& session_;
  MachineId machine_;
  std::optional<OfferId> taken_;
  RecordPicker* buyer_;
  MoneyEdit *price_, *fee_, *delivery_, *tax_;
  QLineEdit *place_, *payment_;
  WordRow* sold_as_;
  CountEdit* warranty_;
  MinutesEdit* minutes_;
  DateEdit* date_;
  WhyFigure *profit_, *pay_;
};

/// Somebody said what they would pay. Object names: offerForm, offerAmount, offerWho, offerComes, offerDate.
class OfferForm : public Form {
  Q_OBJECT
 public:
  OfferForm(Session& session, MachineId machine, QWidget* parent = nullptr);

 private:
  std::optional<Problem> save();
  Session& session_;
  MachineId machine_;
  MoneyEdit* amount_;
  QLineEdit* who_;
  DateEdit *comes_, *date_;
};

/// The buyer brings it back. Object names: returnForm, returnRefund, returnNote, returnDate.
class ReturnForm : public Form {
  Q_OBJECT
 public:
  ReturnForm(Session& session, MachineId machine, QWidget* parent = nullptr);

 private:
  std::optional<Problem> save();
  Session& session_;
  MachineId machine_;
  MoneyEdit* refund_;
  QLineEdit* note_;
  DateEdit* date_;
};

/// Scrapped, or kept for own use. Object names: disposeForm, disposeHow, disposeProceeds, disposeDate.
class DisposeForm : public Form {
  Q_OBJECT
 public:
  DisposeForm(Session& session, MachineId machine, QWidget* parent = nullptr);

 private:
  std::optional<Problem> save();
  Session& session_;
  MachineId machine_;
  WordRow* how_;
  MoneyEdit* proceeds_;
  DateEdit* date_;
};

}  // namespace secondpull::app
