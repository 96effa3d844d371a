#include "core/shop/finds.h"

#include <gmock/gmock.h>

#include "tests/core/shop/small_shop.h"

namespace secondpull {
namespace {

using test::day;
using test::dollars;
using test::SmallShop;
using testing::HasSubstr;

constexpr FindId kNoFind{9999};

/// The records of a kind that the change adds.
template <class Record>
std::vector<Record> added(const Change& change) {
  std::vector<Record> all;
  for (const Edit& edit : change.edits())
    if (const auto* const record = std::get_if<Record>(&edit.record); record && edit.kind == EditKind::add)
      all.push_back(*record);
  return all;
}

std::string refused(const Result<Change>& change) {
  EXPECT_FALSE(change);
  if (change) return "";
  EXPECT_FALSE(change.error().sentence.empty());
  return change.error().field;
}

TEST(NoteFind, KeepsWhatIsKnownAndSaysWhatItIs) {
  const SmallShop s;
  const auto change = note_find(s.shop, {.date = day("2026-05-02"),
                                         .kind = MachineKind::blower,
                                         .make = " Ollenby ",
                                         .symptom = "surges",
                                         .asking = dollars(25),
                                         .miles = Tenths{90},
                                         .place = "Quell"});
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Noted Ollenby, asking $25");
  const auto finds = added<Find>(*change);
  ASSERT_EQ(finds.size(), 1u);
  EXPECT_EQ(finds.front().kind, MachineKind::blower);
  EXPECT_EQ(finds.front().make, "Ollenby");
  EXPECT_EQ(finds.front().miles, Tenths{90});
  EXPECT_EQ(finds.front().how, std::nullopt);
  EXPECT_EQ(note_find(s.shop, {.date = day("2026-05-02")})->title(), "Noted push mower, free");
}

TEST(NoteFind, KeepsWhatTheSellerSaidSoFarInTheSameAction) {
  const SmallShop s;
  const auto change = note_find(s.shop, {.date = day("2026-05-02"), .said = {{" fuel ", "stale"}}});
  ASSERT_TRUE(change);
  const auto answers = added<FindAnswer>(*change);
  ASSERT_EQ(answers.size(), 1u);
  EXPECT_EQ(answers.front().find, added<Find>(*change).front().id);
  EXPECT_EQ(answers.front().test, "fuel");
  EXPECT_EQ(answers.front().outcome, "stale");
  EXPECT_EQ(answers.front().date, day("2026-05-02"));
  EXPECT_EQ(refused(note_find(s.shop, {.date = day("2026-05-02"), .said = {{"", "stale"}}})), "test");
}

TEST(NoteFind, RefusesWhatARecordCannotHold) {
  const Shop shop;
  const Date date = day("2026-05-02");
  EXPECT_EQ(refused(note_find(shop, {})), "date");
  EXPECT_EQ(refused(note_find(shop, {.date = date, .year = 0})), "year");
  EXPECT_EQ(refused(note_find(shop, {.date = date, .asking = dollars(-1)})), "asking");
  EXPECT_EQ(refused(note_find(shop, {.date = date, .miles = Tenths{-1}})), "miles");
  EXPECT_EQ(refused(note_find(shop, {.date = date, .minutes = Minutes{-1}})), "minutes");
  EXPECT_EQ(refused(note_find(shop, {.date = date, .pickup_cost = dollars(-1)})), "pickup_cost");
}

TEST(ChangeFind, NamesWhatChanged) {
  SmallShop s;
  Find changed = *s.shop.find(s.find);
  EXPECT_TRUE(change_find(s.shop, changed)->empty());
  changed.asking = dollars(30);
  changed.symptom = "surges";
  const auto change = change_find(s.shop, changed);
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Changed the find Tarnwick TW-2: symptom and asking price");
  s.carry_out(change);
  EXPECT_EQ(*s.shop.find(s.find), changed);
  changed.id = kNoFind;
  EXPECT_EQ(refused(change_find(s.shop, changed)), "find");
}

TEST(ChangeFind, OpensAgainWhatWasPassedOnButBuysNothing) {
  SmallShop s;
  s.carry_out(pass_on_find(s.shop, s.find, day("2026-04-05"), FindEnd::passed_on, ""));
  Find again = *s.shop.find(s.find);
  again.how.reset();
  EXPECT_EQ(refused(change_find(s.shop, again)), "how") << "ended, and nobody says how";
  again.ended.reset();
  s.carry_out(change_find(s.shop, again));
  EXPECT_EQ(s.shop.find(s.find)->ended, std::nullopt);
  again.ended = day("2026-04-02");
  again.how = FindEnd::gone;
  EXPECT_EQ(refused(change_find(s.shop, again)), "ended") << "before it was seen";
  again.ended = day("2026-04-05");
  again.how = FindEnd::bought;
  EXPECT_EQ(refused(change_find(s.shop, again)), "how");
}

TEST(ChangeFind, LeavesThePurchaseOfABoughtOneAsItIs) {
  SmallShop s;
  Find changed = *s.shop.find(s.bought);
  changed.note = "rusty";
  changed.how.reset();
  changed.ended.reset();
  changed.machine = s.m1;
  s.carry_out(change_find(s.shop, changed));
  const Find& kept = *s.shop.find(s.bought);
  EXPECT_EQ(kept.note, "rusty");
  EXPECT_EQ(kept.how, FindEnd::bought);
  EXPECT_EQ(kept.ended, day("2026-03-02"));
  EXPECT_EQ(kept.machine, s.m2);
  changed.date = day("2026-03-03");
  EXPECT_EQ(refused(change_find(s.shop, changed)), "date") << "after it was bought";
}

TEST(AnswerFind, KeepsOneAnswerToEachTest) {
  SmallShop s;
  const auto first = answer_find(s.shop, s.find, day("2026-04-04"), "smokes", " blue ");
  ASSERT_TRUE(first);
  EXPECT_EQ(first->title(), "Said of Tarnwick TW-2: smokes, blue");
  s.carry_out(first);
  ASSERT_EQ(s.shop.all<FindAnswer>().size(), 2u);
  EXPECT_TRUE(answer_find(s.shop, s.find, day("2026-04-05"), "smokes", "blue")->empty());
  s.carry_out(answer_find(s.shop, s.find, day("2026-04-05"), "smokes", "white"));
  ASSERT_EQ(s.shop.all<FindAnswer>().size(), 2u);
  const FindAnswer& second = *std::prev(s.shop.all<FindAnswer>().end());
  EXPECT_EQ(second.outcome, "white");
  EXPECT_EQ(second.date, day("2026-04-05"));
  s.carry_out(answer_find(s.shop, s.find, day("2026-04-05"), "smokes", ""));
  EXPECT_EQ(s.shop.all<FindAnswer>().size(), 1u);
  EXPECT_TRUE(answer_find(s.shop, s.find, day("2026-04-05"), "smokes", "")->empty());
}

TEST(AnswerFind, IsRefusedWithoutATestOrOnceBought) {
  const SmallShop s;
  const Date date = day("2026-04-04");
  EXPECT_EQ(refused(answer_find(s.shop, kNoFind, date, "smokes", "blue")), "find");
  EXPECT_EQ(refused(answer_find(s.shop, s.bought, date, "smokes", "blue")), "find");
  EXPECT_EQ(refused(answer_find(s.shop, s.find, date, " ", "blue")), "test");
  EXPECT_EQ(refused(answer_find(s.shop, s.find, Date{}, "smokes", "blue")), "date");
}

TEST(PassOnFind, EndsItWithTheReasonBehindItsNote) {
  SmallShop s;
  s.change(s.find, [](Find& r) { r.note = "by the road"; });
  const auto change = pass_on_find(s.shop, s.find, day("2026-04-05"), FindEnd::passed_on, "too far");
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Passed on: Tarnwick TW-2");
  s.carry_out(change);
  const Find& ended = *s.shop.find(s.find);
  EXPECT_EQ(ended.how, FindEnd::passed_on);
  EXPECT_EQ(ended.ended, day("2026-04-05"));
  EXPECT_EQ(ended.note, "by the road; too far");
  EXPECT_EQ(pass_on_find(s.shop, s.find, day("2026-04-06"), FindEnd::gone, "")->title(),
            "Gone: Tarnwick TW-2");
}

TEST(PassOnFind, IsNoWayToBuyAndNothingForWhatWasBought) {
  const SmallShop s;
  const Date date = day("2026-04-05");
  EXPECT_EQ(refused(pass_on_find(s.shop, s.find, date, FindEnd::bought, "")), "how");
  EXPECT_EQ(refused(pass_on_find(s.shop, s.bought, date, FindEnd::gone, "")), "find");
  EXPECT_EQ(refused(pass_on_find(s.shop, s.find, day("2026-04-02"), FindEnd::gone, "")), "ended");
  EXPECT_EQ(refused(pass_on_find(s.shop, kNoFind, date, FindEnd::gone, "")), "find");
}

TEST(BuyFind, LogsTheMachineWithItsFaultAndWhatItsSellerSaid) {
  SmallShop s;
  s.carry_out(answer_find(s.shop, s.find, day("2026-04-04"), "smokes", "blue"));
  const auto change = buy_find(s.shop, s.find,
                               {.date = day("2026-04-06"),
                                .from = {.new_name = "Hale Ostrin"},
                                .price = dollars(35),
                                .miles = Tenths{180},
                                .minutes = Minutes{50},
                                .tag = "61"});
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Bought Tarnwick TW-2 as #61 for $35");
  s.carry_out(change);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");

  const auto machines = added<Machine>(*change);
  ASSERT_EQ(machines.size(), 1u);
  EXPECT_EQ(machines.front().make, "Tarnwick");
  EXPECT_EQ(machines.front().year, 2014);
  EXPECT_EQ(machines.front().symptom, "cranks, will not start");
  const Acquisition& acquisition = *s.shop.find(machines.front().acquisition);
  EXPECT_EQ(acquisition.price, dollars(35));
  EXPECT_EQ(s.shop.find(*acquisition.from)->name, "Hale Ostrin");
  ASSERT_EQ(added<Trip>(*change).size(), 1u);
  EXPECT_EQ(added<Trip>(*change).front().destination, "Ovenden");
  EXPECT_EQ(added<Labour>(*change).front().minutes, Minutes{50});

  const Find& find = *s.shop.find(s.find);
  EXPECT_EQ(find.how, FindEnd::bought);
  EXPECT_EQ(find.ended, day("2026-04-06"));
  EXPECT_EQ(find.machine, machines.front().id);

  const auto faults = added<Fault>(*change);
  ASSERT_EQ(faults.size(), 1u);
  EXPECT_EQ(faults.front().symptom, "cranks, will not start");
  EXPECT_EQ(faults.front().date, day("2026-04-06"));
  const auto findings = added<Finding>(*change);
  ASSERT_EQ(findings.size(), 2u);
  EXPECT_EQ(findings.back().machine, machines.front().id);
  EXPECT_EQ(findings.back().step, "smokes");
  EXPECT_EQ(findings.back().outcome, "blue");
  EXPECT_EQ(findings.back().fault, faults.front().id);
  EXPECT_EQ(findings.back().date, day("2026-04-06"));
  EXPECT_EQ(findings.back().note, "said by the seller");
}

TEST(BuyFind, OpensNoFaultWhereNoSymptomIsKnown) {
  SmallShop s;
  s.change(s.find, [](Find& r) { r.symptom.clear(); });
  const auto change = buy_find(s.shop, s.find, {.date = day("2026-04-06"), .source = Source::curb});
  ASSERT_TRUE(change);
  EXPECT_EQ(change->title(), "Got Tarnwick TW-2 as #5 for nothing");
  EXPECT_TRUE(added<Fault>(*change).empty());
  ASSERT_EQ(added<Finding>(*change).size(), 1u);
  EXPECT_EQ(added<Finding>(*change).front().fault, std::nullopt);
  s.carry_out(change);
  EXPECT_EQ(test::told(broken_rules(s.shop)), "");
}

TEST(BuyFind, TakesOneThatWasPassedOnButNoneTwice) {
  SmallShop s;
  s.carry_out(pass_on_find(s.shop, s.find, day("2026-04-05"), FindEnd::passed_on, ""));
  s.carry_out(buy_find(s.shop, s.find, {.date = day("2026-04-06"), .price = dollars(20)}));
  EXPECT_EQ(s.shop.find(s.find)->how, FindEnd::bought);
  const auto twice = buy_find(s.shop, s.find, {.date = day("2026-04-07")});
  EXPECT_EQ(refused(twice), "find");
  EXPECT_THAT(twice.error().sentence, HasSubstr("6 April 2026"));
}

TEST(BuyFind, RefusesWhatLoggingRefuses) {
  const SmallShop s;
  const Date date = day("2026-04-06");
  EXPECT_EQ(refused(buy_find(s.shop, kNoFind, {.date = date})), "find");
  EXPECT_EQ(refused(buy_find(s.shop, s.find, {.date = day("2026-04-02")})), "date");
  EXPECT_EQ(refused(buy_find(s.shop, s.find, {.date = date, .price = dollars(-1)})), "price");
  EXPECT_EQ(refused(buy_find(s.shop, s.find, {.date = date, .tag = "1"})), "tag");
}

}  // namespace
}  // namespace secondpull
