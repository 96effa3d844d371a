#include "app/parts/figure_words.h"

#include <algorithm>

#include <QCoreApplication>

#include "app/frame/session.h"

namespace secondpull::app {
namespace {

QString tr(const char* text) {
  return QCoreApplication::translate("FigureWords", text);
}

QString row(const QString& day, const QString& what, const QString& amount, bool strong = false) {
  const QString cell = strong ? QStringLiteral("<b>%1</b>") : QStringLiteral("%1");
  return QStringLiteral("<tr><td>%1&nbsp;&nbsp;</td><td>%2&nbsp;&nbsp;</td><td align='right'>%3</td></tr>")
      .arg(cell.arg(day), cell.arg(what.toHtmlEscaped()), cell.arg(amount));
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

QString linesInWords(const Session& session, const std::vector<FigureLine>& lines, const QString& sum_name) {
  QString text = QStringLiteral("<table cellspacing='0' cellpadding='2'>");
  Money sum;
  for (const FigureLine& line : lines) {
    text += row(QString::fromStdString(shown_short(line.date, session.today())),
                QString::fromStdString(line.what), session.money(line.amount));
    sum += line.amount;
  }
  return text + row({}, sum_name, session.money(sum), true) + QStringLiteral("</table>");
}

QString whyCost(const Session& session, MachineId machine) {
  return linesInWords(session,
                      linesWhere(session, machine,
                                 [](StepKind step) { return !isRunningCost(step) && !isProceeds(step); }),
                      tr("cost so far")) +
         QStringLiteral("<p>%1</p>").arg(tr("Own hours are not in it: they are shown as pay."));
}

QString whyGrossProfit(const Session& session, MachineId machine) {
  return linesInWords(session,
                      linesWhere(session, machine, [](StepKind step) { return !isRunningCost(step); }),
                      tr("gross profit"));
}

QString whyProfit(const Session& session, MachineId machine) {
  return linesInWords(session, session.books()->lines(machine), tr("profit"));
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
