#include "core/books/day_order.h"

#include <algorithm>

#include <fmt/format.h>

namespace secondpull::bookkeeping {

namespace {

// A key is one number: the day in the upper bits (counted from a year before all dates), then the turn of the
// day, then the row. Sorting numbers is what makes a shop of 100,000 machines quick.
constexpr std::chrono::sys_days kBeforeAllDays = std::chrono::year{-30000} / 1 / 1;

std::uint64_t key_of(Date date, Turn turn, std::size_t row) {
  const auto day = static_cast<std::uint64_t>((std::chrono::sys_days{date} - kBeforeAllDays).count());
  return (day << 40U) | (static_cast<std::uint64_t>(turn) << 32U) | row;
}

bool outside_work(const Finding* finding) {
  return !finding->cost.is_zero();
}

}  // namespace

void DayOrder::add(Date date, Turn turn, std::size_t row) {
  keys_.push_back(key_of(date, turn, row));
}

Date DayOrder::day_of(std::uint64_t key) {
  return Date{kBeforeAllDays + std::chrono::days{static_cast<int>(key >> 40U)}};
}

std::uint64_t DayOrder::end_of_year(std::uint64_t key) {
  return key_of((day_of(key).year() + std::chrono::years{1}) / 1 / 1, Turn::acquisition, 0);
}

template <class Record>
void DayOrder::add_all(Turn turn, const std::vector<const Record*>& rows) {
  for (std::size_t row = 0; row < rows.size(); ++row)
    add(rows[row]->date, turn, row);
}

std::optional<Problem> DayOrder::add_machines(const Shop& shop, const LinesByPlace& machines) {
  Position place = 0;
  std::size_t harvested = 0;
  for (const ByMachine::Lines* of_machine : machines) {
    const ByMachine::Lines& lines = *of_machine;
    if (auto wrong = add_moves(place, lines, moves_)) return wrong;
    if (!lines.disposals.empty() && lines.disposals.back()->how == DisposalKind::parted_out) {
      const Disposal& disposal = *lines.disposals.back();
      Parting parting{place, disposal.date, &disposal, lines.harvested};
      if (!lines.harvested.empty()) parting.date = std::min(disposal.date, lines.harvested.front()->date);
      std::sort(parting.lines.begin(), parting.lines.end(),
                [](const Harvest* a, const Harvest* b) { return a->entered < b->entered; });
      harvested += lines.harvested.size();
      partings_.push_back(std::move(parting));
    } else if (!lines.harvested.empty()) {
      return Problem{
          fmt::format("Parts were harvested from #{}, which is not parted out.", lines.machine->tag), "donor",
          lines.machine->tag};
    }
    ++place;
  }
  if (harvested != shop.all<Harvest>().size())
    return Problem{"Parts were harvested from a machine that is not there.", "donor", {}};
  return std::nullopt;
}

Result<DayOrder> DayOrder::of(const Shop& shop, const LinesByPlace& lines,
                              const std::vector<Arrival>& arrivals) {
  DayOrder order;
  order.acquisitions_ = in_order_of_entry(shop.all<Acquisition>());
  order.arrivals_ = arrivals;
  order.materials_ = in_order_of_entry(shop.all<Material>());
  order.findings_ = in_order_of_entry(shop.all<Finding>());
  std::erase_if(order.findings_, [](const Finding* finding) { return !outside_work(finding); });
  order.fitted_ = in_order_of_entry(shop.all<Fitted>());
  order.part_sales_ = in_order_of_entry(shop.all<PartSale>());
  order.allowances_ = in_order_of_entry(shop.all<Allowance>());
  order.trips_ = in_order_of_entry(shop.all<Trip>());
  order.expenses_ = in_order_of_entry(shop.all<Expense>());
  order.taxes_paid_ = in_order_of_entry(shop.all<TaxPaid>());
  if (auto wrong = order.add_machines(shop, lines)) return tl::unexpected(std::move(*wrong));

  order.keys_.reserve(order.acquisitions_.size() + order.arrivals_.size() + order.materials_.size() +
                      order.findings_.size() + order.partings_.size() + order.fitted_.size() +
                      order.part_sales_.size() + order.moves_.size() + order.allowances_.size() +
                      order.trips_.size() + order.expenses_.size() + order.taxes_paid_.size());
  order.add_all(Turn::acquisition, order.acquisitions_);
  for (std::size_t row = 0; row < order.arrivals_.size(); ++row)
    order.add(*order.arrivals_[row].order->arrived, Turn::arrival, row);
  order.add_all(Turn::material, order.materials_);
  order.add_all(Turn::outside_work, order.findings_);
  for (std::size_t row = 0; row < order.partings_.size(); ++row)
    order.add(order.partings_[row].date, Turn::parting, row);
  order.add_all(Turn::fitting, order.fitted_);
  order.add_all(Turn::part_sale, order.part_sales_);
  for (std::size_t row = 0; row < order.moves_.size(); ++row)
    order.add(order.moves_[row].date, order.moves_[row].turn, row);
  order.add_all(Turn::allowance, order.allowances_);
  order.add_all(Turn::trip, order.trips_);
  order.add_all(Turn::expense, order.expenses_);
  order.add_all(Turn::tax_paid, order.taxes_paid_);
  std::sort(order.keys_.begin(), order.keys_.end());
  return order;
}

}  // namespace secondpull::bookkeeping
