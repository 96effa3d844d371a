#pragma once

#include "tests/core/books/shop_builder.h"

namespace secondpull::test {

/// The worked month of the money model, record by record.
class WorkedMonth {
 public:
  /// @param donor  is the third machine parted out and its blade fitted?
  /// @param trip   is the pickup a trip of 28 miles?
  explicit WorkedMonth(bool donor, bool trip) {
    lot = build.add(Acquisition{
        .code = "L1", .date = day("2026-03-02"), .source = Source::private_sale, .price = money("100.00")});
    m1 = build.machine("M1", lot, money("120.00"));
    m2 = build.machine("M2", lot, money("60.00"));
    m3 = build.machine("M3", lot, money("20.00"));
    carburettor = build.part("carburettor");
    plug = build.part("plug");
    blade = build.part("blade");
    wheels = build.part("wheel-set");
    order = build.add(Order{
        .code = "O1", .date = day("2026-03-06"), .arrived = day("2026-03-12"), .freight = money("5.95")});
    build.add(OrderLine{.order = order, .part = carburettor, .price = money("15.99")});
    build.add(OrderLine{.order = order, .part = plug, .price = money("3.49")});
    build.add(Fitted{.machine = m1, .date = day("2026-03-13"), .part = carburettor, .from_order = order});
    build.fit(m1, day("2026-03-13"), plug);
    if (donor) part_out();
    build.work(m1, day("2026-03-06"), 25, Work::diagnose);
    build.work(m1, day("2026-03-13"), 110, Work::repair);
    build.work(m1, day("2026-03-13"), 20, Work::test_run);
    build.work(m1, day("2026-03-14"), 15, Work::list);
    build.work(m1, day("2026-03-21"), 30, Work::sell);
    build.add(Listing{
        .machine = m1, .date = day("2026-03-14"), .channel = "notice board", .asking = money("195.00")});
    build.sell(m1, day("2026-03-21"), money("185.00"), money("4.63"));
    if (trip)
      build.add(
          Trip{.date = day("2026-03-02"), .miles = {280}, .purpose = "fetch the lot", .acquisition = lot});
  }
  Books books() const { return build.books(rates()); }

  /// Business use, cents a mile: 72.5 for the first half of 2026 (IRS Notice 2026-10, second hand).
  static MileageRates rates() {
    return *MileageRates::make({{day("2026-01-01"), day("2026-06-30"), 725, "IRS Notice 2026-10"}});
  }

  ShopBuilder build;
  AcquisitionId lot{};
  MachineId m1{}, m2{}, m3{};
  PartId carburettor{}, plug{}, blade{}, wheels{};
  OrderId order{};

 private:
  void part_out() {
    build.add(Harvest{.donor = m3, .date = day("2026-03-07"), .part = blade, .value = money("15.00")});
    build.add(Harvest{.donor = m3, .date = day("2026-03-07"), .part = wheels, .value = money("10.00")});
    build.add(Disposal{.machine = m3,
                       .date = day("2026-03-07"),
                       .how = DisposalKind::parted_out,
                       .proceeds = money("4.20"),
                       .hulk_value = money("5.00"),
                       .hulk_gone = day("2026-03-28")});
    build.add(Fitted{.machine = m1, .date = day("2026-03-13"), .part = blade, .from_donor = m3});
  }
};

}  // namespace secondpull::test
