#include <vector>

#include <QAbstractItemView>

#include "app/parts/form.h"
#include "tests/journeys/journey.h"

namespace secondpull::app::test {
namespace {

/// From the curb to the profit, and all of it taken back and done again.
class OneMachine : public Journey {
 protected:
  void logIt() {
    window->goTo("Yard");
    key(Qt::Key_N, Qt::ControlModifier);
    typeInto("whatEdit", "Ostrel Meadow 20");
    typeInto("priceEdit", "12.5");
    typeInto("symptomEdit", "pulls over, does not start");
    enterIn("symptomEdit");
    ASSERT_EQ(shop.session->shop()->all<Machine>().size(), 1u) << said().toStdString();
    key(Qt::Key_Escape);
  }
  void workOnIt() {
    window->openMachine(newest());
    key(Qt::Key_T, Qt::ControlModifier);
    ASSERT_TRUE(shop.session->clock());
    tick(std::chrono::minutes{40});
    key(Qt::Key_T, Qt::ControlModifier);
    ASSERT_FALSE(shop.session->clock());

    typeInto("findingStep", "spark tester on the lead");
    typeInto("findingOutcome", "strong");
    enterIn("findingOutcome");
    ASSERT_EQ(shop.session->shop()->all<Finding>().size(), 1u) << said().toStdString();

    typeInto("partLine", "spark plug");
    enterIn("partLine", Qt::ControlModifier);
    ASSERT_EQ(shop.session->shop()->all<Fitted>().size(), 1u) << said().toStdString();
    typeInto("materialLine", "fresh fuel 1.47");
    enterIn("materialLine");
    ASSERT_EQ(shop.session->shop()->all<Material>().size(), 1u) << said().toStdString();
  }
  void sellIt() {
    window->goTo("For sale", newest());
    click("doSell");
    typeInto("saleBuyer", "Ruel Astby");
    typeInto("salePrice", "92");
    typeInto("saleFee", "2.3");
    typeInto("saleMinutes", "20");
    enterIn("saleMinutes");
    ASSERT_EQ(shop.session->shop()->all<Sale>().size(), 1u) << said().toStdString();
  }
};

TEST_F(OneMachine, GoesFromTheCurbToAProfitThatTheBooksShow) {
  logIt();
  workOnIt();
  sellIt();

  // 12.50 paid and 1.47 of fuel; the plug was in the hand and cost nothing. 92.00 less the fee of 2.30.
  const MachineFigures& earned = figures(newest());
  EXPECT_EQ(earned.cost_basis, dollars(1397));
  EXPECT_EQ(earned.net_proceeds, dollars(8970));
  EXPECT_EQ(earned.profit, dollars(7573));
  EXPECT_EQ(earned.minutes, Minutes{60});
  EXPECT_EQ(earned.pay_per_hour, dollars(7573));

  window->goTo("Books");
  const auto* table = find<QAbstractItemView>("booksTable");
  bool shown = false;
  for (int column = 0; column < table->model()->columnCount(); ++column)
    shown |= table->model()->index(0, column).data().toString().contains("75.73");
  EXPECT_TRUE(shown) << "the books show no profit of 75.73";
}

TEST_F(OneMachine, IsUndoneAndRedoneStepByStepAndOutlivesTheWindow) {
  std::vector<std::shared_ptr<const Shop>> states{shop.session->shop()};
  QObject::connect(shop.session.get(), &Session::changed, window.get(), [&] {
    if (!shop.session->shop()->same_records(*states.back())) states.push_back(shop.session->shop());
  });
  logIt();
  workOnIt();
  sellIt();
  QObject::disconnect(shop.session.get(), &Session::changed, window.get(), nullptr);
  window->close();
  window.reset();
  shop.reopen();
  open();
  ASSERT_TRUE(shop.session->shop()->same_records(*states.back()));

  for (std::size_t step = states.size() - 1; step > 0; --step) {
    ASSERT_FALSE(shop.session->undo());
    EXPECT_TRUE(shop.session->shop()->same_records(*states[step - 1])) << "after taking back step " << step;
  }
  EXPECT_TRUE(shop.session->undo()) << "there was more to undo than was done";
  closeAndReopen();
  for (std::size_t step = 1; step < states.size(); ++step) {
    ASSERT_FALSE(shop.session->redo());
    EXPECT_TRUE(shop.session->shop()->same_records(*states[step])) << "after doing step " << step << " again";
  }
  closeAndReopen();
  EXPECT_TRUE(shop.session->shop()->same_records(*states.back()));
  EXPECT_EQ(figures(newest()).profit, dollars(7573));
}

TEST_F(OneMachine, KeepsWhatWasTypedWhenARuleRefusesIt) {
  logIt();
  window->goTo("For sale", newest());
  click("doSell");
  typeInto("saleBuyer", "Ruel Astby");
  typeInto("salePrice", "92");
  typeInto("saleDate", "2020-01-01");
  enterIn("saleDate");
  EXPECT_EQ(shop.session->shop()->all<Sale>().size(), 0u);
  EXPECT_EQ(find<QLineEdit>("saleBuyer")->text(), "Ruel Astby");
  EXPECT_TRUE(isShown("problem.date")) << "the field that is wrong does not say so";
}

}  // namespace
}  // namespace secondpull::app::test
