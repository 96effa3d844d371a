#include "app/frame/finder.h"

#include "tests/app/shop_for_test.h"

namespace secondpull::app::test {
namespace {

class Finder : public ::testing::Test {
 protected:
  Finder() {
    first = shop.logMachine("Tarnwick", "21");
    second = shop.logMachine("Oldbarrow", "Rider 300");
  }
  std::vector<Found> find(const QString& typed) { return findWhatNow(typed, *shop.session, deeds, ways); }

  ShopForTest shop;
  MachineId first{}, second{};
  std::optional<MachineId> opened;
  bool logged = false;
  Ways ways{[this](MachineId machine) { opened = machine; }, [](const QString&) {}, [](const QString&) {}};
  std::vector<Page::Deed> deeds{{"log a machine", QKeySequence{"Ctrl+N"}, [this] { logged = true; }},
                                {"settings", {}, {}}};
};

TEST_F(Finder, PutsATypedOrScannedTagFirst) {
  for (const char* typed : {"#2", "2", " #2 "}) {
    const auto found = find(typed);
    ASSERT_FALSE(found.empty()) << typed;
    opened.reset();
    found.front().run();
    EXPECT_EQ(opened, second) << typed;
  }
}

TEST_F(Finder, FindsAMachineByWhatItIs) {
  const auto found = find("oldbarrow");
  ASSERT_FALSE(found.empty());
  found.front().run();
  EXPECT_EQ(opened, second);
}

TEST_F(Finder, DoesWhatTheTypedWordsBegin) {
  for (const char* typed : {"log", "log mach", "machine", "LOG A"}) {
    const auto found = find(typed);
    ASSERT_FALSE(found.empty()) << typed;
    logged = false;
    found.front().run();
    EXPECT_TRUE(logged) << typed;
  }
}

TEST_F(Finder, OffersWhatCanBeDoneWhenNothingIsTyped) {
  EXPECT_EQ(find("").size(), deeds.size());
}

TEST_F(Finder, OffersWhatTwoPagesDoOnceAsTheOpenOneDoesIt) {
  int other = 0;
  deeds.push_back({"log a machine", {}, [&other] { ++other; }});
  const auto found = find("log");
  EXPECT_EQ(std::count_if(found.begin(), found.end(),
                          [](const Found& each) { return each.title == "log a machine"; }),
            1);
  found.front().run();
  EXPECT_TRUE(logged);
  EXPECT_EQ(other, 0);
}

TEST_F(Finder, FindsNothingForWhatIsNowhere) {
  EXPECT_TRUE(find("zzzzqq").empty());
}

}  // namespace
}  // namespace secondpull::app::test
