#pragma once

#include <optional>

#include "app/parts/form.h"
#include "core/shop/deal.h"

class QLabel;

namespace secondpull::app {

class CountEdit;
class DateEdit;
class DealList;
class MinutesEdit;
class MoneyEdit;
class RecordPicker;
class WordRow;

/// The sale of a machine, and of what goes with it: who, for how much, what is still to pay where a deposit
/// was left, and what it would give, as it is typed. Object names: saleForm, saleBuyer, salePrice, saleFee,
/// saleDelivery, saleTax, salePlace, salePayment, saleSoldAs, saleWarranty, saleMinutes, saleDate,
/// saleDeposit, saleCaution, the figures saleProfit and salePay, and those of DealList and RecallLine.
class SaleForm : public Form {
  Q_OBJECT
 public:
  /// @param taken  the offer that the sale takes up: its amount and who made it stand in the fields
  SaleForm(Session& session, MachineId machine, std::optional<OfferId> taken, QWidget* parent = nullptr);

 private:
  void addFields();
  void fill();
  /// The deal as typed; nothing while it has no price or no day.
  std::optional<Deal> typed() const;
  void showWhatItGives();
  void showDeposit();
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
  DealList* deal_;
  QLabel* deposit_;
  WhyFigure *profit_, *pay_;
};

}  // namespace secondpull::app
