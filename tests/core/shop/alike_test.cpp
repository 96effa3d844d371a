#include "core/shop/alike.h"

#include <gmock/gmock.h>

#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::SmallShop;

std::vector<MachineId> found(const SmallShop& s, std::size_t most = 9) {
  std::vector<MachineId> ids;
  const ByMachine by_machine{s.shop};
  for (const Alike& each : machines_alike(s.shop, by_machine, s.m2, most))
    ids.push_back(each.machine);
  return ids;
}

TEST(MachinesAlike, AreTheCloserTheMoreExactlyTheyAreTheSame) {
  SmallShop s;
  EXPECT_TRUE(found(s).empty()) << "nothing is known of #2, and nothing is like nothing";
  s.change(s.m2, [](Machine& m) {
    m.make = "Ostrel", m.model = "Meadow 20", m.engine = "Tarn 140", m.model_number = "OM-20";
  });
  s.change(s.m3, [](Machine& m) { m.engine = "tarn 140"; });
  s.change(s.m1, [](Machine& m) { m.make = "OSTREL", m.model = "Meadow 20 "; });
  s.change(s.m4, [](Machine& m) { m.model_number = "om-20"; });
  EXPECT_EQ(found(s), (std::vector{s.m4, s.m1, s.m3}));
  EXPECT_EQ(found(s, 1), std::vector{s.m4});
}

TEST(MachinesAlike, TellWhatWasWrongWhatWasFittedAndWhatItSoldFor) {
  SmallShop s;
  for (const MachineId machine : {s.m1, s.m2})
    s.change(machine, [](Machine& m) { m.make = "Ostrel", m.model = "Meadow 20"; });
  const ByMachine by_machine{s.shop};
  const auto alike = machines_alike(s.shop, by_machine, s.m2, 9);
  ASSERT_EQ(alike.size(), 1U);
  EXPECT_EQ(alike[0].by, Alike::By::make_and_model);
  ASSERT_EQ(alike[0].faults.size(), 1U);
  EXPECT_EQ(alike[0].faults[0].first, "starts and dies");
  EXPECT_THAT(alike[0].parts, testing::UnorderedElementsAre("spark plug", "blade"));
  ASSERT_NE(alike[0].sale, nullptr);
  EXPECT_EQ(alike[0].sale->id, s.second_sale);
}

}  // namespace
}  // namespace secondpull
