#include "core/learning/further_work.h"

#include <gmock/gmock.h>

#include "tests/core/learning/small_knowledge.h"

namespace secondpull::learning {
namespace {

using diagnosis::KnownWork;
using test::BareShop;
using test::cents;
using test::day;

struct Worked : BareShop {
  MachineId m = machine();
  PartId cable = add(Part{.code = "cable", .name = "cable"});
  OrderId order = add(Order{.date = day("2026-02-01"), .arrived = day("2026-02-03")});
  OrderLineId line = add(OrderLine{.order = order, .part = cable, .quantity = 9, .price = cents(700)});
  FaultId came_with = fault(m, "no-start", "jet", "2026-03-05");
  FaultId also_that_day = fault(m, "blade dull", "", "2026-03-05");
  FaultId later = add(Fault{.machine = m,
                            .date = day("2026-03-06"),
                            .symptom = "drive does not pull",
                            .ended = day("2026-03-08"),
                            .how = FaultEnd::mended});
  void sell(std::string_view date) {
    add(Sale{.machine = m, .date = day(date), .price = cents(9'000), .sold_as = SoldAs::running});
  }
  std::vector<KnownWork> rows() const { return further_work(ByMachine{shop}, shop); }
};

TEST(FurtherWork, IsWhatWasDoneOnFaultsThatShowedOnALaterDay) {
  Worked s;
  s.finding(s.m, "2026-03-04", "clean", "mended", s.came_with, Minutes{50});
  s.finding(s.m, "2026-03-04", "blade", "done", s.also_that_day, Minutes{15});
  s.finding(s.m, "2026-03-07", "look at the cable", "snapped", {}, Minutes{5});
  const FindingId cable = s.finding(s.m, "2026-03-07", "new cable", "mended", s.later, Minutes{20});
  Finding paid = *s.shop.find(cable);
  paid.cost = cents(450);
  s.shop.all<Finding>().replace(paid);
  s.add(Fitted{.machine = s.m, .date = day("2026-03-05"), .part = s.cable, .quantity = 3});
  s.add(Fitted{.machine = s.m, .date = day("2026-03-07"), .part = s.cable, .quantity = 2});
  s.add(Material{.machine = s.m, .date = day("2026-03-08"), .cost = cents(125)});
  EXPECT_TRUE(s.rows().empty());  // not sold yet: more may come
  s.sell("2026-03-20");
  const auto rows = s.rows();
  ASSERT_EQ(rows.size(), 1u);
  EXPECT_DOUBLE_EQ(rows[0].cost, 4.5 + 2 * 7 + 1.25);
  EXPECT_EQ(rows[0].minutes, 25);
}

TEST(FurtherWork, EndsWithTheSaleAndIsNothingForAMachineWithoutIt) {
  Worked s;
  s.sell("2026-03-06");
  s.finding(s.m, "2026-03-07", "new cable", "mended", s.later, Minutes{20});
  s.add(Fitted{.machine = s.m, .date = day("2026-03-07"), .part = s.cable, .quantity = 2});
  const auto rows = s.rows();
  ASSERT_EQ(rows.size(), 1u);
  EXPECT_EQ(rows[0].cost, 0);
  EXPECT_EQ(rows[0].minutes, 0);
}

TEST(FurtherWork, OfAMistakeIsTheTimeAlone) {
  Worked s;
  Fault mistaken = *s.shop.find(s.later);
  mistaken.how = FaultEnd::mistaken;
  s.shop.all<Fault>().replace(mistaken);
  s.finding(s.m, "2026-03-07", "look at the cable", "sound", s.later, Minutes{5});
  s.add(Material{.machine = s.m, .date = day("2026-03-08"), .cost = cents(125)});
  s.sell("2026-03-20");
  EXPECT_EQ(s.rows()[0].cost, 0);
  EXPECT_EQ(s.rows()[0].minutes, 5);
}

TEST(FurtherWork, IsTheMeanOfTheRecordDrawnTowardsWhatWasBelieved) {
  const Currency dollars{"USD", 2};
  const KnownWork believed{.cost = 12, .minutes = 25};
  const KnownWork none = usual_further_work(believed, {}, dollars);
  EXPECT_EQ(none.cost, 12);
  EXPECT_EQ(none.minutes, 25);
  // The knowledge weighs 25/9 machines.
  const KnownWork two = usual_further_work(believed, {{0, 0}, {8, 40}}, dollars);
  EXPECT_EQ(two.cost, 8.65);  // (25/9 x 12 + 8) / (25/9 + 2) = 372/43
  EXPECT_NEAR(two.minutes, (25.0 / 9 * 25 + 40) / (25.0 / 9 + 2), 1e-12);
  EXPECT_EQ(usual_further_work({}, {{0, 0}, {8, 40}}, dollars).cost, 4);
}

}  // namespace
}  // namespace secondpull::learning
