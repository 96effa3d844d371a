#include "core/decision/profit.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include <boost/math/distributions/normal.hpp>

namespace secondpull::decision {
namespace {

/// Chances that add up to a level within this have reached it: a level met exactly is met in spite of
/// rounding.
constexpr double chance_rounding = 1e-12;
/// Amounts as near to nothing as this are nothing.
constexpr double amount_rounding = 1e-9;
constexpr double infinity = std::numeric_limits<double>::infinity();

struct Part {
  double amount = 0;
  double chance = 0;
};

/// In order of amount, equal amounts taken together.
std::vector<Part> in_order(std::vector<Part> parts) {
  std::sort(parts.begin(), parts.end(), [](const Part& a, const Part& b) { return a.amount < b.amount; });
  std::vector<Part> out;
  for (const Part& part : parts)
    if (!out.empty() && part.amount - out.back().amount <= amount_rounding)
      out.back().chance += part.chance;
    else
      out.push_back(part);
  return out;
}

/// A mixture of fixed amounts and of lognormals shifted down.
class Mixture {
 public:
  Mixture(std::span<const Ending> endings, const Price& price, double sunk) : price_{price} {
    const bool certain = price.spread <= 0 || price.median <= 0;
    for (const Ending& ending : endings) {
      double amount = ending.cash - sunk;
      if (!ending.stop) amount -= price.deducted;
      if (ending.stop)
        fixed_.push_back({amount, ending.chance});
      else if (certain)
        fixed_.push_back({amount + price.median, ending.chance});
      else
        sales_.push_back({amount, ending.chance});
    }
    fixed_ = in_order(std::move(fixed_));
    sales_ = in_order(std::move(sales_));
    up_to_.push_back(0);
    for (const Part& part : fixed_)
      up_to_.push_back(up_to_.back() + part.chance);
  }

  double chance_below(double x) const {
    const auto end = std::lower_bound(fixed_.begin(), fixed_.end(), x,
                                      [](const Part& part, double amount) { return part.amount < amount; });
    return up_to_[static_cast<std::size_t>(end - fixed_.begin())] + chance_of_sales_up_to(x);
  }

  /// The smallest amount that is not exceeded with at least this chance; 0 < level < 1.
  double quantile(double level) const {
    const double needed = level - chance_rounding;
    // It lies at a fixed amount or between two of them; which, is found first.
    const auto reached = std::partition_point(fixed_.begin(), fixed_.end(), [&](const Part& part) {
      return chance_below(part.amount) + part.chance < needed;
    });
    if (reached != fixed_.end() && chance_below(reached->amount) < needed) return reached->amount;
    return within_sales(needed, reached == fixed_.begin() ? -infinity : (reached - 1)->amount,
                        reached == fixed_.end() ? infinity : reached->amount);
  }

 private:
  double chance_of_sales_up_to(double x) const {
    double chance = 0;
    for (const Part& sale : sales_) {
      const double price = x - sale.amount;
      if (price > 0)
        chance += sale.chance * cdf(boost::math::normal{}, std::log(price / price_.median) / price_.spread);
    }
    return chance;
  }

  /// Bisects the part of the range where only sales add to the chance. `below` and `above` may be infinite.
  double within_sales(double needed, double below, double above) const {
    if (sales_.empty()) return above;  // not reached: the fixed amounts have all the chance
    double low = std::max(below, sales_.front().amount);
    double high = above;
    for (double reach = price_.median; !std::isfinite(high); reach *= 2)
      if (chance_below(sales_.back().amount + reach) >= needed) high = sales_.back().amount + reach;
    for (;;) {
      const double middle = low + (high - low) / 2;
      if (middle <= low || middle >= high) return high;
      (chance_below(middle) < needed ? low : high) = middle;
    }
  }

  Price price_;
  std::vector<Part> fixed_;    ///< by amount
  std::vector<double> up_to_;  ///< chance of the first so many of them
  std::vector<Part> sales_;    ///< amount: what a sale at a price of nothing would leave
};

}  // namespace

Profit profit_of(std::span<const Ending> endings, const Price& price, double sunk_cash) {
  const Mixture mixture{endings, price, sunk_cash};
  return {.p10 = mixture.quantile(0.1),
          .p50 = mixture.quantile(0.5),
          .p90 = mixture.quantile(0.9),
          .chance_of_loss = mixture.chance_below(-amount_rounding)};
}

}  // namespace secondpull::decision
