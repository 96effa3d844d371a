#include "app/bench/step_words.h"

#include <algorithm>
#include <cmath>

#include <QCoreApplication>
#include <QLocale>

#include "app/bench/chances_view.h"
#include "core/learning/stops.h"
#include "core/learning/units.h"
#include "core/planning/names.h"

namespace secondpull::app {
namespace {

using decision::Move;

QString say(const char* text, int n = -1) {
  return QCoreApplication::translate("Steps", text, nullptr, n);
}

QString text(const std::string& words) {
  return QString::fromStdString(words);
}

QString takes(double minutes, double cost, double days, const Currency& currency) {
  QStringList parts;
  parts << say("%1 min").arg(qRound(minutes));
  constexpr double kShows = 0.5;  // less would read as nothing
  if (cost >= kShows) parts << say("about %1").arg(wholeMoney(cost, currency));
  if (days > 0) parts << (days == 1 ? say("1 day") : say("%1 days").arg(QString::number(days, 'g', 3)));
  return parts.join(QStringLiteral(", "));
}

QString figure(double number) {
  return QString::number(number, 'g', 5);
}

}  // namespace

QString wholeMoney(double amount, const Currency& currency) {
  const auto minor = std::llround(std::round(amount) * learning::minor_units(currency));
  QString words = text(shown(Money::from_minor(minor), currency));
  // What is expected has no cents.
  if (currency.digits > 0) words.chop(currency.digits + 1);
  return words;
}

QString hoursWords(double hours) {
  constexpr double kMinutes = 60;
  return hours < 1 ? say("%1 min").arg(qRound(kMinutes * hours))
                   : say("%1 h").arg(QString::number(hours, 'f', 1));
}

QString costWords(const decision::NamedMove& step, const diagnosis::Case& of, const Currency& currency) {
  for (const diagnosis::Test& test : of.tests)
    if (step.kind == Move::Kind::test && test.id == step.id)
      return takes(test.minutes, test.cost, test.days, currency);
  for (const diagnosis::Repair& repair : of.repairs)
    if (step.kind == Move::Kind::repair && repair.id == step.id)
      return takes(repair.minutes, repair.cost, repair.days, currency);
  return say("stop");
}

QString stopTitle(const std::string& stop) {
  if (stop == learning::kSellAsIs) return say("Stop here: sell it as it is");
  if (stop == learning::kPartOut) return say("Stop here: part it out");
  if (stop == learning::kScrap) return say("Stop here: scrap it");
  return say("Stop here: %1").arg(text(stop));
}

QString stopSays(const std::string& stop) {
  if (stop == learning::kSellAsIs)
    return say(
        "Say plainly what is wrong with it. What is owed to a buyer of a machine sold as is differs from "
        "place to place.");
  if (stop == learning::kPartOut) return say("Take off what is worth taking; the rest goes for scrap.");
  if (stop == learning::kScrap)
    return say("Drain fuel and oil first and hand them in where they are taken; local rules come first.");
  return {};
}

QString stopDeed(const std::string& stop) {
  if (stop == learning::kSellAsIs) return say("Put it for sale as it is");
  if (stop == learning::kPartOut) return say("Part it out on the Shelf");
  if (stop == learning::kScrap) return say("Scrap it");
  return text(stop);
}

QString leadsTo(const decision::PlanNode& from, std::optional<std::size_t> outcome,
                const decision::Answer& answer, const diagnosis::Case& of,
                const learning::Knowledge& knowledge) {
  for (const decision::PlanNode& child : from.children) {
    if (child.what == decision::PlanNode::What::revived || child.outcome != outcome) continue;
    const QString next = text(planning::called(decision::named(of, answer.model, child.move), knowledge));
    return say("%1, then: %2").arg(percent(child.chance / from.chance), next);
  }
  return {};
}

QString otherWords(const decision::NamedMove& step, const decision::Answer& answer,
                   const Currency& currency) {
  for (const decision::Ranked& ranked : answer.ranking)
    if (ranked.move == step)
      return say("Beginning with this is worth %1, the plan's step %2.")
          .arg(wholeMoney(ranked.value, currency), wholeMoney(answer.value, currency));
  return {};
}

QString limitWords(const learning::Measurement& measurement, const QString& reading) {
  const QString unit = text(measurement.unit);
  QString limits;
  if (measurement.low && measurement.high)
    limits = say("published: %1 to %2 %3").arg(figure(*measurement.low), figure(*measurement.high), unit);
  else if (measurement.low)
    limits = say("published: at least %1 %2").arg(figure(*measurement.low), unit);
  else if (measurement.high)
    limits = say("published: at most %1 %2").arg(figure(*measurement.high), unit);
  else if (measurement.nominal)
    limits = say("published: %1 %2").arg(figure(*measurement.nominal), unit);
  if (!measurement.rule.empty())
    limits += (limits.isEmpty() ? QString{} : QStringLiteral("; ")) + text(measurement.rule);
  bool is_number = false;
  const double read = QLocale::c().toDouble(reading.trimmed(), &is_number);
  if (!is_number) return limits;
  if (measurement.low && read < *measurement.low) return say("below what is published. %1").arg(limits);
  if (measurement.high && read > *measurement.high) return say("above what is published. %1").arg(limits);
  if (measurement.low || measurement.high) return say("within what is published. %1").arg(limits);
  return limits;
}

QString partWords(const learning::RepairPart& part, const Currency& currency) {
  switch (part.from) {
    case learning::ComesFrom::shelf:
      return say("its part is on the shelf");
    case learning::ComesFrom::ordered:
      return say("its part is ordered: about %1 days").arg(qRound(part.supply.days));
    case learning::ComesFrom::to_order:
      break;
  }
  return part.supply.days > 0
             ? say("its part is to be ordered: about %1, %2 days")
                   .arg(wholeMoney(part.supply.cost, currency))
                   .arg(qRound(part.supply.days))
             : say("its part is bought: about %1").arg(wholeMoney(part.supply.cost, currency));
}

}  // namespace secondpull::app
