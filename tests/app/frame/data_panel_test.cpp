#include "app/frame/data_panel.h"

#include <fstream>

#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>
#include <gmock/gmock.h>

#include "app/parts/data_table.h"
#include "db/exchange/exchange.h"
#include "tests/app/shop_for_test.h"

namespace secondpull::app::test {
namespace {

namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::IsEmpty;

constexpr int kWorkMs = 60000;

class DataPanelTest : public ::testing::Test {
 protected:
  DataPanelTest() { panel.show(); }
  fs::path in(const std::string& name) const { return fs::path{outside.path().toStdString()} / name; }
  void write(const std::string& folder, const std::string& file, const std::string& text) {
    fs::create_directories(in(folder));
    std::ofstream{in(folder) / file} << text;
  }
  template <class Widget>
  Widget& child(const char* name) {
    return *panel.findChild<Widget*>(name);
  }
  QString told() { return child<QLabel>("dataTold").text(); }
  void waitUntilTold() {
    ASSERT_TRUE(QTest::qWaitFor([&] { return child<QLabel>("dataTold").isVisible(); }, kWorkMs));
  }
  std::string dump() {
    std::string text;
    shop.session->withStore([&](db::Store& at) { text = at.dump(); });
    return text;
  }
  QStringList row(int index) {
    const QAbstractItemModel& model = *child<DataTable>("importErrors").model();
    QStringList cells;
    for (int column = 0; column < model.columnCount(); ++column)
      cells << model.index(index, column).data().toString();
    return cells;
  }

  ShopForTest shop;
  QTemporaryDir outside;
  DataPanel panel{*shop.session};
};

TEST_F(DataPanelTest, ExportsTheShopAsItIs) {
  shop.logMachine("Tarnwick", "21");
  panel.exportTo(in("tables"));
  waitUntilTold();
  EXPECT_EQ(told().toStdString(), "Exported 1 machine to " + in("tables").string() + ".");
  const db::ImportResult read = db::read_folder(in("tables"), Shop{});
  ASSERT_THAT(read.errors, IsEmpty());
  EXPECT_TRUE(read.shop.same_records(*shop.session->shop()));
  EXPECT_EQ(read.shop.settings.name, "Test garage");
}

TEST_F(DataPanelTest, ExportsIntoAFolderOfItsOwnWhereOtherThingsLie) {
  write("papers", "letter.txt", "about the trailer");
  panel.exportTo(in("papers"));
  waitUntilTold();
  EXPECT_FALSE(fs::exists(in("papers") / "shop.csv"));
  EXPECT_TRUE(fs::exists(in("papers") / "shop-2026-05-04" / "shop.csv"));
  panel.exportTo(in("papers") / "shop-2026-05-04");  // an earlier export is replaced
  waitUntilTold();
  EXPECT_TRUE(told().startsWith("Exported")) << told().toStdString();
}

TEST_F(DataPanelTest, SaysWhyAFolderCannotBeWritten) {
  write("tables", "shop.csv", "name,currency\nWendle,USD\n");
  write("tables", "guests.csv", "name\n");
  QSignalSpy said{&panel, &DataPanel::wantsSaid};
  panel.exportTo(in("tables"));
  waitUntilTold();
  EXPECT_TRUE(told().contains("guests.csv")) << told().toStdString();
  ASSERT_EQ(said.count(), 1);
  EXPECT_TRUE(said.front().at(1).toBool());
}

TEST_F(DataPanelTest, AddsAFolderToTheOpenShopAsOneActionThatUndoTakesBack) {
  shop.logMachine("Tarnwick", "21");
  write("more", "shop.csv", "name,currency\nWendle,USD\n");
  write("more", "acquisitions.csv", "acquisition,date,source,price\nL7,2026-03-02,private,100.00\n");
  write("more", "machines.csv", "tag,acquisition,kind\nM7,L7,push\nM8,L7,push\n");
  const std::string before = dump();
  const std::size_t entries = shop.session->history().size();
  QSignalSpy changed{shop.session.get(), &Session::changed};
  panel.importFrom(in("more"));
  waitUntilTold();
  EXPECT_EQ(told().toStdString(), "Imported 2 machines and 1 other line from " + in("more").string() + ".");
  EXPECT_EQ(shop.session->shop()->all<Machine>().size(), 3u);
  EXPECT_EQ(shop.session->shop()->settings.name, "Test garage");
  EXPECT_EQ(shop.session->history().size(), entries + 1);
  EXPECT_EQ(changed.count(), 1);
  EXPECT_FALSE(shop.session->undo());
  EXPECT_EQ(dump(), before);
}

TEST_F(DataPanelTest, GivesAnEmptyShopTheSettingsOfTheFolder) {
  write("more", "shop.csv", "name,currency\nWendle,EUR\n");
  write("more", "people.csv", "person,name\nP1,Ruel\n");
  panel.importFrom(in("more"));
  waitUntilTold();
  EXPECT_EQ(shop.session->shop()->settings.name, "Wendle");
  EXPECT_EQ(shop.session->currency().code, "EUR");
}

TEST_F(DataPanelTest, ListsEveryErrorOfTheRunWithItsPlaceAndChangesNothing) {
  write("bad", "shop.csv", "name,currency\nWendle,USD\n");
  write("bad", "people.csv", "person,name,shoe_size\nP1,Ruel,44\n");
  write("bad", "acquisitions.csv",
        "acquisition,date,source,price\nL1,2026-02-30,private,100.00\nL2,2026-03-01,curb,ten\n");
  const std::string before = dump();
  panel.importFrom(in("bad"));
  waitUntilTold();
  EXPECT_EQ(told().toStdString(), "3 errors. Nothing was imported: mend the files and import again.");
  ASSERT_TRUE(child<DataTable>("importErrors").isVisible());
  EXPECT_THAT(row(0).mid(0, 3), ElementsAre("people.csv", "1", "shoe_size"));
  EXPECT_THAT(row(1).mid(0, 4), ElementsAre("acquisitions.csv", "2", "date", "2026-02-30"));
  EXPECT_THAT(row(2).mid(0, 4), ElementsAre("acquisitions.csv", "3", "price", "ten"));
  EXPECT_FALSE(row(2).at(4).isEmpty());
  child<DataTable>("importErrors").selectSourceRow(2);
  EXPECT_TRUE(child<QLabel>("importError").text().startsWith("acquisitions.csv:3: price: "));
  EXPECT_EQ(dump(), before);
  shop.logMachine("Tarnwick", "21");  // nothing is held any more

  write("bad", "people.csv", "person,name\nP1,Ruel\n");
  write("bad", "acquisitions.csv", "acquisition,date,source\nL2,2026-03-01,curb\n");
  write("bad", "machines.csv", "tag,acquisition,kind\nM1,L2,push\n");
  child<QPushButton>("importAgain").click();
  EXPECT_FALSE(child<DataTable>("importErrors").isVisible());
  waitUntilTold();
  EXPECT_EQ(shop.session->shop()->all<Machine>().size(), 2u);
}

TEST_F(DataPanelTest, AsksWhichColumnOfASheetIsWhatAndAddsItsMachines) {
  write("old", "mowers.csv",
        "Nr,Brand,Bought,Asked,Paid,Date sold,Sale price\n"
        "7,Tarnwick,3/4/26,90,$40,5/1/26,$160\n"
        "8,Ostrel,4/4/26,75,ten,,\n");
  panel.openSheet(in("old") / "mowers.csv");
  ASSERT_TRUE(child<QWidget>("sheetPanel").isVisible());
  EXPECT_EQ(child<QComboBox>("column.machines.csv:make").currentText(), "Brand (Tarnwick)");
  child<QPushButton>("importSheet").click();
  waitUntilTold();
  EXPECT_THAT(row(0).mid(0, 3), ElementsAre("mowers.csv", "1", "tag"));  // no column was chosen for it
  child<QComboBox>("column.machines.csv:tag").setCurrentIndex(1);
  child<QPushButton>("importSheet").click();
  waitUntilTold();
  EXPECT_THAT(row(0).mid(0, 4), ElementsAre("mowers.csv", "3", "Paid", "ten"));
  EXPECT_TRUE(shop.session->shop()->all<Machine>().empty());

  write("old", "mowers.csv",
        "Nr,Brand,Bought,Asked,Paid,Date sold,Sale price\n"
        "7,Tarnwick,3/4/26,90,$40,5/1/26,$160\n"
        "8,Ostrel,4/4/26,75,10,,\n");
  child<QPushButton>("importSheet").click();  // read anew, with what was chosen
  waitUntilTold();
  EXPECT_EQ(shop.session->shop()->all<Machine>().size(), 2u) << told().toStdString();
  EXPECT_EQ(shop.session->shop()->all<Sale>().size(), 1u);
  EXPECT_FALSE(child<QWidget>("sheetPanel").isVisible());
  EXPECT_EQ(shop.session->history().size(), 1u);
}

TEST_F(DataPanelTest, SaysWhyAFileIsNoSheet) {
  write("old", "empty.csv", "");
  panel.openSheet(in("old") / "empty.csv");
  EXPECT_TRUE(told().contains("empty.csv")) << told().toStdString();
  EXPECT_FALSE(child<QWidget>("sheetPanel").isVisible());
}

TEST_F(DataPanelTest, RefusesOtherChangesWhileAFolderComesIn) {
  const MachineId machine = shop.logMachine("Tarnwick", "21");
  write("more", "shop.csv", "name,currency\nWendle,USD\n");
  write("more", "people.csv", "person,name\nP1,Ruel\n");
  panel.importFrom(in("more"));
  NewAcquisition another;
  another.date = shop.session->today();
  another.machines.push_back({.kind = MachineKind::push});
  const auto refused = shop.session->perform(log_acquisition(*shop.session->shop(), another));
  ASSERT_TRUE(refused);
  EXPECT_TRUE(QString::fromStdString(refused->sentence).contains("import is under way"));
  EXPECT_TRUE(shop.session->undo());
  EXPECT_FALSE(child<QPushButton>("backUpNow").isEnabled());
  waitUntilTold();
  EXPECT_NE(shop.session->shop()->find(machine), nullptr);
  EXPECT_EQ(shop.session->shop()->all<Person>().size(), 1u);
  EXPECT_FALSE(shop.session->perform(log_acquisition(*shop.session->shop(), another)));
}

TEST_F(DataPanelTest, AnImportGivenUpIsEitherAllThereOrNotAtAll) {
  write("more", "shop.csv", "name,currency\nWendle,USD\n");
  write("more", "people.csv", "person,name\nP1,Ruel\nP2,Ilse\n");
  panel.importFrom(in("more"));
  child<QPushButton>("giveUp").click();
  waitUntilTold();
  const std::size_t people = shop.session->shop()->all<Person>().size();
  if (told() == "Given up; nothing was changed.")
    EXPECT_EQ(people, 0u);
  else
    EXPECT_EQ(people, 2u);
  std::shared_ptr<const Shop> stored;
  shop.session->withStore([&](db::Store& at) { stored = at.shop(); });
  EXPECT_TRUE(stored->same_records(*shop.session->shop()));
}

TEST_F(DataPanelTest, BacksUpNowAndIntoOneFileThatRestoresToTheSameShop) {
  shop.logMachine("Tarnwick", "21");
  const std::string before = dump();
  panel.backUpNow();
  waitUntilTold();
  ASSERT_TRUE(told().startsWith("Backed up to ")) << told().toStdString();
  EXPECT_TRUE(fs::exists(told().mid(13).chopped(1).toStdString()));

  panel.backUpTo(in("kept.tar.gz"));
  waitUntilTold();
  EXPECT_EQ(told().toStdString(), "Backed up to " + in("kept.tar.gz").string() + ".");
  ASSERT_TRUE(db::Store::restore(in("kept.tar.gz"), in("restored")));
  const auto restored = db::Store::open(in("restored"), db::Access::read, shop.now);
  ASSERT_TRUE(restored);
  EXPECT_EQ(restored->dump(), before);
}

TEST_F(DataPanelTest, SaysWhyABackupCannotBeWritten) {
  panel.backUpTo(in("no such folder") / "kept.tar.gz");
  waitUntilTold();
  EXPECT_TRUE(told().contains("no such folder")) << told().toStdString();
}

}  // namespace
}  // namespace secondpull::app::test
