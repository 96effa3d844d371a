#include "app/sale/machine_panel.h"

#include <algorithm>

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/frame/session.h"
#include "app/parts/figure_words.h"
#include "app/parts/flow.h"
#include "app/parts/form.h"
#include "app/parts/look.h"
#include "app/parts/tag_badge.h"
#include "app/sale/allowance_form.h"
#include "app/sale/deposit_form.h"
#include "app/sale/end_listing_form.h"
#include "app/sale/listing_panel.h"
#include "app/sale/machine_forms.h"
#include "app/sale/offers_panel.h"
#include "app/sale/receipt_line.h"
#include "app/sale/sale_form.h"
#include "app/sale/sale_rows.h"
#include "app/sale/suggestion_panel.h"
#include "core/books/earned.h"
#include "core/shop/recall.h"
#include "core/shop/safety.h"

namespace secondpull::app {
namespace {

WhyFigure* figure(const QString& label, const char* name) {
  auto* made = new WhyFigure{label};
  made->setObjectName(QString::fromLatin1(name));
  return made;
}

}  // namespace

MachinePanel::MachinePanel(Session& session, QWidget* parent) : QScrollArea(parent), session_{session} {
  setObjectName(QStringLiteral("salePanel"));
  setFrameShape(QFrame::NoFrame);
  setWidgetResizable(true);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  auto* content = new QWidget;
  auto* box = new QVBoxLayout{content};
  box->setContentsMargins(0, 0, kGrid, 0);
  box->setSpacing(2 * kGrid);
  box->addWidget(makeHead());
  suggestion_ = new SuggestionPanel{session};
  box->addWidget(suggestion_);
  box->addWidget(makeDeeds());
  form_place_ = new QVBoxLayout;
  box->addLayout(form_place_);
  receipt_ = new ReceiptLine{session};
  box->addWidget(receipt_);
  offers_ = new OffersPanel{session};
  box->addWidget(offers_);
  box->addWidget(makeFigures());
  listing_ = new ListingPanel{session};
  box->addWidget(listing_);
  box->addStretch(1);
  connect(suggestion_, &SuggestionPanel::used, this, [this](Money ask) { openAskingAt(ask); });
  connect(suggestion_, &SuggestionPanel::worked, this, [this] { offers_->setFloor(suggestion_->floor()); });
  connect(offers_, &OffersPanel::taken, this, [this](OfferId offer) { openSale(offer); });
  connect(offers_, &OffersPanel::wantsDeposit, this, &MachinePanel::openDeposit);
  connect(offers_, &OffersPanel::wantsSaid, this, &MachinePanel::wantsSaid);
  connect(listing_, &ListingPanel::wantsSaid, this, &MachinePanel::wantsSaid);
  connect(receipt_, &ReceiptLine::wantsSaid, this, &MachinePanel::wantsSaid);
  setWidget(content);
  content->setVisible(false);
}

QWidget* MachinePanel::makeHead() {
  auto* head = new QWidget;
  auto* grid = new QGridLayout{head};
  grid->setContentsMargins(0, 0, 0, 0);
  grid->setHorizontalSpacing(2 * kGrid);
  grid->setVerticalSpacing(kGrid / 2);
  tag_ = new TagBadge;
  tag_->setObjectName(QStringLiteral("saleTag"));
  connect(tag_, &TagBadge::clicked, this, &MachinePanel::wantsMachine);
  name_ = new QLabel;
  name_->setWordWrap(true);
  setRank(name_, "subheading");
  stands_ = faded({});
  stands_->setWordWrap(true);
  history_ = new QLabel;
  history_->setObjectName(QStringLiteral("saleHistory"));
  history_->setWordWrap(true);
  warning_ = new QLabel;
  warning_->setObjectName(QStringLiteral("saleWarning"));
  warning_->setWordWrap(true);
  setRank(warning_, "problem");
  grid->addWidget(tag_, 0, 0, 2, 1, Qt::AlignTop);
  grid->addWidget(name_, 0, 1);
  grid->addWidget(stands_, 1, 1);
  grid->addWidget(history_, 2, 0, 1, 2);
  grid->addWidget(warning_, 3, 0, 1, 2);
  grid->setColumnStretch(1, 1);
  return head;
}

QWidget* MachinePanel::makeFigures() {
  auto* side = new QWidget;
  auto* flow = new Flow{side, 3 * kGrid};
  cost_ = figure(tr("Cost so far"), "saleCost");
  hours_ = figure(tr("Hours so far"), "saleHours");
  profit_ = figure(tr("Profit"), "saleIfProfit");
  pay_ = figure(tr("Pay per hour"), "saleIfPay");
  for (WhyFigure* each : {cost_, hours_, profit_, pay_})
    flow->addWidget(each);
  return side;
}

QWidget* MachinePanel::makeDeeds() {
  auto* side = new QWidget;
  auto* flow = new Flow{side, kGrid};
  const auto deed = [&](const char* name, const QString& text, auto run) {
    auto* button = new QPushButton{text};
    button->setObjectName(QString::fromLatin1(name));
    connect(button, &QPushButton::clicked, this, run);
    flow->addWidget(button);
    return button;
  };
  sell_ = deed("doSell", tr("&Sell"), [this] { openSale(); });
  setRank(sell_, "first");
  asking_ = deed("doAsking", tr("&Asking price"), [this] { openAsking(); });
  offer_ = deed("doOffer", tr("An &offer"), [this] { openOffer(); });
  return_ = deed("doReturn", tr("It came &back"), [this] { openReturn(); });
  allowance_ = deed("doAllowance", tr("&Money back"), [this] { openAllowance(); });
  allowance_->setToolTip(tr("The machine stays sold, and some of its price is given back"));
  end_listing_ = deed("doEndListing", tr("Take it &in"), [this] { openEndListing(); });
  end_listing_->setToolTip(tr("Not for sale any more: the listing ends without a sale"));
  dispose_ = deed("doDispose", tr("S&crap or keep"), [this] { openDispose(); });
  return side;
}

void MachinePanel::setMachine(std::optional<MachineId> machine) {
  if (machine_ != machine) closeForm();
  machine_ = machine;
  refresh();
}

void MachinePanel::refresh() {
  const auto books = session_.books();
  const MachineFigures* figures = machine_ ? books->machine(*machine_) : nullptr;
  widget()->setVisible(figures != nullptr);
  if (figures == nullptr) return;
  const ByMachine::Lines& lines = books->by_machine().of(*machine_);
  const bool here = is_here(figures->stage);
  const bool listed = here && listingNow(lines) != nullptr;
  const QString stands = QString::fromStdString(standing(books->shop(), lines, session_.today()));
  tag_->setMachine(*machine_, session_.tagOf(*machine_), stands);
  name_->setText(session_.nameOf(*machine_));
  stands_->setText(stands);
  history_->setText(priceHistory(session_, lines));
  history_->setVisible(!history_->text().isEmpty());
  std::optional<Problem> against = here ? against_recalled(lines) : std::nullopt;
  if (here && !against) against = against_running(lines, SoldAs::running);
  warning_->setText(against ? QString::fromStdString(against->sentence) : QString{});
  warning_->setVisible(against.has_value());
  for (QPushButton* button : {sell_, asking_, offer_, dispose_})
    button->setVisible(here);
  for (QPushButton* button : {return_, allowance_})
    button->setVisible(figures->stage == Stage::sold);
  end_listing_->setVisible(listed);
  asking_->setText(listed ? tr("Change the &asking price") : tr("Put it out front: &asking price"));
  showFigures(*figures);
  suggestion_->setMachine(here ? machine_ : std::nullopt);
  offers_->setFloor(here ? suggestion_->floor() : std::nullopt);
  offers_->showOffers(lines, here);
  listing_->setMachine(here ? machine_ : std::nullopt);
  receipt_->setMachine(machine_);
}

void MachinePanel::showFigures(const MachineFigures& figures) {
  const auto books = session_.books();
  cost_->setFigure(session_.money(figures.cost_basis), whyCost(session_, figures.machine));
  hours_->setFigure(QString::fromStdString(shown(figures.minutes)), whyHours(session_, figures.machine));
  std::optional<MachineFigures> sold;
  QString note;
  if (is_here(figures.stage)) {
    const Listing* listing = listingNow(books->by_machine().of(figures.machine));
    if (listing != nullptr) {
      sold = books->if_sold(figures.machine, listing->asking, {}, {}, session_.today());
      note =
          tr("if sold at %1").arg(QString::fromStdString(shown_short(listing->asking, session_.currency())));
    }
  } else {
    sold = figures;
    note = tr("after the shop's costs, so far");
  }
  for (WhyFigure* each : {profit_, pay_})
    each->setVisible(sold.has_value());
  if (!sold) return;
  profit_->setFigure(session_.money(sold->profit),
                     sold->net_proceeds && sold->profit
                         ? tr("Net proceeds %1 less cost %2, less trips and its share of the shop's costs so "
                              "far, %3.")
                               .arg(session_.money(*sold->net_proceeds), session_.money(sold->cost_basis),
                                    session_.money(sold->running_costs))
                         : QString{});
  profit_->setNote(note);
  pay_->setFigure(session_.money(sold->pay_per_hour),
                  sold->profit ? perHourInWords(session_, *sold->profit, sold->minutes) : QString{});
}

void MachinePanel::openForm(Form* form) {
  closeForm();
  form_ = form;
  form_place_->addWidget(form);
  const auto done = [this, form] {
    if (form_ == form) closeForm();
    emit formClosed();
  };
  connect(form, &Form::saved, this, done);
  connect(form, &Form::left, this, done);
  form->open();
  ensureWidgetVisible(form);
}

void MachinePanel::closeForm() {
  Form* form = std::exchange(form_, nullptr);
  if (form == nullptr) return;
  disconnect(form, nullptr, this, nullptr);  // leaving it closes no form a second time
  if (form->isVisible()) form->leave();
  form->hide();
  form->deleteLater();
}

void MachinePanel::openAskingAt(std::optional<Money> suggested) {
  if (!machine_ || asking_->isHidden()) return;
  // What was never listed starts from the suggestion, if there is one by now.
  const auto books = session_.books();
  if (!suggested && listingNow(books->by_machine().of(*machine_)) == nullptr) suggested = suggestion_->ask();
  openForm(new AskingForm{session_, *machine_, suggested});
}
void MachinePanel::openSale(std::optional<OfferId> taken) {
  if (machine_ && !sell_->isHidden()) openForm(new SaleForm{session_, *machine_, taken});
}
void MachinePanel::openOffer() {
  if (!machine_ || offer_->isHidden()) return;
  auto* form = new OfferForm{session_, *machine_};
  form->setFloor(suggestion_->floor());
  connect(suggestion_, &SuggestionPanel::worked, form,
          [this, form] { form->setFloor(suggestion_->floor()); });
  openForm(form);
}
void MachinePanel::openReturn() {
  if (machine_ && !return_->isHidden()) openForm(new ReturnForm{session_, *machine_});
}
void MachinePanel::openAllowance() {
  if (machine_ && !allowance_->isHidden()) openForm(new AllowanceForm{session_, *machine_});
}
void MachinePanel::openDispose() {
  if (machine_ && !dispose_->isHidden()) openForm(new DisposeForm{session_, *machine_});
}

void MachinePanel::openEndListing() {
  const auto books = session_.books();
  const Listing* listing = machine_ ? listingNow(books->by_machine().of(*machine_)) : nullptr;
  if (listing != nullptr) openForm(new EndListingForm{session_, listing->id});
}
void MachinePanel::openDeposit(OfferId offer) {
  openForm(new DepositForm{session_, offer});
}
void MachinePanel::openListing() {
  if (machine_ && !sell_->isHidden()) listing_->edit();
}
void MachinePanel::chooseOffer(OfferId offer) {
  offers_->choose(offer);
}
std::optional<OfferId> MachinePanel::chosenOffer() const {
  return offers_->chosen();
}

}  // namespace secondpull::app
