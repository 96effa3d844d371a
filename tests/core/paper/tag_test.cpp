#include "core/paper/tag.h"

#include <gmock/gmock.h>

#include "core/paper/machine_words.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::paper {
namespace {

using test::BareShop;
using test::day;

TEST(Tag, SaysWhichMachineItIsAndWhatItDoesWrong) {
  BareShop bare;
  const MachineId machine = bare.add(Machine{.tag = "14",
                                             .acquisition = bare.curb,
                                             .make = "Tarnwick",
                                             .model = "TW-2",
                                             .symptom = "will not start"});
  EXPECT_EQ(tag_of(lines_of(bare.shop, machine)),
            (Tag{"#14", "Tarnwick TW-2 push mower", "will not start", day("2026-03-01"), "#14"}));
  bare.fault(machine, "Surges");
  EXPECT_EQ(tag_of(lines_of(bare.shop, machine)).symptom, "Surges");
  EXPECT_EQ(tag_of(lines_of(bare.shop, MachineId{9999})), Tag{});
}

TEST(Tag, HasTheDayItLastCameIn) {
  BareShop bare;
  const MachineId machine = bare.machine();
  bare.add(Sale{.machine = machine, .date = day("2026-03-20")});
  bare.add(Return{.machine = machine, .date = day("2026-03-25")});
  EXPECT_EQ(tag_of(lines_of(bare.shop, machine)).came, day("2026-03-25"));
}

TEST(MachineWords, SayWhatIsKnownAndNothingElse) {
  EXPECT_EQ(machine_name({.kind = MachineKind::zero_turn}), "zero-turn mower");
  EXPECT_EQ(machine_name({.kind = MachineKind::lawn_tractor, .make = "Ostrel"}), "Ostrel lawn tractor");
  EXPECT_EQ(machine_name({.kind = MachineKind::other, .model = "Splitter"}), "Splitter");
  EXPECT_EQ(machine_name({.kind = MachineKind::other}), "machine");
  EXPECT_EQ(joined(machine_facts({.serial = "S1", .year = 2009, .deck_in = Tenths{200}}), ", "),
            "serial S1, 2009, 20 in cut");
  EXPECT_EQ(inches(Tenths{205}), "20.5 in");
}

}  // namespace
}  // namespace secondpull::paper
