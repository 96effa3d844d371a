#include "core/shop/stock_days.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace secondpull {
namespace {

/// Where pieces came from: an order or a donor, never both.
struct Origin {
  std::optional<OrderId> order;
  std::optional<MachineId> donor;
  friend auto operator<=>(const Origin&, const Origin&) = default;
  bool named() const { return order || donor; }
};

enum class Step { order_line, harvested, fitted, sold };  // in the order of a day

struct Movement {
  PartId part{};
  Date date{};
  Step step = Step::order_line;
  std::int64_t entered = 0;
  std::int64_t quantity = 0;
  Origin origin;
  AnyId record;
  bool comes_in() const { return step <= Step::harvested; }
};

template <class Use>
Origin pointed_at(const Use& use) {
  return {use.from_order, use.from_donor};
}

/// Does the use name a part and a receipt that are there? What names nothing is told of by the rules.
template <class Use>
bool is_sound(const Shop& shop, const Use& use) {
  return shop.find(use.part) != nullptr && !(use.from_order && use.from_donor) &&
         (!use.from_order || shop.find(*use.from_order) != nullptr) &&
         (!use.from_donor || shop.find(*use.from_donor) != nullptr);
}

std::vector<Movement> movements(const Shop& shop, std::optional<PartId> only) {
  std::vector<Movement> all;
  // A quantity that no line may have is told of by the rules, and would upset the sums.
  const auto counts = [&](const auto& line) {
    return (!only || *only == line.part) && line.quantity >= 1 && line.quantity <= kLargestQuantity;
  };
  for (const OrderLine& line : shop.all<OrderLine>()) {
    if (!counts(line)) continue;
    const Order* const order = shop.find(line.order);
    if (order != nullptr && order->arrived)
      all.push_back({line.part,
                     *order->arrived,
                     Step::order_line,
                     line.entered,
                     line.quantity,
                     {.order = line.order},
                     line.id});
  }
  for (const Harvest& line : shop.all<Harvest>())
    if (counts(line))
      all.push_back({line.part,
                     line.date,
                     Step::harvested,
                     line.entered,
                     line.quantity,
                     {.donor = line.donor},
                     line.id});
  for (const Fitted& use : shop.all<Fitted>())
    if (counts(use) && is_sound(shop, use))
      all.push_back({use.part, use.date, Step::fitted, use.entered, use.quantity, pointed_at(use), use.id});
  for (const PartSale& use : shop.all<PartSale>())
    if (counts(use) && is_sound(shop, use))
      all.push_back({use.part, use.date, Step::sold, use.entered, use.quantity, pointed_at(use), use.id});
  std::sort(all.begin(), all.end(), [](const Movement& a, const Movement& b) {
    return std::tie(a.part, a.date, a.step, a.entered) < std::tie(b.part, b.date, b.step, b.entered);
  });
  return all;
}

/// The pieces of one part on hand, in the order of issue.
class Pile {
 public:
  void put(const Movement& in) {
    of_origin_[in.origin].indexes.push_back(left_.size());
    of_origin_[in.origin].left += in.quantity;
    origins_.push_back(in.origin);
    left_.push_back(in.quantity);
    total_ += in.quantity;
  }
  /// Takes what the use wants, or nothing at all; how many there were to take from.
  std::int64_t take(const Movement& use) {
    return use.origin.named() ? take_pointed(use) : take_oldest(use.quantity);
  }

 private:
  struct OfOrigin {
    std::vector<std::size_t> indexes;
    std::size_t first = 0;  // those before it are used up
    std::int64_t left = 0;
  };

  std::int64_t take_oldest(std::int64_t wanted) {
    const std::int64_t there = total_;
    if (there < wanted) return there;
    while (wanted > 0) {
      const std::int64_t taken = std::min(wanted, left_[first_]);
      of_origin_[origins_[first_]].left -= taken;
      take_from(first_, taken);
      wanted -= taken;
      if (left_[first_] == 0) ++first_;
    }
    return there;
  }
  std::int64_t take_pointed(const Movement& use) {
    const auto at = of_origin_.find(use.origin);
    if (at == of_origin_.end()) return 0;
    OfOrigin& from = at->second;
    const std::int64_t there = from.left;
    if (there < use.quantity) return there;
    std::int64_t wanted = use.quantity;
    from.left -= wanted;
    while (wanted > 0) {
      const std::size_t index = from.indexes[from.first];
      const std::int64_t taken = std::min(wanted, left_[index]);
      take_from(index, taken);
      wanted -= taken;
      if (left_[index] == 0) ++from.first;
    }
    return there;
  }
  void take_from(std::size_t index, std::int64_t pieces) {
    left_[index] -= pieces;
    total_ -= pieces;
  }

  std::vector<Origin> origins_;     // of each receipt
  std::vector<std::int64_t> left_;  // of each receipt
  std::map<Origin, OfOrigin> of_origin_;
  std::size_t first_ = 0;  // receipts before it are used up
  std::int64_t total_ = 0;
};

}  // namespace

std::vector<Shortage> shortages(const Shop& shop, std::optional<PartId> only) {
  std::vector<Shortage> found;
  Pile pile;
  PartId part{};
  for (const Movement& movement : movements(shop, only)) {
    if (movement.part != part) {
      pile = {};
      part = movement.part;
    }
    if (movement.comes_in()) {
      pile.put(movement);
      continue;
    }
    const std::int64_t there = pile.take(movement);
    if (there < movement.quantity)
      found.push_back({movement.record, part, movement.date, movement.quantity, there});
  }
  return found;
}

std::int64_t in_stock_on(const Shop& shop, PartId part, Date day) {
  std::int64_t pieces = 0;
  for (const Movement& movement : movements(shop, part))
    if (movement.date <= day) pieces += movement.comes_in() ? movement.quantity : -movement.quantity;
  return pieces;
}

}  // namespace secondpull
