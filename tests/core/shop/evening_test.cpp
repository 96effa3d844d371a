#include "core/shop/evening.h"

#include <algorithm>
#include <stdexcept>
#include <string>

#include <gtest/gtest.h>

#include "core/shop/intake.h"
#include "core/shop/rules.h"
#include "core/shop/shelf.h"

namespace secondpull {
namespace {

using std::chrono::May;
constexpr Date kDay = std::chrono::year{2026} / May / 20;

Shop performed(const Shop& shop, const Result<Change>& change) {
  if (!change) throw std::runtime_error(change.error().sentence);
  auto after = apply(shop, *change);
  if (!after) throw std::runtime_error(after.error().sentence);
  return *after;
}

/// Two machines bought on 2 May and three spark plugs on the shelf.
Shop smallShop() {
  NewAcquisition lot{.date = std::chrono::year{2026} / May / 2, .price = Money::from_minor(6000)};
  lot.machines = {{.make = "Tarnwick"}, {.make = "Orrel"}};
  Shop shop = performed({}, log_acquisition({}, lot));
  NewOrder order{.date = lot.date, .arrived = lot.date};
  order.lines.push_back({.part = {.new_name = "spark plug"}, .quantity = 3, .price = Money::from_minor(349)});
  return performed(shop, place_order(shop, order));
}

MachineId tagged(const Shop& shop, std::string_view tag) {
  for (const Machine& machine : shop.all<Machine>())
    if (machine.tag == tag) return machine.id;
  throw std::runtime_error("no such tag");
}

EveningEntry fullEvening(const Shop& shop) {
  EveningEntry entry{.date = kDay};
  entry.machines.push_back({.machine = tagged(shop, "1"),
                            .minutes = {80},
                            .work = Work::repair,
                            .part = shop.all<Part>().begin()->id,
                            .quantity = 1});
  entry.machines.push_back({.machine = tagged(shop, "2"),
                            .minutes = {25},
                            .work = Work::clean,
                            .material = "carburettor cleaner",
                            .material_cost = Money::from_minor(650)});
  entry.miles = Tenths{184};
  entry.purpose = "parts run";
  entry.expenses.push_back({.category = "tools", .amount = Money::from_minor(1299), .note = "feeler gauge"});
  return entry;
}

TEST(Evening, WritesTheWholeDayAsOneChangeThatKeepsEveryRule) {
  const Shop shop = smallShop();
  const auto change = write_evening(shop, fullEvening(shop));
  ASSERT_TRUE(change) << change.error().sentence;
  EXPECT_EQ(change->title(), "Wrote down the day: 1 h 45 min on #1, #2, 18.4 mi, $12.99 spent");
  const Shop after = performed(shop, change);
  EXPECT_EQ(after.all<Labour>().size(), 2u);
  EXPECT_EQ(after.all<Fitted>().size(), 1u);
  EXPECT_EQ(after.all<Material>().size(), 1u);
  EXPECT_EQ(after.all<Trip>().size(), 1u);
  EXPECT_EQ(after.all<Expense>().size(), 1u);
  EXPECT_TRUE(broken_rules(after).empty());
  for (const Labour& labour : after.all<Labour>())
    EXPECT_EQ(labour.date, kDay);
}

TEST(Evening, LogsNoHoursWhereNoneAreGiven) {
  const Shop shop = smallShop();
  EveningEntry entry = fullEvening(shop);
  entry.machines[1].minutes = {};
  EXPECT_EQ(performed(shop, write_evening(shop, entry)).all<Labour>().size(), 1u);
}

TEST(Evening, RefusesWhatCannotBeMeantAndNamesTheField) {
  const Shop shop = smallShop();
  const auto field_of = [&](auto spoil) {
    EveningEntry entry = fullEvening(shop);
    spoil(entry);
    const auto change = write_evening(shop, entry);
    return change ? std::string{"no problem"} : change.error().field;
  };
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry = {.date = kDay}; }), "");
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry.machines[0].machine = MachineId{9999}; }), "machine");
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry.machines[1].machine = entry.machines[0].machine; }),
            "machine");
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry.machines[0].minutes = {-1}; }), "minutes");
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry.machines[0] = {entry.machines[0].machine}; }),
            "minutes");
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry.machines[0].quantity = 0; }), "quantity");
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry.machines[1].material = ""; }), "material");
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry.machines[1].material_cost = Money::from_minor(-1); }),
            "material_cost");
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry.miles = Tenths{0}; }), "miles");
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry.purpose = ""; }), "purpose");
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry.expenses[0].category = ""; }), "category");
  EXPECT_EQ(field_of([](EveningEntry& entry) { entry.expenses[0].amount = Money{}; }), "amount");
}

TEST(EveningGuesses, TickAMachineThatWasWorkedOnWithoutHours) {
  Shop shop = smallShop();
  const MachineId first = tagged(shop, "1"), second = tagged(shop, "2");
  shop = performed(
      shop,
      record_finding(shop, {.machine = second, .date = kDay, .step = "compression test", .outcome = "good"}));
  const auto guesses = evening_guesses(ByMachine{shop}, shop, kDay, std::vector{first});
  ASSERT_EQ(guesses.size(), 2u);
  EXPECT_EQ(guesses[0].machine, second);
  EXPECT_TRUE(guesses[0].likely);
  EXPECT_EQ(guesses[1].machine, first);
  EXPECT_FALSE(guesses[1].likely);
  EXPECT_EQ(guesses[0].from, EveningGuess::From::common_practice);
}

TEST(EveningGuesses, TakeTheMinutesFromTheMachineThenFromTheShop) {
  Shop shop = smallShop();
  const MachineId first = tagged(shop, "1"), second = tagged(shop, "2");
  const Date earlier = plus_days(kDay, -10);
  for (const int minutes : {20, 50, 200})
    shop = performed(shop, log_labour(shop, first, earlier, {minutes}, Work::repair, ""));
  const auto guesses = evening_guesses(ByMachine{shop}, shop, kDay, std::vector{first, second});
  ASSERT_EQ(guesses.size(), 2u);
  EXPECT_EQ(guesses[0].minutes, Minutes{50});  // the median of 20, 50 and 200
  EXPECT_EQ(guesses[0].from, EveningGuess::From::its_own_record);
  EXPECT_EQ(guesses[1].minutes, Minutes{50});
  EXPECT_EQ(guesses[1].from, EveningGuess::From::the_shops_record);
}

TEST(EveningGuesses, LeaveOutAMachineWhoseHoursAreWrittenDown) {
  Shop shop = smallShop();
  const MachineId first = tagged(shop, "1");
  shop = performed(shop, log_labour(shop, first, kDay, {40}, Work::repair, ""));
  EXPECT_TRUE(evening_guesses(ByMachine{shop}, shop, kDay, {}).empty());
  const auto in_hand = evening_guesses(ByMachine{shop}, shop, kDay, std::vector{first});
  ASSERT_EQ(in_hand.size(), 1u);
  EXPECT_FALSE(in_hand[0].likely);
}

}  // namespace
}  // namespace secondpull
