#include "core/books/closing.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "tests/core/books/random_shop.h"

namespace secondpull::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const SelfEmploymentRates kRates{{{2026, WageBase{money("184500"), "IRS Schedule SE", "second hand"}}}};

/// A shop with a sale in 2025 and one in 2026, and the functions of closing at hand.
class Closing : public testing::Test {
 protected:
  Closing() {
    plug = build.part("plug");
    order = build.bought_parts(plug, day("2025-03-01"), 4, money("3.00"));
    sold = build.bought("1", day("2025-02-01"), money("30.00"));
    fitted = build.fit(sold, day("2025-04-01"), plug);
    sale = build.sell(sold, day("2025-05-01"), money("100.00"));
    here = build.bought("2", day("2025-06-01"), money("20.00"));
    build.sell(build.bought("3", day("2026-02-01"), money("10.00")), day("2026-03-01"), money("50.00"));
  }
  std::shared_ptr<const Shop> shop() const { return std::make_shared<const Shop>(build.shop()); }
  Result<Change> close(int year, std::string_view today = "2027-01-02") const {
    return close_year(build.books(), kRates, year, day(today));
  }
  void closed_now(int year) { build.shop() = *apply(build.shop(), *close(year)); }
  /// The problem with replacing or adding a record; none if it may be done.
  template <class Record>
  std::optional<Problem> replacing(const Record& record) const {
    Change change{build.shop(), "test"};
    change.replace(record);
    return moved_by(change);
  }
  template <class Record>
  std::optional<Problem> adding(const Record& record) const {
    Change change{build.shop(), "test"};
    change.add(record);
    return moved_by(change);
  }
  std::optional<Problem> moved_by(const Change& change) const {
    return moves_closed_year(shop(), std::make_shared<const Shop>(*apply(build.shop(), change)), change, {},
                             kRates);
  }
  template <class Id>
  auto record(Id id) const {
    return *build.shop().find(id);
  }

  ShopBuilder build;
  PartId plug{};
  OrderId order{};
  MachineId sold{}, here{};
  FittedId fitted{};
  SaleId sale{};
};

TEST_F(Closing, KeepsEveryFigureOfTheYear) {
  closed_now(2025);
  EXPECT_THAT(closed_years(build.shop()), ElementsAre(2025));
  const auto figures = build.books().year(2025, kRates);
  EXPECT_EQ(build.shop().all<KeptFigure>().size(), sizes(*figures).size());
  EXPECT_THAT(*drift(build.books(), kRates, 2025), IsEmpty());
}

TEST_F(Closing, IsRefusedForAYearThatIsNotOverIsClosedOrIsBeforeTheBooks) {
  EXPECT_THAT(close(2026, "2026-12-30").error().sentence, HasSubstr("not over"));
  EXPECT_TRUE(close(2026, "2026-12-31"));
  EXPECT_THAT(close(2024).error().sentence, HasSubstr("the books begin in 2025"));
  closed_now(2025);
  const auto again = close(2025);
  ASSERT_FALSE(again);
  EXPECT_EQ(again.error().field, "year");
  EXPECT_EQ(again.error().value, "2025");
}

TEST_F(Closing, RefusesAnEditOfTheYearAndSaysWhatItWouldChange) {
  closed_now(2025);
  Sale changed = record(sale);
  changed.price = money("90.00");
  const auto refused = replacing(changed);
  ASSERT_TRUE(refused);
  EXPECT_THAT(refused->sentence, HasSubstr("The books of 2025 are closed"));
  EXPECT_THAT(refused->sentence, HasSubstr("gross receipts from 100.00 to 90.00"));
  EXPECT_THAT(refused->sentence, HasSubstr("Open 2025 again first"));
  EXPECT_EQ(refused->value, "2025");
}

TEST_F(Closing, LetsAnEditPassThatLeavesTheFigures) {
  closed_now(2025);
  Sale changed = record(sale);
  changed.payment = "cash";
  EXPECT_FALSE(replacing(changed));
  Machine renamed = record(here);
  renamed.make = "Tarnwick";
  EXPECT_FALSE(replacing(renamed));
}

TEST_F(Closing, LetsLaterWorkPassAndStillGuardsWhatWasIssuedIntoTheYear) {
  closed_now(2025);
  EXPECT_FALSE(
      adding(Material{.machine = here, .date = day("2026-01-02"), .what = "oil", .cost = money("5")}));
  EXPECT_FALSE(adding(Sale{.machine = here, .date = day("2026-01-03"), .price = money("60.00")}));
  Order dearer = record(order);
  dearer.freight = money("4.00");
  EXPECT_TRUE(replacing(dearer)) << "a piece of it was fitted in 2025, the rest is its closing stock";
  EXPECT_TRUE(adding(Labour{.machine = here, .date = day("2025-07-01"), .minutes = {30}})) << "its hours";
}

TEST_F(Closing, GuardsTheSplitOfADonorAgainstAHarvestOfALaterYear) {
  build.add(Harvest{.donor = here, .date = day("2025-11-01"), .part = plug, .value = money("1.00")});
  build.add(Disposal{.machine = here,
                     .date = day("2025-11-01"),
                     .how = DisposalKind::parted_out,
                     .hulk_value = money("1.00")});
  closed_now(2025);
  EXPECT_TRUE(adding(Harvest{.donor = here, .date = day("2026-02-01"), .part = plug, .value = money("9.00")}))
      << "the hulk left in 2025 at its share";
}

TEST_F(Closing, KeepsNoOtherFiguresThanThoseOfTheRecords) {
  const auto stale = close(2025);
  Sale changed = record(sale);
  changed.price = money("90.00");
  build.shop().all<Sale>().replace(changed);
  const auto refused = moved_by(*stale);
  ASSERT_TRUE(refused) << "made before the sale was mended";
  EXPECT_THAT(refused->sentence, HasSubstr("gross receipts from 100.00 to 90.00"));
  closed_now(2025);
  KeptFigure forged = *build.shop().all<KeptFigure>().begin();
  forged.size += 1;
  EXPECT_TRUE(replacing(forged));
}

TEST_F(Closing, EndsWhenTheYearIsOpenedAgain) {
  closed_now(2025);
  const auto opened = reopen_year(build.shop(), 2025);
  ASSERT_TRUE(opened);
  build.shop() = *apply(build.shop(), *opened);
  EXPECT_TRUE(build.shop().all<KeptFigure>().empty());
  Sale changed = record(sale);
  changed.price = money("90.00");
  EXPECT_FALSE(replacing(changed));
  EXPECT_THAT(reopen_year(build.shop(), 2025).error().sentence, HasSubstr("2025 is not closed"));
}

TEST_F(Closing, ToldApartFromTheRecordsByDrift) {
  closed_now(2025);
  Sale changed = record(sale);
  changed.price = money("90.00");
  build.shop().all<Sale>().replace(changed);
  const auto moved = drift(build.books(), kRates, 2025);
  ASSERT_TRUE(moved);
  ASSERT_FALSE(moved->empty());
  EXPECT_EQ(moved->front().line, YearLine::gross_receipts);
  EXPECT_EQ(moved->front().kept, 100'00);
  EXPECT_EQ(moved->front().now, 90'00);
}

RC_GTEST_PROP(ClosingProperties, DerivingAClosedYearAnewChangesNothing, ()) {
  RandomShop shop;
  for (const int year : {2025, 2026}) {
    const auto change = close_year(shop.books(), kRates, year, day("2027-01-01"));
    if (!change) continue;  // nothing dated in it
    shop.build.shop() = *apply(shop.build.shop(), *change);
    RC_ASSERT(drift(shop.books(), kRates, year)->empty());
  }
}

/// What the quick look at the dates lets pass moves nothing: any step after closing that is let through
/// leaves the figures that were kept.
RC_GTEST_PROP(ClosingProperties, WhatIsLetThroughLeavesTheFigures, ()) {
  RandomShop shop;
  const auto change = close_year(shop.books(), kRates, 2025, day("2026-01-01"));
  RC_PRE(change.has_value());
  shop.build.shop() = *apply(shop.build.shop(), *change);
  const auto before = std::make_shared<const Shop>(shop.build.shop());

  Change edit{*before, "test"};
  const auto pick = [&]<class Record>(const Table<Record>& table) -> std::optional<Record> {
    if (table.empty()) return std::nullopt;
    return *(table.begin() + *rc::gen::inRange<std::ptrdiff_t>(0, static_cast<std::ptrdiff_t>(table.size())));
  };
  const auto more = Money::from_minor(*rc::gen::inRange(1, 5000));
  switch (*rc::gen::inRange(0, 6)) {
    case 0:
      if (auto record = pick(before->all<OrderLine>())) {
        record->price += more;
        edit.replace(*record);
      }
      break;
    case 1:
      if (auto record = pick(before->all<Harvest>())) {
        record->value += more;
        edit.replace(*record);
      }
      break;
    case 2:
      if (auto record = pick(before->all<Disposal>())) {
        if (record->how == DisposalKind::parted_out) record->hulk_value = more;
        edit.replace(*record);
      }
      break;
    case 3:
      if (auto record = pick(before->all<Machine>())) {
        record->value_then = more;
        edit.replace(*record);
      }
      break;
    case 4:
      if (auto record = pick(before->all<Sale>())) {
        record->price += more;
        edit.replace(*record);
      }
      break;
    default:
      if (auto record = pick(before->all<Fitted>())) edit.remove(*record);
      break;
  }
  const auto after = std::make_shared<const Shop>(*apply(*before, edit));
  if (!broken_rules(*after).empty()) return;  // the store refuses it for that
  if (moves_closed_year(before, after, edit, RandomShop::rates(), kRates)) return;
  RC_ASSERT(drift(*Books::of(after, RandomShop::rates()), kRates, 2025)->empty());
}

}  // namespace
}  // namespace secondpull::test
