#include "db/exchange/single_sheet.h"

#include <gmock/gmock.h>

#include "tests/db/exchange/folders.h"

namespace secondpull::db {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const SheetKind& kind_named(const std::string& name) {
  const auto& kinds = sheet_kinds();
  return *std::find_if(kinds.begin(), kinds.end(), [&](const SheetKind& kind) { return kind.name == name; });
}

SingleSheet sheet_of(const std::string& text) {
  return SingleSheet::of(text, "mowers.csv").value();
}

/// Read with the columns guessed from their names.
ImportResult read_guessed(const std::string& text, const std::string& kind, const Shop& existing = {},
                          DayOrder order = DayOrder::month_day_year) {
  const SingleSheet sheet = sheet_of(text);
  return read_single_sheet(sheet, kind_named(kind), guess_columns(sheet, kind_named(kind)), order, existing);
}

std::vector<std::string> places_of(const ImportResult& result) {
  std::vector<std::string> all;
  for (const ImportError& error : result.errors)
    all.push_back(place(error));
  return all;
}

Date day(int year, unsigned month, unsigned number) {
  return std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{number};
}

TEST(SingleSheet, GivesMachinesWithWhatTheyCostAndBroughtByItsOwnColumnNames) {
  const ImportResult read = read_guessed(
      "No., Type ,Brand,Date bought,Paid,Date sold,Sale price,Colour\n"
      "1,Push,Tarnwick,3/4/26,\"$1,040.50\",5/1/2026,$160,red\n"
      "2,,Ostrel,2026-03-05,25,,,green\n",
      "machines");
  ASSERT_THAT(places_of(read), IsEmpty());
  ASSERT_EQ(read.shop.all<Machine>().size(), 2u);
  const Machine& first = *read.shop.all<Machine>().begin();
  EXPECT_EQ(first.tag, "1");
  EXPECT_EQ(first.kind, MachineKind::push);
  EXPECT_EQ(first.make, "Tarnwick");
  const Acquisition& in = *read.shop.find(first.acquisition);
  EXPECT_EQ(in.date, day(2026, 3, 4));
  EXPECT_EQ(in.price, Money::from_minor(104050));
  EXPECT_EQ(in.source, Source::other);
  ASSERT_EQ(read.shop.all<Sale>().size(), 1u);
  EXPECT_EQ(read.shop.all<Sale>().begin()->date, day(2026, 5, 1));
  EXPECT_EQ(read.shop.all<Sale>().begin()->price, Money::from_minor(16000));
  EXPECT_EQ(std::next(read.shop.all<Machine>().begin())->kind, MachineKind::other);
}

TEST(SingleSheet, TellsErrorsByItsOwnLinesAndColumns) {
  const ImportResult read = read_guessed(
      "Tag,Brand,Bought,Paid,Sold\n"
      "1,\"two\nlines\",3/4/26,40,\n"
      "\n"
      "2,Ostrel,31/12/25,ten,\n"
      "1,Ostrel,3/4/26,40,1/1/26\n",
      "machines");
  EXPECT_THAT(places_of(read), ElementsAre("mowers.csv:5:Bought:31/12/25", "mowers.csv:5:Paid:ten",
                                           "mowers.csv:6:Tag:1", "mowers.csv:6:sold for:"));
}

TEST(SingleSheet, ReadsDaysInTheOrderSaid) {
  for (const auto& [order, expected] : {std::pair{DayOrder::month_day_year, day(2026, 3, 4)},
                                        std::pair{DayOrder::day_month_year, day(2026, 4, 3)}}) {
    const ImportResult read = read_guessed("tag,bought\n1,3.4.2026\n", "machines", {}, order);
    ASSERT_THAT(places_of(read), IsEmpty());
    EXPECT_EQ(read.shop.all<Acquisition>().begin()->date, expected);
  }
}

TEST(SingleSheet, WantsAColumnForWhatEveryLineNeeds) {
  const ImportResult read = read_guessed("colour\nred\n", "machines");
  ASSERT_EQ(read.errors.size(), 2u);
  EXPECT_EQ(place(read.errors[0]), "mowers.csv:1:tag:");
  EXPECT_EQ(place(read.errors[1]), "mowers.csv:1:came in on:");
}

TEST(SingleSheet, AddsToAShopWithoutTakingItsCodesOrItsSettings) {
  Shop shop = shop_of({{"acquisitions.csv", "acquisition,date,source\n7,2026-03-02,curb\n"},
                       {"machines.csv", "tag,acquisition,kind\nM1,7,push\n"}});
  const ImportResult read = read_guessed("tag,bought\n7,3/4/26\n", "machines", shop);
  ASSERT_THAT(places_of(read), IsEmpty());
  EXPECT_EQ(read.shop.all<Acquisition>().size(), 2u);
  EXPECT_EQ(read.shop.settings, shop.settings);
}

TEST(SingleSheet, GivesAnyOtherTableToo) {
  const ImportResult read = read_guessed("Person,Name,Phone\nP1,Ruel, 555 0101 \n", "people");
  ASSERT_THAT(places_of(read), IsEmpty());
  EXPECT_EQ(read.shop.all<Person>().begin()->phone, "555 0101");
  for (const SheetKind& kind : sheet_kinds())
    EXPECT_FALSE(kind.fields.empty()) << kind.name;
}

TEST(SingleSheet, LeavesWhatIsNoDayOrAmountForTheErrorToName) {
  const ImportResult read = read_guessed("tag,bought,paid\n1,3/4,\"1,2\"\n", "machines");
  EXPECT_THAT(places_of(read), ElementsAre("mowers.csv:2:bought:3/4", "mowers.csv:2:paid:1,2"));
}

TEST(SingleSheet, RefusesWhatIsNoSheet) {
  EXPECT_THAT(SingleSheet::of("", "a.csv").error().sentence, HasSubstr("a.csv"));
  EXPECT_THAT(SingleSheet::of("tag\n,\n", "a.csv").error().sentence, HasSubstr("no line"));
  EXPECT_THAT(SingleSheet::of("tag\n\"1\n", "a.csv").error().sentence, HasSubstr("line 2"));
  EXPECT_FALSE(SingleSheet::open("/nowhere/at/all.csv"));
}

}  // namespace
}  // namespace secondpull::db
