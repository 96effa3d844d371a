#include <QAbstractItemView>
#include <QLabel>

#include "app/parts/choices.h"
#include "core/shop/bench.h"
#include "tests/journeys/journey.h"

namespace secondpull::app::test {
namespace {

/// From what to ask for a machine to the paper that its buyer gets, and to what that taught.
class ASale : public Journey {
 protected:
  constexpr static int kPatience = 20'000;  // milliseconds for what is worked out beside

  /// A machine that was mended: one test, one repair that did not help, one that did.
  void logMended() {
    NewAcquisition in;
    in.date = shop.session->today();
    in.source = Source::curb;
    in.price = dollars(1'500);
    in.machines.push_back({.kind = MachineKind::push,
                           .make = "Ostrel",
                           .model = "Meadow 20",
                           .symptom = "pulls over, does not start"});
    ASSERT_FALSE(shop.session->perform(log_acquisition(*shop.session->shop(), in)));
    const MachineId machine = newest();
    const Date today = shop.session->today();
    ASSERT_FALSE(shop.session->perform(
        open_fault(*shop.session->shop(), machine, today, "Pulls freely but will not fire", {}, {})));
    const FaultId fault = shop.session->shop()->all<Fault>().begin()->id;
    const auto made = [&](const char* step, const char* outcome) {
      NewFinding finding;
      finding.machine = machine;
      finding.date = today;
      finding.step = step;
      finding.outcome = outcome;
      finding.fault = fault;
      finding.minutes = finding.labour = Minutes{20};
      ASSERT_FALSE(shop.session->perform(record_finding(*shop.session->shop(), finding)));
    };
    made("Clean bowl and main jet", "failed");
    made("Strip and soak carburetor, new gaskets", "mended");
    ASSERT_FALSE(shop.session->perform(
        end_fault(*shop.session->shop(), fault, today, FaultEnd::mended, "main jet gummed up")));
  }
  void offer(const char* amount, const char* who) {
    click("doOffer");
    typeInto("offerWho", who);
    typeInto("offerAmount", amount);
    enterIn("offerAmount");
  }
  const Offer& newestOffer() { return *std::prev(shop.session->shop()->all<Offer>().end()); }
};

TEST_F(ASale, GoesFromTheSuggestionOverANoShowAndADepositToTheReceipt) {
  logMended();
  window->goTo("For sale", newest());
  ASSERT_TRUE(QTest::qWaitFor([&] { return isShown("salesUse"); }, kPatience));
  click("salesUse");
  EXPECT_FALSE(find<QLineEdit>("askingPrice")->text().isEmpty()) << "the suggestion is filled in";
  enterIn("askingPrice");
  ASSERT_EQ(shop.session->shop()->all<Listing>().size(), 1U);
  EXPECT_GT(shop.session->shop()->all<Listing>().begin()->asking, dollars(4'000));

  offer("55", "Ruel Astby");
  click("offerNoShow");
  EXPECT_EQ(newestOffer().result, OfferResult::no_show);
  offer("90", "Imre Osk");
  click("offerDeposit");
  typeInto("depositAmount", "20");
  enterIn("depositAmount");
  ASSERT_EQ(shop.session->shop()->all<Deposit>().size(), 1U);

  click("offerTake");
  EXPECT_TRUE(find<QLabel>("saleDeposit")->text().contains("$70 to pay"));
  enterIn("salePrice");
  ASSERT_EQ(shop.session->shop()->all<Sale>().size(), 1U);
  EXPECT_EQ(shop.session->shop()->all<Sale>().begin()->price, dollars(9'000)) << "the deposit is part of it";
  EXPECT_EQ(newestOffer().result, OfferResult::taken);
  EXPECT_EQ(figures(newest()).profit, dollars(7'500));
  EXPECT_TRUE(find<QLabel>("receiptSays")->text().contains("Imre Osk"));

  ASSERT_FALSE(shop.session->undo());
  EXPECT_EQ(shop.session->shop()->all<Sale>().size(), 0U);
  EXPECT_EQ(newestOffer().result, std::nullopt) << "the sale and its offer are one action";
}

TEST_F(ASale, TeachesWhatWorksHere) {
  logMended();
  window->goTo("Lessons");
  QStringList cells;
  for (const QAbstractItemView* table : window->findChildren<QAbstractItemView*>())
    if (table->isVisible() && table->model() != nullptr)
      for (int row = 0; row < table->model()->rowCount(); ++row)
        for (int column = 0; column < table->model()->columnCount(); ++column)
          cells << table->model()->index(row, column).data().toString();
  EXPECT_TRUE(cells.contains("Clean bowl and main jet")) << cells.join(" | ").toStdString();
  EXPECT_TRUE(cells.contains("Strip and soak carburetor, new gaskets"));
}

}  // namespace
}  // namespace secondpull::app::test
