// The Shelf through its own fields.

#include "app/shelf/shelf_page.h"

#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QtTest/QTest>
#include <gmock/gmock.h>

#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "app/parts/form.h"
#include "tests/app/bench/test_shop.h"

namespace secondpull::app {
namespace {

class ShelfTest : public testing::Test {
 protected:
  void open() {
    page_.reset(makeShelfPage(test_.session(), nullptr));
    QObject::connect(&test_.session(), &Session::changed, page_.get(),
                     [this](const std::vector<AnyId>& ids) { page_->refresh(ids); });
    page_->resize(1280, 700);
    page_->show();
  }
  void turnTo(const char* words) {
    for (const Page::Deed& deed : page_->deeds())
      if (deed.words == QString::fromLatin1(words)) return deed.run();
    FAIL() << words;
  }
  template <class Widget>
  Widget* child(const char* name) {
    auto* found = page_->findChild<Widget*>(QString::fromLatin1(name));
    EXPECT_NE(found, nullptr) << name;
    return found;
  }
  void type(const char* name, const QString& keys) {
    auto* field = child<QLineEdit>(name);
    field->setFocus();
    field->clear();
    QTest::keyClicks(field, keys);
  }
  void enter(const char* name) { QTest::keyClick(child<QWidget>(name), Qt::Key_Return); }

  TestShop test_;
  std::unique_ptr<Page> page_;
};

TEST_F(ShelfTest, AnOrderIsPlacedByTypingAndTakenInWithItsFreight) {
  const MachineId machine = test_.logMachine(day(2026, 5, 1), cents(0));
  open();
  turnTo("place an order");
  type("order.supplier", "Aldric Parts");
  type("part1", "carburettor");
  type("amount1", "15.99");
  type("machine1", test_.session().tagOf(machine));
  type("part2", "plug");
  type("amount2", "3.49");
  enter("amount2");
  ASSERT_EQ(test_.shop()->all<Order>().size(), 1u);
  ASSERT_EQ(test_.shop()->all<OrderLine>().size(), 2u);
  EXPECT_EQ(test_.shop()->all<OrderLine>().begin()->for_machine, machine);
  EXPECT_EQ(test_.shop()->all<Person>().size(), 1u);
  QTest::qWait(1);

  turnTo("an order is here");
  type("receive.freight", "5.95");
  enter("receive.freight");
  EXPECT_EQ(test_.books()->on_hand(*test_.find("carburettor")), 1);
  // Landed cost of the worked month in the money model.
  EXPECT_EQ(test_.books()->cost_of_next(*test_.find("carburettor"), 1), cents(20'87));
  auto* came = child<QLabel>("cameIn");
  EXPECT_TRUE(came->isVisible());
  EXPECT_EQ(came->text(), QString("#%1 can go on.").arg(test_.session().tagOf(machine)));

  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_EQ(test_.books()->on_hand(*test_.find("carburettor")), 0);
  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_TRUE(test_.shop()->all<Order>().empty());
  EXPECT_TRUE(test_.shop()->all<Person>().empty());
}

TEST_F(ShelfTest, ARowFollowsTheLastOneBegunAndItsPriceIsTheLastOne) {
  test_.buy("belt", 1, cents(12'00), day(2026, 5, 6));
  open();
  turnTo("place an order");
  type("part3", "belt");
  EXPECT_NE(child<QLineEdit>("part4"), nullptr);
  EXPECT_TRUE(child<MoneyEdit>("amount3")->isGuess());
  EXPECT_EQ(child<MoneyEdit>("amount3")->value(), cents(12'00));
}

TEST_F(ShelfTest, PartsThatWereHereWhenTheBooksBeganAreOpeningStockInHand) {
  open();
  turnTo("place an order");
  type("part1", "carburettor");
  type("amount1", "15.99");
  child<QCheckBox>("order.opening")->setChecked(true);
  enter("amount1");
  ASSERT_EQ(test_.shop()->all<Order>().size(), 1u);
  EXPECT_TRUE(test_.shop()->all<Order>().begin()->opening);
  EXPECT_EQ(test_.books()->on_hand(*test_.find("carburettor")), 1);
}

TEST_F(ShelfTest, AnOrderForAMachineThatIsNotHereIsRefusedAndStays) {
  open();
  turnTo("place an order");
  type("part1", "plug");
  type("amount1", "3.49");
  type("machine1", "99");
  enter("machine1");
  EXPECT_TRUE(test_.shop()->all<Order>().empty());
  EXPECT_EQ(child<QLineEdit>("part1")->text(), "plug");
}

TEST_F(ShelfTest, PartingOutShowsTheSplitBeforeItHappens) {
  const MachineId donor = test_.logMachine(day(2026, 5, 1), cents(10'00));
  open();
  turnTo("part out a machine");
  type("partOut.donor", test_.session().tagOf(donor));
  type("part1", "blade");
  type("amount1", "15");
  type("part2", "wheel set");
  type("amount2", "10");
  type("partOut.hulk_value", "5");
  const QString split = child<QLabel>("partingSplit")->text();
  for (const char* amount : {"$5.00", "$3.33", "$1.67", "$10.00"})
    EXPECT_TRUE(split.contains(amount)) << amount;
  enter("partOut.hulk_value");
  EXPECT_EQ(test_.books()->cost_of_next(*test_.find("blade"), 1), cents(5'00));
  EXPECT_EQ(test_.books()->machine(donor)->cost_basis, cents(1'67));
  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_EQ(test_.books()->machine(donor)->cost_basis, cents(10'00));
}

TEST_F(ShelfTest, APartIsWrittenOffAndItsFactsAreChanged) {
  const PartId part = test_.buy("belt", 3, cents(12'00), day(2026, 5, 6));
  open();
  turnTo("parts on hand");
  type("writeOffLine", "2");
  enter("writeOffLine");
  EXPECT_EQ(test_.books()->on_hand(part), 1);
  QTest::mouseClick(child<QPushButton>("partFacts"), Qt::LeftButton);
  type("part.number", "B-87");
  type("part.reorder_at", "1");
  enter("part.reorder_at");
  EXPECT_EQ(test_.shop()->find(part)->number, "B-87");
  EXPECT_EQ(test_.shop()->find(part)->reorder_at, 1);
}

TEST_F(ShelfTest, APartIsSoldByItself) {
  const PartId part = test_.buy("belt", 3, cents(12'00), day(2026, 5, 6));
  open();
  turnTo("sell a part by itself");
  type("sellPart.quantity", "2");
  type("sellPart.price", "40");
  type("sellPart.buyer", "Imre");
  enter("sellPart.buyer");
  ASSERT_EQ(test_.shop()->all<PartSale>().size(), 1u);
  EXPECT_EQ(test_.shop()->all<PartSale>().begin()->price, cents(40'00));
  EXPECT_EQ(test_.books()->on_hand(part), 1);
  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_EQ(test_.books()->on_hand(part), 3);
  EXPECT_TRUE(test_.shop()->all<Person>().empty());
}

TEST_F(ShelfTest, PartsThatTurnedUpComeInEvenOnAnEmptyShelf) {
  open();
  turnTo("a part turned up");
  type("found.part", "muffler guard");
  type("found.quantity", "2");
  enter("found.quantity");
  ASSERT_TRUE(test_.find("muffler guard"));
  EXPECT_EQ(test_.books()->on_hand(*test_.find("muffler guard")), 2);
  EXPECT_EQ(test_.books()->cost_of_next(*test_.find("muffler guard"), 2), cents(0));
  EXPECT_EQ(test_.session().undo(), std::nullopt);
  EXPECT_FALSE(test_.find("muffler guard"));
}

}  // namespace
}  // namespace secondpull::app
