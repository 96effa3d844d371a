#include "core/books/describe.h"

#include <fmt/format.h>

namespace secondpull::bookkeeping {

namespace {

std::string tag(const Shop& shop, MachineId id) {
  const Machine* machine = shop.find(id);
  return machine == nullptr ? "#?" : "#" + machine->tag;
}

std::string part_name(const Shop& shop, PartId id) {
  const Part* part = shop.find(id);
  return part == nullptr ? "part" : part->name;
}

std::string person(const Shop& shop, std::optional<PersonId> id, std::string_view before) {
  const Person* known = id ? shop.find(*id) : nullptr;
  return known == nullptr ? std::string{} : fmt::format("{}{}", before, known->name);
}

/// Text behind a colon, or nothing.
std::string detail(std::string_view text) {
  return text.empty() ? std::string{} : fmt::format(": {}", text);
}

/// Says what an event was.
struct Happened {
  const Shop& shop;
  Turn turn;

  std::string operator()(const Acquisition& in) const {
    return fmt::format("acquired {}{}", in.code.empty() ? "a machine" : in.code,
                       person(shop, in.from, " from "));
  }
  std::string operator()(const Order& order) const {
    return fmt::format("parts arrived{}{}", person(shop, order.supplier, " from "), detail(order.code));
  }
  std::string operator()(const Material& material) const {
    return fmt::format("{} for {}", material.what, tag(shop, material.machine));
  }
  std::string operator()(const Finding& finding) const {
    return fmt::format("outside work on {}{}", tag(shop, finding.machine), detail(finding.step));
  }
  std::string operator()(const Fitted& fitted) const {
    return fitted.machine ? fmt::format("fitted {} x {} to {}", fitted.quantity, part_name(shop, fitted.part),
                                        tag(shop, *fitted.machine))
                          : fmt::format("wrote off {} x {}", fitted.quantity, part_name(shop, fitted.part));
  }
  std::string operator()(const PartSale& sale) const {
    return fmt::format("sold {} x {}{}", sale.quantity, part_name(shop, sale.part),
                       person(shop, sale.buyer, " to "));
  }
  std::string operator()(const Sale& sale) const {
    return fmt::format("sold {}{}", tag(shop, sale.machine), person(shop, sale.buyer, " to "));
  }
  std::string operator()(const Return& back) const {
    return fmt::format("took back {}", tag(shop, back.machine));
  }
  std::string operator()(const Allowance& allowance) const {
    return fmt::format("allowance on {}", tag(shop, allowance.machine));
  }
  std::string operator()(const Disposal& disposal) const {
    if (disposal.how == DisposalKind::kept) return fmt::format("kept {}", tag(shop, disposal.machine));
    if (disposal.how == DisposalKind::scrapped)
      return fmt::format("scrapped {}", tag(shop, disposal.machine));
    return fmt::format(fmt::runtime(turn == Turn::parting ? "parted out {}" : "hulk of {} gone"),
                       tag(shop, disposal.machine));
  }
  std::string operator()(const Trip& trip) const { return fmt::format("trip{}", detail(trip.purpose)); }
  std::string operator()(const Expense& expense) const { return expense.category; }
  std::string operator()(const TaxPaid& paid) const {
    return fmt::format("sales tax handed on{}", detail(paid.place));
  }
  template <class Other>
  std::string operator()(const Other&) const {
    return {};
  }
};

/// Says what something spent on a machine was.
struct Spent {
  const Shop& shop;
  bool of_lot;

  std::string operator()(const Fitted& fitted) const {
    return fmt::format("{} x {}", part_name(shop, fitted.part), fitted.quantity);
  }
  std::string operator()(const Material& material) const { return material.what; }
  std::string operator()(const Finding& finding) const { return finding.step; }
  std::string operator()(const Trip& trip) const {
    return fmt::format("{}, {}.{} miles", trip.purpose, trip.miles.count / 10, trip.miles.count % 10);
  }
  std::string operator()(const Acquisition& in) const {
    return fmt::format("{}{}", of_lot ? fmt::format("share of lot {}", in.code) : "price paid",
                       in.pickup_cost.is_zero() ? "" : " with pickup");
  }
  std::string operator()(const Sale& sale) const { return "price" + person(shop, sale.buyer, " from "); }
  template <class Other>
  std::string operator()(const Other&) const {
    return {};
  }
};

template <class Say>
std::string say(const Shop& shop, const AnyId& event, const Say& what) {
  return std::visit(
      [&](const auto id) {
        const auto* record = shop.find(id);
        return record == nullptr ? std::string{} : what(*record);
      },
      event);
}

}  // namespace

std::string what_happened(const Shop& shop, const Ledger::Happening& happening) {
  return say(shop, happening.event, Happened{shop, happening.turn});
}

std::string what_it_is(const Shop& shop, const Ledger::Happening& happening, LineKind line, bool of_lot) {
  switch (line) {
    case LineKind::pickup:
      return "pickup";
    case LineKind::donor_share:
      return "share of the harvested parts";
    case LineKind::gift:
      return std::holds_alternative<AcquisitionId>(happening.event) ? "basis of the gift"
                                                                    : "basis of the gift, settled";
    case LineKind::fee:
      return "fee";
    case LineKind::delivery:
      return "delivery";
    case LineKind::refund:
      return "refund";
    case LineKind::allowance:
      return "allowance";
    case LineKind::scrap:
      return "scrap money";
    case LineKind::overhead:
      return "share of overheads";
    case LineKind::acquisition:
    case LineKind::part:
    case LineKind::material:
    case LineKind::outside_work:
    case LineKind::price:
    case LineKind::cost_after:
    case LineKind::trip:
      return say(shop, happening.event, Spent{shop, of_lot});
  }
  return {};
}

}  // namespace secondpull::bookkeeping
