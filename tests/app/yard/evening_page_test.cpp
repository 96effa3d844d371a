#include "app/yard/evening_page.h"

#include <QCheckBox>
#include <QLineEdit>
#include <gtest/gtest.h>

#include "app/parts/choices.h"
#include "app/yard/spent_page.h"
#include "core/shop/bench.h"
#include "tests/app/yard/yard_shop.h"

namespace secondpull::app {
namespace {

TEST(EveningPage, WritesTheDayWithOneEnterAndOneUndoTakesAllOfItBack) {
  YardShop shop;
  const MachineId machine = shop.log("Tarnwick", plus_days(YardShop::today(), -4), 20);
  shop.buy("spark plug", 2, 349);
  shop.perform(record_finding(
      *shop.shop(),
      {.machine = machine, .date = YardShop::today(), .step = "compression test", .outcome = "good"}));
  const Shop before = *shop.shop();

  const auto page = shown(shop.session(), makeEveningPage);
  EXPECT_TRUE(named<QCheckBox>(page.get(), "touched0")->isChecked());
  EXPECT_EQ(named<QLineEdit>(page.get(), "minutes0")->text(), "30 min");
  named<QLineEdit>(page.get(), "used0")->setText("spark plug");
  named<QLineEdit>(page.get(), "milesEdit")->setText("9.5");
  named<QLineEdit>(page.get(), "purposeEdit")->setText("parts run");
  named<QLineEdit>(page.get(), "spentAmount0")->setText("12.99");
  named<QLineEdit>(page.get(), "spentCategory0")->setText("tools");
  named<QLineEdit>(page.get(), "milesEdit")->setFocus();
  Keys{page.get()}.press(Qt::Key_Return);

  ASSERT_EQ(shop.shop()->all<Labour>().size(), 1u);
  EXPECT_EQ(shop.shop()->all<Labour>().begin()->minutes, Minutes{30});
  EXPECT_EQ(shop.shop()->all<Fitted>().size(), 1u);
  EXPECT_EQ(shop.shop()->all<Trip>().size(), 1u);
  EXPECT_EQ(shop.shop()->all<Expense>().size(), 1u);
  ASSERT_FALSE(shop.session().undo());
  EXPECT_TRUE(shop.shop()->same_records(before));
}

TEST(EveningPage, AddsAMachineThatWasNotOffered) {
  YardShop shop;
  const MachineId machine = shop.log("Tarnwick", plus_days(YardShop::today(), -40), 20);
  const auto page = shown(shop.session(), makeEveningPage);
  named<QLineEdit>(page.get(), "otherPicker")->setFocus();
  Keys keys{page.get()};
  keys.type("1");
  keys.press(Qt::Key_Return);
  EXPECT_TRUE(shop.shop()->all<Labour>().empty());
  EXPECT_TRUE(named<QCheckBox>(page.get(), "touched0")->isChecked());
  keys.press(Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Labour>().size(), 1u);
  EXPECT_EQ(shop.shop()->all<Labour>().begin()->machine, machine);
}

TEST(EveningPage, WithNothingToWriteDownSaysSo) {
  YardShop shop;
  const auto page = shown(shop.session(), makeEveningPage);
  Keys{page.get()}.press(Qt::Key_Return);
  EXPECT_TRUE(named(page.get(), "problem")->isVisible());
}

TEST(SpentPage, MoneyForAMachineIsAMaterialOfIt) {
  YardShop shop;
  const MachineId machine = shop.log("Tarnwick", YardShop::today(), 20);
  const auto page = shown(shop.session(), makeSpentPage);
  Keys keys{page.get()};
  keys.type("8.75");
  named<WordRow>(page.get(), "forRow")->setFocus();
  keys.letter('a');
  named<QLineEdit>(page.get(), "machinePicker")->setText("1");
  named<QLineEdit>(page.get(), "whatEdit")->setText("fuel line");
  keys.press(Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Material>().size(), 1u);
  EXPECT_EQ(shop.shop()->all<Material>().begin()->machine, machine);
  EXPECT_EQ(shop.shop()->all<Material>().begin()->cost, Money::from_minor(875));
}

TEST(SpentPage, MoneyForPartsPutsThemOnTheShelf) {
  YardShop shop;
  const auto page = shown(shop.session(), makeSpentPage);
  Keys keys{page.get()};
  keys.type("10");
  named<WordRow>(page.get(), "forRow")->setFocus();
  keys.letter('p');
  named<QLineEdit>(page.get(), "partPicker")->setText("blade");
  named<QLineEdit>(page.get(), "quantityEdit")->setText("3");
  keys.press(Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Part>().size(), 1u);
  EXPECT_EQ(shop.session().books()->on_hand(shop.shop()->all<Part>().begin()->id), 3);
}

TEST(SpentPage, MoneyForTheShopIsAnExpenseAndOneUndoTakesItBack) {
  YardShop shop;
  const Shop before = *shop.shop();
  const auto page = shown(shop.session(), makeSpentPage);
  Keys keys{page.get()};
  keys.type("24.50");
  named<WordRow>(page.get(), "forRow")->setFocus();
  keys.letter('t');
  named<QLineEdit>(page.get(), "categoryEdit")->setText("tools");
  keys.press(Qt::Key_Return);
  ASSERT_EQ(shop.shop()->all<Expense>().size(), 1u);
  EXPECT_EQ(shop.shop()->all<Expense>().begin()->amount, Money::from_minor(2450));
  EXPECT_EQ(named<QLineEdit>(page.get(), "amountEdit")->text(), "");
  ASSERT_FALSE(shop.session().undo());
  EXPECT_TRUE(shop.shop()->same_records(before));
}

TEST(SpentPage, WantsAnAmount) {
  YardShop shop;
  const auto page = shown(shop.session(), makeSpentPage);
  named<QLineEdit>(page.get(), "wherePicker")->setFocus();
  Keys{page.get()}.press(Qt::Key_Return);
  EXPECT_TRUE(named(page.get(), "problem.amount")->isVisible());
  EXPECT_TRUE(shop.shop()->empty());
}

}  // namespace
}  // namespace secondpull::app
