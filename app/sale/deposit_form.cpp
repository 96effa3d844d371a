#include "app/sale/deposit_form.h"

#include <QLineEdit>

#include "app/frame/session.h"
#include "app/parts/edits.h"
#include "app/sale/form_words.h"
#include "core/shop/deposits.h"

namespace secondpull::app {
namespace {

QString titleOf(const Session& session, OfferId id) {
  const auto shop = session.shop();
  const Offer* offer = shop->find(id);
  if (offer == nullptr || offer->who.empty()) return DepositForm::tr("A deposit");
  return DepositForm::tr("%1 leaves a deposit for #%2")
      .arg(QString::fromStdString(offer->who), session.tagOf(offer->machine));
}

}  // namespace

DepositForm::DepositForm(Session& session, OfferId offer, QWidget* parent)
    : Form(session, QStringLiteral("deposit-%1").arg(number(offer)), titleOf(session, offer), parent),
      session_{session},
      offer_{offer} {
  setObjectName(QStringLiteral("depositForm"));
  setColumns(2);
  amount_ = new MoneyEdit{QStringLiteral("amount"), session.currency()};
  amount_->setObjectName(QStringLiteral("depositAmount"));
  amount_->setRequired(true);
  payment_ = new QLineEdit;
  payment_->setObjectName(QStringLiteral("depositPayment"));
  date_ = new DateEdit{QStringLiteral("date"), session.today()};
  date_->setObjectName(QStringLiteral("depositDate"));
  date_->setRequired(true);
  date_->setValue(session.today());
  addField(QStringLiteral("amount"), tr("How much"), amount_);
  addField(QStringLiteral("payment"), tr("Paid by"), payment_);
  addField(QStringLiteral("date"), tr("Day"), date_);
  suggestPayments(session, *payment_);
  onSave([this] { return save(); });
}

std::optional<Problem> DepositForm::save() {
  return session_.perform(
      take_deposit(*session_.shop(), offer_, *date_->value(), *amount_->value(), textOf(*payment_)));
}

}  // namespace secondpull::app
