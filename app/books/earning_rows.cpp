#include "app/books/earning_rows.h"

#include <algorithm>
#include <map>

#include <QCoreApplication>
#include <QDate>
#include <QLocale>

#include "app/books/plain_figures.h"
#include "app/frame/session.h"
#include "app/parts/figure_words.h"

namespace secondpull::app {
namespace {

QString tr(const char* text) {
  return QCoreApplication::translate("EarningRows", text);
}

template <class Word>
QString wordOf(Word value) {
  const std::string_view text = secondpull::word(value);
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

QVariant sortable(const std::optional<Money>& amount) {
  return amount ? QVariant{static_cast<qlonglong>(amount->minor())} : QVariant{};
}

QVariant sortable(const std::optional<Date>& date) {
  return date ? QVariant{QString::fromStdString(iso(*date))} : QVariant{};
}

QVariant sortable(std::optional<int> count) {
  return count ? QVariant{*count} : QVariant{};
}

QString hours(Minutes minutes) {
  return QString::fromStdString(shown(minutes));
}

const QString& dash() {
  static const QString text{QChar{0x2014}};
  return text;
}

QString counted(std::optional<int> count) {
  return count ? QString::number(*count) : dash();
}

std::optional<Date> leftOn(const MachineFigures& figures) {
  if (!figures.days_held) return std::nullopt;
  return plus_days(figures.acquired, *figures.days_held);
}

}  // namespace

std::vector<EarningRow> earningRows(const Session& session) {
  const auto shop = session.shop();
  const auto books = session.books();
  std::vector<EarningRow> rows;
  for (const MachineFigures& figures : books->machines()) {
    if (is_here(figures.stage)) continue;
    const ByMachine::Lines& lines = books->by_machine().of(figures.machine);
    const Machine* machine = shop->find(figures.machine);
    if (machine == nullptr) continue;
    const Acquisition* acquisition = shop->find(machine->acquisition);
    rows.push_back({.figures = figures,
                    .tag = session.tagOf(figures.machine),
                    .name = session.nameOf(figures.machine),
                    .became = QString::fromStdString(standing(*shop, lines, session.today())),
                    .kind = wordOf(machine->kind),
                    .source = acquisition != nullptr ? wordOf(acquisition->source) : QString{},
                    .make = QString::fromStdString(machine->make),
                    .left = leftOn(figures),
                    .gross_per_hour = figures.gross_profit ? per_hour(*figures.gross_profit, figures.minutes)
                                                           : std::nullopt});
  }
  // A hulk still here has no day yet: it comes first, as what is not settled.
  std::stable_sort(rows.begin(), rows.end(), [](const EarningRow& a, const EarningRow& b) {
    if (a.left.has_value() != b.left.has_value()) return !a.left.has_value();
    return a.left && *a.left > *b.left;
  });
  return rows;
}

std::vector<TableColumn<EarningRow>> earningColumns(const Session& session) {
  using Row = EarningRow;
  const Session* of = &session;
  const auto money = [of](auto pick) { return [of, pick](const Row& row) { return of->money(pick(row)); }; };
  const auto amount = [&](const char* key, const QString& title, auto pick, bool shown_at_first,
                          std::function<QString(const Row&)> why = {}) {
    return TableColumn<Row>{.key = QString::fromLatin1(key),
                            .title = title,
                            .text = money(pick),
                            .sort = [pick](const Row& row) { return sortable(pick(row)); },
                            .number = true,
                            .shown = shown_at_first,
                            .why = std::move(why),
                            .plain = [of, pick](const Row& row) { return plainMoney(*of, pick(row)); }};
  };
  const auto text = [](const char* key, const QString& title, QString Row::*member, bool shown_at_first) {
    return TableColumn<Row>{.key = QString::fromLatin1(key),
                            .title = title,
                            .text = [member](const Row& row) { return row.*member; },
                            .shown = shown_at_first};
  };
  const auto days = [](const char* key, const QString& title, std::optional<int> MachineFigures::*member,
                       bool shown_at_first) {
    return TableColumn<Row>{.key = QString::fromLatin1(key),
                            .title = title,
                            .text = [member](const Row& row) { return counted(row.figures.*member); },
                            .sort = [member](const Row& row) { return sortable(row.figures.*member); },
                            .number = true,
                            .shown = shown_at_first};
  };

  std::vector<TableColumn<Row>> columns;
  columns.push_back({.key = QStringLiteral("tag"),
                     .title = tr("Tag"),
                     .text = [](const Row& row) { return QLatin1Char('#') + row.tag; },
                     .sort =
                         [](const Row& row) {
                           bool whole = false;
                           const qlonglong tag = row.tag.toLongLong(&whole);
                           return whole ? QVariant{tag} : QVariant{row.tag};
                         }});
  columns.push_back(text("what", tr("What it is"), &Row::name, true));
  columns.push_back(text("became", tr("What became of it"), &Row::became, false));
  columns.push_back({.key = QStringLiteral("left"),
                     .title = tr("Left"),
                     .text =
                         [of](const Row& row) {
                           return row.left ? QString::fromStdString(shown_short(*row.left, of->today()))
                                           : tr("hulk here");
                         },
                     .sort = [](const Row& row) { return sortable(row.left); }});
  columns.push_back(amount(
      "proceeds", tr("Net proceeds"), [](const Row& row) { return row.figures.net_proceeds; }, false));
  columns.push_back(amount(
      "basis", tr("Cost"), [](const Row& row) { return std::optional{row.figures.cost_basis}; }, false,
      [of](const Row& row) { return whyCost(*of, row.figures.machine); }));
  columns.push_back(amount(
      "gross", tr("Gross profit"), [](const Row& row) { return row.figures.gross_profit; }, true,
      [of](const Row& row) { return whyGrossProfit(*of, row.figures.machine); }));
  columns.push_back(amount(
      "gross_hour", tr("Gross an hour"), [](const Row& row) { return row.gross_per_hour; }, false,
      [of](const Row& row) {
        return row.figures.gross_profit ? perHourInWords(*of, *row.figures.gross_profit, row.figures.minutes)
                                        : QString{};
      }));
  columns.push_back({.key = QStringLiteral("hours"),
                     .title = tr("Hours"),
                     .text = [](const Row& row) { return hours(row.figures.minutes); },
                     .sort = [](const Row& row) { return QVariant{qlonglong{row.figures.minutes.count}}; },
                     .number = true,
                     .plain = [](const Row& row) { return plainHours(row.figures.minutes); }});
  columns.push_back(amount(
      "profit", tr("Profit"), [](const Row& row) { return row.figures.profit; }, true,
      [of](const Row& row) { return whyProfit(*of, row.figures.machine); }));
  columns.push_back(amount(
      "pay", tr("Pay an hour"), [](const Row& row) { return row.figures.pay_per_hour; }, true,
      [of](const Row& row) {
        return row.figures.profit ? perHourInWords(*of, *row.figures.profit, row.figures.minutes) : QString{};
      }));
  columns.push_back(days("days", tr("Days"), &MachineFigures::days_held, false));
  columns.push_back(days("days_for_sale", tr("Days for sale"), &MachineFigures::days_for_sale, false));
  columns.push_back(text("kind", tr("Kind"), &Row::kind, false));
  columns.push_back(text("source", tr("Source"), &Row::source, false));
  columns.push_back(text("make", tr("Make"), &Row::make, false));
  return columns;
}

namespace {

/// The value of a group and its place among the others.
std::pair<QString, QVariant> groupOf(const EarningRow& row, GroupBy by) {
  switch (by) {
    case GroupBy::machine:
      return {row.tag, row.tag};
    case GroupBy::kind:
      return {row.kind, row.kind};
    case GroupBy::source:
      return {row.source, row.source};
    case GroupBy::make:
      return row.make.isEmpty() ? std::pair{tr("no make given"), QVariant{QString{}}}
                                : std::pair{row.make, QVariant{row.make}};
    case GroupBy::month:
      if (!row.left) return {tr("hulk here"), QString{}};
      return {monthInWords(*row.left), monthOf(row)};
    case GroupBy::year:
      return row.left ? std::pair{yearOf(row), QVariant{yearOf(row)}}
                      : std::pair{tr("hulk here"), QVariant{QString{}}};
  }
  return {};
}

}  // namespace

QString yearOf(const EarningRow& row) {
  return row.left ? QString::number(int{row.left->year()}) : QString{};
}

QString monthOf(const EarningRow& row) {
  return row.left ? QString::fromStdString(iso(*row.left)).left(7) : QString{};
}

QString monthInWords(Date day) {
  const QDate first{int{day.year()}, static_cast<int>(unsigned{day.month()}), 1};
  return QLocale::c().toString(first, QStringLiteral("MMMM yyyy"));
}

std::vector<GroupRow> grouped(const std::vector<EarningRow>& rows, GroupBy by,
                              const std::function<bool(const EarningRow&)>& passes) {
  std::map<QString, GroupRow> groups;
  for (std::size_t at = 0; at < rows.size(); ++at) {
    if (passes && !passes(rows[at])) continue;
    const auto [key, sort] = groupOf(rows[at], by);
    GroupRow& group = groups[key];
    group.key = key;
    group.sort = sort;
    group.rows.push_back(static_cast<int>(at));
  }
  std::vector<GroupRow> result;
  result.reserve(groups.size());
  for (auto& [key, group] : groups) {
    std::vector<const MachineFigures*> figures;
    figures.reserve(group.rows.size());
    for (const int at : group.rows)
      figures.push_back(&rows[static_cast<std::size_t>(at)].figures);
    group.earned = earned(figures);
    result.push_back(std::move(group));
  }
  return result;
}

std::vector<TableColumn<GroupRow>> groupColumns(const Session& session, GroupBy by) {
  using Row = GroupRow;
  const Session* of = &session;
  const auto title = [by] {
    switch (by) {
      case GroupBy::machine:
        return tr("Machine");
      case GroupBy::kind:
        return tr("Kind");
      case GroupBy::source:
        return tr("Source");
      case GroupBy::make:
        return tr("Make");
      case GroupBy::month:
        return tr("Month");
      case GroupBy::year:
        return tr("Year");
    }
    return QString{};
  };
  const auto amount = [of](const char* key, const QString& heading, auto member,
                           std::function<QString(const Row&)> why = {}) {
    return TableColumn<Row>{
        .key = QString::fromLatin1(key),
        .title = heading,
        .text = [of, member](const Row& row) { return of->money(row.earned.*member); },
        .sort = [member](const Row& row) { return sortable(std::optional<Money>{row.earned.*member}); },
        .number = true,
        .why = std::move(why),
        .plain = [of, member](const Row& row) { return plainMoney(*of, row.earned.*member); }};
  };
  std::vector<TableColumn<Row>> columns;
  columns.push_back({.key = QStringLiteral("group"),
                     .title = title(),
                     .text = [](const Row& row) { return row.key; },
                     .sort = [](const Row& row) { return row.sort; }});
  columns.push_back({.key = QStringLiteral("machines"),
                     .title = tr("Machines"),
                     .text = [](const Row& row) { return QString::number(row.rows.size()); },
                     .sort = [](const Row& row) { return QVariant{qlonglong(row.rows.size())}; },
                     .number = true});
  columns.push_back(amount("gross", tr("Gross profit"), &Earned::gross_profit));
  columns.push_back({.key = QStringLiteral("hours"),
                     .title = tr("Hours"),
                     .text = [](const Row& row) { return hours(row.earned.minutes); },
                     .sort = [](const Row& row) { return QVariant{qlonglong{row.earned.minutes.count}}; },
                     .number = true,
                     .plain = [](const Row& row) { return plainHours(row.earned.minutes); }});
  columns.push_back(amount("profit", tr("Profit"), &Earned::profit));
  columns.push_back(amount("pay", tr("Pay an hour"), &Earned::pay_per_hour, [of](const Row& row) {
    return perHourInWords(*of, row.earned.profit, row.earned.minutes);
  }));
  return columns;
}

}  // namespace secondpull::app
