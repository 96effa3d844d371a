#include <algorithm>

#include <gmock/gmock.h>

#include "tests/db/exchange/folders.h"

// Rules of the exchange folder that are about more than one cell: what is told, and where.

namespace secondpull::db {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

/// Two machines of one lot, a part on the shelf.
Files yard(Files more) {
  Files files = {{"acquisitions.csv", "acquisition,date,source,price\nL1,2026-03-02,private,100.00\n"},
                 {"machines.csv", "tag,acquisition,kind\nM1,L1,push\nM2,L1,push\n"},
                 {"parts.csv", "part,name\nplug,spark plug\n"},
                 {"orders.csv", "order,date,arrived\nO1,2026-03-01,2026-03-05\n"},
                 {"order_lines.csv", "order,part,quantity,price\nO1,plug,2,3.00\n"}};
  for (auto& file : more) {
    const auto same =
        std::find_if(files.begin(), files.end(), [&](const auto& f) { return f.first == file.first; });
    if (same != files.end())
      same->second = file.second;
    else
      files.push_back(file);
  }
  return files;
}

TEST(ReadFolderRules, RefuseALineOfBothAMachineAndAnAcquisition) {
  EXPECT_THAT(
      places(yard({{"labour.csv", "machine,acquisition,date,minutes,work\nM1,L1,2026-03-03,5,clean\n"},
                   {"trips.csv", "date,miles,purpose,machine,acquisition\n2026-03-03,5,fetch,M1,L1\n"}})),
      ElementsAre("labour.csv:2:acquisition:L1", "trips.csv:2:acquisition:L1"));
}

TEST(ReadFolderRules, TellSingleLinesTogetherWithBadCellsOfOthers) {
  EXPECT_THAT(places(yard({{"labour.csv",
                            "machine,acquisition,date,minutes,work\nM1,L1,2026-03-03,5,clean\n"
                            "M9,,2026-03-03,5,clean\n"},
                           {"acquisitions.csv",
                            "acquisition,date,source,price,giver_basis\n"
                            "L1,2026-03-02,private,100.00,80.00\nG1,2026-03-02,gift,5.00,\n"},
                           {"disposals.csv",
                            "machine,date,how,proceeds,hulk_value\nM1,2026-03-09,kept,4.00,\n"
                            "M2,2026-03-09,scraped,4.00,3.00\n"}})),
              ElementsAre("acquisitions.csv:2:giver_basis:80.00", "acquisitions.csv:3:price:5.00",
                          "labour.csv:2:acquisition:L1", "labour.csv:3:machine:M9",
                          "disposals.csv:2:proceeds:4.00", "disposals.csv:3:how:scraped"));
}

TEST(ReadFolderRules, NameTheDateOfWhatIsTooEarlyOrOutOfTurn) {
  EXPECT_THAT(places(yard({{"materials.csv", "machine,date,what,cost\nM1,2026-03-01,oil,1\n"},
                           {"sales.csv", "date,price,machine\n2026-03-08,50,M1\n2026-03-09,60,M1\n"},
                           {"returns.csv", "machine,date,refunded\nM2,2026-03-09,10\n"},
                           {"allowances.csv", "machine,date,amount\nM2,2026-03-10,10\n"}})),
              ElementsAre("materials.csv:2:date:2026-03-01", "sales.csv:3:date:2026-03-09",
                          "returns.csv:2:date:2026-03-09", "allowances.csv:2:date:2026-03-10"));
}

TEST(ReadFolderRules, NameTheQuantityOfWhatIsNotInStock) {
  EXPECT_THAT(places(yard({{"fitted.csv", "machine,date,part,quantity\nM1,2026-03-04,plug,1\n"}})),
              ElementsAre("fitted.csv:2:quantity:1"));  // it arrives a day later
  EXPECT_THAT(places(yard({{"fitted.csv", "machine,date,part,quantity\nM1,2026-03-05,plug,2\n"}})),
              IsEmpty());
  EXPECT_THAT(places(yard({{"parts_sold.csv", "date,part,quantity,price\n2026-03-06,plug,3,9\n"}})),
              ElementsAre("parts_sold.csv:2:quantity:3"));
}

TEST(ReadFolderRules, WantPartsFromDonorsThatWerePartedOut) {
  const std::string harvested = "donor,date,part,quantity,value\nM1,2026-03-06,plug,1,1.00\n";
  EXPECT_THAT(places(yard({{"harvested.csv", harvested}})), ElementsAre("harvested.csv:2:donor:M1"));
  EXPECT_THAT(places(yard({{"harvested.csv", harvested},
                           {"disposals.csv", "machine,date,how\nM1,2026-03-06,parted out\n"}})),
              IsEmpty());
}

TEST(ReadFolderRules, WantLinesOfAnOrderAndMachinesOfAnAcquisition) {
  EXPECT_THAT(places(yard({{"orders.csv", "order,date,arrived\nO1,2026-03-01,2026-03-05\nO2,2026-03-01,\n"},
                           {"acquisitions.csv",
                            "acquisition,date,source\nL1,2026-03-02,curb\nL2,2026-03-02,curb\n"}})),
              ElementsAre("acquisitions.csv:3:acquisition:L2", "orders.csv:3:order:O2"));
}

TEST(ReadFolderRules, HoldTheHulkToItsDonor) {
  EXPECT_THAT(places(yard({{"disposals.csv",
                            "machine,date,how,proceeds,hulk_value,hulk_gone\n"
                            "M1,2026-03-06,scrapped,4,5.00,\n"
                            "M2,2026-03-06,parted out,,5.00,2026-03-05\n"}})),
              ElementsAre("disposals.csv:2:hulk_value:5.00", "disposals.csv:3:hulk_gone:2026-03-05"));
  EXPECT_THAT(places(yard({{"disposals.csv",
                            "machine,date,how,proceeds,hulk_value,hulk_gone\n"
                            "M2,2026-03-06,parted out,4.00,5.00,here\n"}})),
              ElementsAre("disposals.csv:2:proceeds:4.00"));
}

TEST(ReadFolderRules, HoldOpeningLinesToTheFirstYear) {
  EXPECT_THAT(places(yard({{"acquisitions.csv", "acquisition,date,source,opening\nL1,2026-03-02,curb,yes\n"},
                           {"expenses.csv", "date,category,amount\n2025-12-31,supplies,1\n"}})),
              ElementsAre("acquisitions.csv:2:opening:yes"));
}

TEST(ReadFolderRules, HoldAGivenStageToWhatHappened) {
  EXPECT_THAT(
      places(yard({{"machines.csv", "tag,acquisition,kind,stage\nM1,L1,push,sold\nM2,L1,push,test run\n"}})),
      ElementsAre("machines.csv:2:stage:sold"));
}

TEST(ReadFolderRules, TellWhatAnAdditionMakesWrongInTheShopItself) {
  const Shop shop = shop_of(yard({{"sales.csv", "machine,date,price\nM1,2026-03-08,50\n"}}));
  const auto result = read_files({{"sales.csv", "machine,date,price\nM1,2026-03-07,50\n"}}, shop);
  ASSERT_FALSE(result.errors.empty());
  EXPECT_THAT(result.errors.front().sentence, HasSubstr("M1"));
}

}  // namespace
}  // namespace secondpull::db
