#include "app/parts/figure_words.h"

#include <algorithm>
#include <map>
#include <vector>

#include <QCoreApplication>

#include "app/frame/session.h"

namespace secondpull::app {
namespace {

QString tr(const char* text) {
  return QCoreApplication::translate("FigureWords", text);
}

QString row(const QString& day, const QString& what, const QString& value, bool strong = false) {
  const QString cell = strong ? QStringLiteral("<b>%1</b>") : QStringLiteral("%1");
  return QStringLiteral("<tr><td>%1&nbsp;&nbsp;</td><td>%2&nbsp;&nbsp;</td><td align='right'>%3</td></tr>")
      .arg(day, cell.arg(what.toHtmlEscaped()), cell.arg(value));
}

QString table(const QString& rows) {
  return QStringLiteral("<table cellspacing='0' cellpadding='2'>%1</table>").arg(rows);
}

QString paragraph(const QString& text) {
  return QStringLiteral("<p>%1</p>").arg(text);
}

QString hours(Minutes minutes) {
  return QString::fromStdString(shown(minutes));
}

/// The lines and their sum. As costs: what was paid stands without the minus sign that it has in an account
/// of profit.
QString linesInWords(const Session& session, const std::vector<FigureLine>& lines, const QString& sum_name,
                     bool as_costs = false) {
  QString rows;
  Money sum;
  for (const FigureLine& line : lines) {
    const Money amount = as_costs ? -line.amount : line.amount;
    rows += row(QString::fromStdString(shown_short(line.date, session.today())),
                QString::fromStdString(line.what), session.money(amount));
    sum += amount;
  }
  return table(rows + row({}, sum_name, session.money(sum), true));
}

/// The lines of a machine that are part of what is asked about.
template <class Wanted>
std::vector<FigureLine> linesWhere(const Session& session, MachineId machine, Wanted wanted) {
  std::vector<FigureLine> lines = session.books()->lines(machine);
  std::erase_if(lines, [&](const FigureLine& line) { return !wanted(step_of(line.kind)); });
  return lines;
}

bool isRunningCost(StepKind step) {
  return step == StepKind::trips || step == StepKind::overheads;
}

bool isProceeds(StepKind step) {
  return step == StepKind::price || step == StepKind::scrap || step == StepKind::given_back ||
         step == StepKind::fee || step == StepKind::delivery;
}

}  // namespace

QString whyCost(const Session& session, MachineId machine) {
  const auto is_cost = [](StepKind step) { return !isRunningCost(step) && !isProceeds(step); };
  return linesInWords(session, linesWhere(session, machine, is_cost), tr("cost so far"), true) +
         paragraph(tr("Own hours are not in it: they are counted beside it, as hours."));
}

QString whyHours(const Session& session, MachineId machine) {
  const auto books = session.books();
  std::map<Work, Minutes> by_work;
  Minutes own;
  for (const Labour* labour : books->by_machine().of(machine).labour) {
    by_work[labour->work] += labour->minutes;
    own += labour->minutes;
  }
  QString rows;
  for (const auto& [work, minutes] : by_work)
    rows += row({}, QString::fromStdString(std::string{secondpull::word(work)}), hours(minutes));
  const MachineFigures* figures = books->machine(machine);
  const Minutes all = figures != nullptr ? figures->minutes : own;
  if (const Minutes shared{all.count - own.count}; shared.count > 0)
    rows += row({}, tr("its share of fetching it"), hours(shared));
  return table(rows + row({}, tr("hours so far"), hours(all), true));
}

QString whyGrossProfit(const Session& session, MachineId machine) {
  return linesInWords(session,
                      linesWhere(session, machine, [](StepKind step) { return !isRunningCost(step); }),
                      tr("gross profit"));
}

QString whyProfit(const Session& session, MachineId machine) {
  return linesInWords(session, session.books()->lines(machine), tr("profit"));
}

QString whyIfSold(const Session& session, const MachineFigures& figures, Money price) {
  QString rows = row({}, tr("price"), session.money(price));
  rows += row({}, tr("what it has cost"), session.money(-figures.cost_basis));
  rows += row({}, tr("gross profit"), session.money(figures.gross_profit));
  rows += row({}, tr("trips, and its share of the shop's costs"), session.money(-figures.running_costs));
  QString text = table(rows + row({}, tr("profit"), session.money(figures.profit), true));
  if (figures.profit) text += paragraph(perHourInWords(session, *figures.profit, figures.minutes));
  return text + paragraph(tr("A fee or delivery paid at the sale would come off."));
}

QString perHourInWords(const Session& session, Money amount, Minutes minutes) {
  const std::optional<Money> hourly = per_hour(amount, minutes);
  if (!hourly) return tr("No hours are logged on it, so there is no pay per hour.");
  return tr("%1 over %2: %3 an hour")
      .arg(session.money(amount), QString::fromStdString(shown(minutes)), session.money(*hourly));
}

QString word(StepKind kind) {
  switch (kind) {
    case StepKind::price:
      return tr("sale price");
    case StepKind::scrap:
      return tr("scrap money");
    case StepKind::given_back:
      return tr("given back");
    case StepKind::fee:
      return tr("fee");
    case StepKind::delivery:
      return tr("delivery");
    case StepKind::acquisition:
      return tr("acquisition");
    case StepKind::parts:
      return tr("parts");
    case StepKind::materials:
      return tr("materials");
    case StepKind::outside_work:
      return tr("outside work");
    case StepKind::cost_after:
      return tr("spent afterwards");
    case StepKind::gross_profit:
      return tr("gross profit");
    case StepKind::trips:
      return tr("trips");
    case StepKind::overheads:
      return tr("overheads");
    case StepKind::profit:
      return tr("profit");
  }
  return {};
}

}  // namespace secondpull::app
