#include "core/shop/intake.h"

#include <gmock/gmock.h>

#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;
using testing::HasSubstr;

NewAcquisition curb_find() {
  NewAcquisition found{.date = day("2026-04-05"), .source = Source::curb};
  found.machines.push_back({.symptom = "not tried yet"});
  return found;
}

TEST(NextTag, IsOneAboveTheLargestWholeNumber) {
  SmallShop s;
  EXPECT_EQ(next_tag(s.shop), "5");
  s.add(Machine{.tag = "60", .acquisition = s.lot});
  s.add(Machine{.tag = "M99", .acquisition = s.lot});
  s.add(Machine{.tag = "999999999999999999999", .acquisition = s.lot});
  EXPECT_EQ(next_tag(s.shop), "61");
  EXPECT_EQ(next_tag(Shop{}), "1");
}

TEST(LogAcquisition, LogsAMachineWithItsTripItsHoursAndItsSeller) {
  SmallShop s;
  NewAcquisition bought = curb_find();
  bought.source = Source::private_sale;
  bought.from.new_name = "Hesper Lund";
  bought.price = dollars(20);
  bought.miles = Tenths{120};
  bought.minutes = Minutes{40};
  const auto change = log_acquisition(s.shop, bought);
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "Logged #5");
  s.carry_out(change);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
  const Acquisition& acquisition = *std::prev(s.shop.all<Acquisition>().end());
  EXPECT_EQ(acquisition.code, "A3");
  EXPECT_EQ(s.shop.find(*acquisition.from)->code, "P4");
  EXPECT_EQ(std::prev(s.shop.all<Trip>().end())->acquisition, acquisition.id);
  const Labour& fetched = *std::prev(s.shop.all<Labour>().end());
  EXPECT_EQ(fetched.acquisition, acquisition.id);
  EXPECT_EQ(fetched.work, Work::pickup);
}

TEST(LogAcquisition, GivesALotFreeNumbersInARow) {
  SmallShop s;
  NewAcquisition lot = curb_find();
  lot.machines.resize(3);
  const auto change = log_acquisition(s.shop, lot);
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Logged a lot of 3: #5 to #7");
  lot.machines[1].tag = "40";
  EXPECT_EQ(log_acquisition(s.shop, lot)->title(), "Logged a lot of 3: #41, #40, #42");
}

TEST(LogAcquisition, RefusesWhatCannotBeWithASentenceThatNamesIt) {
  const SmallShop s;
  const auto field = [&](auto&& edit) {
    NewAcquisition found = curb_find();
    edit(found);
    const auto change = log_acquisition(s.shop, found);
    return change ? std::string{} : change.error().field;
  };
  EXPECT_EQ(field([](NewAcquisition& a) { a.machines.clear(); }), "acquisition");
  EXPECT_EQ(field([](NewAcquisition& a) { a.machines[0].tag = "3"; }), "tag");
  EXPECT_EQ(field([](NewAcquisition& a) { a.machines = {{.tag = "9"}, {.tag = "9"}}; }), "tag");
  EXPECT_EQ(field([](NewAcquisition& a) { a.price = dollars(-1); }), "price");
  EXPECT_EQ(field([](NewAcquisition& a) { a.price = Money::from_minor(kLargestAmount + 1); }), "price");
  EXPECT_EQ(field([](NewAcquisition& a) { a.pickup_cost = dollars(-1); }), "pickup_cost");
  EXPECT_EQ(field([](NewAcquisition& a) { a.giver_basis = dollars(10); }), "giver_basis");
  EXPECT_EQ(field([](NewAcquisition& a) {
              a.source = Source::gift;
              a.price = dollars(1);
            }),
            "price");
  EXPECT_EQ(field([](NewAcquisition& a) { a.miles = Tenths{-1}; }), "miles");
  EXPECT_EQ(field([](NewAcquisition& a) { a.minutes = Minutes{-1}; }), "minutes");
  EXPECT_EQ(field([](NewAcquisition& a) { a.date = {}; }), "date");
  EXPECT_EQ(field([](NewAcquisition& a) { a.machines[0].year = 0; }), "year");
  EXPECT_EQ(field([](NewAcquisition& a) { a.machines[0].deck_in = Tenths{-1}; }), "deck_in");
  EXPECT_EQ(field([](NewAcquisition& a) { a.machines[0].value_then = dollars(-1); }), "value_then");
  EXPECT_EQ(field([](NewAcquisition& a) { a.from.known = PersonId{9999}; }), "from");
}

TEST(EditMachine, NamesWhatChanged) {
  SmallShop s;
  Machine changed = *s.shop.find(s.m2);
  changed.symptom = "no spark";
  changed.deck_in = Tenths{220};
  const auto change = edit_machine(s.shop, changed);
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Changed #2: deck and symptom");
  s.carry_out(change);
  EXPECT_EQ(s.shop.find(s.m2)->symptom, "no spark");
}

TEST(EditMachine, KeepsItsAcquisitionAndRefusesATagInUse) {
  SmallShop s;
  Machine changed = *s.shop.find(s.m2);
  changed.acquisition = s.given;
  EXPECT_TRUE(edit_machine(s.shop, changed)->empty());
  changed.tag = "3";
  EXPECT_EQ(edit_machine(s.shop, changed).error().field, "tag");
  changed.tag = "  ";
  EXPECT_EQ(edit_machine(s.shop, changed).error().field, "tag");
  changed.id = MachineId{9999};
  EXPECT_FALSE(edit_machine(s.shop, changed));
}

TEST(EditAcquisition, ChangesItsTermsAndRefusesANameInUse) {
  SmallShop s;
  Acquisition changed = *s.shop.find(s.lot);
  changed.price = dollars(90);
  const auto change = edit_acquisition(s.shop, changed);
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Changed acquisition A1: price");
  changed.code = "A2";
  EXPECT_EQ(edit_acquisition(s.shop, changed).error().field, "acquisition");
}

TEST(RemoveMachine, TakesItsLinesAndItsAcquisitionWithIt) {
  SmallShop s;
  s.carry_out(remove_machine(s.shop, s.m4));
  EXPECT_EQ(s.shop.find(s.given), nullptr);
  EXPECT_EQ(s.shop.find(s.listing_now), nullptr);
  s.carry_out(remove_machine(s.shop, s.m2));
  EXPECT_NE(s.shop.find(s.lot), nullptr);
  EXPECT_EQ(s.shop.find(s.line_under_way)->for_machine, std::nullopt);
  EXPECT_EQ(s.shop.find(s.own_number), nullptr);
  EXPECT_EQ(s.shop.find(s.bought)->how, std::nullopt) << "it was not bought then";
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(RemoveMachine, IsRefusedWhileItsPartsAreOnAnother) {
  const SmallShop s;
  const auto change = remove_machine(s.shop, s.m3);
  ASSERT_FALSE(change);
  EXPECT_THAT(change.error().sentence, HasSubstr("1 x blade on #1"));
}

}  // namespace
}  // namespace secondpull
