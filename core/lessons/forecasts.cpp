#include "core/lessons/forecasts.h"

#include <algorithm>
#include <map>

#include "core/learning/units.h"
#include "core/typed_words.h"

namespace secondpull::lessons {
namespace {

using learning::in_units;
using learning::Knowledge;
using CausesOf = std::map<ForecastId, std::vector<const ForecastCause*>>;

/// Was it sold as a running machine, as far as the sale or the last listing before it says?
bool left_running(const ByMachine::Lines& lines, Stage stage) {
  if (stage != Stage::sold || lines.sales.empty()) return false;
  const Sale& sale = *lines.sales.back();
  std::optional<SoldAs> as = sale.sold_as;
  if (!as)
    for (const Listing* listing : lines.listings)
      if (listing->date <= sale.date) as = listing->sold_as;
  return as == SoldAs::running;
}

std::optional<bool> came_to_run(const Fault& fault, const ByMachine::Lines& lines,
                                const MachineFigures& figures) {
  if (fault.ended) return fault.how == FaultEnd::mended;
  if (is_here(figures.stage)) return std::nullopt;
  return left_running(lines, figures.stage);
}

/// The id of the cause that an ended fault names; empty if it names none.
std::string confirmed_cause(const Fault& fault, const Knowledge& knowledge) {
  if (!fault.ended || trimmed(fault.cause).empty()) return {};
  const learning::Cause* const cause = knowledge.cause(fault.cause);
  if (cause != nullptr) return cause->id;
  return same_word(trimmed(fault.cause), learning::kUnlisted) ? std::string{learning::kUnlisted}
                                                              : std::string{};
}

void look_at_causes(ForecastOutcome& outcome, const std::vector<const ForecastCause*>& foretold,
                    std::string confirmed) {
  if (confirmed.empty() || foretold.empty()) return;
  if (std::none_of(foretold.begin(), foretold.end(),
                   [&](const ForecastCause* each) { return each->cause == confirmed; }))
    confirmed = learning::kUnlisted;
  for (const ForecastCause* each : foretold) {
    outcome.causes.push_back({each->chance, each->cause == confirmed});
    if (!outcome.likeliest || each->chance > outcome.likeliest->chance)
      outcome.likeliest = outcome.causes.back();
  }
}

/// What a machine that had been sold and came back had brought in by then: what the sales left less what was
/// given back. The books count it to the machine, and it is nothing that still lay ahead.
Money brought_in_before(const ByMachine::Lines& lines, Date day) {
  std::optional<Date> back;
  for (const Return* each : lines.returns)
    if (each->date <= day) back = each->date;
  Money sum;
  if (!back) return sum;
  for (const Sale* each : lines.sales)
    if (each->date <= *back) sum += each->price - each->fee - each->delivery;
  for (const Return* each : lines.returns)
    if (each->date <= *back) sum -= each->refunded;
  for (const Allowance* each : lines.allowances)
    if (each->date <= *back) sum -= each->amount;
  return sum;
}

void look_at_figures(ForecastOutcome& outcome, const Forecast& forecast, const ByMachine::Lines& lines,
                     const MachineFigures& figures, const Currency& currency) {
  const bool counts = figures.stage == Stage::sold || figures.stage == Stage::scrapped;
  if (!counts || !figures.gross_profit) return;
  const double came = in_units(*figures.gross_profit - brought_in_before(lines, forecast.date), currency) +
                      forecast.sunk_cash;
  outcome.money = Foretold{.said = forecast.cash, .came = came};
  // Sums of amounts may be a rounding off the bound that they are equal to.
  const double rounding = 0.5 / learning::minor_units(currency);
  outcome.within = came >= forecast.low - rounding && came <= forecast.high + rounding;
  const double hours = static_cast<double>(figures.minutes.count) / learning::kMinutesOfHour;
  outcome.hours = Foretold{.said = forecast.hours, .came = hours - forecast.sunk_hours};
  if (!figures.days_held) return;
  const Date left = plus_days(figures.acquired, *figures.days_held);
  outcome.days =
      Foretold{.said = forecast.days, .came = static_cast<double>(days_between(forecast.date, left))};
}

}  // namespace

std::vector<ForecastOutcome> forecast_outcomes(const Books& books, const Knowledge& knowledge) {
  CausesOf causes;
  for (const ForecastCause& each : books.shop().all<ForecastCause>())
    causes[each.forecast].push_back(&each);
  std::vector<ForecastOutcome> outcomes;
  for (const Forecast& forecast : books.shop().all<Forecast>()) {
    const Fault* const fault = books.shop().find(forecast.fault);
    const MachineFigures* const figures = books.machine(forecast.machine);
    if (fault == nullptr || figures == nullptr || fault->how == FaultEnd::mistaken) continue;
    ForecastOutcome outcome{.forecast = forecast.id, .machine = forecast.machine, .date = forecast.date};
    const ByMachine::Lines& lines = books.by_machine().of(forecast.machine);
    if (const auto runs = came_to_run(*fault, lines, *figures))
      outcome.revived = Said{forecast.chance_revived, *runs};
    look_at_causes(outcome, causes[forecast.id], confirmed_cause(*fault, knowledge));
    look_at_figures(outcome, forecast, lines, *figures, books.shop().settings.currency);
    outcomes.push_back(std::move(outcome));
  }
  return outcomes;
}

Off off_of(const std::vector<ForecastOutcome>& outcomes, std::optional<Foretold> ForecastOutcome::*figure) {
  std::vector<double> off, said, came;
  for (const ForecastOutcome& outcome : outcomes) {
    const auto& foretold = outcome.*figure;
    if (!foretold) continue;
    off.push_back(foretold->off());
    said.push_back(foretold->said);
    came.push_back(foretold->came);
  }
  Off all{.off = mean_of(off), .said = mean_of(said).mean, .came = mean_of(came).mean};
  all.differs = differs(all.off, 0);
  return all;
}

ForecastsHeld forecasts_held(const std::vector<ForecastOutcome>& outcomes) {
  ForecastsHeld held{.made = outcomes.size()};
  std::vector<Said> revived, causes, likeliest;
  for (const ForecastOutcome& outcome : outcomes) {
    if (outcome.revived || outcome.money) ++held.settled;
    if (outcome.revived) revived.push_back(*outcome.revived);
    causes.insert(causes.end(), outcome.causes.begin(), outcome.causes.end());
    if (outcome.likeliest) likeliest.push_back(*outcome.likeliest);
    if (!outcome.money) continue;
    ++held.within.tried;
    if (outcome.within) ++held.within.cured;
  }
  held.revived = reliability(revived);
  held.causes = reliability(causes);
  held.causes.differs = Differs::no;  // one of each forecast's comes: their sum says nothing
  held.likeliest = reliability(likeliest);
  held.money = off_of(outcomes, &ForecastOutcome::money);
  held.hours = off_of(outcomes, &ForecastOutcome::hours);
  held.days = off_of(outcomes, &ForecastOutcome::days);
  if (held.within.tried > 0) held.within_range = learning::jeffreys_interval(held.within, kShownLevel);
  return held;
}

}  // namespace secondpull::lessons
