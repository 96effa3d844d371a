#include "core/paper/receipt.h"

#include <gmock/gmock.h>
#include <rapidcheck/gtest.h>

#include "core/paper/condition.h"
#include "tests/core/paper/paper_base.h"

namespace secondpull::paper {
namespace {

using test::BareShop;
using test::cents;
using test::day;
using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

/// Two machines and a part that Ruel took on 20 May, one machine on another day, one by somebody else.
struct Sold {
  BareShop bare;
  PersonId ruel =
      bare.add(Person{.code = "P1", .name = "Ruel Vörn", .phone = "555 01", .email = "r@v.example"});
  PersonId odda = bare.add(Person{.code = "P2", .name = "Odda"});
  MachineId mower = bare.add(Machine{.tag = "14",
                                     .acquisition = bare.curb,
                                     .kind = MachineKind::self_propelled,
                                     .make = "Tarnwick",
                                     .model = "TW-2",
                                     .model_number = "TW2-118",
                                     .serial = "66G84520"});
  MachineId tractor = bare.machine(MachineKind::lawn_tractor);
  MachineId other = bare.machine();
  PartId plug = bare.add(Part{.code = "plug", .name = "spark plug", .number = "RJ-19"});
  SaleId first = bare.add(Sale{.machine = mower,
                               .date = day("2026-05-20"),
                               .buyer = ruel,
                               .price = cents(18'550),
                               .sales_tax = cents(1'299),
                               .fee = cents(463),
                               .payment = "cash",
                               .sold_as = SoldAs::running,
                               .warranty_days = 14,
                               .place = "Ovenden"});
  SaleId second = bare.add(Sale{.machine = tractor,
                                .date = day("2026-05-20"),
                                .buyer = ruel,
                                .price = cents(40'000),
                                .sales_tax = cents(2'800),
                                .delivery = cents(1'200),
                                .payment = "cash",
                                .sold_as = SoldAs::as_is,
                                .place = "Ovenden"});
  SaleId elsewhen =
      bare.add(Sale{.machine = other, .date = day("2026-05-21"), .buyer = ruel, .price = cents(100)});
  PartSaleId plugs = bare.add(PartSale{.date = day("2026-05-20"),
                                       .part = plug,
                                       .quantity = 3,
                                       .price = cents(1'800),
                                       .buyer = ruel,
                                       .sales_tax = cents(90),
                                       .place = "Wendle"});
  PartSaleId others =
      bare.add(PartSale{.date = day("2026-05-20"), .part = plug, .price = cents(600), .buyer = odda});

  Receipt receipt(const Deal& deal) const {
    return receipt_of(bare.shop, ByMachine{bare.shop}, test::paper_base(), deal);
  }
  Receipt receipt() const { return receipt(deal_of(bare.shop, first)); }
};

TEST(Deal, IsWhatOneBuyerTookAlongOnOneDay) {
  const Sold s;
  const Deal deal{{s.first, s.second}, {s.plugs}};
  EXPECT_EQ(deal_of(s.bare.shop, s.second), deal);
  EXPECT_EQ(deal_of(s.bare.shop, s.plugs), deal);
  EXPECT_EQ(deal_of(s.bare.shop, s.elsewhen), (Deal{{s.elsewhen}, {}}));
  EXPECT_EQ(deal_of(s.bare.shop, s.others), (Deal{{}, {s.others}}));
  EXPECT_EQ(deal_of(s.bare.shop, SaleId{9999}), Deal{});
}

TEST(Deal, WithoutABuyerIsThatOneThing) {
  Sold s;
  const MachineId machine = s.bare.machine();
  const SaleId one = s.bare.add(Sale{.machine = machine, .date = day("2026-05-20")});
  s.bare.add(Sale{.machine = s.bare.machine(), .date = day("2026-05-20")});
  EXPECT_EQ(deal_of(s.bare.shop, one), (Deal{{one}, {}}));
}

TEST(Deal, CountsAMachineOnceThatWasSoldTwiceThatDay) {
  Sold s;
  s.bare.add(Return{.machine = s.mower, .date = day("2026-05-20")});
  const SaleId again = s.bare.add(
      Sale{.machine = s.mower, .date = day("2026-05-20"), .buyer = s.ruel, .price = cents(18'000)});
  EXPECT_THAT(deal_of(s.bare.shop, s.second).machines, ElementsAre(s.second, again));
}

TEST(Receipt, AddsUpToTheCent) {
  const Receipt receipt = Sold{}.receipt();
  // By hand: 185.50 + 400.00 + 18.00 = 603.50; tax 12.99 + 28.00 in Ovenden and 0.90 in Wendle; 645.39 in
  // all.
  ASSERT_EQ(receipt.lines.size(), 3U);
  EXPECT_EQ(receipt.goods, cents(60'350));
  EXPECT_THAT(receipt.taxes, ElementsAre(NamedAmount{"Sales tax, Ovenden", cents(4'099)},
                                         NamedAmount{"Sales tax, Wendle", cents(90)}));
  EXPECT_EQ(receipt.total, cents(64'539));
  EXPECT_EQ(receipt.balance, cents(64'539));
}

TEST(Receipt, NamesBothSidesAndEveryThing) {
  Sold s;
  s.bare.shop.settings.name = "Wendle Garage";
  const Receipt receipt = s.receipt();
  EXPECT_EQ(receipt.seller, "Wendle Garage");
  EXPECT_EQ(receipt.buyer, "Ruel Vörn");
  EXPECT_EQ(receipt.buyer_contact, "555 01, r@v.example");
  EXPECT_EQ(receipt.date, day("2026-05-20"));
  EXPECT_EQ(receipt.payment, "cash");
  EXPECT_TRUE(receipt.delivered);
  EXPECT_EQ(receipt.lines[0].what, "#14 Tarnwick TW-2 self-propelled mower");
  EXPECT_EQ(receipt.lines[0].details, "serial 66G84520, model no. TW2-118");
  EXPECT_EQ(receipt.lines[1].details, "serial number not on record");
  EXPECT_EQ(receipt.lines[2], (ReceiptLine{"3 x spark plug", "part no. RJ-19", cents(1'800)}));
}

TEST(Receipt, SaysHowEachMachineIsSold) {
  Sold s;
  s.bare.fault(s.tractor, "Does not start");
  s.bare.finding(s.mower, "2026-05-19", "Safety check: Recall list checked", "passed");
  const Receipt receipt = s.receipt();
  ASSERT_EQ(receipt.machines.size(), 2U);
  EXPECT_EQ(receipt.machines[0].terms, "It is sold as a running machine.");
  EXPECT_THAT(receipt.machines[0].warranty, HasSubstr("Warranty of 14 days, until 3 June 2026"));
  EXPECT_EQ(receipt.machines[0].recall, "Recalls: looked up on 19 May 2026: none found.");
  EXPECT_THAT(receipt.machines[0].wrong, IsEmpty());
  EXPECT_EQ(receipt.machines[1].terms, kAsIsWords);
  EXPECT_THAT(receipt.machines[1].warranty, HasSubstr("No warranty is given beyond"));
  EXPECT_THAT(receipt.machines[1].wrong, ElementsAre("Does not start"));
}

TEST(Receipt, TellsOfSafetyByKindOfMachine) {
  const Sold s;
  EXPECT_THAT(s.receipt().safety, Contains(HasSubstr("within 3 seconds")));  // 16 CFR 1205.5
  EXPECT_THAT(s.receipt().safety, Contains(HasSubstr("leaves the seat")));
  const auto push_alone = s.receipt(deal_of(s.bare.shop, s.elsewhen)).safety;
  EXPECT_THAT(push_alone, testing::Not(Contains(HasSubstr("leaves the seat"))));
  EXPECT_THAT(s.receipt(deal_of(s.bare.shop, s.others)).safety, IsEmpty());
}

TEST(Receipt, TakesOffTheDepositsThatWereKept) {
  Sold s;
  const auto offer = [&](MachineId machine, OfferResult result) {
    return s.bare.add(
        Offer{.machine = machine, .date = day("2026-05-10"), .amount = cents(1), .result = result});
  };
  const OfferId taken = offer(s.mower, OfferResult::taken);
  s.bare.add(Deposit{.offer = taken, .date = day("2026-05-11"), .amount = cents(2'000), .payment = "cash"});
  s.bare.add(Deposit{
      .offer = taken, .date = day("2026-05-11"), .amount = cents(500), .returned = day("2026-05-12")});
  s.bare.add(
      Deposit{.offer = offer(s.mower, OfferResult::gone), .date = day("2026-05-11"), .amount = cents(700)});
  s.bare.add(
      Deposit{.offer = offer(s.other, OfferResult::taken), .date = day("2026-05-11"), .amount = cents(900)});
  const Receipt receipt = s.receipt();
  EXPECT_THAT(receipt.deposits, ElementsAre(NamedAmount{"Deposit of 11 May 2026, cash", cents(2'000)}));
  EXPECT_EQ(receipt.balance, cents(62'539));
}

TEST(Receipt, ADepositCountsForTheSaleThatFollowsIt) {
  Sold s;
  const OfferId offer = s.bare.add(
      Offer{.machine = s.mower, .date = day("2026-05-10"), .amount = cents(1), .result = OfferResult::taken});
  s.bare.add(Deposit{.offer = offer, .date = day("2026-05-11"), .amount = cents(2'000)});
  s.bare.add(Return{.machine = s.mower, .date = day("2026-05-25")});
  const SaleId again = s.bare.add(
      Sale{.machine = s.mower, .date = day("2026-06-02"), .buyer = s.odda, .price = cents(15'000)});
  EXPECT_EQ(s.receipt(deal_of(s.bare.shop, again)).balance, cents(15'000));
  EXPECT_EQ(s.receipt().deposits.size(), 1U);
}

TEST(Receipt, OfNothingIsEmpty) {
  const Sold s;
  const Receipt receipt = s.receipt(Deal{});
  EXPECT_TRUE(receipt.lines.empty());
  EXPECT_TRUE(receipt.total.is_zero());
  EXPECT_EQ(receipt.number, "");
}

RC_GTEST_PROP(ReceiptProperty, LinesTaxesAndDepositsAddUpForAnyDeal, ()) {
  BareShop bare;
  const PersonId buyer = bare.add(Person{.code = "P1", .name = "Ruel"});
  const auto amount = [] { return cents(*rc::gen::inRange<std::int64_t>(0, 10'000'000)); };
  const auto place = [] { return std::string(static_cast<std::size_t>(*rc::gen::inRange(0, 3)), 'x'); };
  std::int64_t wanted = 0;
  std::int64_t left = 0;
  std::optional<SaleId> first;
  for (int count = *rc::gen::inRange(1, 5); count > 0; --count) {
    const MachineId machine = bare.machine();
    const Money price = amount();
    const Money tax = amount();
    if (*rc::gen::arbitrary<bool>()) {
      const OfferId offer = bare.add(Offer{
          .machine = machine, .date = day("2026-05-01"), .amount = cents(1), .result = OfferResult::taken});
      const Money deposit = amount();
      bare.add(Deposit{.offer = offer, .date = day("2026-05-01"), .amount = deposit});
      left += deposit.minor();
    }
    const SaleId sale = bare.add(Sale{.machine = machine,
                                      .date = day("2026-05-20"),
                                      .buyer = buyer,
                                      .price = price,
                                      .sales_tax = tax,
                                      .place = place()});
    if (!first) first = sale;
    wanted += price.minor() + tax.minor();
  }
  const PartId part = bare.add(Part{.code = "plug", .name = "plug"});
  for (int count = *rc::gen::inRange(0, 4); count > 0; --count) {
    const Money price = amount();
    const Money tax = amount();
    bare.add(PartSale{.date = day("2026-05-20"),
                      .part = part,
                      .price = price,
                      .buyer = buyer,
                      .sales_tax = tax,
                      .place = place()});
    wanted += price.minor() + tax.minor();
  }
  const Receipt receipt =
      receipt_of(bare.shop, ByMachine{bare.shop}, test::paper_base(), deal_of(bare.shop, *first));
  std::int64_t lines = 0;
  for (const ReceiptLine& line : receipt.lines)
    lines += line.price.minor();
  std::int64_t taxes = 0;
  for (const NamedAmount& tax : receipt.taxes)
    taxes += tax.amount.minor();
  RC_ASSERT(receipt.goods.minor() == lines);
  RC_ASSERT(receipt.total.minor() == lines + taxes);
  RC_ASSERT(receipt.total.minor() == wanted);
  RC_ASSERT(receipt.balance.minor() == wanted - left);
}

}  // namespace
}  // namespace secondpull::paper
