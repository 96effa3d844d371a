#pragma once

#include <optional>

#include <QWidget>

#include "core/money/money.h"
#include "core/shop/words.h"

class QPushButton;

namespace secondpull::app {

class HintLine;
class MoneyEdit;

/// How a find ends: bought, for a price that is asked for in place, passed on, or gone; and what is wrong
/// with it, if something is. Object names: "scoutBuy", "scoutPassOn", "scoutGone", "scoutPrice",
/// "scoutTakeIn".
class EndRow : public QWidget {
  Q_OBJECT
 public:
  explicit EndRow(const Currency& currency, QWidget* parent = nullptr);
  void setEndable(bool endable);  ///< is there a find to be ended?
  void askPrice(Money guess);     ///< opens the price's field
  bool isAsking() const;
  void stopAsking();
  void takeIn();  ///< what Enter in the price does
  HintLine& hint() { return *hint_; }

 signals:
  void asked();  ///< "Bought it": askPrice is due
  void bought(secondpull::Money price);
  void ended(secondpull::FindEnd how);  ///< passed on or gone

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  Currency currency_;
  QPushButton *buy_, *pass_on_, *gone_;
  QWidget* price_row_;
  MoneyEdit* price_;
  HintLine* hint_;
};

}  // namespace secondpull::app
