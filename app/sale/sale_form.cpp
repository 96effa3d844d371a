#include "app/sale/sale_form.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>

#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/figure_words.h"
#include "app/parts/look.h"
#include "app/sale/deal_list.h"
#include "app/sale/form_words.h"
#include "app/sale/recall_line.h"
#include "app/sale/sale_rows.h"
#include "core/shop/deposits.h"

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

QStringList placesOf(const Shop& shop) {
  QStringList words;
  for (const Sale& sale : shop.all<Sale>())
    words << QString::fromStdString(sale.place);
  return words;
}

}  // namespace

SaleForm::SaleForm(Session& session, MachineId machine, std::optional<OfferId> taken, QWidget* parent)
    // Its own draft for each offer: who left a deposit goes with what was typed.
    : Form(session,
           taken ? QStringLiteral("sale-%1-%2").arg(number(machine)).arg(number(*taken))
                 : QStringLiteral("sale-%1").arg(number(machine)),
           tr("Sell #%1").arg(session.tagOf(machine)), parent),
      session_{session},
      machine_{machine},
      taken_{taken} {
  setObjectName(QStringLiteral("saleForm"));
  setColumns(kColumns);
  setSaveText(tr("Sell"));
  addFields();
  deal_ = new DealList{session, machine};
  addWide(deal_);
  deposit_ = new QLabel;
  deposit_->setObjectName(QStringLiteral("saleDeposit"));
  deposit_->setWordWrap(true);
  addWide(deposit_);

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
  addWide(new RecallLine{session, machine});

  fill();
  const auto follow = [this, caution] {
    caution->setVisible(soldAs(*sold_as_) == SoldAs::running);
    showWhatItGives();
    showDeposit();
  };
  for (QLineEdit* edit : std::initializer_list<QLineEdit*>{price_, fee_, delivery_, tax_, minutes_, date_})
    connect(edit, &QLineEdit::textChanged, this, follow);
  connect(sold_as_, &WordRow::chosen, this, follow);
  connect(deal_, &DealList::edited, this, [this, follow] {
    noteEdited();
    follow();
  });
  setExtraDraft([this] { return deal_->draft(); },
                [this, follow](const QString& kept) {
                  deal_->read(kept);
                  follow();
                });
  follow();
  onSave([this] { return save(); });
}

void SaleForm::addFields() {
  const Currency currency = session_.currency();
  const auto add = [this](const char* name, const char* field, const QString& label, auto* widget,
                          int span = 1) {
    widget->setObjectName(QString::fromLatin1(name));
    addField(QString::fromLatin1(field), label, widget, span);
    return widget;
  };
  buyer_ = add("saleBuyer", "buyer", tr("Buyer"),
               new RecordPicker{session_, RecordPicker::Of::person, QStringLiteral("buyer")}, 2);
  price_ = add("salePrice", "price", tr("Price"), new MoneyEdit{QStringLiteral("price"), currency});
  price_->setRequired(true);
  sold_as_ = add("saleSoldAs", "sold_as", tr("Sold as"), new WordRow{tr("Sold as"), soldAsWords()}, 2);
  date_ = add("saleDate", "date", tr("Day"), new DateEdit{QStringLiteral("date"), session_.today()});
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
}

void SaleForm::fill() {
  const auto shop = session_.shop();
  const auto books = session_.books();
  const ByMachine::Lines& lines = books->by_machine().of(machine_);
  date_->setValue(session_.today());
  suggest(*place_, placesOf(*shop));
  suggestPayments(session_, *payment_);
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

std::optional<Deal> SaleForm::typed() const {
  const std::optional<Money> price = price_->value();
  const std::optional<Date> day = date_->value();
  if (!price || !day) return std::nullopt;
  Deal deal{.date = *day,
            .buyer = {.known = buyer_->picked<PersonId>(), .new_name = {}},
            .price = *price,
            .sales_tax = tax_->value().value_or(Money{}),
            .fee = fee_->value().value_or(Money{}),
            .delivery = delivery_->value().value_or(Money{}),
            .labour = minutes_->value(),
            .payment = textOf(*payment_),
            .warranty_days = warranty_->value(),
            .place = textOf(*place_)};
  if (buyer_->isNew()) deal.buyer.new_name = textOf(*buyer_);
  deal_->fill(deal);
  deal.machines.front().sold_as = soldAs(*sold_as_);
  deal.machines.front().taken = taken_;
  return deal;
}

void SaleForm::showWhatItGives() {
  const std::optional<Deal> deal = typed();
  Result<std::vector<DealShare>> shares = std::vector<DealShare>{};
  if (deal) shares = shares_of(*session_.shop(), *deal);
  deal_->showShares(shares && deal_->isSeveral() ? *shares : std::vector<DealShare>{});
  std::optional<MachineFigures> figures;
  // The time is split into equal parts, the minutes left over to the first.
  const auto machines = static_cast<std::int64_t>(deal ? deal->machines.size() : 1);
  const Minutes minutes{(minutes_->value().value_or(Minutes{}).count + machines - 1) / machines};
  if (shares && !shares->empty())
    figures = session_.books()->if_sold(machine_, shares->front().price, shares->front().fee,
                                        shares->front().delivery, deal->date, minutes);
  const QString note = deal_->isSeveral() ? tr("from #%1").arg(session_.tagOf(machine_)) : QString{};
  profit_->setNote(note);
  pay_->setNote(note);
  if (!figures || !figures->profit) {
    profit_->setFigure(session_.money(std::optional<Money>{}), {});
    pay_->setFigure(session_.money(std::optional<Money>{}), {});
    return;
  }
  const DealShare& share = shares->front();
  profit_->setFigure(
      session_.money(figures->profit),
      tr("<p>Price %1 less fee %2 and delivery %3, less the cost below, less trips and its share "
         "of the shop's costs so far, %4.</p>")
              .arg(session_.money(share.price), session_.money(share.fee), session_.money(share.delivery),
                   session_.money(figures->running_costs)) +
          whyCost(session_, machine_));
  pay_->setFigure(session_.money(figures->pay_per_hour),
                  perHourInWords(session_, *figures->profit, figures->minutes));
}

void SaleForm::showDeposit() {
  const auto shop = session_.shop();
  const auto brief = [this](Money amount) {
    return QString::fromStdString(shown_short(amount, session_.currency()));
  };
  const auto who = [](const Offer& offer) {
    return offer.who.empty() ? tr("Somebody") : QString::fromStdString(offer.who);
  };
  QStringList sentences;
  for (const Deposit* deposit : deposits_held(*shop, machine_)) {
    const Offer& offer = *shop->find(deposit->offer);
    if (offer.id == taken_) continue;
    sentences
        << (offer.result
                ? tr("%1 left a deposit of %2, which is to go back.").arg(who(offer), brief(deposit->amount))
                : tr("%1 left a deposit of %2: take their offer if they are the buyer, else it goes back.")
                      .arg(who(offer), brief(deposit->amount)));
  }
  const Money left = taken_ ? deposit_left(*shop, *taken_) : Money{};
  if (const auto price = price_->value(); price && !left.is_zero()) {
    const Money due = *price + tax_->value().value_or(Money{}) - left;
    sentences.prepend(due < Money{}
                          ? tr("%1 were left as a deposit: %2 go back.").arg(brief(left), brief(-due))
                          : tr("%1 were left as a deposit: %2 to pay now.").arg(brief(left), brief(due)));
  }
  deposit_->setText(sentences.join(QLatin1Char(' ')));
  deposit_->setVisible(!sentences.isEmpty());
}

std::optional<Problem> SaleForm::save() {
  if (auto wrong = deal_->problem()) return wrong;
  return session_.perform(sell_together(*session_.shop(), *typed()));
}

}  // namespace secondpull::app
