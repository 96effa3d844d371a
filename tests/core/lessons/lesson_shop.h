#pragma once

#include <algorithm>
#include <memory>
#include <stdexcept>

#include "core/books/books.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::test {

/// The books of a bare shop as it is now; throws the problem's sentence if there is one, which fails the
/// test.
inline Books books_of(const BareShop& s) {
  Shop shop = s.shop;
  const auto& machines = shop.all<Machine>();
  if (std::none_of(machines.begin(), machines.end(),
                   [&](const Machine& each) { return each.acquisition == s.curb; }))
    shop.all<Acquisition>().erase(s.curb);  // one without machines has no place in the books
  auto made = Books::of(std::make_shared<const Shop>(std::move(shop)), {});
  if (!made) throw std::runtime_error{made.error().sentence};
  return *std::move(made);
}

/// A shop of machines that are bought, worked on and sold.
struct LessonShop : BareShop {
  /// Bought on that day for so many cents.
  MachineId bought(std::string_view date, std::int64_t price, MachineKind kind = MachineKind::push) {
    const AcquisitionId from = add(Acquisition{.date = day(date), .price = cents(price)});
    return add(Machine{.tag = std::to_string(shop.next_id), .acquisition = from, .kind = kind});
  }
  void work(MachineId machine, std::string_view date, std::int64_t minutes, Work kind = Work::repair) {
    add(Labour{.machine = machine, .date = day(date), .minutes = {minutes}, .work = kind});
  }
  void sell(MachineId machine, std::string_view date, std::int64_t price,
            std::optional<SoldAs> as = SoldAs::running) {
    add(Sale{.machine = machine, .date = day(date), .price = cents(price), .sold_as = as});
  }
  /// Bought for nothing on 1 March, sold on 1 May with that profit.
  MachineId earned(std::int64_t profit, std::int64_t minutes, MachineKind kind = MachineKind::push) {
    const MachineId machine =
        profit < 0 ? bought("2026-03-01", -profit, kind) : bought("2026-03-01", 0, kind);
    if (minutes > 0) work(machine, "2026-03-05", minutes);
    sell(machine, "2026-05-01", std::max<std::int64_t>(profit, 0));
    return machine;
  }
};

}  // namespace secondpull::test
