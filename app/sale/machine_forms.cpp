#include "app/sale/machine_forms.h"

#include <QLabel>
#include <QLineEdit>

#include "app/frame/session.h"
#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/look.h"
#include "app/sale/form_words.h"
#include "app/sale/recall_line.h"
#include "app/sale/sale_rows.h"
#include "core/shop/offers.h"
#include "core/shop/selling.h"

namespace secondpull::app {
namespace {

/// One draft for each machine: "asking-14".
QString draftName(const char* form, MachineId machine) {
  return QStringLiteral("%1-%2").arg(QString::fromLatin1(form)).arg(number(machine));
}

DateEdit* dayEdit(const Session& session) {
  auto* edit = new DateEdit{QStringLiteral("date"), session.today()};
  edit->setRequired(true);
  edit->setValue(session.today());
  return edit;
}

template <class Widget>
Widget* named(Widget* widget, const char* name) {
  widget->setObjectName(QString::fromLatin1(name));
  return widget;
}

}  // namespace

AskingForm::AskingForm(Session& session, MachineId machine, std::optional<Money> suggested, QWidget* parent)
    : Form(session, draftName("asking", machine), tr("Asking price of #%1").arg(session.tagOf(machine)),
           parent),
      session_{session},
      machine_{machine} {
  setObjectName(QStringLiteral("askingForm"));
  setColumns(2);
  price_ = named(new MoneyEdit{QStringLiteral("asking"), session.currency()}, "askingPrice");
  price_->setRequired(true);
  channel_ = named(new QLineEdit, "askingChannel");
  sold_as_ = named(new WordRow{tr("Offered as"), soldAsWords()}, "askingSoldAs");
  date_ = named(dayEdit(session), "askingDate");
  addField(QStringLiteral("asking"), tr("Asking price"), price_);
  addField(QStringLiteral("channel"), tr("Where it is offered"), channel_);
  addField(QStringLiteral("sold_as"), tr("Offered as"), sold_as_);
  addField(QStringLiteral("date"), tr("Since"), date_);
  QLabel* caution = runningCaution(QStringLiteral("askingCaution"));
  addWide(caution);
  addWide(new RecallLine{session, machine});
  const auto follow = [this, caution] { caution->setVisible(soldAs(*sold_as_) == SoldAs::running); };
  connect(sold_as_, &WordRow::chosen, this, follow);

  const auto shop = session.shop();
  const auto books = session.books();
  QStringList channels;
  for (const Listing& listing : shop->all<Listing>())
    channels << QString::fromStdString(listing.channel);
  suggest(*channel_, channels);
  if (const Listing* listing = listingNow(books->by_machine().of(machine))) {
    price_->setValue(listing->asking);
    channel_->setText(QString::fromStdString(listing->channel));
    setSoldAs(*sold_as_, listing->sold_as);
  }
  if (suggested) price_->setGuess(QString::fromStdString(plain(*suggested, session.currency())));
  price_->selectAll();
  follow();
  onSave([this] { return save(); });
}

std::optional<Problem> AskingForm::save() {
  return session_.perform(list_machine(*session_.shop(), machine_, *date_->value(), textOf(*channel_),
                                       *price_->value(), soldAs(*sold_as_)));
}

OfferForm::OfferForm(Session& session, MachineId machine, QWidget* parent)
    : Form(session, draftName("offer", machine), tr("An offer for #%1").arg(session.tagOf(machine)), parent),
      session_{session},
      machine_{machine} {
  setObjectName(QStringLiteral("offerForm"));
  setColumns(2);
  amount_ = named(new MoneyEdit{QStringLiteral("amount"), session.currency()}, "offerAmount");
  amount_->setRequired(true);
  who_ = named(new QLineEdit, "offerWho");
  comes_ = named(new DateEdit{QStringLiteral("comes"), session.today()}, "offerComes");
  date_ = named(dayEdit(session), "offerDate");
  addField(QStringLiteral("amount"), tr("How much"), amount_);
  addField(QStringLiteral("who"), tr("Who"), who_);
  addField(QStringLiteral("comes"), tr("Comes on"), comes_);
  addField(QStringLiteral("date"), tr("Said on"), date_);
  beside_floor_ = named(new QLabel, "offerFloor");
  beside_floor_->setWordWrap(true);
  beside_floor_->hide();
  addWide(beside_floor_);
  connect(amount_, &QLineEdit::textChanged, this, &OfferForm::showFloor);
  onSave([this] { return save(); });
}

void OfferForm::setFloor(std::optional<Money> floor) {
  floor_ = floor;
  showFloor();
}

void OfferForm::showFloor() {
  const std::optional<Money> amount = amount_->value();
  beside_floor_->setVisible(floor_.has_value() && amount.has_value());
  if (!floor_ || !amount) return;
  const QString floor = QString::fromStdString(shown_short(*floor_, session_.currency()));
  const bool below = *amount < *floor_;
  beside_floor_->setText(below ? tr("Below the floor of %1: waiting for the next one is better.").arg(floor)
                               : tr("Not below the floor of %1.").arg(floor));
  setRank(beside_floor_, below ? "caution" : "faded");
}

std::optional<Problem> OfferForm::save() {
  return session_.perform(record_offer(*session_.shop(), {.machine = machine_,
                                                          .date = *date_->value(),
                                                          .amount = *amount_->value(),
                                                          .who = textOf(*who_),
                                                          .comes = comes_->value()}));
}

ReturnForm::ReturnForm(Session& session, MachineId machine, QWidget* parent)
    : Form(session, draftName("return", machine), tr("#%1 came back").arg(session.tagOf(machine)), parent),
      session_{session},
      machine_{machine} {
  setObjectName(QStringLiteral("returnForm"));
  setColumns(2);
  refund_ = named(new MoneyEdit{QStringLiteral("refunded"), session.currency()}, "returnRefund");
  refund_->setRequired(true);
  date_ = named(dayEdit(session), "returnDate");
  note_ = named(new QLineEdit, "returnNote");
  addField(QStringLiteral("refunded"), tr("Money given back, tax apart"), refund_);
  addField(QStringLiteral("date"), tr("Day"), date_);
  addField(QStringLiteral("note"), tr("What was wrong"), note_, 2);
  const auto books = session.books();
  const ByMachine::Lines& lines = books->by_machine().of(machine);
  if (!lines.sales.empty())
    refund_->setGuess(QString::fromStdString(plain(lines.sales.back()->price, session.currency())));
  onSave([this] { return save(); });
}

std::optional<Problem> ReturnForm::save() {
  return session_.perform(
      take_back(*session_.shop(), machine_, *date_->value(), *refund_->value(), textOf(*note_)));
}

DisposeForm::DisposeForm(Session& session, MachineId machine, QWidget* parent)
    : Form(session, draftName("dispose", machine), tr("#%1 goes without a sale").arg(session.tagOf(machine)),
           parent),
      session_{session},
      machine_{machine} {
  setObjectName(QStringLiteral("disposeForm"));
  setColumns(2);
  how_ = named(new WordRow{tr("How it goes"), {tr("scrapped"), tr("kept for own use")}}, "disposeHow");
  proceeds_ = named(new MoneyEdit{QStringLiteral("proceeds"), session.currency()}, "disposeProceeds");
  date_ = named(dayEdit(session), "disposeDate");
  addField(QStringLiteral("how"), tr("How it goes"), how_, 2);
  addField(QStringLiteral("proceeds"), tr("Scrap money"), proceeds_);
  addField(QStringLiteral("date"), tr("Day"), date_);
  connect(how_, &WordRow::chosen, this, [this](int index) { proceeds_->setEnabled(index == 0); });
  onSave([this] { return save(); });
}

std::optional<Problem> DisposeForm::save() {
  const bool scrapped = how_->current() == 0;
  return session_.perform(dispose(*session_.shop(), machine_, *date_->value(),
                                  scrapped ? DisposalKind::scrapped : DisposalKind::kept,
                                  scrapped ? proceeds_->value().value_or(Money{}) : Money{}));
}

}  // namespace secondpull::app
