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
#include "app/sale/form_words.h"
#include "app/sale/machine_forms.h"
#include "app/sale/sale_rows.h"
#include "core/books/earned.h"
#include "core/shop/offers.h"
#include "core/shop/safety.h"
#include "core/shop/selling.h"

namespace secondpull::app {
namespace {

constexpr int kMostOfferRows = 4;  // shown without scrolling

std::vector<TableColumn<Offer>> offerColumns(const Session& session) {
  const Session* of = &session;
  const auto day = [of](Date date) { return QString::fromStdString(shown_short(date, of->today())); };
  const auto sortable = [](Date date) { return QVariant{QString::fromStdString(iso(date))}; };
  std::vector<TableColumn<Offer>> columns;
  columns.push_back(
      {.key = QStringLiteral("who"), .title = MachinePanel::tr("Who"), .text = [](const Offer& offer) {
         return offer.who.empty() ? MachinePanel::tr("somebody") : QString::fromStdString(offer.who);
       }});
  columns.push_back(
      {.key = QStringLiteral("amount"),
       .title = MachinePanel::tr("Offers"),
       .text = [of](const Offer& offer) { return of->money(offer.amount); },
       .sort = [](const Offer& offer) { return QVariant{static_cast<qlonglong>(offer.amount.minor())}; },
       .number = true});
  columns.push_back({.key = QStringLiteral("said"),
                     .title = MachinePanel::tr("Said"),
                     .text = [day](const Offer& offer) { return day(offer.date); },
                     .sort = [sortable](const Offer& offer) { return sortable(offer.date); }});
  columns.push_back(
      {.key = QStringLiteral("comes"),
       .title = MachinePanel::tr("Comes"),
       .text = [day](const Offer& offer) { return offer.comes ? day(*offer.comes) : QString{}; },
       .sort = [sortable](const Offer& offer) { return offer.comes ? sortable(*offer.comes) : QVariant{}; }});
  columns.push_back({.key = QStringLiteral("result"),
                     .title = MachinePanel::tr("Came of it"),
                     .text = [](const Offer& offer) {
                       return offer.result ? textOf(secondpull::word(*offer.result))
                                           : MachinePanel::tr("open");
                     }});
  return columns;
}

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
  box->addWidget(makeFigures());
  box->addWidget(makeDeeds());
  form_place_ = new QVBoxLayout;
  box->addLayout(form_place_);
  box->addWidget(makeOffers());
  box->addStretch(1);
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
  end_listing_ = deed("doEndListing", tr("Take it &in"), [this] { endListing(); });
  end_listing_->setToolTip(tr("Not for sale any more: the listing ends today"));
  dispose_ = deed("doDispose", tr("Scrap or &keep"), [this] { openDispose(); });
  return side;
}

QWidget* MachinePanel::makeOffers() {
  offers_side_ = new QWidget;
  auto* box = new QVBoxLayout{offers_side_};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  offers_title_ = new QLabel{tr("Offers")};
  setRank(offers_title_, "subheading");
  box->addWidget(offers_title_);
  offers_model_ = new RowModel<Offer>{offerColumns(session_), this};
  offers_ = new DataTable{session_, QStringLiteral("sale_offers")};
  offers_->setObjectName(QStringLiteral("saleOffers"));
  offers_->setAccessibleName(tr("Offers for this machine"));
  offers_->setRowModel(offers_model_);
  offers_->sortBy(QStringLiteral("said"), Qt::DescendingOrder);
  box->addWidget(offers_);
  auto* line = new QWidget;
  auto* flow = new Flow{line, kGrid};
  const auto button = [&](const char* name, const QString& text, auto run) {
    auto* made = new QPushButton{text};
    made->setObjectName(QString::fromLatin1(name));
    connect(made, &QPushButton::clicked, this, run);
    flow->addWidget(made);
    return made;
  };
  take_ = button("offerTake", tr("&Take it: sell"), [this] { openSale(chosenOffer()); });
  refuse_ = button("offerRefuse", tr("&Refused"), [this] { settle(OfferResult::refused); });
  no_show_ = button("offerNoShow", tr("Did &not come"), [this] { settle(OfferResult::no_show); });
  box->addWidget(line);
  connect(offers_, &DataTable::currentRowChanged, this, [this] { offerChosen(); });
  connect(offers_, &DataTable::opened, this, [this] {
    if (take_->isEnabled()) openSale(chosenOffer());
  });
  return offers_side_;
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
  const std::optional<Problem> against = here ? against_running(lines, SoldAs::running) : std::nullopt;
  warning_->setText(against ? QString::fromStdString(against->sentence) : QString{});
  warning_->setVisible(against.has_value());
  for (QPushButton* button : {sell_, asking_, offer_, dispose_})
    button->setVisible(here);
  for (QPushButton* button : {return_, allowance_})
    button->setVisible(figures->stage == Stage::sold);
  end_listing_->setVisible(listed);
  asking_->setText(listed ? tr("Change the &asking price") : tr("Put it out front: &asking price"));
  showFigures(*figures);
  showOffers(lines.offers);
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

void MachinePanel::showOffers(const std::vector<const Offer*>& offers) {
  const std::optional<OfferId> chosen = chosenOffer();
  std::vector<Offer> rows;
  rows.reserve(offers.size());
  for (const Offer* offer : offers)
    rows.push_back(*offer);
  offers_model_->setRows(std::move(rows));
  offers_side_->setVisible(!offers.empty());
  const int shown_rows = std::min(static_cast<int>(offers.size()), kMostOfferRows);
  offers_->setFixedHeight(offers_->horizontalHeader()->sizeHint().height() +
                          shown_rows * offers_->verticalHeader()->defaultSectionSize() + kGrid);
  int at = 0;
  for (int row = 0; row < offers_model_->rowCount(); ++row)
    if (offers_model_->row(row).id == chosen || (!chosen && !offers_model_->row(row).result)) at = row;
  if (!offers.empty()) offers_->selectSourceRow(at);
  offerChosen();
}

std::optional<OfferId> MachinePanel::chosenOffer() const {
  const int row = offers_->currentSourceRow();
  if (row < 0) return std::nullopt;
  return offers_model_->row(row).id;
}

void MachinePanel::offerChosen() {
  const int row = offers_->currentSourceRow();
  const bool open = row >= 0 && !offers_model_->row(row).result && !sell_->isHidden();
  for (QPushButton* button : {take_, refuse_, no_show_})
    button->setEnabled(open);
}

void MachinePanel::settle(OfferResult result) {
  const std::optional<OfferId> offer = chosenOffer();
  if (!offer) return;
  if (const auto wrong = session_.perform(settle_offer(*session_.shop(), *offer, result)))
    emit wantsSaid(QString::fromStdString(wrong->sentence), true);
}

void MachinePanel::endListing() {
  const auto books = session_.books();
  const Listing* listing = machine_ ? listingNow(books->by_machine().of(*machine_)) : nullptr;
  if (listing == nullptr) return;
  if (const auto wrong = session_.perform(end_listing(*session_.shop(), listing->id, session_.today())))
    emit wantsSaid(QString::fromStdString(wrong->sentence), true);
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
  if (form->isVisible()) form->leave();
  form->hide();
  form->deleteLater();
}

void MachinePanel::openAsking() {
  if (machine_ && !asking_->isHidden()) openForm(new AskingForm{session_, *machine_});
}
void MachinePanel::openSale(std::optional<OfferId> taken) {
  if (machine_ && !sell_->isHidden()) openForm(new SaleForm{session_, *machine_, taken});
}
void MachinePanel::openOffer() {
  if (machine_ && !offer_->isHidden()) openForm(new OfferForm{session_, *machine_});
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

}  // namespace secondpull::app
