#include "core/shop/offers.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/shop/safety.h"

namespace secondpull {
namespace {

using std::chrono::day;
using std::chrono::month;
using std::chrono::year;

constexpr Date date(int y, unsigned m, unsigned d) {
  return Date{year{y}, month{m}, day{d}};
}
constexpr Money dollars(std::int64_t amount) {
  return Money::from_minor(amount * 100);
}

constexpr AcquisitionId kAcquisition{1};
constexpr MachineId kMachine{2};
constexpr MachineId kOther{3};

/// Two machines that came in on 1 March.
Shop shop_of_two() {
  Shop shop;
  shop.all<Acquisition>().insert({.id = kAcquisition, .entered = 1, .code = "A1", .date = date(2026, 3, 1)});
  shop.all<Machine>().insert({.id = kMachine, .entered = 2, .tag = "14", .acquisition = kAcquisition});
  shop.all<Machine>().insert({.id = kOther, .entered = 3, .tag = "15", .acquisition = kAcquisition});
  shop.next_id = 100;
  return shop;
}

Shop after(const Shop& shop, const Result<Change>& change) {
  EXPECT_TRUE(change) << change.error().sentence;
  const Result<Shop> changed = apply(shop, *change);
  EXPECT_TRUE(changed) << changed.error().sentence;
  return *changed;
}

NewOffer offer_of(std::int64_t amount) {
  return {.machine = kMachine, .date = date(2026, 4, 2), .amount = dollars(amount), .who = "Ruel"};
}

TEST(Offers, AreWrittenDownInOneAction) {
  NewOffer offer = offer_of(150);
  offer.comes = date(2026, 4, 4);
  const Result<Change> change = record_offer(shop_of_two(), offer);
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Offer of $150 for #14 by Ruel");
  const Shop shop = after(shop_of_two(), change);
  ASSERT_EQ(shop.all<Offer>().size(), 1u);
  const Offer& kept = *shop.all<Offer>().begin();
  EXPECT_EQ(kept.machine, kMachine);
  EXPECT_EQ(kept.amount, dollars(150));
  EXPECT_EQ(kept.comes, date(2026, 4, 4));
  EXPECT_EQ(kept.result, std::nullopt);
}

TEST(Offers, NeedAnAmount) {
  const Result<Change> change = record_offer(shop_of_two(), offer_of(0));
  ASSERT_FALSE(change);
  EXPECT_EQ(change.error().field, "amount");
}

TEST(Offers, AreNotOlderThanTheMachine) {
  NewOffer offer = offer_of(150);
  offer.date = date(2026, 2, 28);
  const Result<Change> change = record_offer(shop_of_two(), offer);
  ASSERT_FALSE(change);
  EXPECT_EQ(change.error().field, "date");
  EXPECT_EQ(change.error().value, "2026-02-28");
}

TEST(Offers, PromiseNoVisitBeforeTheyWereMade) {
  NewOffer offer = offer_of(150);
  offer.comes = date(2026, 4, 1);
  const Result<Change> change = record_offer(shop_of_two(), offer);
  ASSERT_FALSE(change);
  EXPECT_EQ(change.error().field, "comes");
}

TEST(Offers, AreRefusedForAMachineThatIsGone) {
  Shop shop = shop_of_two();
  shop.all<Sale>().insert({.id = SaleId{50}, .machine = kMachine, .date = date(2026, 4, 1)});
  EXPECT_FALSE(record_offer(shop, offer_of(150)));
}

TEST(Offers, AreSettledAndSettledAgain) {
  Shop shop = after(shop_of_two(), record_offer(shop_of_two(), offer_of(150)));
  const OfferId id = shop.all<Offer>().begin()->id;
  for (const OfferResult result : all_words<OfferResult>()) {
    shop = after(shop, settle_offer(shop, id, result));
    EXPECT_EQ(shop.find(id)->result, result);
  }
  EXPECT_EQ(settle_offer(shop, id, OfferResult::refused)->title(),
            "Refused the offer of $150 for #14 by Ruel");
  EXPECT_FALSE(settle_offer(shop, OfferId{999}, OfferResult::refused));
}

TEST(Offers, OpenOnesAreSettledWithTheSale) {
  Shop shop = shop_of_two();
  for (const std::int64_t amount : {150, 140, 120})
    shop = after(shop, record_offer(shop, offer_of(amount)));
  NewOffer for_other = offer_of(90);
  for_other.machine = kOther;
  shop = after(shop, record_offer(shop, for_other));
  const auto at = [&](std::size_t n) {
    return std::next(shop.all<Offer>().begin(), static_cast<long>(n))->id;
  };
  const OfferId taken = at(0), open = at(1), refused = at(2), others = at(3);
  shop = after(shop, settle_offer(shop, refused, OfferResult::refused));

  shop = after(shop, settling_offers(shop, Change{shop, "Sold #14"}, kMachine, taken));
  EXPECT_EQ(shop.find(taken)->result, OfferResult::taken);
  EXPECT_EQ(shop.find(open)->result, OfferResult::gone);
  EXPECT_EQ(shop.find(refused)->result, OfferResult::refused);
  EXPECT_EQ(shop.find(others)->result, std::nullopt);
}

TEST(Offers, OfAnotherMachineCannotBeTakenWithTheSale) {
  Shop shop = after(shop_of_two(), record_offer(shop_of_two(), offer_of(150)));
  const OfferId id = shop.all<Offer>().begin()->id;
  EXPECT_FALSE(settling_offers(shop, Change{shop, "Sold #15"}, kOther, id));
}

Shop with_finding(Shop shop, Date day_of, const char* step, const char* outcome) {
  const std::int64_t id = shop.next_id++;
  shop.all<Finding>().insert({.id = FindingId{id},
                              .entered = id,
                              .machine = kMachine,
                              .date = day_of,
                              .step = step,
                              .outcome = outcome});
  return shop;
}

bool may_run(const Shop& shop) {
  return !against_running(ByMachine{shop}.of(kMachine), SoldAs::running).has_value();
}

TEST(SafetyCheck, KeepsAMachineThatFailedItFromGoingAsRunning) {
  const Shop failed = with_finding(shop_of_two(), date(2026, 4, 1), "Safety check", "Failed: blade runs on");
  EXPECT_FALSE(may_run(failed));
  const ByMachine by_machine{failed};
  EXPECT_FALSE(against_running(by_machine.of(kMachine), SoldAs::as_is));
  EXPECT_FALSE(against_running(by_machine.of(kMachine), std::nullopt));
  EXPECT_EQ(against_running(by_machine.of(kMachine), SoldAs::running)->field, "sold_as");
}

TEST(SafetyCheck, PassedLaterClearsTheMachine) {
  const Shop failed = with_finding(shop_of_two(), date(2026, 4, 1), "safety check", "fails");
  EXPECT_TRUE(may_run(with_finding(failed, date(2026, 4, 2), "safety check", "passed")));
  EXPECT_TRUE(may_run(with_finding(shop_of_two(), date(2026, 4, 2), "spark test", "failed")));
  EXPECT_TRUE(may_run(with_finding(shop_of_two(), date(2026, 4, 2), "safety check", "cannot be unfailing")));
}

}  // namespace
}  // namespace secondpull
