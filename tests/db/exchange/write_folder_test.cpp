#include <algorithm>
#include <map>
#include <set>

#include <gmock/gmock.h>

#include "db/exchange/demo_folder.h"
#include "tests/db/exchange/folders.h"

namespace secondpull::db {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;

std::map<std::string, std::string> texts(const fs::path& folder) {
  std::map<std::string, std::string> out;
  for (const auto& entry : fs::directory_iterator{folder})
    out[entry.path().filename().string()] = read_text(entry.path());
  return out;
}

std::map<std::string, std::string> exported(const Shop& shop) {
  const TempFolder folder;
  const auto done = write_folder(shop, folder.path() / "export");
  EXPECT_TRUE(done) << done.error().sentence;
  return texts(folder.path() / "export");
}

const Files kSmall = {{"acquisitions.csv", "acquisition,date,source,price\nL1,2026-03-02,private,100\n"},
                      {"machines.csv", "tag,acquisition,kind,note\nM1,L1,push,\"says \"\"hi\"\", twice\"\n"}};

TEST(WriteFolder, WritesColumnsInOrderWithCrLfAndOnlyTablesWithRows) {
  const auto files = exported(shop_of(kSmall));
  ASSERT_EQ(files.size(), 3u);
  EXPECT_EQ(files.at("shop.csv"),
            "name,currency,hour_value,day_cost,hours_a_week,unit_of_distance\r\nTest Yard,USD,,,,mi\r\n");
  EXPECT_EQ(files.at("acquisitions.csv"),
            "acquisition,date,source,from,price,pickup_cost,giver_basis,opening,note\r\n"
            "L1,2026-03-02,private,,100.00,,,,\r\n");
  EXPECT_EQ(
      files.at("machines.csv"),
      "tag,acquisition,kind,make,model,model_number,serial,engine,year,deck_in,symptom,condition,value_then,"
      "stage,note\r\nM1,L1,push,,,,,,,,,,,,\"says \"\"hi\"\", twice\"\r\n");
}

TEST(WriteFolder, GuardsTextsAndLeavesNumbersAsNumbers) {
  const auto files =
      exported(shop_of({{"people.csv", "person,name,phone\nP1,=1+1,+1 555 0100\n"},
                        {"expenses.csv", "date,category,amount,note\n2026-01-01,oil,5,-x\n"}}));
  EXPECT_EQ(files.at("people.csv"), "person,name,phone,email,note\r\nP1,'=1+1,'+1 555 0100,,\r\n");
  EXPECT_EQ(files.at("expenses.csv"), "date,category,amount,note\r\n2026-01-01,oil,5.00,'-x\r\n");
}

TEST(WriteFolder, WritesRecordsInTheOrderEntered) {
  Shop shop = shop_of({{"people.csv", "person,name\nP1,Odda\nP2,Ruel\n"}});
  Person late = *shop.find(PersonId{1});
  late.entered = 9;
  shop.all<Person>().replace(late);
  EXPECT_THAT(exported(shop).at("people.csv"), HasSubstr("P2,Ruel,,,\r\nP1,Odda"));
}

TEST(WriteFolder, ReplacesAnEarlierExportAndLeavesOtherFilesAlone) {
  const TempFolder folder;
  write_text(folder.path() / "letter.txt", "dear");
  write_text(folder.path() / "people.csv", "person,name\nold,old\n");
  ASSERT_TRUE(write_folder(shop_of(kSmall), folder.path()));
  std::set<std::string> names;
  for (const auto& [name, text] : texts(folder.path()))
    names.insert(name);
  EXPECT_THAT(names, ElementsAre("acquisitions.csv", "letter.txt", "machines.csv", "shop.csv"));
}

TEST(WriteFolder, RefusesAFolderWithACsvOfAnotherNameAndChangesNothing) {
  const TempFolder folder;
  write_text(folder.path() / "prices.csv", "mine");
  const auto before = texts(folder.path());
  const auto done = write_folder(shop_of(kSmall), folder.path());
  ASSERT_FALSE(done);
  EXPECT_THAT(done.error().sentence, HasSubstr("prices.csv"));
  EXPECT_EQ(texts(folder.path()), before);
}

TEST(WriteFolder, RefusesAPathThatIsAFile) {
  const TempFolder folder;
  write_text(folder.path() / "here", "x");
  EXPECT_FALSE(write_folder(shop_of(kSmall), folder.path() / "here"));
  EXPECT_EQ(read_text(folder.path() / "here"), "x");
}

TEST(WriteFolder, RefusesAnOrderAndADonorThatItCouldNotTellApart) {
  Shop shop = shop_of({{"acquisitions.csv", "acquisition,date,source\nL1,2026-03-02,curb\n"},
                       {"machines.csv", "tag,acquisition,kind\n7,L1,push\n8,L1,push\n"},
                       {"parts.csv", "part,name\nplug,plug\n"},
                       {"orders.csv", "order,date,arrived\n7,2026-03-01,2026-03-02\n"},
                       {"order_lines.csv", "order,part,quantity,price\n7,plug,1,3.00\n"},
                       {"harvested.csv", "donor,date,part,quantity,value\n7,2026-03-03,plug,1,1.00\n"},
                       {"disposals.csv", "machine,date,how\n7,2026-03-03,parted out\n"},
                       {"fitted.csv", "machine,date,part,quantity,from\n8,2026-03-04,plug,1,7\n"}});
  ASSERT_TRUE(write_folder(shop, TempFolder{}.path() / "a"));
  Fitted use = *shop.all<Fitted>().begin();
  use.from_donor = shop.all<Machine>().begin()->id;
  use.from_order.reset();
  shop.all<Fitted>().replace(use);
  const auto done = write_folder(shop, TempFolder{}.path() / "a");
  ASSERT_FALSE(done);
  EXPECT_THAT(done.error().sentence, HasSubstr("order \"7\" and the donor \"7\""));
}

TEST(WriteFolder, GivesTheDemoShopBackUnchangedEveryTime) {
  const auto demo = demo_folder();
  ASSERT_TRUE(demo);
  const ImportResult first = read_folder(*demo, Shop{});
  for (const ImportError& error : first.errors)
    ADD_FAILURE() << shown(error);
  const TempFolder folder;
  ASSERT_TRUE(write_folder(first.shop, folder.path() / "one"));
  const ImportResult second = read_folder(folder.path() / "one", Shop{});
  EXPECT_TRUE(second.errors.empty());
  EXPECT_TRUE(second.shop.same_records(first.shop));
  EXPECT_EQ(second.shop.settings, first.shop.settings);
  EXPECT_EQ(second.shop.next_id, first.shop.next_id);
  ASSERT_TRUE(write_folder(second.shop, folder.path() / "two"));
  EXPECT_EQ(texts(folder.path() / "one"), texts(folder.path() / "two"));
}

}  // namespace
}  // namespace secondpull::db
