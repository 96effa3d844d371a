#pragma once

#include <optional>

#include "app/parts/form.h"
#include "core/money/money.h"
#include "core/shop/ids.h"

class QLabel;

namespace secondpull::app {

class DateEdit;
class MoneyEdit;
class WordRow;

// The forms of the For sale screen, each about one machine. A form is made when it is opened and goes when it
// is left; its draft is kept under the machine.

/// Puts a machine out front at an asking price, or changes the price. Object names: askingForm, askingPrice,
/// askingChannel, askingSoldAs, askingDate, askingCaution, and those of RecallLine.
class AskingForm : public Form {
  Q_OBJECT
 public:
  /// @param suggested  a price to start from, marked as a guess; absent: the one asked now
  AskingForm(Session& session, MachineId machine, std::optional<Money> suggested, QWidget* parent = nullptr);

 private:
  std::optional<Problem> save();
  Session& session_;
  MachineId machine_;
  MoneyEdit* price_;
  QLineEdit* channel_;
  WordRow* sold_as_;
  DateEdit* date_;
};

/// Somebody said what they would pay. Object names: offerForm, offerAmount, offerWho, offerComes, offerDate,
/// offerFloor.
class OfferForm : public Form {
  Q_OBJECT
 public:
  OfferForm(Session& session, MachineId machine, QWidget* parent = nullptr);
  void setFloor(std::optional<Money> floor);  ///< below which waiting is better

 private:
  std::optional<Problem> save();
  Session& session_;
  MachineId machine_;
  void showFloor();
  std::optional<Money> floor_;
  MoneyEdit* amount_;
  QLineEdit* who_;
  DateEdit *comes_, *date_;
  QLabel* beside_floor_;
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
