#include <string>

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include "tests/app/cli/program.h"

namespace secondpull::cli {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;
using Json = nlohmann::ordered_json;

const std::string kData = SECONDPULL_SOURCE_DIR "/tests/db/exchange/data/";

class BooksOfAYear : public testing::Test {
 protected:
  Outcome run(std::vector<std::string> arguments) { return desk.run(arguments); }
  void import_folder(const std::string& folder) {
    const Outcome import = run({"import", folder, "--shop", "shop"});
    ASSERT_EQ(import.status, 0) << import.err;
  }
  void import_month() { import_folder(kData + "worked-month"); }
  Desk desk;
};

TEST_F(BooksOfAYear, AreThoseOfTheWorkedMonthToTheCentWithTheirKeysInOrder) {
  import_month();
  const Outcome books = run({"books", "2026", "--shop", "shop", "--json"});
  EXPECT_EQ(books.status, 0) << books.err;
  EXPECT_EQ(Json::parse(books.out).dump(1),
            Json::parse(desk.read(kData + "worked-month/books-2026.json")).dump(1));
}

TEST_F(BooksOfAYear, AreLaidOutByTheLinesOfTheFormAndSayThatTheyAreNoTaxAdvice) {
  import_month();
  const Outcome books = run({"books", "2026", "--shop", "shop"});
  EXPECT_EQ(books.status, 0) << books.err;
  EXPECT_THAT(books.out, HasSubstr("  36  Purchases less what was withdrawn for own use  125.43"));
  EXPECT_THAT(books.out, HasSubstr("  31  Net profit or loss"));
  EXPECT_THAT(books.out, HasSubstr("by the stock: 92.10; by the movements: 92.10: the same"));
  EXPECT_THAT(books.out, HasSubstr("no tax advice"));
}

TEST_F(BooksOfAYear, ExplainAFigureDownToItsEvents) {
  import_month();
  const Outcome why = run({"books", "2026", "--shop", "shop", "--explain", "purchases"});
  EXPECT_EQ(why.status, 0) << why.err;
  EXPECT_THAT(why.out, StartsWith("purchases: 125.43"));
  EXPECT_THAT(why.out, HasSubstr("2026-03-02  acquired L1"));
  EXPECT_THAT(why.out, HasSubstr("25.43"));
  const Outcome every = run({"books", "2026", "--shop", "shop", "--explain", "--json"});
  EXPECT_EQ(every.status, 0) << every.err;
  const Json json = Json::parse(every.out);
  EXPECT_EQ(json["net_profit"], "72.17");
  EXPECT_EQ(json["explained"].front()["figure"], "gross_receipts");
  const Outcome unknown = run({"books", "2026", "--shop", "shop", "--explain", "luck"});
  EXPECT_EQ(unknown.status, 2);
  EXPECT_THAT(unknown.err, HasSubstr("\"luck\""));
  EXPECT_THAT(unknown.err, HasSubstr("net_profit"));
}

TEST_F(BooksOfAYear, GoDownToTheLinesOfOneMachine) {
  import_month();
  const Outcome why = run({"machines", "--shop", "shop", "--explain", "M1"});
  EXPECT_EQ(why.status, 0) << why.err;
  EXPECT_THAT(why.out, HasSubstr("2026-03-02  share of lot L1"));
  EXPECT_THAT(why.out, HasSubstr("profit                        77.76"));
  const Outcome unknown = run({"machines", "--shop", "shop", "--explain", "M9"});
  EXPECT_EQ(unknown.status, 2);
  EXPECT_THAT(unknown.err, HasSubstr("\"M9\""));
}

TEST_F(BooksOfAYear, OfAYearWithATripWithoutARateAreRefusedAndOthersAreNot) {
  desk.write("in/shop.csv", "name,currency\nYard,USD\n");
  desk.write("in/trips.csv", "date,miles,purpose\n2011-05-06,10,fetch\n2026-01-05,10,fetch\n");
  import_folder("in");
  const Outcome refused = run({"books", "2011", "--shop", "shop", "--json"});
  EXPECT_EQ(refused.status, 1);
  EXPECT_THAT(refused.out, IsEmpty());
  EXPECT_THAT(refused.err, HasSubstr("2011-05-06"));
  const Outcome other = run({"books", "2026", "--shop", "shop", "--json"});
  EXPECT_EQ(other.status, 0) << other.err;
  EXPECT_EQ(Json::parse(other.out)["car_and_truck"], "7.25");
  EXPECT_EQ(run({"journal", "--shop", "shop"}).status, 1);
}

TEST_F(BooksOfAYear, ComeInTheDigitsOfTheCurrencyAndWithoutTaxOrMileageOutsideTheUs) {
  for (const auto& [code, price] : {std::pair{"JPY", "100"}, std::pair{"KWD", "100.125"}}) {
    desk.write("in/shop.csv", std::string{"name,currency\nYard,"} + code + "\n");
    desk.write("in/acquisitions.csv",
               std::string{"acquisition,date,source,price\nL1,2026-03-02,private,"} + price + "\n");
    desk.write("in/machines.csv", "tag,acquisition,kind\nM1,L1,push\n");
    desk.write("in/trips.csv", "date,miles,purpose\n2011-05-06,12.5,fetch\n2026-05-06,12.5,fetch\n");
    const std::string shop = code;
    ASSERT_EQ(run({"import", "in", "--shop", shop}).status, 0);
    const Json year = Json::parse(run({"books", "2026", "--shop", shop, "--json"}).out);
    EXPECT_EQ(year["purchases"], price);
    EXPECT_EQ(year["closing_inventory"], price);
    EXPECT_EQ(year["car_and_truck"], code == std::string{"JPY"} ? "0" : "0.000");
    EXPECT_EQ(year["self_employment_tax"], nullptr);
    EXPECT_EQ(year["miles"], "12.5");
  }
}

TEST_F(BooksOfAYear, WantAYear) {
  import_month();
  for (const std::string year : {"0", "twenty", "20260"}) {
    const Outcome refused = run({"books", year, "--shop", "shop"});
    EXPECT_EQ(refused.status, 2) << year;
    EXPECT_THAT(refused.err, HasSubstr(year));
  }
}

TEST_F(BooksOfAYear, StandInTheJournalWithTheMachineAndTheEvent) {
  import_month();
  const Outcome journal = run({"journal", "--shop", "shop"});
  EXPECT_EQ(journal.status, 0) << journal.err;
  EXPECT_THAT(journal.out, HasSubstr("    Assets:Machines:M1  60.00 USD  ; tag: M1"));
  EXPECT_THAT(journal.out, HasSubstr("    ; event: sale "));
  EXPECT_THAT(journal.out, HasSubstr("    Income:Sales  -185.00 USD  ; tag: M1"));
  EXPECT_THAT(journal.out, HasSubstr("    Expenses:Cost of goods  90.43 USD  ; tag: M1"));
}

}  // namespace
}  // namespace secondpull::cli
