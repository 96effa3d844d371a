#include "app/sale/sale_rows.h"

#include <algorithm>

#include <QCoreApplication>

#include "app/frame/session.h"
#include "app/parts/figure_words.h"
#include "core/shop/off_sale.h"
#include "core/shop/stage.h"

namespace secondpull::app {
namespace {

QString tr(const char* text) {
  return QCoreApplication::translate("SaleRows", text);
}

const QString& dash() {
  static const QString text{QChar{0x2014}};
  return text;
}

QVariant sortable(const std::optional<Money>& amount) {
  return amount ? QVariant{static_cast<qlonglong>(amount->minor())} : QVariant{};
}

bool belongs(SaleView view, const SaleRow& row) {
  switch (view) {
    case SaleView::to_sell:
      return row.stage == Stage::for_sale || row.ready;
    case SaleView::coming:
      return false;
    case SaleView::here:
      return is_here(row.stage);
    case SaleView::sold:
      return row.stage == Stage::sold;
  }
  return false;
}

SaleRow rowOf(const Session& session, const Books& books, const MachineFigures& figures) {
  const ByMachine::Lines& lines = books.by_machine().of(figures.machine);
  SaleRow row{.machine = figures.machine,
              .tag = session.tagOf(figures.machine),
              .name = session.nameOf(figures.machine),
              .stands = QString::fromStdString(standing(books.shop(), lines, session.today())),
              .stage = figures.stage,
              .ready = is_here(figures.stage) && figures.stage != Stage::for_sale && isReadyToList(lines),
              .cost = figures.cost_basis};
  for (const Offer* offer : lines.offers) {
    if (offer->result) continue;
    ++row.open_offers;
    row.best_offer = std::max(row.best_offer.value_or(Money{}), offer->amount);
  }
  if (!is_here(figures.stage)) {
    row.days = figures.days_for_sale;
    row.profit = figures.profit;
    row.pay_per_hour = figures.pay_per_hour;
    return row;
  }
  const Listing* listing = listingNow(lines);
  if (listing == nullptr) return row;
  row.asking = listing->asking;
  const Date since = here_since(lines);
  const auto first = std::find_if(lines.listings.begin(), lines.listings.end(),
                                  [since](const Listing* each) { return each->date >= since; });
  row.days = days_between((*first)->date, session.today());
  if (const auto sold = books.if_sold(row.machine, listing->asking, {}, {}, session.today())) {
    row.profit = sold->profit;
    row.pay_per_hour = sold->pay_per_hour;
  }
  return row;
}

}  // namespace

const Listing* listingNow(const ByMachine::Lines& lines) {
  const Date since = here_since(lines);
  for (auto at = lines.listings.rbegin(); at != lines.listings.rend(); ++at)
    if (!(*at)->ended && (*at)->date >= since) return *at;
  return nullptr;
}

bool isReadyToList(const ByMachine::Lines& lines) {
  const Stage stage = stage_of(lines);
  if (stage == Stage::for_sale || !is_here(stage)) return false;
  if (stage == Stage::test_run) return true;
  const auto ended = [](const Fault* fault) { return fault->ended.has_value(); };
  const auto mended = [](const Fault* fault) { return fault->how == FaultEnd::mended; };
  return stage != Stage::waiting_on_parts && std::all_of(lines.faults.begin(), lines.faults.end(), ended) &&
         std::any_of(lines.faults.begin(), lines.faults.end(), mended);
}

std::vector<SaleRow> saleRows(const Session& session, SaleView view) {
  if (view == SaleView::coming) return {};
  const auto books = session.books();
  std::vector<std::pair<std::optional<Date>, SaleRow>> rows;
  for (const MachineFigures& figures : books->machines()) {
    if (view == SaleView::sold ? figures.stage != Stage::sold : !is_here(figures.stage)) continue;
    SaleRow row = rowOf(session, *books, figures);
    if (belongs(view, row)) rows.emplace_back(figures.sold, std::move(row));
  }
  std::stable_sort(rows.begin(), rows.end(), [view](const auto& a, const auto& b) {
    if (view == SaleView::sold) return a.first > b.first;
    return a.second.days.value_or(-1) > b.second.days.value_or(-1);
  });
  std::vector<SaleRow> result;
  result.reserve(rows.size());
  for (auto& [sold, row] : rows)
    result.push_back(std::move(row));
  return result;
}

std::vector<TableColumn<SaleRow>> saleColumns(const Session& session) {
  using Row = SaleRow;
  const Session* of = &session;
  const auto amount = [of](const char* key, const QString& title, auto pick, bool shown_at_first,
                           std::function<QString(const Row&)> why = {}) {
    return TableColumn<Row>{.key = QString::fromLatin1(key),
                            .title = title,
                            .text = [of, pick](const Row& row) { return of->money(pick(row)); },
                            .sort = [pick](const Row& row) { return sortable(pick(row)); },
                            .number = true,
                            .shown = shown_at_first,
                            .why = std::move(why)};
  };
  std::vector<TableColumn<Row>> columns;
  columns.push_back({.key = QStringLiteral("tag"), .title = tr("Tag"), .text = [](const Row& row) {
                       return QLatin1Char('#') + row.tag;
                     }});
  columns.push_back({.key = QStringLiteral("what"), .title = tr("What it is"), .text = [](const Row& row) {
                       return row.name;
                     }});
  columns.push_back(
      {.key = QStringLiteral("stands"),
       .title = tr("Where it stands"),
       .text =
           [](const Row& row) { return row.ready ? tr("ready to list: %1").arg(row.stands) : row.stands; },
       .shown = false});  // the panel beside the table says it
  columns.push_back({.key = QStringLiteral("asking"),
                     .title = tr("Asking"),
                     .text =
                         [of](const Row& row) {
                           return row.ready && !row.asking ? tr("ready to list") : of->money(row.asking);
                         },
                     .sort = [](const Row& row) { return sortable(row.asking); },
                     .number = true});
  columns.push_back({.key = QStringLiteral("days"),
                     .title = tr("Days"),
                     .text = [](const Row& row) { return row.days ? QString::number(*row.days) : dash(); },
                     .sort = [](const Row& row) { return row.days ? QVariant{*row.days} : QVariant{}; },
                     .number = true});
  columns.push_back({.key = QStringLiteral("offers"),
                     .title = tr("Offers"),
                     .text =
                         [of](const Row& row) {
                           if (row.open_offers == 0) return dash();
                           return tr("%1 to %2").arg(row.open_offers).arg(of->money(row.best_offer));
                         },
                     .sort = [](const Row& row) { return QVariant{row.open_offers}; },
                     .number = true});
  columns.push_back(amount(
      "cost", tr("Cost"), [](const Row& row) { return std::optional{row.cost}; }, false,
      [of](const Row& row) { return whyCost(*of, row.machine); }));
  columns.push_back(amount(
      "profit", tr("Profit"), [](const Row& row) { return row.profit; }, true,
      [](const Row& row) {
        return is_here(row.stage) ? tr("If sold today at the asking price, without fee.") : QString{};
      }));
  columns.push_back(amount(
      "pay", tr("An hour"), [](const Row& row) { return row.pay_per_hour; }, true,
      [](const Row&) { return tr("Pay per hour: profit over all logged hours."); }));
  return columns;
}

QString priceHistory(const Session& session, const ByMachine::Lines& lines) {
  const Date today = session.today();
  const auto brief = [&](Money amount) {
    return QString::fromStdString(shown_short(amount, session.currency()));
  };
  const auto day = [&](Date date) { return QString::fromStdString(shown_short(date, today)); };
  QStringList sentences;
  const Listing* now = listingNow(lines);
  if (now != nullptr) {
    QStringList said{tr("Asking %1 since %2").arg(brief(now->asking), day(now->date))};
    if (!now->channel.empty()) said << QString::fromStdString(now->channel);
    if (now->sold_as) {
      const std::string_view as = secondpull::word(*now->sold_as);
      said << QString::fromUtf8(as.data(), static_cast<qsizetype>(as.size()));
    }
    sentences << said.join(QStringLiteral(", ")) + QLatin1Char('.');
  }
  for (auto at = lines.listings.rbegin(); at != lines.listings.rend(); ++at) {
    const Listing& before = **at;
    if (&before == now) continue;
    const Date until = before.ended.value_or(today);
    const QString said = (now != nullptr ? tr("Before that %1 from %2 to %3") : tr("Asked %1 from %2 to %3"))
                             .arg(brief(before.asking), day(before.date), day(until));
    const std::string why = why_ended(lines, before);
    sentences << said + (why.empty() ? QStringLiteral(".")
                                     : QStringLiteral(": %1.").arg(QString::fromStdString(why)));
  }
  return sentences.join(QLatin1Char(' '));
}

}  // namespace secondpull::app
