#include "core/books/earned.h"

#include <array>

namespace secondpull {
namespace {

constexpr std::int64_t kMinutesAnHour = 60;
constexpr std::size_t kStepKinds = static_cast<std::size_t>(StepKind::profit) + 1;

}  // namespace

std::optional<Money> per_hour(Money amount, Minutes minutes) {
  if (minutes.count <= 0) return std::nullopt;
  return scale(amount, kMinutesAnHour, minutes.count);
}

Earned earned(std::span<const MachineFigures* const> machines) {
  Earned sum;
  for (const MachineFigures* machine : machines) {
    if (!machine->profit) continue;
    ++sum.machines;
    sum.net_proceeds += machine->net_proceeds.value_or(Money{});
    sum.cost_basis += machine->cost_basis;
    sum.gross_profit += machine->gross_profit.value_or(Money{});
    sum.running_costs += machine->running_costs;
    sum.profit += *machine->profit;
    sum.minutes += machine->minutes;
  }
  sum.gross_per_hour = per_hour(sum.gross_profit, sum.minutes);
  sum.pay_per_hour = per_hour(sum.profit, sum.minutes);
  return sum;
}

StepKind step_of(LineKind kind) {
  switch (kind) {
    case LineKind::acquisition:
    case LineKind::pickup:
    case LineKind::donor_share:
    case LineKind::gift:
      return StepKind::acquisition;
    case LineKind::part:
      return StepKind::parts;
    case LineKind::material:
      return StepKind::materials;
    case LineKind::outside_work:
      return StepKind::outside_work;
    case LineKind::price:
      return StepKind::price;
    case LineKind::fee:
      return StepKind::fee;
    case LineKind::delivery:
      return StepKind::delivery;
    case LineKind::refund:
    case LineKind::allowance:
      return StepKind::given_back;
    case LineKind::scrap:
      return StepKind::scrap;
    case LineKind::cost_after:
      return StepKind::cost_after;
    case LineKind::trip:
      return StepKind::trips;
    case LineKind::overhead:
      return StepKind::overheads;
  }
  return StepKind::cost_after;
}

std::vector<WaterfallStep> waterfall(std::span<const FigureLine> lines) {
  std::array<Money, kStepKinds> sums{};
  std::array<bool, kStepKinds> present{};
  for (const FigureLine& line : lines) {
    const auto at = static_cast<std::size_t>(step_of(line.kind));
    sums[at] += line.amount;
    present[at] = true;
  }
  const auto has = [&](StepKind kind) { return present[static_cast<std::size_t>(kind)]; };

  std::vector<WaterfallStep> steps;
  Money level;
  for (std::size_t at = 0; at < kStepKinds; ++at) {
    const auto kind = static_cast<StepKind>(at);
    if (kind == StepKind::profit ||
        (kind == StepKind::gross_profit && (has(StepKind::trips) || has(StepKind::overheads)))) {
      steps.push_back({.kind = kind, .amount = level, .from = Money{}, .to = level});
    } else if (present[at]) {
      const Money before = level;
      level += sums[at];
      steps.push_back({.kind = kind, .amount = sums[at], .from = before, .to = level});
    }
  }
  return steps;
}

}  // namespace secondpull
