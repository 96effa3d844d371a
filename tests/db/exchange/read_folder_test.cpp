#include <gmock/gmock.h>

#include "tests/db/exchange/folders.h"

namespace secondpull::db {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

const std::string kAcquisitions = "acquisition,date,source,price\nL1,2026-03-02,private,100.00\n";
const std::string kMachines = "tag,acquisition,kind\nM1,L1,push\nM2,L1,self-propelled\n";

Date day(int year, unsigned month, unsigned number) {
  return std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{number};
}

TEST(ReadFolder, NeedsShopCsvAlone) {
  const Shop shop = shop_of({{"shop.csv",
                              "name,currency,hour_value,hours_a_week,unit_of_distance\n"
                              "Lanternfold,KWD,4.125,7.5,km\n"}});
  EXPECT_TRUE(shop.empty());
  EXPECT_EQ(shop.settings.name, "Lanternfold");
  EXPECT_EQ(shop.settings.currency.code, "KWD");
  EXPECT_EQ(shop.settings.hour_value, Money::from_minor(4125));  // KWD has three decimals (ISO 4217)
  EXPECT_EQ(shop.settings.hours_a_week, Tenths{75});
  EXPECT_EQ(shop.settings.unit_of_distance, DistanceUnit::km);
  EXPECT_EQ(shop.settings.day_cost, std::nullopt);
}

TEST(ReadFolder, RefusesAFolderThatIsNotThere) {
  const auto result = read_folder("/nowhere/at/all", Shop{});
  ASSERT_EQ(result.errors.size(), 1u);
  EXPECT_THAT(shown(result.errors.front()), HasSubstr("/nowhere/at/all: There is no such folder"));
}

TEST(ReadFolder, RefusesAFolderWithoutShopCsv) {
  const TempFolder folder;
  const auto result = read_folder(folder.path(), Shop{});
  ASSERT_EQ(result.errors.size(), 1u);
  EXPECT_EQ(place(result.errors.front()), "shop.csv:0::");
}

TEST(ReadFolder, RefusesAShopOfNoLineOrOfTwo) {
  EXPECT_THAT(places({{"shop.csv", "name,currency\n"}}), ElementsAre("shop.csv:1:name:"));
  EXPECT_THAT(places({{"shop.csv", "name,currency\nA,USD\nB,USD\n"}}), ElementsAre("shop.csv:3:name:B"));
}

TEST(ReadFolder, TakesColumnsInAnyOrderAndByteOrderMarksAndEitherLineEnd) {
  const Shop straight = shop_of({{"acquisitions.csv", kAcquisitions}, {"machines.csv", kMachines}});
  const Shop turned = shop_of(
      {{"acquisitions.csv", "\xEF\xBB\xBFprice,source,date,acquisition\r\n100.00,private,2026-03-02,L1\r\n"},
       {"machines.csv",
        "\xEF\xBB\xBF\"kind\",\"tag\",acquisition\r\npush,\"M1\",L1\r\nself-propelled,M2,L1"}});
  EXPECT_TRUE(straight.same_records(turned));
}

TEST(ReadFolder, HandsOutIdsInTheOrderOfFilesAndLines) {
  const Shop shop = shop_of({{"machines.csv", kMachines},
                             {"people.csv", "person,name\nP1,Odda Venn\n"},
                             {"acquisitions.csv", kAcquisitions}});
  EXPECT_EQ(shop.find(PersonId{1})->code, "P1");
  EXPECT_EQ(shop.find(AcquisitionId{2})->code, "L1");
  EXPECT_EQ(shop.find(MachineId{3})->tag, "M1");
  EXPECT_EQ(shop.find(MachineId{4})->tag, "M2");
  EXPECT_EQ(shop.find(MachineId{4})->entered, 4);
  EXPECT_EQ(shop.next_id, 5);
}

TEST(ReadFolder, KeepsOuterSpacesOfTexts) {
  const Shop shop = shop_of({{"acquisitions.csv", kAcquisitions},
                             {"machines.csv", "tag,acquisition,kind,note\n M1 ,L1,push, a \n"}});
  EXPECT_EQ(shop.all<Machine>().begin()->tag, " M1 ");
  EXPECT_EQ(shop.all<Machine>().begin()->note, " a ");
}

TEST(ReadFolder, ReadsEveryColumnOfEveryTable) {
  const Shop shop = shop_of({
      {"people.csv", "person,name,phone,email,note\nP1,Odda Venn,555 0100,odda@example.org,has a barn\n"},
      {"acquisitions.csv",
       "acquisition,date,source,from,price,pickup_cost,giver_basis,opening,note\n"
       "G1,2026-03-01,gift,P1,,5.50,80,yes,from the barn\n"
       "L1,2026-03-02,private,P1,100,,,,lot\n"},
      {"machines.csv",
       "tag,acquisition,kind,make,model,model_number,serial,engine,year,deck_in,symptom,condition,value_then,"
       "stage,"
       "note\n"
       "M1,L1,lawn tractor,Brindlecut,Ridge 42,RC-217,S9,Tarn 17,2014,42.5,smokes,dented,350.00,on the "
       "bench,n\n"
       "M2,G1,push,,,,,,,,,,,,\n"},
      {"faults.csv",
       "fault,machine,date,symptom,cause,ended,how,note\nF1,M1,2026-03-03,smokes,ring,2026-03-09,given "
       "up,too dear\n"},
      {"findings.csv",
       "machine,date,step,outcome,fault,minutes,cost,reading,unit,note\n"
       "M1,2026-03-04,compression,low,F1,15,12.00,-45,psi,twice\n"},
      {"labour.csv",
       "machine,acquisition,date,minutes,work,note\nM1,,2026-03-04,20,diagnose,a\n"
       ",L1,2026-03-02,45,pickup,b\n,,2026-03-05,30,other,c\n"},
      {"parts.csv", "part,name,number,supplier,reorder_at\nplug,spark plug,77-1,P1,2\n"},
      {"orders.csv",
       "order,date,supplier,arrived,freight,tax,opening\nO1,2026-03-01,P1,2026-03-03,5.95,1.10,yes\n"},
      {"order_lines.csv", "order,part,quantity,price,for\nO1,plug,5,3.49,M1\n"},
      {"harvested.csv", "donor,date,part,quantity,value\nM2,2026-03-06,plug,1,2.00\n"},
      {"fitted.csv", "machine,date,part,quantity,from\nM1,2026-03-05,plug,1,O1\n,2026-03-06,plug,1,M2\n"},
      {"materials.csv", "machine,date,what,cost\nM1,2026-03-05,sealant,2.20\n"},
      {"listings.csv",
       "machine,date,channel,asking,sold_as,ended\nM1,2026-03-10,notice board,420.00,as "
       "is,2026-03-12\n"},
      {"offers.csv",
       "machine,date,amount,who,comes,result\nM1,2026-03-11,390,Ruel Astby,2026-03-12,no show\n"},
      {"sales.csv",
       "machine,date,buyer,price,sales_tax,fee,delivery,payment,sold_as,warranty_days,place\n"
       "M1,2026-03-13,P1,400,24.00,10,15.5,cash,as is,0,Wendle County\n"},
      {"returns.csv", "machine,date,refunded,note\nM1,2026-03-20,380,smokes\n"},
      {"allowances.csv", "machine,date,amount,sales_tax,note\nM1,2026-03-15,20,1.20,scratch\n"},
      {"parts_sold.csv",
       "date,part,quantity,price,from,buyer,sales_tax,fee,place\n"
       "2026-03-07,plug,2,9,O1,P1,0.54,0.25,Wendle County\n"},
      {"tax_paid.csv", "date,place,amount\n2026-04-01,Wendle County,20\n"},
      {"disposals.csv", "machine,date,how,proceeds,hulk_value,hulk_gone\nM2,2026-03-06,parted out,,5,here\n"},
      {"trips.csv",
       "date,miles,purpose,destination,machine,acquisition\n2026-03-02,28.5,fetch,the barn,,L1\n"},
      {"expenses.csv", "date,category,amount,note\n2026-03-03,supplies,12.99,oil\n"},
  });
  const auto only = [&]<class Record>(const Table<Record>& table) { return *table.begin(); };
  const Acquisition gift = only(shop.all<Acquisition>());
  EXPECT_EQ(gift.source, Source::gift);
  EXPECT_EQ(gift.giver_basis, Money::from_minor(8000));
  EXPECT_EQ(gift.pickup_cost, Money::from_minor(550));
  EXPECT_TRUE(gift.opening);
  const Machine tractor = only(shop.all<Machine>());
  EXPECT_EQ(tractor.kind, MachineKind::lawn_tractor);
  EXPECT_EQ(tractor.year, 2014);
  EXPECT_EQ(tractor.deck_in, Tenths{425});
  EXPECT_EQ(tractor.value_then, Money::from_minor(35000));
  EXPECT_EQ(tractor.stage, Stage::on_the_bench);
  const Fault fault = only(shop.all<Fault>());
  EXPECT_EQ(fault.ended, day(2026, 3, 9));
  EXPECT_EQ(fault.how, FaultEnd::given_up);
  const Finding finding = only(shop.all<Finding>());
  EXPECT_EQ(finding.fault, fault.id);
  EXPECT_EQ(finding.minutes, Minutes{15});
  EXPECT_EQ(finding.reading, "-45");
  ASSERT_EQ(shop.all<Labour>().size(), 3u);
  EXPECT_EQ(only(shop.all<Labour>()).machine, tractor.id);
  EXPECT_EQ(only(shop.all<Part>()).reorder_at, 2);
  EXPECT_EQ(only(shop.all<OrderLine>()).for_machine, tractor.id);
  const auto& fitted = shop.all<Fitted>();
  EXPECT_EQ(fitted.begin()->from_order, only(shop.all<Order>()).id);
  EXPECT_EQ(std::next(fitted.begin())->from_donor, std::next(shop.all<Machine>().begin())->id);
  EXPECT_EQ(std::next(fitted.begin())->machine, std::nullopt);
  EXPECT_EQ(only(shop.all<Offer>()).result, OfferResult::no_show);
  EXPECT_EQ(only(shop.all<Sale>()).warranty_days, 0);
  EXPECT_EQ(only(shop.all<Sale>()).place, "Wendle County");
  EXPECT_TRUE(only(shop.all<Disposal>()).hulk_here);
  EXPECT_EQ(only(shop.all<Trip>()).miles, Tenths{285});
  EXPECT_EQ(only(shop.all<Expense>()).amount, Money::from_minor(1299));
}

TEST(ReadFolder, PrefersTheOrderWhereAnOrderAndADonorHaveOneName) {
  const Files files = {
      {"acquisitions.csv", kAcquisitions},
      {"machines.csv", "tag,acquisition,kind\n7,L1,push\n8,L1,push\n"},
      {"parts.csv", "part,name\nblade,blade\nplug,plug\n"},
      {"orders.csv", "order,date,arrived\n7,2026-03-01,2026-03-02\n"},
      {"order_lines.csv", "order,part,quantity,price\n7,plug,1,3.00\n"},
      {"harvested.csv",
       "donor,date,part,quantity,value\n7,2026-03-03,plug,1,1.00\n7,2026-03-03,blade,1,1.00\n"},
      {"disposals.csv", "machine,date,how\n7,2026-03-03,parted out\n"},
      {"fitted.csv", "machine,date,part,quantity,from\n8,2026-03-04,plug,1,7\n8,2026-03-04,blade,1,7\n"}};
  const Shop shop = shop_of(files);
  const auto& fitted = shop.all<Fitted>();
  EXPECT_TRUE(fitted.begin()->from_order.has_value());
  EXPECT_TRUE(std::next(fitted.begin())->from_donor.has_value());  // the order has no blade, the donor has
}

TEST(ReadFolder, LeavesFilesOfOtherKindsAloneAndRefusesAnotherCsv) {
  EXPECT_THAT(places({{"notes.txt", "x"}, {"README", "x"}, {"machines.csv.bak", "x"}}), IsEmpty());
  EXPECT_THAT(places({{"machine.csv", "tag\n"}, {"Parts.CSV", "part,name\n"}}),
              ElementsAre("Parts.CSV:0::", "machine.csv:0::"));
}

TEST(ReadFolder, NamesUnknownTwiceNamedAndMissingColumns) {
  EXPECT_THAT(places({{"people.csv", "person,nmae,note,note\nP1,Odda,,\n"}}),
              ElementsAre("people.csv:1:nmae:nmae", "people.csv:1:note:note", "people.csv:1:name:"));
  EXPECT_THAT(places({{"people.csv", ""}}), ElementsAre("people.csv:1::"));
}

TEST(ReadFolder, NamesLinesOfAnotherLengthThanTheHeader) {
  EXPECT_THAT(places({{"people.csv", "person,name,note\nP1,Odda\nP2,Ruel,x,spare\n\nP3,Sela,\n"}}),
              ElementsAre("people.csv:2:note:", "people.csv:3::spare", "people.csv:4:person:"));
}

TEST(ReadFolder, NamesFaultsOfTheCsvByTheirColumn) {
  EXPECT_THAT(places({{"people.csv", "person,name\nP1,the \"barn\" man\nP2,\"Sela\" x\nP3,caf\xE9\n"}}),
              ElementsAre("people.csv:2:name:the \"barn\" man", "people.csv:3:name:Sela x",
                          "people.csv:4:name:caf\\xE9"));
  EXPECT_THAT(places({{"people.csv", "\xFF\xFEp\0e"}}), ElementsAre("people.csv:0::"));
}

TEST(ReadFolder, TellsTheFaultOfAFileAndNotEveryLineThatLeadsThere) {
  EXPECT_THAT(
      places({{"acquisitions.csv", "acquisition,date,source\n\"L1,2026-03-02,curb\nL2,2026-03-02,curb\n"},
              {"machines.csv", "tag,acquisition,kind\nM1,L1,push\nM2,L2,push\n"}}),
      testing::Each(testing::StartsWith("acquisitions.csv:2:")));
}

TEST(ReadFolder, CountsALineWithABadCellAsThereForItsReferences) {
  EXPECT_THAT(places({{"acquisitions.csv", "acquisition,date,source\nL1,2026-02-30,curb\n"},
                      {"machines.csv", "tag,acquisition,kind\nM1,L1,push\n"}}),
              ElementsAre("acquisitions.csv:2:date:2026-02-30"));
}

TEST(ReadFolder, NamesAnIdentifierUsedTwice) {
  const auto result = read_files({{"people.csv", "person,name\nP1,Odda\n\"P1\",Ruel\n"}});
  ASSERT_EQ(result.errors.size(), 1u);
  EXPECT_EQ(place(result.errors.front()), "people.csv:3:person:P1");
  EXPECT_EQ(result.errors.front().sentence, "The person \"P1\" is already on line 2.");
}

struct BadCell {
  const char* file;
  const char* header;
  const char* good;  // a line that is right
  const char* bad;   // the same with one cell wrong
  const char* column;
  const char* value;
};
void PrintTo(const BadCell& bad, std::ostream* out) {
  *out << bad.file << " " << bad.column << " " << bad.value;
}

class BadCells : public testing::TestWithParam<BadCell> {};

Files with(const BadCell& bad, const char* line) {
  Files files = {{"people.csv", "person,name\nP1,Odda\n"},
                 {"acquisitions.csv", kAcquisitions},
                 {"machines.csv", kMachines},
                 {"parts.csv", "part,name\nplug,spark plug\n"},
                 {"orders.csv", "order,date,arrived\nO1,2026-03-01,2026-03-02\n"},
                 {"order_lines.csv", "order,part,quantity,price\nO1,plug,9,3.00\n"}};
  const std::string text = std::string{bad.header} + "\n" + line + "\n";
  for (auto& file : files)
    if (file.first == bad.file) {
      file.second = text;
      return files;
    }
  files.emplace_back(bad.file, text);
  return files;
}

TEST_P(BadCells, AreNamedByFileLineColumnAndValue) {
  const BadCell& bad = GetParam();
  EXPECT_THAT(places(with(bad, bad.good)), IsEmpty());
  const auto result = read_files(with(bad, bad.bad));
  ASSERT_EQ(result.errors.size(), 1u);
  EXPECT_EQ(place(result.errors.front()), std::string{bad.file} + ":2:" + bad.column + ":" + bad.value);
  EXPECT_THAT(shown(result.errors.front()), HasSubstr(bad.value));
  EXPECT_THAT(result.errors.front().sentence, testing::EndsWith("."));
}

INSTANTIATE_TEST_SUITE_P(
    Amounts, BadCells,
    testing::Values(BadCell{"materials.csv", "machine,date,what,cost", "M1,2026-03-03,oil,1",
                            "M1,2026-03-03,oil,-1.00", "cost", "-1.00"},
                    BadCell{"materials.csv", "machine,date,what,cost", "M1,2026-03-03,oil,1.5",
                            "M1,2026-03-03,oil,1.505", "cost", "1.505"},
                    BadCell{"materials.csv", "machine,date,what,cost", "M1,2026-03-03,oil,1234.00",
                            "M1,2026-03-03,oil,\"1,234.00\"", "cost", "1,234.00"},
                    BadCell{"materials.csv", "machine,date,what,cost", "M1,2026-03-03,oil,0",
                            "M1,2026-03-03,oil,$5", "cost", "$5"},
                    BadCell{"materials.csv", "machine,date,what,cost", "M1,2026-03-03,oil,0.01",
                            "M1,2026-03-03,oil, 1", "cost", " 1"},
                    BadCell{"materials.csv", "machine,date,what,cost", "M1,2026-03-03,oil,2",
                            "M1,2026-03-03,oil,1e2", "cost", "1e2"},
                    BadCell{"materials.csv", "machine,date,what,cost", "M1,2026-03-03,oil,2",
                            "M1,2026-03-03,oil,99999999999999999999", "cost", "99999999999999999999"},
                    BadCell{"shop.csv", "name,currency", "Yard,USD", "Yard,usd", "currency", "usd"}));

TEST(ReadFolder, TakesAsManyDecimalsAsTheCurrencyHas) {
  // ISO 4217: the yen has no minor unit, the Kuwaiti dinar three decimals.
  EXPECT_THAT(places({{"shop.csv", "name,currency,hour_value,day_cost\nYard,JPY,15,15.5\n"}}),
              ElementsAre("shop.csv:2:day_cost:15.5"));
  EXPECT_THAT(places({{"shop.csv", "name,currency,hour_value,day_cost\nYard,KWD,15.125,15.1255\n"}}),
              ElementsAre("shop.csv:2:day_cost:15.1255"));
}

// The days: ISO 8601's calendar; 1900 and 2001 have no 29 February, 2000 has.
INSTANTIATE_TEST_SUITE_P(Days, BadCells,
                         testing::Values(BadCell{"expenses.csv", "date,category,amount", "2000-02-29,oil,1",
                                                 "2001-02-29,oil,1", "date", "2001-02-29"},
                                         BadCell{"expenses.csv", "date,category,amount", "2000-02-29,oil,1",
                                                 "1900-02-29,oil,1", "date", "1900-02-29"},
                                         BadCell{"expenses.csv", "date,category,amount", "2000-12-01,oil,1",
                                                 "2000-13-01,oil,1", "date", "2000-13-01"},
                                         BadCell{"expenses.csv", "date,category,amount", "2026-03-05,oil,1",
                                                 "2026-3-5,oil,1", "date", "2026-3-5"},
                                         BadCell{"expenses.csv", "date,category,amount", "2026-03-05,oil,1",
                                                 "03/05/2026,oil,1", "date", "03/05/2026"},
                                         BadCell{"disposals.csv", "machine,date,how,hulk_gone",
                                                 "M1,2026-03-05,parted out,here",
                                                 "M1,2026-03-05,parted out,there", "hulk_gone", "there"}));

INSTANTIATE_TEST_SUITE_P(Numbers, BadCells,
                         testing::Values(BadCell{"labour.csv", "date,minutes,work", "2026-03-05,90,repair",
                                                 "2026-03-05,1.5,repair", "minutes", "1.5"},
                                         BadCell{"labour.csv", "date,minutes,work", "2026-03-05,0,repair",
                                                 "2026-03-05,-5,repair", "minutes", "-5"},
                                         BadCell{"order_lines.csv", "order,part,quantity,price",
                                                 "O1,plug,1,2", "O1,plug,0,2", "quantity", "0"},
                                         BadCell{"order_lines.csv", "order,part,quantity,price",
                                                 "O1,plug,2,2", "O1,plug,2.0,2", "quantity", "2.0"},
                                         BadCell{"trips.csv", "date,miles,purpose", "2026-03-05,12.5,fetch",
                                                 "2026-03-05,12.55,fetch", "miles", "12.55"},
                                         BadCell{"trips.csv", "date,miles,purpose", "2026-03-05,12,fetch",
                                                 "2026-03-05,12.,fetch", "miles", "12."},
                                         BadCell{"machines.csv", "tag,acquisition,kind,year",
                                                 "M1,L1,push,2014", "M1,L1,push,'14", "year", "'14"},
                                         BadCell{"parts.csv", "part,name,reorder_at", "plug,spark plug,0",
                                                 "plug,spark plug,-1", "reorder_at", "-1"}));

INSTANTIATE_TEST_SUITE_P(
    WordsAndReferences, BadCells,
    testing::Values(
        BadCell{"machines.csv", "tag,acquisition,kind", "M1,L1,push", "M1,L1,pusher", "kind", "pusher"},
        BadCell{"machines.csv", "tag,acquisition,kind", "M1,L1,push", "M1,L1,Push", "kind", "Push"},
        BadCell{"machines.csv", "tag,acquisition,kind", "M1,L1,push", "M1,l1,push", "acquisition", "l1"},
        BadCell{"machines.csv", "tag,acquisition,kind", "M1,L1,push", ",L1,push", "tag", ""},
        BadCell{"machines.csv", "tag,acquisition,kind,stage", "M1,L1,push,on the bench", "M1,L1,push,benched",
                "stage", "benched"},
        BadCell{"labour.csv", "machine,date,minutes,work", "M1,2026-03-05,5,test run",
                "M1,2026-03-05,5,testing", "work", "testing"},
        BadCell{"labour.csv", "machine,date,minutes,work", "M1,2026-03-05,5,repair", "M9,2026-03-05,5,repair",
                "machine", "M9"},
        BadCell{"fitted.csv", "machine,date,part,quantity,from", "M1,2026-03-05,plug,1,O1",
                "M1,2026-03-05,plug,1,O9", "from", "O9"},
        BadCell{"fitted.csv", "machine,date,part,quantity", "M1,2026-03-05,plug,1", "M1,2026-03-05,plum,1",
                "part", "plum"},
        BadCell{"orders.csv", "order,date,arrived,supplier", "O1,2026-03-01,2026-03-02,P1",
                "O1,2026-03-01,2026-03-02,P2", "supplier", "P2"},
        BadCell{"acquisitions.csv", "acquisition,date,source,opening", "L1,2026-03-02,curb,yes",
                "L1,2026-03-02,curb,no", "opening", "no"}));

TEST(ReadFolder, TellsEveryErrorOfARunTogetherByFileThenLine) {
  EXPECT_THAT(places({{"machines.csv", "tag,acquisition,kind,year\nM1,L1,pusher,x\nM1,L9,push,2014\n"},
                      {"acquisitions.csv",
                       "acquisition,date,source,price\nL1,yesterday,curb,1\n,2026-03-01,found,\n"},
                      {"other.csv", ""}}),
              ElementsAre("other.csv:0::", "acquisitions.csv:2:date:yesterday",
                          "acquisitions.csv:3:acquisition:", "acquisitions.csv:3:source:found",
                          "machines.csv:2:kind:pusher", "machines.csv:2:year:x",
                          "machines.csv:3:acquisition:L9", "machines.csv:3:tag:M1"));
}

TEST(ReadFolder, NamesTheLineOnWhichARowBeginsBelowCellsOfSeveralLines) {
  EXPECT_THAT(places({{"people.csv", "person,name,note\nP1,Odda,\"two\nlines\"\n,Ruel,\n"}}),
              ElementsAre("people.csv:4:person:"));
}

TEST(ReadFolder, ShowsAnErrorOnOneLineWhateverStandsInTheCell) {
  const auto result = read_files(
      {{"people.csv", "person,name\nP1,Odda\n"}, {"parts.csv", "part,name,supplier\nx,x,\"P\n1\x1B[2J\"\n"}});
  ASSERT_EQ(result.errors.size(), 1u);
  EXPECT_EQ(shown(result.errors.front()),
            "parts.csv:2: supplier: There is no person \"P\\n1\\x1B[2J\" in people.csv.");
}

TEST(ReadFolder, DoesNotTakeATableItCannotReadForAnEmptyOne) {
  const TempFolder folder;
  fill_folder(folder, {});
  std::filesystem::create_directory(folder.path() / "parts.csv");
  std::filesystem::create_symlink("nowhere", folder.path() / "people.csv");
  const auto result = read_folder(folder.path(), Shop{});
  ASSERT_EQ(result.errors.size(), 2u);
  EXPECT_EQ(place(result.errors[0]), "people.csv:0::");
  EXPECT_EQ(place(result.errors[1]), "parts.csv:0::");
}

TEST(ReadFolder, TellsAnUnknownCurrencyOnceAndNotAtEveryAmount) {
  EXPECT_THAT(places({{"shop.csv", "name,currency\nYard,XQX\n"},
                      {"expenses.csv", "date,category,amount\n2026-03-05,oil,1.125\n"}}),
              ElementsAre("shop.csv:2:currency:XQX"));
}

TEST(ReadFolder, ReadsAGuardedCellAsTheTextBehindTheApostrophe) {
  const Shop shop = shop_of({{"people.csv", "person,name,phone\n'=P,'@home,+1 555 0100\n"},
                             {"parts.csv", "part,name,supplier\nx,'tis a part,'=P\n"}});
  EXPECT_EQ(shop.all<Person>().begin()->code, "=P");
  EXPECT_EQ(shop.all<Person>().begin()->name, "@home");
  EXPECT_EQ(shop.all<Person>().begin()->phone, "+1 555 0100");
  EXPECT_EQ(shop.all<Part>().begin()->name, "'tis a part");
  EXPECT_EQ(shop.all<Part>().begin()->supplier, shop.all<Person>().begin()->id);
}

TEST(ReadFolder, CountsZeroInACellThatMustBeEmptyAsEmpty) {
  const Shop shop = shop_of(
      {{"acquisitions.csv",
        "acquisition,date,source,price,giver_basis\nL1,2026-03-02,curb,0,0.00\nG1,2026-03-02,gift,0,0\n"},
       {"machines.csv", "tag,acquisition,kind\nM1,L1,push\nM2,L1,push\nM3,G1,push\n"},
       {"disposals.csv",
        "machine,date,how,proceeds,hulk_value,hulk_gone\n"
        "M1,2026-03-04,scrapped,4,0,0\nM2,2026-03-05,kept,0,0.00,\n"}});
  EXPECT_EQ(shop.all<Acquisition>().begin()->giver_basis, std::nullopt);
  EXPECT_EQ(std::next(shop.all<Acquisition>().begin())->giver_basis,
            Money{});  // a gift may have a basis of 0
  for (const Disposal& disposal : shop.all<Disposal>()) {
    EXPECT_EQ(disposal.hulk_value, std::nullopt);
    EXPECT_EQ(disposal.hulk_gone, std::nullopt);
  }
}

class AddToAShop : public testing::Test {
 protected:
  Shop shop = shop_of({{"people.csv", "person,name\nP1,Odda\n"},
                       {"acquisitions.csv", kAcquisitions},
                       {"machines.csv", kMachines}});
};

TEST_F(AddToAShop, RefersToWhatIsThereAndKeepsItsSettings) {
  const Shop more = shop_of({{"shop.csv", "name,currency\nAnother Name,USD\n"},
                             {"acquisitions.csv", "acquisition,date,source,from\nL2,2026-03-08,curb,P1\n"},
                             {"machines.csv", "tag,acquisition,kind\nM3,L2,push\n"},
                             {"labour.csv", "machine,date,minutes,work\nM1,2026-03-03,10,clean\n"}},
                            shop);
  EXPECT_EQ(more.settings, shop.settings);
  EXPECT_EQ(more.all<Machine>().size(), 3u);
  EXPECT_EQ(number(std::prev(more.all<Acquisition>().end())->id), shop.next_id);
  EXPECT_EQ(more.all<Labour>().begin()->machine, shop.all<Machine>().begin()->id);
}

TEST_F(AddToAShop, RefusesATakenIdentifierAndAnotherCurrency) {
  EXPECT_THAT(
      places({{"shop.csv", "name,currency\nYard,EUR\n"}, {"people.csv", "person,name\nP1,Ruel\n"}}, shop),
      ElementsAre("shop.csv:2:currency:EUR", "people.csv:2:person:P1"));
}

TEST_F(AddToAShop, GivesAChangeThatMakesTheSameShop) {
  const Shop more = shop_of({{"people.csv", "person,name\nP2,Ruel\nP3,Sela\n"},
                             {"labour.csv", "machine,date,minutes,work\nM1,2026-03-03,10,clean\n"}},
                            shop);
  const Change change = import_change(shop, more);
  EXPECT_EQ(change.title(), "Imported 0 machines and 3 other lines");
  const auto applied = apply(shop, change);
  ASSERT_TRUE(applied);
  EXPECT_TRUE(applied->same_records(more));
  EXPECT_EQ(applied->next_id, more.next_id);
}

}  // namespace
}  // namespace secondpull::db
