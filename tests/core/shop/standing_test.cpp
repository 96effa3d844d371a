#include <gmock/gmock.h>

#include "core/shop/stage.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

std::string standing_of(const SmallShop& s, MachineId machine, const char* today = "2026-03-31") {
  return standing(s.shop, lines_of(s.shop, machine), day(today));
}

TEST(Standing, SaysWhereAMachineIsAndSinceWhen) {
  SmallShop s;
  EXPECT_EQ(standing_of(s, s.m1), "sold to Ruel for $160");
  EXPECT_EQ(standing_of(s, s.m2), "on the bench since 6 Mar");
  EXPECT_EQ(standing_of(s, s.m3), "parted out 7 Mar");
  EXPECT_EQ(standing_of(s, s.m3, "2026-03-20"), "parted out 7 Mar, hulk still here");
  EXPECT_EQ(standing_of(s, s.m4), "out front since 14 Mar at $80");
  s.remove(s.labour);
  EXPECT_EQ(standing_of(s, s.m2), "in the yard since 2 Mar");
  EXPECT_EQ(standing_of(s, s.m2, "2027-01-01"), "in the yard since 2 Mar 2026");
  s.add(Disposal{.machine = s.m2, .date = day("2026-03-30"), .how = DisposalKind::kept});
  EXPECT_EQ(standing_of(s, s.m2), "kept since 30 Mar");
}

TEST(Standing, IsOutFrontSinceTheFirstOfItsPrices) {
  SmallShop s;
  s.change(s.listing_now, [](Listing& listing) { listing.ended = day("2026-03-20"); });
  s.add(Listing{.machine = s.m4, .date = day("2026-03-20"), .asking = dollars(70, 50)});
  EXPECT_EQ(standing_of(s, s.m4), "out front since 14 Mar at $70.50");
}

TEST(Standing, GuessesFromTheSupplierWhenPartsAreDue) {
  SmallShop s;
  s.change(s.m2, [](Machine& machine) { machine.stage = Stage::waiting_on_parts; });
  // The supplier's one order that arrived took six days; 26 March 2026 is a Thursday (from memory).
  EXPECT_EQ(standing_of(s, s.m2, "2026-03-21"), "short 1 part, due about Thu 26 Mar");
  EXPECT_EQ(standing_of(s, s.m2, "2026-03-31"), "short 1 part, overdue since about 26 Mar");
  s.change(s.line_under_way, [](OrderLine& line) { line.quantity = 2; });
  s.change(s.under_way, [](Order& order) { order.supplier.reset(); });
  EXPECT_EQ(standing_of(s, s.m2, "2026-03-21"), "short 2 parts, on order");
  s.change(s.under_way, [](Order& order) { order.arrived = day("2026-03-27"); });
  EXPECT_EQ(standing_of(s, s.m2, "2026-03-21"), "short 2 parts, due Fri 27 Mar");
  EXPECT_EQ(standing_of(s, s.m2, "2026-03-28"), "parts in since 27 Mar");
  s.remove(s.line_under_way);
  EXPECT_EQ(standing_of(s, s.m2), "waiting on parts");
}

}  // namespace
}  // namespace secondpull
