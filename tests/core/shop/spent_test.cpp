#include "core/shop/spent.h"

#include <stdexcept>

#include <gtest/gtest.h>

#include "core/books/books.h"
#include "core/shop/intake.h"
#include "core/shop/rules.h"

namespace secondpull {
namespace {

using std::chrono::May;
constexpr Date kDay = std::chrono::year{2026} / May / 20;
const std::string kContent(64, 'a');

Shop performed(const Shop& shop, const Result<Change>& change) {
  if (!change) throw std::runtime_error(change.error().sentence);
  auto after = apply(shop, *change);
  if (!after) throw std::runtime_error(after.error().sentence);
  return *after;
}

Shop oneMachine() {
  NewAcquisition found{.date = kDay, .price = Money::from_minor(2000)};
  found.machines = {{.make = "Tarnwick"}};
  return performed({}, log_acquisition({}, found));
}

TEST(Spent, OnAMachineIsAMaterialOfItWithItsPaper) {
  const Shop shop = oneMachine();
  SpentEntry entry{.date = kDay, .amount = Money::from_minor(875), .where = {.new_name = "Hollis Hardware"}};
  entry.paper = Paper{kContent, "slip.jpg"};
  entry.what_for = SpentEntry::For::machine;
  entry.machine = shop.all<Machine>().begin()->id;
  entry.what = "fuel line";
  const Shop after = performed(shop, write_spent(shop, entry));
  ASSERT_EQ(after.all<Material>().size(), 1u);
  EXPECT_EQ(after.all<Material>().begin()->cost, Money::from_minor(875));
  EXPECT_EQ(after.all<Material>().begin()->what, "fuel line, from Hollis Hardware");
  ASSERT_EQ(after.all<Photo>().size(), 1u);
  EXPECT_EQ(after.all<Photo>().begin()->machine, entry.machine);
  EXPECT_TRUE(broken_rules(after).empty());
}

TEST(Spent, OnPartsIsAnOrderWhoseLandedCostIsTheAmount) {
  const Shop shop = oneMachine();
  SpentEntry entry{.date = kDay, .amount = Money::from_minor(1000)};
  entry.paper = Paper{kContent, "slip.jpg"};
  entry.what_for = SpentEntry::For::order;
  entry.part.new_name = "blade";
  entry.quantity = 3;
  const Shop after = performed(shop, write_spent(shop, entry));
  ASSERT_EQ(after.all<Order>().size(), 1u);
  EXPECT_EQ(after.all<Order>().begin()->arrived, kDay);
  EXPECT_EQ(after.all<Photo>().begin()->order, after.all<Order>().begin()->id);
  EXPECT_TRUE(broken_rules(after).empty());
  const auto books = Books::of(std::make_shared<const Shop>(after), {});
  ASSERT_TRUE(books);
  ASSERT_EQ(books->stock().size(), 1u);
  EXPECT_EQ(books->stock().front().cost, Money::from_minor(1000));
}

TEST(Spent, OnPartsStillToComeIsAnOrderUnderWay) {
  SpentEntry entry{.date = kDay, .amount = Money::from_minor(1599), .what_for = SpentEntry::For::order};
  entry.part.new_name = "carburettor";
  entry.in_hand = false;
  EXPECT_FALSE(performed({}, write_spent({}, entry)).all<Order>().begin()->arrived);
}

TEST(Spent, OnTheShopIsAnExpenseOfItsCategory) {
  SpentEntry entry{.date = kDay, .amount = Money::from_minor(2450)};
  entry.paper = Paper{kContent, "slip.jpg"};
  entry.where.new_name = "Hollis Hardware";
  entry.category = "tools";
  const Shop after = performed({}, write_spent({}, entry));
  ASSERT_EQ(after.all<Expense>().size(), 1u);
  EXPECT_EQ(after.all<Expense>().begin()->category, "tools");
  EXPECT_EQ(after.all<Expense>().begin()->note, "from Hollis Hardware");
  EXPECT_EQ(after.all<Photo>().begin()->expense, after.all<Expense>().begin()->id);
}

TEST(Spent, RefusesNothingSpentAndNothingBought) {
  EXPECT_EQ(write_spent({}, {.date = kDay, .category = "tools"}).error().field, "amount");
  const Money amount = Money::from_minor(100);
  EXPECT_EQ(write_spent({}, {.date = kDay, .amount = amount}).error().field, "category");
  EXPECT_EQ(
      write_spent({}, {.date = kDay, .amount = amount, .what_for = SpentEntry::For::machine}).error().field,
      "machine");
  EXPECT_EQ(
      write_spent({}, {.date = kDay, .amount = amount, .what_for = SpentEntry::For::order}).error().field,
      "part");
}

}  // namespace
}  // namespace secondpull
