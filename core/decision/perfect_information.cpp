#include "core/decision/perfect_information.h"

#include <algorithm>

namespace secondpull::decision {
namespace {

/// The longest table of a cause; what has more runs is computed each time.
constexpr std::size_t longest_table = std::size_t{1} << 16U;

}  // namespace

PerfectInformation::PerfectInformation(const Layout& layout)
    : causes_(layout.causes()),
      running_(layout.running),
      plans_(causes_),
      strides_(layout.repairs.size() * causes_, 0) {
  for (std::size_t cause = 0; cause < causes_; ++cause) {
    Plan& plan = plans_[cause];
    plan.stop = layout.stops.front().worth[cause];
    for (const Layout::Stop& stop : layout.stops)
      plan.stop = std::max(plan.stop, stop.worth[cause]);
    for (std::size_t a = 0; a < layout.repairs.size(); ++a)
      for (const Layout::Cure& cure : layout.repairs[a].cures)
        if (cure.cause == cause && cure.chance * (running_ - plan.stop) > layout.repairs[a].cost)
          plan.order.push_back({a, cure.chance, layout.repairs[a].cost, layout.repairs[a].tries});
    std::ranges::stable_sort(plan.order, [](const Own& x, const Own& y) {
      return x.chance * y.cost > y.chance * x.cost;  // a free one comes first
    });
    std::size_t runs = 1;
    for (const Own& own : plan.order) {
      runs *= static_cast<std::size_t>(own.tries) + 1;
      if (runs > longest_table) break;
    }
    if (runs > longest_table) continue;
    Run stride = 1;
    for (const Own& own : plan.order) {
      strides_[own.repair * causes_ + cause] = stride;
      stride *= static_cast<Run>(own.tries) + 1;
    }
    std::vector<int> left(plan.order.size());
    for (Run run = 0; run < runs; ++run) {
      Run rest = run;
      for (std::size_t i = 0; i < left.size(); ++i) {
        const auto digit = static_cast<Run>(plan.order[i].tries) + 1;
        left[i] = plan.order[i].tries - static_cast<int>(rest % digit);
        rest /= digit;
      }
      plan.table.push_back(worth_of(plan, left));
    }
  }
}

double PerfectInformation::worth_of(const Plan& plan, std::span<const int> left) const {
  double worth = plan.stop;
  for (std::size_t i = plan.order.size(); i-- > 0;)
    for (int attempt = 0; attempt < left[i]; ++attempt)
      worth = -plan.order[i].cost + plan.order[i].chance * running_ + (1 - plan.order[i].chance) * worth;
  return worth;
}

double PerfectInformation::computed(std::size_t cause, std::span<const std::uint8_t> left,
                                    std::size_t one_less) const {
  const Plan& plan = plans_[cause];
  double worth = plan.stop;
  for (std::size_t i = plan.order.size(); i-- > 0;) {
    const Own& own = plan.order[i];
    for (int attempt = own.repair == one_less ? 1 : 0; attempt < left[own.repair]; ++attempt)
      worth = -own.cost + own.chance * running_ + (1 - own.chance) * worth;
  }
  return worth;
}

std::size_t PerfectInformation::bytes() const {
  std::size_t total = strides_.size() * sizeof(Run);
  for (const Plan& plan : plans_)
    total += plan.table.size() * sizeof(double);
  return total;
}

}  // namespace secondpull::decision
