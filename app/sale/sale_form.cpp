#include <algorithm>

#include <QHBoxLayout>
#include <QLabel>

#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/figure_words.h"
#include "app/parts/look.h"
#include "app/sale/form_words.h"
#include "app/sale/machine_forms.h"
#include "app/sale/sale_rows.h"
#include "core/shop/offers.h"
#include "core/shop/selling.h"

namespace secondpull::app {
namespace {

constexpr int kColumns = 3;

/// The sale entered last, whatever the machine: what one writes every time is taken from it.
const Sale* lastSale(const Shop& shop) {
  const Sale* last = nullptr;
  for (const Sale& sale : shop.all<Sale>())
    if (last == nullptr || sale.entered > last->entered) last = &sale;
  return last;
}

template <class Text>
QStringList textsOf(const Shop& shop, Text Sale::*member) {
  QStringList words;
  for (const Sale& sale : shop.all<Sale>())
    words << QString::fromStdString(sale.*member);
  return words;
}

}  // namespace

SaleForm::SaleForm(Session& session, MachineId machine, std::optional<OfferId> taken, QWidget* parent)
    : Form(session, QStringLiteral("sale-%1").arg(number(machine)),
           tr("Sell #%1").arg(session.tagOf(machine)), parent),
      session_{session},
      machine_{machine},
      taken_{taken} {
  const Currency currency = session.currency();
  setObjectName(QStringLiteral("saleForm"));
  setColumns(kColumns);
  setSaveText(tr("Sell"));
  const auto add = [this](const char* name, const char* field, const QString& label, auto* widget,
                          int span = 1) {
    widget->setObjectName(QString::fromLatin1(name));
    addField(QString::fromLatin1(field), label, widget, span);
    return widget;
  };
  buyer_ = add("saleBuyer", "buyer", tr("Buyer"),
               new RecordPicker{session, RecordPicker::Of::person, QStringLiteral("buyer")}, 2);
  price_ = add("salePrice", "price", tr("Price"), new MoneyEdit{QStringLiteral("price"), currency});
  price_->setRequired(true);
  sold_as_ = add("saleSoldAs", "sold_as", tr("Sold as"), new WordRow{tr("Sold as"), soldAsWords()}, 2);
  date_ = add("saleDate", "date", tr("Day"), new DateEdit{QStringLiteral("date"), session.today()});
  date_->setRequired(true);
  fee_ = add("saleFee", "fee", tr("Selling fee"), new MoneyEdit{QStringLiteral("fee"), currency});
  delivery_ = add("saleDelivery", "delivery", tr("Delivery paid"),
                  new MoneyEdit{QStringLiteral("delivery"), currency});
  minutes_ = add("saleMinutes", "minutes", tr("Time selling it"), new MinutesEdit{QStringLiteral("minutes")});
  tax_ = add("saleTax", "sales_tax", tr("Sales tax on top"),
             new MoneyEdit{QStringLiteral("sales_tax"), currency});
  place_ = add("salePlace", "place", tr("Place of the tax"), new QLineEdit);
  warranty_ = add("saleWarranty", "warranty_days", tr("Warranty, days"),
                  new CountEdit{QStringLiteral("warranty_days"), 0});
  payment_ = add("salePayment", "payment", tr("Paid by"), new QLineEdit, kColumns);

  auto* gives = new QWidget;
  auto* line = new QHBoxLayout{gives};
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(4 * kGrid);
  profit_ = new WhyFigure{tr("It would give")};
  profit_->setObjectName(QStringLiteral("saleProfit"));
  pay_ = new WhyFigure{tr("Pay per hour")};
  pay_->setObjectName(QStringLiteral("salePay"));
  line->addWidget(profit_);
  line->addWidget(pay_);
  line->addStretch(1);
  addWide(gives);
  QLabel* caution = runningCaution(QStringLiteral("saleCaution"));
  addWide(caution);

  fill();
  const auto follow = [this, caution] {
    caution->setVisible(soldAs(*sold_as_) == SoldAs::running);
    showWhatItGives();
  };
  for (QLineEdit* edit : std::initializer_list<QLineEdit*>{price_, fee_, delivery_, minutes_, date_})
    connect(edit, &QLineEdit::textChanged, this, follow);
  connect(sold_as_, &WordRow::chosen, this, follow);
  follow();
  onSave([this] { return save(); });
}

void SaleForm::fill() {
  const auto shop = session_.shop();
  const auto books = session_.books();
  const ByMachine::Lines& lines = books->by_machine().of(machine_);
  date_->setValue(session_.today());
  suggest(*place_, textsOf(*shop, &Sale::place));
  suggest(*payment_, textsOf(*shop, &Sale::payment));
  if (const Sale* last = lastSale(*shop)) {
    payment_->setText(QString::fromStdString(last->payment));
    place_->setText(QString::fromStdString(last->place));
  }
  if (const Listing* listing = listingNow(lines)) {
    price_->setGuess(QString::fromStdString(plain(listing->asking, session_.currency())));
    setSoldAs(*sold_as_, listing->sold_as);
  }
  const Offer* offer = taken_ ? shop->find(*taken_) : nullptr;
  if (offer == nullptr) return;
  price_->setValue(offer->amount);
  buyer_->setText(QString::fromStdString(offer->who));
}

void SaleForm::showWhatItGives() {
  const std::optional<Money> price = price_->value();
  const std::optional<Date> day = date_->value();
  const Money fee = fee_->value().value_or(Money{});
  const Money delivery = delivery_->value().value_or(Money{});
  std::optional<MachineFigures> figures;
  if (price && day)
    figures = session_.books()->if_sold(machine_, *price, fee, delivery, *day,
                                        minutes_->value().value_or(Minutes{}));
  if (!figures || !figures->profit) {
    profit_->setFigure(session_.money(std::optional<Money>{}), {});
    pay_->setFigure(session_.money(std::optional<Money>{}), {});
    return;
  }
  profit_->setFigure(
      session_.money(figures->profit),
      tr("<p>Price %1 less fee %2 and delivery %3, less the cost below, less trips and its share "
         "of the shop's costs so far, %4.</p>")
              .arg(session_.money(*price), session_.money(fee), session_.money(delivery),
                   session_.money(figures->running_costs)) +
          whyCost(session_, machine_));
  pay_->setFigure(session_.money(figures->pay_per_hour),
                  perHourInWords(session_, *figures->profit, figures->minutes));
}

std::optional<Problem> SaleForm::save() {
  const auto shop = session_.shop();
  NewSale sale{.machine = machine_,
               .date = *date_->value(),
               .buyer = {.known = buyer_->picked<PersonId>(), .new_name = {}},
               .price = *price_->value(),
               .sales_tax = tax_->value().value_or(Money{}),
               .fee = fee_->value().value_or(Money{}),
               .delivery = delivery_->value().value_or(Money{}),
               .payment = textOf(*payment_),
               .sold_as = soldAs(*sold_as_),
               .warranty_days = warranty_->value(),
               .place = textOf(*place_),
               .labour = minutes_->value()};
  if (buyer_->isNew()) sale.buyer.new_name = textOf(*buyer_);
  return session_.perform(sell(*shop, sale).and_then([&](Change change) {
    return settling_offers(*shop, std::move(change), machine_, taken_);
  }));
}

}  // namespace secondpull::app
