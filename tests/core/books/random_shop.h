#pragma once

#include <array>

#include <rapidcheck.h>

#include "core/shop/rules.h"
#include "tests/core/books/shop_builder.h"

namespace secondpull::test {

/// A shop grown by random days of work: machines bought, given and left over, orders, parts fitted, sold and
/// written off, donors, sales, returns, allowances, trips, expenses, sales tax handed on. A step that breaks
/// a rule of the records (a part that is not there, a machine that is gone) is taken back, so that what is
/// left is in order. The days begin late in a year, and most shops go over its end.
class RandomShop {
 public:
  static constexpr int kDaysApart = 4;    ///< two steps are fewer days apart than this
  static constexpr int kWeeksApart = 40;  ///< for shops of some years

  explicit RandomShop(int days_apart = kDaysApart) {
    for (int i = 0; i < kParts; ++i)
      parts_.push_back(build.part("part " + std::to_string(i)));
    const bool opening = maybe();
    acquire(Source::gift, opening);
    acquire(Source::private_sale, opening);
    order(opening);
    if (const auto broken = broken_rules(build.shop()); !broken.empty())
      throw std::logic_error("a random shop begins out of order, so no step would be kept: " +
                             broken.front().problem.sentence);
    const int steps = any_of(1, kMostSteps);
    for (int i = 0; i < steps; ++i) {
      today = plus_days(today, any_of(0, days_apart));
      const Shop before = build.shop();
      const auto machines_before = machines_;
      step(any_of(0, kKindsOfStep));
      if (broken_rules(build.shop()).empty()) continue;
      build.shop() = before;
      machines_ = machines_before;
    }
  }

  static MileageRates rates() {
    return *MileageRates::make({{day("2025-01-01"), day("2026-12-31"), 725, "made up"},
                                {day("2027-01-01"), day("2040-12-31"), 760, "made up"}});
  }
  Books books() const { return build.books(rates()); }
  const std::vector<MachineId>& machines() const { return machines_; }

  ShopBuilder build;
  Date today = day("2025-11-01");  // so that many of them go over a year's end

 private:
  static constexpr int kParts = 3;
  static constexpr int kMostSteps = 80;
  static constexpr int kKindsOfStep = 19;
  static constexpr std::array kPlaces{"", "Norrin County", "Quell"};
  static constexpr std::array kCategories{"rent", "supplies", "insurance"};

  /// Evenly in the range from the first case on; RapidCheck's own ranges grow with the number of the case.
  static int any_of(int from, int to) {
    return *rc::gen::resize(rc::kNominalSize, rc::gen::inRange(from, to));
  }
  static Money any_money(std::int64_t most = 20000) {
    return Money::from_minor(*rc::gen::inRange<std::int64_t>(0, most));
  }
  static bool maybe() { return *rc::gen::arbitrary<bool>(); }
  /// An identifier that no other record has.
  std::string fresh(const std::string& letter) { return letter + std::to_string(build.shop().next_id); }
  PartId any_part() const { return *rc::gen::elementOf(parts_); }
  std::int64_t few() const { return any_of(1, 4); }
  static std::string any_word(const std::array<const char*, 3>& words) { return *rc::gen::elementOf(words); }

  void acquire(Source source, bool opening = false) {
    Acquisition in{.code = fresh("L"),
                   .date = today,
                   .source = source,
                   .pickup_cost = any_money(1500),
                   .opening = opening};
    if (source == Source::gift)
      in.giver_basis = any_money();
    else
      in.price = any_money();
    const AcquisitionId id = build.add(in);
    const auto count = few();
    for (std::int64_t i = 0; i < count; ++i)
      machines_.push_back(build.machine(std::to_string(100 - machines_.size()), id,
                                        maybe() ? std::optional{any_money()} : std::nullopt));
    if (maybe()) build.add(Labour{.acquisition = id, .date = today, .minutes = {*rc::gen::inRange(1, 99)}});
    if (maybe())
      build.add(
          Trip{.date = today, .miles = {*rc::gen::inRange(1, 999)}, .purpose = "fetch", .acquisition = id});
  }
  void order(bool opening = false) {
    const OrderId id = build.add(Order{.code = fresh("O"),
                                       .date = today,
                                       .arrived = plus_days(today, opening || maybe() ? 0 : any_of(0, 9)),
                                       .freight = any_money(999),
                                       .tax = any_money(300),
                                       .opening = opening});
    const auto lines = few();
    for (std::int64_t i = 0; i < lines; ++i)
      build.add(OrderLine{.order = id, .part = any_part(), .quantity = few(), .price = any_money(3000)});
    orders_.push_back(id);
  }
  void part_out(MachineId donor) {
    Disposal disposal{.machine = donor, .date = today, .how = DisposalKind::parted_out};
    if (maybe()) disposal.hulk_value = any_money();
    const auto lines = *rc::gen::inRange<std::int64_t>(0, 4);
    for (std::int64_t i = 0; i < lines; ++i)
      build.add(Harvest{.donor = donor,
                        .date = plus_days(today, *rc::gen::inRange(0, 20)),
                        .part = any_part(),
                        .quantity = few(),
                        .value = any_money()});
    disposal.hulk_here = maybe();
    if (!disposal.hulk_here) {
      disposal.proceeds = any_money(2000);
      disposal.hulk_gone = plus_days(today, *rc::gen::inRange(0, 20));
    }
    build.add(disposal);
  }
  void step(int kind) {
    if (kind == 0 || machines_.empty()) return acquire(Source::private_sale);
    const MachineId machine = *rc::gen::elementOf(machines_);
    switch (kind) {
      case 1:
        return acquire(Source::gift);
      case 2:
        return order();
      case 3:
      case 4:
      case 5:
        build.fit(machine, today, any_part(), few());
        return;
      case 6:
        if (!orders_.empty())
          build.add(Fitted{.machine = machine,
                           .date = today,
                           .part = any_part(),
                           .quantity = 1,
                           .from_order = *rc::gen::elementOf(orders_)});
        return;
      case 7:
        build.add(Fitted{.date = today, .part = any_part(), .quantity = 1});
        return;
      case 8:
        build.add(PartSale{.date = today,
                           .part = any_part(),
                           .price = any_money(3000),
                           .sales_tax = any_money(200),
                           .fee = any_money(200),
                           .place = any_word(kPlaces)});
        return;
      case 9:
      case 10:
        build.add(Sale{.machine = machine,
                       .date = today,
                       .price = any_money(),
                       .sales_tax = any_money(900),
                       .fee = any_money(500),
                       .delivery = any_money(500),
                       .place = any_word(kPlaces)});
        return;
      case 11:
        build.add(Return{.machine = machine, .date = today, .refunded = any_money()});
        return;
      case 12:
        build.add(Allowance{
            .machine = machine, .date = today, .amount = any_money(900), .sales_tax = any_money(50)});
        return;
      case 13:
        return part_out(machine);
      case 14:
        if (maybe())
          build.add(Disposal{.machine = machine, .date = today, .how = DisposalKind::kept});
        else
          build.add(Disposal{
              .machine = machine, .date = today, .how = DisposalKind::scrapped, .proceeds = any_money(2000)});
        return;
      case 15:
        build.add(Material{.machine = machine, .date = today, .what = "oil", .cost = any_money(900)});
        build.add(Finding{.machine = machine, .date = today, .step = "weld", .cost = any_money(900)});
        return;
      case 16:
        build.work(machine, today, *rc::gen::inRange(0, 200));
        build.add(Trip{
            .date = today, .miles = {*rc::gen::inRange(0, 500)}, .purpose = "deliver", .machine = machine});
        return;
      case 17:
        build.add(TaxPaid{.date = today, .place = any_word(kPlaces), .amount = any_money(900)});
        return;
      default:
        build.add(Expense{.date = today, .category = any_word(kCategories), .amount = any_money()});
        build.add(Trip{.date = today, .miles = {*rc::gen::inRange(0, 500)}, .purpose = "errand"});
        return;
    }
  }

  std::vector<PartId> parts_;
  std::vector<OrderId> orders_;
  std::vector<MachineId> machines_;
};

}  // namespace secondpull::test
