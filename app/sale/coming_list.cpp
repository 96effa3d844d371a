#include "app/sale/coming_list.h"

#include <algorithm>

#include "app/frame/session.h"
#include "app/parts/tag_delegate.h"
#include "app/sale/form_words.h"
#include "core/shop/deposits.h"
#include "core/shop/stage.h"

namespace secondpull::app {
namespace {

QString whenInWords(const Session& session, Date comes) {
  const Date today = session.today();
  const int days = days_between(today, comes);
  const QString day =
      textOf(weekday_short(comes)) + QLatin1Char(' ') + QString::fromStdString(shown_short(comes, today));
  if (days == 0) return ComingList::tr("today");
  if (days == 1) return ComingList::tr("tomorrow");
  return days < 0 ? ComingList::tr("was due %1").arg(day) : day;
}

std::vector<TableColumn<Coming>> comingColumns(const Session& session) {
  const Session* of = &session;
  std::vector<TableColumn<Coming>> columns;
  columns.push_back({.key = QStringLiteral("tag"),
                     .title = ComingList::tr("Tag"),
                     .text = [](const Coming& row) { return QLatin1Char('#') + row.tag; }});
  columns.push_back(
      {.key = QStringLiteral("comes"),
       .title = ComingList::tr("Comes"),
       .text = [of](const Coming& row) { return whenInWords(*of, row.comes); },
       .sort = [](const Coming& row) { return QVariant{QString::fromStdString(iso(row.comes))}; }});
  columns.push_back({.key = QStringLiteral("who"),
                     .title = ComingList::tr("Who"),
                     .text = [](const Coming& row) { return row.who; }});
  columns.push_back({.key = QStringLiteral("what"),
                     .title = ComingList::tr("For what"),
                     .text = [](const Coming& row) { return row.name; }});
  const auto amount = [of](const char* key, const QString& title, Money Coming::*which) {
    return TableColumn<Coming>{
        .key = QString::fromLatin1(key),
        .title = title,
        .text = [of, which](
                    const Coming& row) { return (row.*which).is_zero() ? QString{} : of->money(row.*which); },
        .sort = [which](const Coming& row) { return QVariant{static_cast<qlonglong>((row.*which).minor())}; },
        .number = true};
  };
  columns.push_back(amount("amount", ComingList::tr("Offers"), &Coming::amount));
  columns.push_back(amount("deposit", ComingList::tr("Deposit"), &Coming::deposit));
  return columns;
}

}  // namespace

std::vector<Coming> comingBuyers(const Session& session) {
  const auto books = session.books();
  const Shop& shop = books->shop();
  std::vector<Coming> coming;
  for (const Offer& offer : shop.all<Offer>()) {
    if (offer.result || !offer.comes || !is_here(stage_of(books->by_machine().of(offer.machine)))) continue;
    coming.push_back(
        {.offer = offer.id,
         .machine = offer.machine,
         .comes = *offer.comes,
         .who = offer.who.empty() ? ComingList::tr("somebody") : QString::fromStdString(offer.who),
         .tag = session.tagOf(offer.machine),
         .name = session.nameOf(offer.machine),
         .amount = offer.amount,
         .deposit = deposit_left(shop, offer.id)});
  }
  std::stable_sort(coming.begin(), coming.end(),
                   [](const Coming& a, const Coming& b) { return a.comes < b.comes; });
  return coming;
}

ComingList::ComingList(Session& session, QWidget* parent)
    : DataTable(session, QStringLiteral("sale_coming"), parent), session_{session} {
  setObjectName(QStringLiteral("saleComing"));
  setAccessibleName(tr("Who comes when"));
  model_ = new RowModel<Coming>{comingColumns(session), this};
  setRowModel(model_);
  setItemDelegateForColumn(0, new TagDelegate{this});
  sortBy(QStringLiteral("comes"), Qt::AscendingOrder);
  connect(this, &DataTable::currentRowChanged, this, [this](int row) {
    if (row < 0) return;
    const Coming& one = rows_[static_cast<std::size_t>(row)];
    emit chosen(one.offer, one.machine);
  });
}

void ComingList::reload() {
  rows_ = comingBuyers(session_);
  model_->setRows(rows_);
}

}  // namespace secondpull::app
