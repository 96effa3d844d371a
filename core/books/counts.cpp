#include "core/books/counts.h"

namespace secondpull::bookkeeping {

YearLine Counts::bought(const AnyId& event) const {
  const auto* const acquisition = std::get_if<AcquisitionId>(&event);
  const auto* const order = std::get_if<OrderId>(&event);
  const bool opening = (acquisition != nullptr && shop_->find(*acquisition)->opening) ||
                       (order != nullptr && shop_->find(*order)->opening);
  return opening ? YearLine::opening_inventory : YearLine::purchases;
}

CountList Counts::of(const Ledger::Happening& happening, const Ledger::Entry& entry) const {
  CountList counts;
  // Where a cost goes is its line; where its money came from (cash, the owner) is not counted again.
  if (happening.turn == Turn::acquisition && entry.account == AccountKind::machines)
    counts.add({bought(happening.event), entry.amount});
  else if (happening.turn == Turn::arrival && entry.account == AccountKind::parts)
    counts.add({bought(happening.event), entry.amount});
  else if (happening.turn == Turn::material && entry.account != AccountKind::cash)
    counts.add({YearLine::materials, entry.amount});
  else if (happening.turn == Turn::outside_work && entry.account != AccountKind::cash)
    counts.add({YearLine::other_costs, entry.amount});
  else if (entry.line == LineKind::gift)  // settled: the owner brings in more, or takes it back
    counts.add({YearLine::purchases, entry.amount});

  switch (entry.account) {
    case AccountKind::sales:
      if (entry.line == LineKind::refund || entry.line == LineKind::allowance)
        counts.add({YearLine::returns, entry.amount});
      else
        counts.add({YearLine::gross_receipts, -entry.amount});
      break;
    case AccountKind::scrap:
      counts.add({YearLine::gross_receipts, -entry.amount});
      break;
    case AccountKind::expense:
      if (happening.turn == Turn::trip)
        counts.add({YearLine::car_and_truck, entry.amount});
      else
        counts.add({YearLine::expenses, entry.amount, entry.name});
      break;
    case AccountKind::sales_tax:
      if (happening.turn != Turn::tax_paid)
        counts.add({YearLine::sales_tax_collected, -entry.amount, entry.name});
      break;
    case AccountKind::owner:
      // What goes to the owner goes under the machine's name; what he brings in comes without one.
      if (entry.machine != nowhere) counts.add({YearLine::withdrawals, entry.amount});
      break;
    case AccountKind::machines:
    case AccountKind::parts:
    case AccountKind::cash:
    case AccountKind::cost_of_goods:
      break;
  }
  return counts;
}

GoodsMove goods_move(const Ledger::Happening& happening, const Ledger::Entry& entry) {
  if (std::holds_alternative<ReturnId>(happening.event)) return GoodsMove::came_back;
  if (happening.turn == Turn::move) return GoodsMove::left;
  return entry.machine == nowhere ? GoodsMove::parts : GoodsMove::spent_after;
}

}  // namespace secondpull::bookkeeping
