#include <limits>

#include <gmock/gmock.h>

#include "core/shop/limits.h"
#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;

TEST(Rules, HoldInAShopInOrder) {
  EXPECT_EQ(test::told(broken_rules(SmallShop{}.shop)), "");
  EXPECT_TRUE(broken_rules(Shop{}).empty());
}

/// Breaks one cell of one record: the rule must name that record and that column, and nothing else.
template <class Id, class Edit>
void breaks(Id SmallShop::*which, const char* column, Edit&& edit) {
  SmallShop s;
  s.change(s.*which, edit);
  const auto wrong = broken_rules(s.shop);
  ASSERT_EQ(wrong.size(), 1u) << column << "\n" << test::told(wrong);
  EXPECT_EQ(wrong.front().problem.field, column);
  EXPECT_EQ(wrong.front().record, AnyId{s.*which}) << column;
  EXPECT_FALSE(wrong.front().problem.sentence.empty());
}

const Money kBelowZero = Money::from_minor(-1);
const Money kTooLarge = Money::from_minor(kLargestAmount + 1);

TEST(Rules, KeepAmountsFromZeroToTheLargest) {
  for (const Money bad : {kBelowZero, kTooLarge}) {
    breaks(&SmallShop::lot, "price", [&](Acquisition& r) { r.price = bad; });
    breaks(&SmallShop::lot, "pickup_cost", [&](Acquisition& r) { r.pickup_cost = bad; });
    breaks(&SmallShop::given, "giver_basis", [&](Acquisition& r) { r.giver_basis = bad; });
    breaks(&SmallShop::m1, "value_then", [&](Machine& r) { r.value_then = bad; });
    breaks(&SmallShop::finding, "cost", [&](Finding& r) { r.cost = bad; });
    breaks(&SmallShop::order, "freight", [&](Order& r) { r.freight = bad; });
    breaks(&SmallShop::order, "tax", [&](Order& r) { r.tax = bad; });
    breaks(&SmallShop::line, "price", [&](OrderLine& r) { r.price = bad; });
    breaks(&SmallShop::harvest, "value", [&](Harvest& r) { r.value = bad; });
    breaks(&SmallShop::material, "cost", [&](Material& r) { r.cost = bad; });
    breaks(&SmallShop::listing, "asking", [&](Listing& r) { r.asking = bad; });
    breaks(&SmallShop::offer, "amount", [&](Offer& r) { r.amount = bad; });
    breaks(&SmallShop::sale, "price", [&](Sale& r) { r.price = bad; });
    breaks(&SmallShop::sale, "sales_tax", [&](Sale& r) { r.sales_tax = bad; });
    breaks(&SmallShop::sale, "fee", [&](Sale& r) { r.fee = bad; });
    breaks(&SmallShop::sale, "delivery", [&](Sale& r) { r.delivery = bad; });
    breaks(&SmallShop::comeback, "refunded", [&](Return& r) { r.refunded = bad; });
    breaks(&SmallShop::allowance, "amount", [&](Allowance& r) { r.amount = bad; });
    breaks(&SmallShop::allowance, "sales_tax", [&](Allowance& r) { r.sales_tax = bad; });
    breaks(&SmallShop::part_sale, "price", [&](PartSale& r) { r.price = bad; });
    breaks(&SmallShop::part_sale, "sales_tax", [&](PartSale& r) { r.sales_tax = bad; });
    breaks(&SmallShop::part_sale, "fee", [&](PartSale& r) { r.fee = bad; });
    breaks(&SmallShop::tax, "amount", [&](TaxPaid& r) { r.amount = bad; });
    breaks(&SmallShop::disposal, "proceeds", [&](Disposal& r) { r.proceeds = bad; });
    breaks(&SmallShop::disposal, "hulk_value", [&](Disposal& r) { r.hulk_value = bad; });
    breaks(&SmallShop::find, "asking", [&](Find& r) { r.asking = bad; });
    breaks(&SmallShop::find, "pickup_cost", [&](Find& r) { r.pickup_cost = bad; });
    breaks(&SmallShop::expense, "amount", [&](Expense& r) { r.amount = bad; });
    breaks(&SmallShop::deposit, "amount", [&](Deposit& r) { r.amount = bad; });
  }
}

TEST(Rules, KeepCountsAndMeasuresInRange) {
  breaks(&SmallShop::m2, "year", [](Machine& r) { r.year = 0; });
  breaks(&SmallShop::m2, "deck_in", [](Machine& r) { r.deck_in = Tenths{-1}; });
  breaks(&SmallShop::finding, "minutes", [](Finding& r) { r.minutes = Minutes{-1}; });
  breaks(&SmallShop::labour, "minutes", [](Labour& r) { r.minutes = Minutes{kLargestMinutes + 1}; });
  breaks(&SmallShop::plug, "reorder_at", [](Part& r) { r.reorder_at = -1; });
  breaks(&SmallShop::line_under_way, "quantity", [](OrderLine& r) { r.quantity = 0; });
  breaks(&SmallShop::part_sale, "quantity", [](PartSale& r) { r.quantity = 0; });
  breaks(&SmallShop::fitted, "quantity", [](Fitted& r) { r.quantity = -1; });
  breaks(&SmallShop::sale, "warranty_days", [](Sale& r) { r.warranty_days = -1; });
  breaks(&SmallShop::trip, "miles", [](Trip& r) { r.miles = Tenths{-1}; });
  breaks(&SmallShop::find, "year", [](Find& r) { r.year = 0; });
  breaks(&SmallShop::find, "miles", [](Find& r) { r.miles = Tenths{-1}; });
  breaks(&SmallShop::find, "minutes", [](Find& r) { r.minutes = Minutes{-1}; });
  for (const double bad : {std::numeric_limits<double>::infinity(), std::numeric_limits<double>::quiet_NaN()})
    breaks(&SmallShop::own_number, "value", [&](OwnNumber& r) { r.value = bad; });
  for (const double bad :
       {std::numeric_limits<double>::infinity(), std::numeric_limits<double>::quiet_NaN()}) {
    breaks(&SmallShop::forecast, "cash", [&](Forecast& r) { r.cash = bad; });
    breaks(&SmallShop::forecast, "sunk_hours", [&](Forecast& r) { r.sunk_hours = bad; });
  }
  for (const double bad : {-0.1, 1.1, std::numeric_limits<double>::quiet_NaN()}) {
    breaks(&SmallShop::forecast, "chance_revived", [&](Forecast& r) { r.chance_revived = bad; });
    breaks(&SmallShop::forecast_cause, "chance", [&](ForecastCause& r) { r.chance = bad; });
  }
  breaks(&SmallShop::line_under_way, "price", [](OrderLine& r) {
    r.price = Money::from_minor(kLargestAmount);
    r.quantity = 2;
  });
}

TEST(Rules, AskForTheTextsARecordCannotDoWithout) {
  breaks(&SmallShop::seller, "person", [](Person& r) { r.code.clear(); });
  breaks(&SmallShop::seller, "name", [](Person& r) { r.name.clear(); });
  breaks(&SmallShop::lot, "acquisition", [](Acquisition& r) { r.code.clear(); });
  breaks(&SmallShop::m1, "tag", [](Machine& r) { r.tag.clear(); });
  breaks(&SmallShop::fault, "fault", [](Fault& r) { r.code.clear(); });
  breaks(&SmallShop::fault, "symptom", [](Fault& r) { r.symptom.clear(); });
  breaks(&SmallShop::finding, "step", [](Finding& r) { r.step.clear(); });
  breaks(&SmallShop::finding, "outcome", [](Finding& r) { r.outcome.clear(); });
  breaks(&SmallShop::plug, "part", [](Part& r) { r.code.clear(); });
  breaks(&SmallShop::plug, "name", [](Part& r) { r.name.clear(); });
  breaks(&SmallShop::order, "order", [](Order& r) { r.code.clear(); });
  breaks(&SmallShop::material, "what", [](Material& r) { r.what.clear(); });
  breaks(&SmallShop::trip, "purpose", [](Trip& r) { r.purpose.clear(); });
  breaks(&SmallShop::expense, "category", [](Expense& r) { r.category.clear(); });
  breaks(&SmallShop::answer, "test", [](FindAnswer& r) { r.test.clear(); });
  breaks(&SmallShop::answer, "outcome", [](FindAnswer& r) { r.outcome.clear(); });
  breaks(&SmallShop::own_number, "path", [](OwnNumber& r) { r.path.clear(); });
  breaks(&SmallShop::own_entry, "section", [](KnowledgeEdit& r) { r.section.clear(); });
  breaks(&SmallShop::own_entry, "entry", [](KnowledgeEdit& r) { r.entry.clear(); });
  breaks(&SmallShop::own_entry, "text", [](KnowledgeEdit& r) { r.text.clear(); });
  breaks(&SmallShop::forecast_cause, "cause", [](ForecastCause& r) { r.cause.clear(); });
  breaks(&SmallShop::listing_text, "text", [](ListingText& r) { r.text.clear(); });
  breaks(&SmallShop::photo, "sha256", [](Photo& r) { r.sha256 = "A" + std::string(63, 'a'); });
}

TEST(Rules, KeepDaysInTheCalendarAndEndsAfterBeginnings) {
  breaks(&SmallShop::tax, "date", [](TaxPaid& r) {
    r.date = Date{std::chrono::year{2026}, std::chrono::February, std::chrono::day{30}};
  });
  breaks(&SmallShop::fault, "ended", [](Fault& r) { r.ended = day("2026-03-02"); });
  breaks(&SmallShop::fault, "how", [](Fault& r) { r.ended.reset(); });
  breaks(&SmallShop::listing, "ended", [](Listing& r) { r.ended = day("2026-03-13"); });
  breaks(&SmallShop::answer, "date", [](FindAnswer& r) { r.date = Date{}; });
  breaks(&SmallShop::forecast, "date", [](Forecast& r) { r.date = Date{}; });
  breaks(&SmallShop::deposit, "returned", [](Deposit& r) { r.returned = day("2026-03-19"); });
  breaks(&SmallShop::bought, "ended", [](Find& r) { r.ended = day("2026-02-28"); });
  breaks(&SmallShop::bought, "how", [](Find& r) { r.ended.reset(); });
  breaks(&SmallShop::find, "how", [](Find& r) { r.ended = day("2026-04-04"); });
  breaks(&SmallShop::under_way, "arrived", [](Order& r) { r.arrived = day("2026-03-19"); });
}

TEST(Rules, KeepToOneThingWhereALineIsForOne) {
  SmallShop ids;
  breaks(&SmallShop::labour, "acquisition", [&](Labour& r) { r.acquisition = ids.lot; });
  breaks(&SmallShop::trip, "acquisition", [&](Trip& r) { r.machine = ids.m1; });
  breaks(&SmallShop::part_sale, "from", [&](PartSale& r) {
    r.quantity = 1;
    r.from_donor = ids.m3;
    r.from_order = ids.order;
    r.date = day("2026-03-12");
  });
}

TEST(Rules, LetOnlyABoughtFindBecomeAMachine) {
  const SmallShop ids;
  breaks(&SmallShop::find, "machine", [&](Find& r) { r.machine = ids.m1; });
  breaks(&SmallShop::bought, "machine", [](Find& r) { r.how = FindEnd::gone; });
}

TEST(Rules, KnowWhatAGiftHas) {
  breaks(&SmallShop::given, "price", [](Acquisition& r) { r.price = dollars(1); });
  breaks(&SmallShop::lot, "giver_basis", [](Acquisition& r) { r.giver_basis = dollars(1); });
  SmallShop s;
  s.change(s.lot, [](Acquisition& r) { r.giver_basis = Money{}; });  // zero counts as empty
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(Rules, BoundWhatAllAmountsAddUpTo) {
  SmallShop s;
  for (std::int64_t i = 0; i <= kLargestTotal / kLargestAmount; ++i)
    s.add(Expense{
        .date = day("2026-03-02"), .category = "supplies", .amount = Money::from_minor(kLargestAmount)});
  const auto wrong = broken_rules(s.shop);
  ASSERT_EQ(wrong.size(), 1u);
  EXPECT_EQ(wrong.front().problem.field, "amount");
}

}  // namespace
}  // namespace secondpull
