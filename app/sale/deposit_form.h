#pragma once

#include <optional>

#include "app/parts/form.h"
#include "core/shop/ids.h"

namespace secondpull::app {

class DateEdit;
class MoneyEdit;

/// Money left so that the machine is kept. Object names: depositForm, depositAmount, depositPayment,
/// depositDate.
class DepositForm : public Form {
  Q_OBJECT
 public:
  DepositForm(Session& session, OfferId offer, QWidget* parent = nullptr);

 private:
  std::optional<Problem> save();
  Session& session_;
  OfferId offer_;
  MoneyEdit* amount_;
  QLineEdit* payment_;
  DateEdit* date_;
};

}  // namespace secondpull::app
