#include <string>

#include <gmock/gmock.h>
#include <nlohmann/json.hpp>

#include "tests/app/cli/program.h"

namespace secondpull::cli {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using Json = nlohmann::ordered_json;

const std::string kData = SECONDPULL_SOURCE_DIR "/tests/db/exchange/data/";

class Cli : public testing::Test {
 protected:
  Outcome run(std::vector<std::string> arguments) { return desk.run(arguments); }
  void expect_done(const Outcome& run) {
    EXPECT_EQ(run.status, 0) << run.err;
    EXPECT_THAT(run.err, IsEmpty());
  }
  void import_month(const std::string& shop = "shop") {
    expect_done(run({"import", kData + "worked-month", "--shop", shop}));
  }
  Desk desk;
};

TEST_F(Cli, GivesTheWorkedMonthAsJsonToTheCentWithItsKeysInOrder) {
  for (const std::string month : {"worked-month", "worked-month-basic"}) {
    expect_done(run({"import", kData + month, "--shop", month}));
    const Outcome machines = run({"machines", "--shop", month, "--json"});
    expect_done(machines);
    // Ordered: the keys must come in the order that the exchange format names.
    EXPECT_EQ(Json::parse(machines.out).dump(1),
              Json::parse(desk.read(kData + month + "/machines.json")).dump(1));
  }
}

TEST_F(Cli, ShowsMachinesAsAnAlignedTable) {
  import_month();
  const Outcome machines = run({"machines", "--shop", "shop"});
  expect_done(machines);
  EXPECT_THAT(machines.out, HasSubstr("Tag  Kind            Stage        Acquired"));
  EXPECT_THAT(machines.out,
              HasSubstr("M1   self-propelled  sold         2026-03-02  2026-03-21       90.43"));
  EXPECT_THAT(machines.out, Not(HasSubstr(" \n")));
}

TEST_F(Cli, GivesAnEmptyArrayForAShopWithoutMachines) {
  desk.write("in/shop.csv", "name,currency\nEmpty Yard,JPY\n");
  expect_done(run({"import", "in", "--shop", "shop"}));
  EXPECT_EQ(Json::parse(run({"machines", "--shop", "shop", "--json"}).out), Json::array());
}

TEST_F(Cli, TellsEveryErrorOfAnImportOnALineOfItsOwnAndMakesNoShop) {
  desk.write("in/shop.csv", "name,currency\nYard,USD\n");
  desk.write("in/acquisitions.csv", "acquisition,date,source\nL1,2026-03-32,curb\n");
  desk.write("in/machines.csv", "tag,acquisition,kind\nM1,L1,pusher\nM2,L2,push\n");
  const Outcome import = run({"import", "in", "--shop", "shop"});
  EXPECT_EQ(import.status, 2);
  EXPECT_THAT(import.out, IsEmpty());
  EXPECT_THAT(import.err, HasSubstr("acquisitions.csv:2: date: "));
  EXPECT_THAT(import.err, HasSubstr("\"2026-03-32\""));
  EXPECT_THAT(import.err,
              HasSubstr("machines.csv:2: kind: \"pusher\" is not one of: push, self-propelled, "));
  EXPECT_THAT(import.err, HasSubstr("machines.csv:3: acquisition: There is no acquisition \"L2\""));
  EXPECT_THAT(import.err, HasSubstr("3 errors. Nothing was imported."));
  EXPECT_FALSE(desk.has("shop"));
}

TEST_F(Cli, NeedsTheWordAddForAShopThatHasRecords) {
  import_month();
  const std::string before = run({"machines", "--shop", "shop", "--json"}).out;
  desk.write("more/shop.csv", "name,currency\nYard,USD\n");
  desk.write("more/acquisitions.csv", "acquisition,date,source\nL2,2026-04-02,curb\n");
  desk.write("more/machines.csv", "tag,acquisition,kind\nM4,L2,push\n");
  desk.write("more/fitted.csv", "machine,date,part,quantity\nM4,2026-04-03,wheel-set,1\n");
  const Outcome refused = run({"import", "more", "--shop", "shop"});
  EXPECT_EQ(refused.status, 2);
  EXPECT_THAT(refused.err, HasSubstr("--add"));
  EXPECT_EQ(run({"machines", "--shop", "shop", "--json"}).out, before);
  expect_done(run({"import", "more", "--shop", "shop", "--add"}));
  const Json machines = Json::parse(run({"machines", "--shop", "shop", "--json"}).out);
  ASSERT_EQ(machines.size(), 4u);
  EXPECT_EQ(machines[3]["cost_basis"], "3.33");  // the donor's wheels, from the shelf
  const Outcome twice = run({"import", "more", "--shop", "shop", "--add"});
  EXPECT_EQ(twice.status, 2);
  EXPECT_THAT(twice.err, HasSubstr("machines.csv:2: tag: The tag \"M4\" is already in the shop."));
}

TEST_F(Cli, ExportsWhatItImported) {
  import_month();
  expect_done(run({"export", "out", "--shop", "shop"}));
  expect_done(run({"import", "out", "--shop", "again"}));
  expect_done(run({"export", "out2", "--shop", "again"}));
  for (const auto& entry : std::filesystem::directory_iterator{desk / "out"})
    EXPECT_EQ(desk.read(entry.path()), desk.read(desk / "out2" / entry.path().filename()));
  EXPECT_EQ(run({"machines", "--shop", "shop", "--json"}).out,
            run({"machines", "--shop", "again", "--json"}).out);
}

TEST_F(Cli, RefusesToExportBesideAnotherCsv) {
  import_month();
  desk.write("out/mine.csv", "x\n");
  const Outcome refused = run({"export", "out", "--shop", "shop"});
  EXPECT_EQ(refused.status, 2);
  EXPECT_THAT(refused.err, HasSubstr("mine.csv"));
  EXPECT_FALSE(desk.has("out/shop.csv"));
}

TEST_F(Cli, RefusesMachinesWithATripOnADayWithoutAPublishedRate) {
  desk.write("in/shop.csv", "name,currency\nYard,USD\n");
  desk.write("in/trips.csv", "date,miles,purpose\n2011-05-06,10,fetch\n");
  expect_done(run({"import", "in", "--shop", "shop"}));
  const Outcome machines = run({"machines", "--shop", "shop", "--json"});
  EXPECT_EQ(machines.status, 1);
  EXPECT_THAT(machines.out, IsEmpty());
  EXPECT_THAT(machines.err, HasSubstr("2011"));
  // In another currency trips cost nothing, so that none needs a rate.
  desk.write("in/shop.csv", "name,currency\nYard,EUR\n");
  expect_done(run({"import", "in", "--shop", "euro"}));
  expect_done(run({"machines", "--shop", "euro", "--json"}));
}

TEST_F(Cli, MakesADemoShopThatIsInOrderAndTheSameEveryTime) {
  expect_done(run({"demo", "--shop", "one"}));
  expect_done(run({"demo", "--shop", "two"}));
  const Outcome one = run({"machines", "--shop", "one", "--json"});
  expect_done(one);
  EXPECT_GT(Json::parse(one.out).size(), 50u);
  EXPECT_EQ(one.out, run({"machines", "--shop", "two", "--json"}).out);
  expect_done(run({"check", "--shop", "one"}));
  const Outcome again = run({"demo", "--shop", "one"});
  EXPECT_EQ(again.status, 2);
  EXPECT_THAT(again.err, HasSubstr("not empty"));
}

TEST_F(Cli, FindsWhatIsDamaged) {
  import_month();
  expect_done(run({"check", "--shop", "shop"}));
  std::string bytes = desk.read(desk / "shop/shop.sqlite");
  for (std::size_t at = 4096; at < bytes.size(); ++at)
    bytes[at] = '\x55';
  desk.write("shop/shop.sqlite", bytes);
  const Outcome check = run({"check", "--shop", "shop"});
  EXPECT_EQ(check.status, 1);
  EXPECT_THAT(check.out, IsEmpty());
  EXPECT_THAT(check.err, Not(IsEmpty()));
}

TEST_F(Cli, BacksUpAndRestores) {
  import_month();
  expect_done(run({"backup", "month.tar.gz", "--shop", "shop"}));
  expect_done(run({"restore", "month.tar.gz", "--shop", "restored"}));
  expect_done(run({"check", "--shop", "restored"}));
  EXPECT_EQ(run({"machines", "--shop", "restored", "--json"}).out,
            run({"machines", "--shop", "shop", "--json"}).out);
  EXPECT_EQ(run({"restore", "month.tar.gz", "--shop", "restored"}).status, 2);
  desk.write("noise.tar.gz", "this is no archive");
  const Outcome noise = run({"restore", "noise.tar.gz", "--shop", "other"});
  EXPECT_EQ(noise.status, 2);
  EXPECT_THAT(noise.err, Not(IsEmpty()));
  EXPECT_FALSE(desk.has("other"));
}

TEST_F(Cli, RefusesWrongCallsWithStatus2AndAMessage) {
  const std::vector<std::vector<std::string>> wrong = {
      {},
      {"frobnicate"},
      {"machines"},
      {"machines", "--shop", "nowhere"},
      {"check", "--shop", "nowhere"},
      {"import", "--shop", "shop"},
      {"import", "nowhere", "--shop", "shop"},
      {"machines", "--shop", "shop", "--today", "2026-02-30"},
      {"machines", "--shop", "shop", "--colour"},
      {"backup", "file", "--shop", "nowhere"},
  };
  for (const auto& arguments : wrong) {
    const Outcome refused = run(arguments);
    EXPECT_EQ(refused.status, 2) << testing::PrintToString(arguments);
    EXPECT_THAT(refused.out, IsEmpty());
    EXPECT_THAT(refused.err, Not(IsEmpty()));
  }
  EXPECT_FALSE(desk.has("shop"));
  EXPECT_FALSE(desk.has("nowhere"));
}

TEST_F(Cli, TakesTodayBeforeAndAfterTheCommand) {
  import_month();
  expect_done(run({"--today", "2026-04-01", "machines", "--shop", "shop"}));
  expect_done(run({"machines", "--shop", "shop", "--today", "2026-04-01"}));
}

TEST_F(Cli, ShowsHelpWithStatus0) {
  const Outcome help = run({"--help"});
  EXPECT_EQ(help.status, 0);
  for (const char* command : {"import", "export", "machines", "check", "backup", "restore", "demo"})
    EXPECT_THAT(help.out, HasSubstr(command));
}

TEST_F(Cli, LetsNothingInATagActOnTheTerminal) {
  desk.write("in/shop.csv", "name,currency\nYard,USD\n");
  desk.write("in/acquisitions.csv", "acquisition,date,source\nL1,2026-03-02,curb\n");
  desk.write("in/machines.csv", "tag,acquisition,kind\n\"a\nb\x1B[2J\xC2\x9B\",L1,push\n");
  expect_done(run({"import", "in", "--shop", "shop"}));
  EXPECT_THAT(run({"machines", "--shop", "shop"}).out, HasSubstr("a?b?[2J?  push"));
  EXPECT_EQ(Json::parse(run({"machines", "--shop", "shop", "--json"}).out)[0]["tag"], "a\nb\x1B[2J\xC2\x9B");
}

// core and db need no window: the program that shows it links no Qt.
TEST_F(Cli, LinksNoQt) {
  const Outcome libraries = desk.run_program("ldd", {SECONDPULL_CLI});
  EXPECT_EQ(libraries.status, 0);
  EXPECT_THAT(libraries.out, HasSubstr("libsqlite3"));
  EXPECT_THAT(libraries.out, Not(HasSubstr("Qt")));
}

}  // namespace
}  // namespace secondpull::cli
