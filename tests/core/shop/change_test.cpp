#include <gmock/gmock.h>

#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

TEST(Change, AddsReplacesAndRemovesInOrder) {
  const SmallShop before;
  Change change{before.shop, "several things"};
  const ExpenseId added =
      change.add(Expense{.date = day("2026-04-01"), .category = "fuel", .amount = dollars(20)});
  Expense changed = *before.shop.find(before.expense);
  changed.amount = dollars(13);
  change.replace(changed);
  change.remove(*before.shop.find(before.photo));
  const auto after = apply(before.shop, change);
  ASSERT_TRUE(after);
  EXPECT_EQ(after->find(added)->category, "fuel");
  EXPECT_EQ(after->find(added)->entered, number(added));
  EXPECT_EQ(after->find(before.expense)->amount, dollars(13));
  EXPECT_EQ(after->find(before.photo), nullptr);
  EXPECT_EQ(after->next_id, before.shop.next_id + 1);
}

TEST(Change, LeavesTheShopItWasMadeForAsItWas) {
  const SmallShop before;
  const SmallShop same;
  Change change{before.shop, "removed"};
  change.remove(*before.shop.find(before.expense));
  ASSERT_TRUE(apply(before.shop, change));
  EXPECT_TRUE(before.shop.same_records(same.shop));
}

TEST(Change, MadeForAnotherStateOfTheShopIsRefusedWhole) {
  SmallShop shop;
  Change remove{shop.shop, "removed"};
  remove.remove(*shop.shop.find(shop.expense));
  Change replace{shop.shop, "changed"};
  replace.replace(*shop.shop.find(shop.expense));
  Change add{shop.shop, "added"};
  add.add(Expense{.date = day("2026-04-01"), .category = "fuel"});
  shop.remove(shop.expense);
  shop.add(Expense{.date = day("2026-04-01"), .category = "taken id"});
  EXPECT_FALSE(apply(shop.shop, remove));
  EXPECT_FALSE(apply(shop.shop, replace));
  EXPECT_FALSE(apply(shop.shop, add));
}

}  // namespace
}  // namespace secondpull
