#include "app/sale/offers_panel.h"

#include <algorithm>
#include <utility>

#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "app/frame/session.h"
#include "app/parts/flow.h"
#include "app/parts/look.h"
#include "app/sale/form_words.h"
#include "core/shop/deposits.h"
#include "core/shop/offers.h"
#include "core/shop/together.h"

namespace secondpull::app {
namespace {

constexpr int kMostRows = 4;  // shown without scrolling

QString brief(const Session& session, Money amount) {
  return QString::fromStdString(shown_short(amount, session.currency()));
}

QString besideFloor(const Session& session, const OfferRow& row) {
  if (!row.floor || row.offer.result) return {};
  const Money over = row.offer.amount - *row.floor;
  return over < Money{} ? OffersPanel::tr("%1 below").arg(brief(session, -over)) : OffersPanel::tr("above");
}

QString comesWhen(const Session& session, const Offer& offer) {
  if (!offer.comes) return {};
  const Date today = session.today();
  const QString day = QString::fromStdString(shown_short(*offer.comes, today));
  if (offer.result) return day;
  if (*offer.comes == today) return OffersPanel::tr("today");
  return *offer.comes < today ? OffersPanel::tr("was due %1").arg(day) : day;
}

std::vector<TableColumn<OfferRow>> offerColumns(const Session& session) {
  const Session* of = &session;
  const auto sortable = [](Date date) { return QVariant{QString::fromStdString(iso(date))}; };
  std::vector<TableColumn<OfferRow>> columns;
  columns.push_back(
      {.key = QStringLiteral("who"), .title = OffersPanel::tr("Who"), .text = [](const OfferRow& row) {
         return row.offer.who.empty() ? OffersPanel::tr("somebody") : QString::fromStdString(row.offer.who);
       }});
  columns.push_back(
      {.key = QStringLiteral("amount"),
       .title = OffersPanel::tr("Offers"),
       .text = [of](const OfferRow& row) { return of->money(row.offer.amount); },
       .sort = [](const OfferRow& row) { return QVariant{static_cast<qlonglong>(row.offer.amount.minor())}; },
       .number = true});
  columns.push_back({.key = QStringLiteral("floor"),
                     .title = OffersPanel::tr("Floor"),
                     .text = [of](const OfferRow& row) { return besideFloor(*of, row); },
                     .why =
                         [of](const OfferRow& row) {
                           return row.floor ? OffersPanel::tr("Below %1 waiting for the next one is better.")
                                                  .arg(brief(*of, *row.floor))
                                            : QString{};
                         }});
  columns.push_back({.key = QStringLiteral("said"),
                     .title = OffersPanel::tr("Said"),
                     .text =
                         [of](const OfferRow& row) {
                           return QString::fromStdString(shown_short(row.offer.date, of->today()));
                         },
                     .sort = [sortable](const OfferRow& row) { return sortable(row.offer.date); },
                     .shown = false});
  columns.push_back({.key = QStringLiteral("comes"),
                     .title = OffersPanel::tr("Comes"),
                     .text = [of](const OfferRow& row) { return comesWhen(*of, row.offer); },
                     .sort =
                         [sortable](const OfferRow& row) {
                           return row.offer.comes ? sortable(*row.offer.comes) : QVariant{};
                         }});
  columns.push_back(
      {.key = QStringLiteral("deposit"),
       .title = OffersPanel::tr("Deposit"),
       .text =
           [of](const OfferRow& row) { return row.deposit.is_zero() ? QString{} : of->money(row.deposit); },
       .sort = [](const OfferRow& row) { return QVariant{static_cast<qlonglong>(row.deposit.minor())}; },
       .number = true});
  columns.push_back({.key = QStringLiteral("result"),
                     .title = OffersPanel::tr("Came of it"),
                     .text = [](const OfferRow& row) {
                       if (!row.offer.result) return OffersPanel::tr("open");
                       return *row.offer.result == OfferResult::no_show
                                  ? OffersPanel::tr("did not come")
                                  : textOf(secondpull::word(*row.offer.result));
                     }});
  return columns;
}

}  // namespace

OffersPanel::OffersPanel(Session& session, QWidget* parent) : QWidget(parent), session_{session} {
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  auto* title = new QLabel{tr("Offers")};
  setRank(title, "subheading");
  box->addWidget(title);
  model_ = new RowModel<OfferRow>{offerColumns(session), this};
  table_ = new DataTable{session, QStringLiteral("sale_offers")};
  table_->setObjectName(QStringLiteral("saleOffers"));
  table_->setAccessibleName(tr("Offers for this machine"));
  table_->setRowModel(model_);
  table_->sortBy(QStringLiteral("said"), Qt::DescendingOrder);
  box->addWidget(table_);
  auto* line = new QWidget;
  auto* flow = new Flow{line, kGrid};
  const auto button = [&](const char* name, const QString& text, auto run) {
    auto* made = new QPushButton{text};
    made->setObjectName(QString::fromLatin1(name));
    connect(made, &QPushButton::clicked, this, run);
    flow->addWidget(made);
    return made;
  };
  take_ = button("offerTake", tr("&Take it: sell"), [this] {
    if (const auto offer = chosen()) emit taken(*offer);
  });
  refuse_ = button("offerRefuse", tr("&Refused"), [this] { settle(OfferResult::refused); });
  no_show_ = button("offerNoShow", tr("Did &not come"), [this] { settle(OfferResult::no_show); });
  deposit_ = button("offerDeposit", tr("Leaves a &deposit"), [this] {
    if (const auto offer = chosen()) emit wantsDeposit(*offer);
  });
  deposit_back_ = button("offerDepositBack", tr("Deposit &handed back"), [this] { giveBack(); });
  box->addWidget(line);
  connect(table_, &DataTable::currentRowChanged, this, [this] { rowChosen(); });
  connect(table_, &DataTable::opened, this, [this] {
    if (take_->isEnabled()) take_->click();
  });
}

void OffersPanel::showOffers(const ByMachine::Lines& lines, bool here) {
  here_ = here;
  const std::optional<MachineId> machine =
      lines.machine != nullptr ? std::optional{lines.machine->id} : std::nullopt;
  const bool same_machine = std::exchange(machine_, machine) == machine;
  const std::optional<OfferId> before = same_machine ? chosen() : std::nullopt;
  OfferId newest_before{};
  for (const OfferRow& row : model_->rows())
    newest_before = std::max(newest_before, row.offer.id);
  const auto shop = session_.shop();
  std::vector<OfferRow> rows;
  rows.reserve(lines.offers.size());
  for (const Offer* offer : lines.offers)
    rows.push_back({.offer = *offer, .deposit = deposit_left(*shop, offer->id), .floor = floor_});
  setVisible(!rows.empty());
  const int height = std::min(static_cast<int>(rows.size()), kMostRows);
  model_->setRows(std::move(rows));
  table_->setFixedHeight(table_->horizontalHeader()->sizeHint().height() +
                         height * table_->verticalHeader()->defaultSectionSize() + kGrid);
  // One that has just been written down is what one goes on with; else the one chosen, or an open one.
  const auto is_new = [&](const Offer& offer) { return before && !offer.result && offer.id > newest_before; };
  int at = 0;
  for (int row = 0; row < model_->rowCount(); ++row) {
    const Offer& offer = model_->row(row).offer;
    if (offer.id == before || (!before && !offer.result)) at = row;
  }
  for (int row = 0; row < model_->rowCount(); ++row)
    if (is_new(model_->row(row).offer)) at = row;
  if (model_->rowCount() > 0) table_->selectSourceRow(at);
  rowChosen();
}

void OffersPanel::setFloor(std::optional<Money> floor) {
  if (floor_ == floor) return;
  floor_ = floor;
  model_->updateRows([floor](OfferRow& row) { row.floor = floor; });
}

void OffersPanel::choose(OfferId offer) {
  for (int row = 0; row < model_->rowCount(); ++row)
    if (model_->row(row).offer.id == offer) table_->selectSourceRow(row);
}

const OfferRow* OffersPanel::current() const {
  const int row = table_->currentSourceRow();
  return row < 0 ? nullptr : &model_->row(row);
}

std::optional<OfferId> OffersPanel::chosen() const {
  const OfferRow* row = current();
  return row != nullptr ? std::optional{row->offer.id} : std::nullopt;
}

void OffersPanel::rowChosen() {
  const OfferRow* row = current();
  const bool open = row != nullptr && !row->offer.result && here_;
  for (QPushButton* button : {take_, refuse_, no_show_, deposit_})
    button->setEnabled(open);
  // A deposit is part of the price of a sale that takes its offer up; any other goes back by hand.
  deposit_back_->setVisible(row != nullptr && !row->deposit.is_zero() &&
                            row->offer.result != OfferResult::taken);
}

void OffersPanel::settle(OfferResult result) {
  const std::optional<OfferId> offer = chosen();
  if (!offer) return;
  if (const auto wrong = session_.perform(settle_offer(*session_.shop(), *offer, result)))
    emit wantsSaid(QString::fromStdString(wrong->sentence), true);
}

void OffersPanel::giveBack() {
  const std::optional<OfferId> offer = chosen();
  if (!offer) return;
  const auto shop = session_.shop();
  Together together{*shop};
  for (const Deposit& deposit : shop->all<Deposit>())
    if (deposit.offer == *offer && !deposit.returned)
      together.add([&](const Shop& now) { return return_deposit(now, deposit.id, session_.today()); });
  if (const auto wrong = session_.perform(std::move(together).result()))
    emit wantsSaid(QString::fromStdString(wrong->sentence), true);
}

}  // namespace secondpull::app
