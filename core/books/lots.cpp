#include "core/books/lots.h"

#include <numeric>

#include <fmt/format.h>

namespace secondpull::bookkeeping {

Result<Lots> Lots::of(const Shop& shop) {
  Lots lots{shop};
  const Table<Machine>& machines = shop.all<Machine>();
  lots.acquisition_.reserve(machines.size());
  lots.first_.assign(lots.positions_.size() + 1, 0);
  for (const Machine& machine : machines) {
    const Position acquisition = lots.positions_.of(machine.acquisition);
    if (acquisition == nowhere)
      return problem(fmt::format("#{} names an acquisition that is not there.", machine.tag), "acquisition",
                     std::to_string(number(machine.acquisition)));
    lots.acquisition_.push_back(acquisition);
    ++lots.first_[acquisition + 1];
  }
  std::partial_sum(lots.first_.begin(), lots.first_.end(), lots.first_.begin());

  lots.members_.resize(machines.size());
  std::vector<std::size_t> next(lots.first_.begin(), lots.first_.end() - 1);
  for (const Machine* machine : in_order_of_entry(machines)) {
    const auto place = static_cast<Position>(machine - &*machines.begin());
    lots.members_[next[lots.acquisition_[place]]++] = place;
  }
  return lots;
}

std::vector<Money> Lots::shares(Position acquisition, Money total) const {
  const auto members = machines(acquisition);
  if (members.size() <= 1) return std::vector<Money>(members.size(), total);
  std::vector<Money> values;
  values.reserve(members.size());
  for (const Position member : members) {
    const std::optional<Money>& value = shop_->all<Machine>().begin()[member].value_then;
    if (!value) return split_evenly(total, members.size());
    values.push_back(*value);
  }
  return split(total, values);
}

}  // namespace secondpull::bookkeeping
