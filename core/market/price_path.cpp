#include "core/market/price_path.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include <fmt/format.h>

#include "core/learning/season.h"

namespace secondpull::market {
namespace {

constexpr int kLooked = 24;    // prices looked at before the best of them is closed in
constexpr int kClosedIn = 40;  // times
constexpr double kFarUp = 4;   // deviations above the median: nobody offers more
constexpr int kHalvings = 100;

double below(double z) {  // of the standard normal distribution
  return std::erfc(-z / std::numbers::sqrt2) / 2;
}

/// The lognormal offers of one day.
struct OffersOfDay {
  double rate = 0;        ///< a day at `suggestion`, only those who will come
  double suggestion = 0;  ///< on that day
  double median = 0;
  double spread = 0;

  /// P(offer >= x).
  double reach(double x) const {
    if (!(x > 0)) return 1;
    if (!(spread > 0)) return x <= median ? 1 : 0;
    return below(-std::log(x / median) / spread);
  }
  /// E[offer; offer < x].
  double mean_under(double x) const {
    if (!(x > 0)) return 0;
    if (!(spread > 0)) return x > median ? median : 0;
    return median * std::exp(spread * spread / 2) * below(std::log(x / median) / spread - spread);
  }
  /// What a buyer whose offer is taken pays in the mean, times the chance that it is, where `asked` is the
  /// most that he pays. asked >= floor.
  double paid(double asked, double floor) const {
    return mean_under(asked) - mean_under(floor) + asked * reach(asked);
  }
  BestPrice at(double asked, double floor) const {
    const double taken = reach(floor);
    const double come = rate * std::pow(asked / suggestion, -kPriceDeters);
    return {asked, come * taken, taken > 0 ? std::max(paid(asked, floor) / taken, floor) : floor};
  }
};

double worth(const BestPrice& price, double floor, double step) {
  return -std::expm1(-price.rate * step) * (price.paid - floor);
}

/// The best price between the floor and the most that anybody offers.
BestPrice best_of(const OffersOfDay& offers, double floor, double step) {
  const double top = offers.median * std::exp(kFarUp * std::max(offers.spread, kUsualSpread));
  const double from = std::log(std::max(floor, offers.median / std::exp(kFarUp)));
  const double to = std::log(top);
  if (!(from < to)) return offers.at(std::max(floor, top), floor);
  const auto at = [&](double logarithm) { return offers.at(std::exp(logarithm), floor); };
  const auto of = [&](double logarithm) { return worth(at(logarithm), floor, step); };
  const double stride = (to - from) / kLooked;
  int best = 0;
  double most = -1;
  for (int i = 0; i <= kLooked; ++i)
    if (const double here = of(from + i * stride); here > most) {
      most = here;
      best = i;
    }
  double low = from + std::max(best - 1, 0) * stride;
  double high = from + std::min(best + 1, kLooked) * stride;
  constexpr double kGolden = 1 / std::numbers::phi;
  double left = high - kGolden * (high - low);
  double right = low + kGolden * (high - low);
  double at_left = of(left);
  double at_right = of(right);
  for (int i = 0; i < kClosedIn; ++i)
    if (at_left < at_right) {
      low = left;
      left = right;
      at_left = at_right;
      right = low + kGolden * (high - low);
      at_right = of(right);
    } else {
      high = right;
      right = left;
      at_right = at_left;
      left = high - kGolden * (high - low);
      at_left = of(left);
    }
  return at((low + high) / 2);
}

std::optional<Problem> problem_of(const ToSell& machine) {
  const auto wrong = [](const char* sentence, const char* field, double value) {
    return Problem{sentence, field, fmt::format("{}", value)};
  };
  const auto above = [](double value) { return std::isfinite(value) && value > 0; };
  const OfferModel& offers = machine.offers;
  if (!above(machine.suggestion))
    return wrong("What it fetches is above 0.", "suggestion", machine.suggestion);
  if (!(std::isfinite(offers.rate) && offers.rate >= 0))
    return wrong("Offers come at a rate of 0 or more a day.", "rate", offers.rate);
  if (!above(offers.share)) return wrong("An offer is above 0.", "share", offers.share);
  constexpr double kWidest = 10;
  if (!(offers.spread >= 0 && offers.spread <= kWidest))
    return wrong("The spread of offers is 0 to 10.", "spread", offers.spread);
  if (!(offers.shows >= 0 && offers.shows <= 1))
    return wrong("A chance lies between 0 and 1.", "shows", offers.shows);
  return std::nullopt;
}

}  // namespace

Result<PricePath> price_path(const ToSell& machine, const learning::Season& season, Date today) {
  if (auto wrong = problem_of(machine)) return tl::unexpected(std::move(*wrong));
  const bool runs = machine.as == SoldAs::running;
  const double level_today = learning::price_level(season, today);
  const auto offers_on = [&](int day) {
    const Date date = plus_days(today, day);
    const double suggestion =
        machine.suggestion * (runs ? learning::price_level(season, date) / level_today : 1);
    return OffersOfDay{.rate = machine.offers.rate * machine.offers.shows / learning::slowness(season, date),
                       .suggestion = suggestion,
                       .median = suggestion * machine.offers.share,
                       .spread = machine.offers.spread};
  };
  int known_day = -1;
  OffersOfDay offers;
  const Buyers buyers = [&](double day, double floor, double step) {
    // A step's beginning is a whole number of steps of a day, come out as a double.
    const auto whole = static_cast<int>(std::floor(day + step / 2));
    if (whole != known_day) {
      offers = offers_on(whole);
      known_day = whole;
    }
    return best_of(offers, floor, step);
  };
  const auto steps = sell_by_a_last_day({.days = static_cast<double>(machine.days),
                                         .steps_of_day = machine.steps_of_day,
                                         .holding_cost = machine.holding_cost,
                                         .salvage = machine.salvage},
                                        buyers);
  if (!steps) return tl::unexpected(steps.error());
  PricePath path;
  double left = 1;
  const std::vector<SellingStep>& all = steps->front();
  for (std::size_t i = 0; i < all.size(); ++i) {
    const SellingStep& step = all[i];
    if (i % static_cast<std::size_t>(machine.steps_of_day) == 0)
      path.days.push_back({.date = plus_days(today, static_cast<int>(path.days.size())),
                           .asking = step.price,
                           .floor = step.floor,
                           .value = step.value,
                           .sold_by = 1 - left,
                           .give_up = step.given_up});
    if (i + 1 < all.size()) left *= std::exp(-step.rate * (all[i + 1].day - step.day));
    if (step.given_up) {
      if (!path.days.back().give_up)
        path.days.push_back({.date = plus_days(path.days.back().date, 1),
                             .floor = machine.salvage,
                             .value = machine.salvage,
                             .sold_by = 1 - left,
                             .give_up = true});
      break;
    }
  }
  path.value = path.days.front().value;
  path.asking = path.days.front().asking;
  path.floor = path.days.front().floor;
  path.chance_sold = 1 - left;
  return path;
}

Result<double> standing_floor(const std::function<double(double)>& excess, double rate, double holding_cost,
                              double low, double high) {
  if (!(std::isfinite(rate) && rate > 0))
    return problem("Offers come at a rate above 0 a day.", "rate", fmt::format("{}", rate));
  if (!(std::isfinite(holding_cost) && holding_cost >= 0))
    return problem("Keeping a machine costs nothing or something a day.", "holding_cost",
                   fmt::format("{}", holding_cost));
  for (int i = 0; i < kHalvings; ++i) {
    const double middle = low + (high - low) / 2;
    (rate * excess(middle) > holding_cost ? low : high) = middle;
  }
  return high;
}

Result<HoldOrSell> hold_or_sell(const ToSell& machine, const learning::Season& season, Date today,
                                Date until) {
  const int wait = days_between(today, until);
  if (wait < 0 || wait > kLongestDays)
    return problem("It is held until a day from today on, at most ten years.", "until", iso(until));
  const auto now = price_path(machine, season, today);
  if (!now) return tl::unexpected(now.error());
  ToSell later = machine;
  if (machine.as == SoldAs::running)
    later.suggestion *= learning::price_level(season, until) / learning::price_level(season, today);
  const auto then = price_path(later, season, until);
  if (!then) return tl::unexpected(then.error());
  const double hold = then->value - machine.holding_cost * wait;
  return HoldOrSell{now->value, hold, hold - now->value, then->asking};
}

}  // namespace secondpull::market
