#include "core/market/backward.h"

#include <cmath>
#include <optional>

#include <fmt/format.h>

namespace secondpull::market {
namespace {

constexpr int kMostSteps = 10'000;
constexpr int kMostPieces = 100;

std::optional<Problem> problem_of(const Selling& selling) {
  const auto wrong = [](const char* sentence, const char* field, auto value) {
    return Problem{sentence, field, fmt::format("{}", value)};
  };
  if (!(selling.days >= 0 && selling.days <= kLongestDays))
    return wrong("The last day is today or at most ten years away.", "days", selling.days);
  if (selling.steps_of_day < 1 || selling.steps_of_day > kMostSteps)
    return wrong("A day has 1 to 10,000 steps.", "steps_of_day", selling.steps_of_day);
  if (!(std::isfinite(selling.holding_cost) && selling.holding_cost >= 0))
    return wrong("Keeping a machine costs nothing or something a day.", "holding_cost", selling.holding_cost);
  if (!std::isfinite(selling.salvage))
    return wrong("What is left at the end is an amount.", "salvage", selling.salvage);
  if (selling.pieces < 1 || selling.pieces > kMostPieces)
    return wrong("There are 1 to 100 pieces.", "pieces", selling.pieces);
  return std::nullopt;
}

}  // namespace

Result<std::vector<std::vector<SellingStep>>> sell_by_a_last_day(const Selling& selling,
                                                                 const Buyers& buyers) {
  if (auto wrong = problem_of(selling)) return tl::unexpected(std::move(*wrong));
  const auto steps = static_cast<std::size_t>(std::ceil(selling.days * selling.steps_of_day));
  const double step = steps == 0 ? 0 : selling.days / static_cast<double>(steps);
  const auto pieces = static_cast<std::size_t>(selling.pieces);
  std::vector<std::vector<SellingStep>> all(pieces, std::vector<SellingStep>(steps + 1));
  const auto value = [&](std::size_t left, std::size_t at) {
    return left == 0 ? 0 : all[left - 1][at].value;
  };
  for (std::size_t left = 1; left <= pieces; ++left) {
    const double given_up = static_cast<double>(left) * selling.salvage;
    std::vector<SellingStep>& path = all[left - 1];
    path[steps] = {.day = selling.days, .value = given_up, .floor = selling.salvage, .given_up = true};
    for (std::size_t at = steps; at-- > 0;) {
      SellingStep& now = path[at];
      now.day = static_cast<double>(at) * step;
      now.floor = value(left, at + 1) - value(left - 1, at + 1);
      const BestPrice best = buyers(now.day, now.floor, step);
      const double chance = -std::expm1(-best.rate * step);
      now.price = best.price;
      now.rate = best.rate;
      now.value = value(left, at + 1) - selling.holding_cost * step + chance * (best.paid - now.floor);
      if (now.value <= given_up) {
        now.value = given_up;
        now.rate = 0;
        now.given_up = true;
      }
    }
  }
  return all;
}

}  // namespace secondpull::market
