#include <gmock/gmock.h>

#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;
using testing::Contains;
using testing::ElementsAre;

constexpr MachineId kNoMachine{9999};
constexpr PersonId kNobody{9999};
constexpr PartId kNoPart{9999};
constexpr OrderId kNoOrder{9999};

struct Broken {
  AnyId record;
  std::string field;
  std::string value;
  friend bool operator==(const Broken&, const Broken&) = default;
};
std::vector<Broken> broken(const Shop& shop) {
  std::vector<Broken> all;
  for (const RuleBreak& wrong : broken_rules(shop)) {
    all.push_back({wrong.record, wrong.problem.field, wrong.problem.value});
    EXPECT_FALSE(wrong.problem.sentence.empty());
  }
  return all;
}

TEST(Identifiers, AreUsedOnce) {
  SmallShop s;
  const PersonId person = s.add(Person{.code = "P1", .name = "Odda Venn"});
  const MachineId machine = s.add(Machine{.tag = "2", .acquisition = s.lot});
  const FaultId fault =
      s.add(Fault{.code = "F1", .machine = s.m2, .date = day("2026-03-08"), .symptom = "x"});
  const PartId part = s.add(Part{.code = "plug", .name = "another"});
  const AcquisitionId acquisition = s.add(Acquisition{.code = "A1", .date = day("2026-03-08")});
  s.add(Machine{.tag = "77", .acquisition = acquisition});
  const OrderId order = s.add(Order{.code = "O1", .date = day("2026-03-08")});
  s.add(OrderLine{.order = order, .part = s.plug});
  EXPECT_THAT(broken(s.shop),
              ElementsAre(Broken{person, "person", "P1"}, Broken{acquisition, "acquisition", "A1"},
                          Broken{machine, "tag", "2"}, Broken{fault, "fault", "F1"},
                          Broken{part, "part", "plug"}, Broken{order, "order", "O1"}));
}

TEST(Identifiers, OfWhatTheOwnerSaysAreUsedOnceTogether) {
  SmallShop s;
  s.add(FindAnswer{.find = s.bought, .date = day("2026-03-02"), .test = "does it turn", .outcome = "turns"});
  s.add(OwnNumber{.machine = s.m1, .path = "revived.price", .value = 1});
  s.add(KnowledgeEdit{.section = "tests", .entry = "leak", .text = "{}"});
  s.add(ListingText{.machine = s.m1, .date = day("2026-03-14"), .text = "Mower"});
  EXPECT_EQ(test::told(broken_rules(s.shop)), "") << "another find, machine or section";
  const FindAnswerId answer = s.add(
      FindAnswer{.find = s.find, .date = day("2026-04-04"), .test = "does it turn", .outcome = "does not"});
  const OwnNumberId number = s.add(OwnNumber{.machine = s.m2, .path = "revived.price", .value = 2});
  const KnowledgeEditId entry = s.add(KnowledgeEdit{.section = "causes", .entry = "leak", .text = "{}"});
  const ListingTextId text =
      s.add(ListingText{.machine = s.m4, .date = day("2026-03-15"), .text = "Mower, green"});
  EXPECT_THAT(broken(s.shop),
              ElementsAre(Broken{answer, "test", "does it turn"}, Broken{number, "path", "revived.price"},
                          Broken{entry, "entry", "leak"},
                          Broken{text, "machine", std::to_string(secondpull::number(s.m4))}));
}

TEST(References, NameARecordThatIsThere) {
  const auto column = [](auto SmallShop::*which, auto&& edit) {
    SmallShop s;
    s.change(s.*which, edit);
    const auto wrong = broken(s.shop);
    std::vector<std::string> fields;
    for (const Broken& one : wrong)
      if (one.record == AnyId{s.*which}) fields.push_back(one.field);
    return fields;
  };
  EXPECT_THAT(column(&SmallShop::lot, [](Acquisition& r) { r.from = kNobody; }), ElementsAre("from"));
  EXPECT_THAT(column(&SmallShop::m4, [](Machine& r) { r.acquisition = AcquisitionId{9999}; }),
              ElementsAre("acquisition"));
  EXPECT_THAT(column(&SmallShop::fault, [](Fault& r) { r.machine = kNoMachine; }), ElementsAre("machine"));
  EXPECT_THAT(column(&SmallShop::finding, [](Finding& r) { r.fault = FaultId{9999}; }), ElementsAre("fault"));
  EXPECT_THAT(column(&SmallShop::labour, [](Labour& r) { r.machine = kNoMachine; }), ElementsAre("machine"));
  EXPECT_THAT(column(&SmallShop::plug, [](Part& r) { r.supplier = kNobody; }), ElementsAre("supplier"));
  EXPECT_THAT(column(&SmallShop::order, [](Order& r) { r.supplier = kNobody; }), ElementsAre("supplier"));
  EXPECT_THAT(column(&SmallShop::line_under_way, [](OrderLine& r) { r.part = kNoPart; }),
              ElementsAre("part"));
  EXPECT_THAT(column(&SmallShop::line_under_way, [](OrderLine& r) { r.order = kNoOrder; }),
              ElementsAre("order"));
  EXPECT_THAT(column(&SmallShop::line_under_way, [](OrderLine& r) { r.for_machine = kNoMachine; }),
              ElementsAre("for"));
  EXPECT_THAT(column(&SmallShop::harvest, [](Harvest& r) { r.donor = kNoMachine; }), ElementsAre("donor"));
  EXPECT_THAT(column(&SmallShop::fitted_blade, [](Fitted& r) { r.from_donor = kNoMachine; }),
              Contains("from"));
  EXPECT_THAT(column(&SmallShop::part_sale, [](PartSale& r) { r.buyer = kNobody; }), ElementsAre("buyer"));
  EXPECT_THAT(column(&SmallShop::sale, [](Sale& r) { r.buyer = kNobody; }), ElementsAre("buyer"));
  EXPECT_THAT(column(&SmallShop::trip, [](Trip& r) { r.acquisition = AcquisitionId{9999}; }),
              ElementsAre("acquisition"));
  EXPECT_THAT(column(&SmallShop::photo, [](Photo& r) { r.machine = kNoMachine; }), ElementsAre("machine"));
  EXPECT_THAT(column(&SmallShop::bought, [](Find& r) { r.machine = kNoMachine; }), ElementsAre("machine"));
  EXPECT_THAT(column(&SmallShop::answer, [](FindAnswer& r) { r.find = FindId{9999}; }), ElementsAre("find"));
  EXPECT_THAT(column(&SmallShop::own_number, [](OwnNumber& r) { r.machine = kNoMachine; }),
              ElementsAre("machine"));
  EXPECT_THAT(column(&SmallShop::forecast, [](Forecast& r) { r.fault = FaultId{9999}; }),
              ElementsAre("fault"));
  EXPECT_THAT(column(&SmallShop::forecast_cause, [](ForecastCause& r) { r.forecast = ForecastId{9999}; }),
              ElementsAre("forecast"));
  EXPECT_THAT(column(&SmallShop::listing_text, [](ListingText& r) { r.machine = kNoMachine; }),
              ElementsAre("machine"));
  EXPECT_THAT(column(&SmallShop::deposit, [](Deposit& r) { r.offer = OfferId{9999}; }), ElementsAre("offer"));
}

TEST(References, OfAFindingNameAFaultOfItsMachine) {
  SmallShop s;
  const FindingId finding = s.add(
      Finding{.machine = s.m2, .date = day("2026-03-08"), .step = "x", .outcome = "y", .fault = s.fault});
  const ForecastId forecast = s.add(Forecast{.machine = s.m2, .fault = s.fault, .date = day("2026-03-08")});
  EXPECT_THAT(broken(s.shop), ElementsAre(Broken{finding, "fault", "F1"}, Broken{forecast, "fault", "F1"}));
}

TEST(OrderOfDays, RefusesWhatIsDatedBeforeTheMachineCameIn) {
  SmallShop s;
  const Date early = day("2026-03-01");
  const std::vector<AnyId> ids{
      s.add(Fault{.code = "F9", .machine = s.m2, .date = early, .symptom = "x"}),
      s.add(Finding{.machine = s.m2, .date = early, .step = "x", .outcome = "y"}),
      s.add(Labour{.machine = s.m2, .date = early, .minutes = {1}}),
      s.add(Labour{.acquisition = s.lot, .date = early, .minutes = {1}}),
      s.add(Material{.machine = s.m2, .date = early, .what = "x"}),
      s.add(Listing{.machine = s.m2, .date = early}),
      s.add(Offer{.machine = s.m2, .date = early}),
      s.add(Trip{.date = early, .purpose = "x", .machine = s.m2}),
      s.add(Trip{.date = early, .purpose = "x", .acquisition = s.lot}),
  };
  std::vector<Broken> expected;
  for (const AnyId& id : ids)
    expected.push_back({id, "date", "2026-03-01"});
  EXPECT_EQ(broken(s.shop), expected);
}

TEST(OrderOfDays, RefusesSalesReturnsAndDisposalsOutOfTurn) {
  SmallShop sold_twice;
  const SaleId sale = sold_twice.add(Sale{.machine = sold_twice.m1, .date = day("2026-04-10")});
  EXPECT_THAT(broken(sold_twice.shop), ElementsAre(Broken{sale, "date", "2026-04-10"}));
  SmallShop not_sold;
  const ReturnId comeback = not_sold.add(Return{.machine = not_sold.m2, .date = day("2026-04-10")});
  EXPECT_THAT(broken(not_sold.shop), ElementsAre(Broken{comeback, "date", "2026-04-10"}));
  SmallShop gone;
  const DisposalId disposal = gone.add(Disposal{.machine = gone.m1, .date = day("2026-04-10")});
  EXPECT_THAT(broken(gone.shop), Contains(Broken{disposal, "date", "2026-04-10"}));
  SmallShop too_early;
  const SaleId early = too_early.add(Sale{.machine = too_early.m2, .date = day("2026-03-01")});
  EXPECT_THAT(broken(too_early.shop), Contains(Broken{early, "date", "2026-03-01"}));
}

TEST(OrderOfDays, LetsWhatIsSpentAfterASaleStand) {
  SmallShop s;
  s.add(Material{.machine = s.m1, .date = day("2026-05-01"), .what = "cord", .cost = dollars(2)});
  s.add(Harvest{.donor = s.m3, .date = day("2026-05-01"), .part = s.blade});  // later than the hulk
  EXPECT_THAT(broken(s.shop), ElementsAre());
}

TEST(OrderOfDays, RefusesAnAllowanceOnAMachineNotSoldAtTheEndOfThatDay) {
  SmallShop s;
  const AllowanceId returned =
      s.add(Allowance{.machine = s.m1, .date = day("2026-03-25"), .amount = dollars(1)});
  const AllowanceId never =
      s.add(Allowance{.machine = s.m2, .date = day("2026-03-25"), .amount = dollars(1)});
  s.add(Allowance{.machine = s.m1, .date = day("2026-03-21"), .amount = dollars(1)});
  EXPECT_THAT(broken(s.shop),
              ElementsAre(Broken{returned, "date", "2026-03-25"}, Broken{never, "date", "2026-03-25"}));
}

TEST(Stages, GivenAgreeWithWhatHappened) {
  const auto agrees = [](MachineId SmallShop::*machine, Stage given) {
    SmallShop s;
    s.change(s.*machine, [&](Machine& r) { r.stage = given; });
    const auto wrong = broken(s.shop);
    if (wrong.empty()) return true;
    EXPECT_THAT(wrong, ElementsAre(Broken{s.*machine, "stage", std::string{word(given)}}));
    return false;
  };
  EXPECT_TRUE(agrees(&SmallShop::m1, Stage::sold));
  EXPECT_FALSE(agrees(&SmallShop::m1, Stage::on_the_bench));
  EXPECT_FALSE(agrees(&SmallShop::m1, Stage::kept));
  EXPECT_TRUE(agrees(&SmallShop::m2, Stage::for_sale));  // here is here
  EXPECT_FALSE(agrees(&SmallShop::m2, Stage::sold));
  EXPECT_TRUE(agrees(&SmallShop::m3, Stage::parted_out));
  EXPECT_FALSE(agrees(&SmallShop::m3, Stage::scrapped));
}

TEST(Donors, HaveAPartingAndWereHere) {
  SmallShop without;
  without.remove(without.disposal);
  EXPECT_THAT(broken(without.shop), ElementsAre(Broken{without.harvest, "donor", "3"}));
  SmallShop scrapped;
  scrapped.change(scrapped.disposal, [](Disposal& r) {
    r = Disposal{.id = r.id, .entered = r.entered, .machine = r.machine, .date = r.date};
  });
  EXPECT_THAT(broken(scrapped.shop), ElementsAre(Broken{scrapped.harvest, "donor", "3"}));
  SmallShop early;
  early.change(early.harvest, [](Harvest& r) { r.date = day("2026-03-01"); });
  EXPECT_THAT(broken(early.shop), ElementsAre(Broken{early.harvest, "date", "2026-03-01"}));
  SmallShop away;
  away.add(Sale{.machine = away.m3, .date = day("2026-03-03")});
  away.add(Return{.machine = away.m3, .date = day("2026-03-05")});
  const HarvestId harvest =
      away.add(Harvest{.donor = away.m3, .date = day("2026-03-04"), .part = away.blade});
  EXPECT_THAT(broken(away.shop), ElementsAre(Broken{harvest, "date", "2026-03-04"}));
}

TEST(Hulks, AreOfDonorsAlone) {
  const auto column = [](auto&& edit) {
    SmallShop s;
    s.remove(s.fitted_blade);
    s.remove(s.harvest);
    s.change(s.disposal, edit);
    const auto wrong = broken(s.shop);
    return wrong.size() == 1 ? wrong.front().field + " " + wrong.front().value : std::to_string(wrong.size());
  };
  EXPECT_EQ(column([](Disposal& r) {
              r.how = DisposalKind::scrapped;
              r.hulk_gone.reset();
            }),
            "hulk_value 5.00");
  EXPECT_EQ(column([](Disposal& r) {
              r.how = DisposalKind::scrapped;
              r.hulk_value = Money{};
            }),
            "hulk_gone 2026-03-28");
  EXPECT_EQ(column([](Disposal& r) {
              r.how = DisposalKind::scrapped;
              r.hulk_value.reset();
              r.hulk_gone.reset();
              r.hulk_here = true;
            }),
            "hulk_gone here");
  EXPECT_EQ(column([](Disposal& r) { r.hulk_gone = day("2026-03-06"); }), "hulk_gone 2026-03-06");
  EXPECT_EQ(column([](Disposal& r) {
              r.hulk_gone.reset();
              r.hulk_here = true;
            }),
            "proceeds 4.20");
  EXPECT_EQ(column([](Disposal& r) {
              r = Disposal{.id = r.id, .entered = r.entered, .machine = r.machine, .date = r.date};
              r.how = DisposalKind::kept;
              r.proceeds = dollars(1);
            }),
            "proceeds 1.00");
  EXPECT_EQ(column([](Disposal& r) {
              r.how = DisposalKind::scrapped;
              r.hulk_value = Money{};
              r.hulk_gone.reset();
            }),
            "0");  // zero counts as empty
}

TEST(Stock, IsThereOnTheDayItIsUsed) {
  SmallShop s;
  const FittedId fitted =
      s.add(Fitted{.machine = s.m2, .date = day("2026-03-13"), .part = s.plug, .quantity = 2});
  EXPECT_THAT(broken(s.shop), ElementsAre(Broken{fitted, "quantity", "2"}));
}

TEST(Lots, BringInAMachineAndOrdersHaveLines) {
  SmallShop s;
  const AcquisitionId acquisition = s.add(Acquisition{.code = "A9", .date = day("2026-03-08")});
  const OrderId order = s.add(Order{.code = "O9", .date = day("2026-03-08")});
  EXPECT_THAT(broken(s.shop),
              ElementsAre(Broken{acquisition, "acquisition", "A9"}, Broken{order, "order", "O9"}));
}

TEST(OpeningLines, LieInTheYearOfTheFirstDate) {
  SmallShop s;
  s.add(Expense{.date = day("2025-12-31"), .category = "supplies", .amount = dollars(1)});
  s.change(s.order, [](Order& r) { r.opening = true; });
  EXPECT_THAT(broken(s.shop),
              ElementsAre(Broken{s.lot, "opening", "yes"}, Broken{s.order, "opening", "yes"}));
  SmallShop under_way;
  under_way.change(under_way.under_way, [](Order& r) { r.opening = true; });
  EXPECT_THAT(broken(under_way.shop), ElementsAre(Broken{under_way.under_way, "opening", "yes"}));
}

TEST(OpeningLines, AreNotMovedByWhatWasOnlySeen) {
  SmallShop s;
  s.add(Find{.date = day("2025-12-31")});
  s.change(s.answer, [](FindAnswer& r) { r.date = day("2025-12-31"); });
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(BrokenRules, AreToldByTableThenByTheOrderEntered) {
  SmallShop s;
  const ExpenseId expense = s.add(Expense{.date = day("2026-03-08"), .amount = dollars(1)});
  const LabourId later = s.add(Labour{.machine = s.m2, .date = day("2026-03-01")});
  s.change(s.labour, [](Labour& r) { r.date = day("2026-03-01"); });
  EXPECT_THAT(broken(s.shop),
              ElementsAre(Broken{s.labour, "date", "2026-03-01"}, Broken{later, "date", "2026-03-01"},
                          Broken{expense, "category", ""}));
}

}  // namespace
}  // namespace secondpull
