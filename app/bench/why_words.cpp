#include "app/bench/why_words.h"

#include <map>
#include <set>

#include <QCoreApplication>

#include "app/frame/session.h"

namespace secondpull::app {
namespace {

QString say(const char* text) {
  return QCoreApplication::translate("WhyWords", text);
}

QString row(const QString& day, const QString& what, const QString& value) {
  return QStringLiteral(
             "<tr><td>%1&nbsp;&nbsp;</td><td>%2&nbsp;&nbsp;&nbsp;</td><td align='right'>%3</td></tr>")
      .arg(day, what.toHtmlEscaped(), value);
}

QString sumRow(const QString& what, const QString& value) {
  return QStringLiteral(
             "<tr><td></td><td><b>%1</b>&nbsp;&nbsp;&nbsp;</td><td align='right'><b>%2</b></td></tr>")
      .arg(what, value);
}

QString table(const QString& rows) {
  return QStringLiteral("<table cellpadding='2'>%1</table>").arg(rows);
}

/// Lines that make up what a machine has cost, as against what it earned and what running the shop took.
bool isCost(LineKind kind) {
  static const std::set<LineKind> costs{LineKind::acquisition, LineKind::pickup,       LineKind::part,
                                        LineKind::material,    LineKind::outside_work, LineKind::donor_share,
                                        LineKind::gift,        LineKind::cost_after};
  return costs.contains(kind);
}

QString days(const Session& session, const std::vector<FigureLine>& lines, Money& sum, bool costs_alone) {
  QString rows;
  for (const FigureLine& line : lines) {
    if (costs_alone && !isCost(line.kind)) continue;
    const Money amount = costs_alone ? -line.amount : line.amount;
    rows += row(QString::fromStdString(shown_short(line.date, session.today())),
                QString::fromStdString(line.what), session.money(amount));
    sum += amount;
  }
  return rows;
}

}  // namespace

QString whyMoneyIn(const Session& session, MachineId machine) {
  Money sum;
  const QString rows = days(session, session.books()->lines(machine), sum, true);
  return table(rows + sumRow(say("money in it"), session.money(sum))) +
         QStringLiteral("<p>%1</p>")
             .arg(say("Own hours are not in it: they are counted beside it, as hours."));
}

QString whyHoursIn(const Session& session, MachineId machine) {
  const ByMachine::Lines& lines = session.books()->by_machine().of(machine);
  std::map<Work, Minutes> by_work;
  Minutes own;
  for (const Labour* labour : lines.labour) {
    by_work[labour->work] += labour->minutes;
    own += labour->minutes;
  }
  QString rows;
  for (const auto& [work, minutes] : by_work) {
    const std::string_view name = word(work);
    rows += row({}, QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size())),
                QString::fromStdString(shown(minutes)));
  }
  const MachineFigures* figures = session.books()->machine(machine);
  const Minutes all = figures != nullptr ? figures->minutes : own;
  if (const Minutes shared{all.count - own.count}; shared.count > 0)
    rows += row({}, say("its share of fetching it"), QString::fromStdString(shown(shared)));
  return table(rows + sumRow(say("hours in it"), QString::fromStdString(shown(all))));
}

QString whyProfitOf(const Session& session, MachineId machine) {
  Money sum;
  const QString rows = days(session, session.books()->lines(machine), sum, false);
  return table(rows + sumRow(say("profit"), session.money(sum)));
}

QString whyIfSold(const Session& session, const MachineFigures& figures, Money price) {
  QString rows = row({}, say("price"), session.money(price));
  rows += row({}, say("what it has cost"), session.money(-figures.cost_basis));
  rows += row({}, say("gross profit"), session.money(figures.gross_profit));
  rows += row({}, say("trips, and its share of the shop's costs"), session.money(-figures.running_costs));
  rows += sumRow(say("profit"), session.money(figures.profit));
  QString text = table(rows);
  if (figures.pay_per_hour)
    text += QStringLiteral("<p>%1</p>")
                .arg(say("Over %1 that is %2 an hour.")
                         .arg(QString::fromStdString(shown(figures.minutes)),
                              session.money(figures.pay_per_hour)));
  return text + QStringLiteral("<p>%1</p>").arg(say("A fee or delivery paid at the sale would come off."));
}

}  // namespace secondpull::app
