#pragma once

#include <optional>

#include "app/parts/form.h"
#include "core/shop/ids.h"

namespace secondpull::app {

class DateEdit;
class MoneyEdit;

/// Money given back on a machine that stays sold. Object names: allowanceForm, allowanceAmount, allowanceTax,
/// allowanceNote, allowanceDate.
class AllowanceForm : public Form {
  Q_OBJECT
 public:
  AllowanceForm(Session& session, MachineId machine, QWidget* parent = nullptr);

 private:
  std::optional<Problem> save();
  Session& session_;
  MachineId machine_;
  MoneyEdit *amount_, *tax_;
  QLineEdit* note_;
  DateEdit* date_;
};

}  // namespace secondpull::app
