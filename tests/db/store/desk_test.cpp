#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;
using ::testing::HasSubstr;

TEST(SettingsOfAShop, StayAndRaiseTheGeneration) {
  const TempFolder folder;
  std::optional<Store> store{new_store(folder)};
  Settings settings = test_settings();
  settings.name = "O'Marl's";
  settings.hour_value.reset();
  settings.day_cost = Money::from_minor(35);
  settings.hours_a_week = Tenths{125};
  settings.unit_of_distance = DistanceUnit::km;
  const auto generation = store->generation();
  ASSERT_TRUE(store->set_settings(settings));
  EXPECT_GT(store->generation(), generation);
  EXPECT_EQ(store->shop()->settings, settings);
  EXPECT_TRUE(store->history().empty());
  store.reset();
  store.emplace(reopened(folder));
  EXPECT_EQ(store->shop()->settings, settings);
}

TEST(SettingsOfAShop, ChangeTheCurrencyOnlyWhileItIsEmpty) {
  const TempFolder folder;
  Store store = new_store(folder);
  Settings yen = test_settings();
  yen.currency = *currency_of("JPY");
  ASSERT_TRUE(store.set_settings(yen));
  EXPECT_EQ(store.shop()->settings.currency.digits, 0);
  done(store, take_in(*store.shop(), "1"));
  const auto refused = store.set_settings(test_settings());
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.error().field, "currency");
  EXPECT_EQ(refused.error().value, "USD");
  EXPECT_EQ(store.shop()->settings, yen);
}

TEST(BenchClock, RunsAcrossReopeningUntilItIsStopped) {
  const TempFolder folder;
  std::optional<Store> store{new_store(folder)};
  done(*store, take_in(*store->shop(), "1"));
  EXPECT_FALSE(store->clock());
  const MachineId machine = store->shop()->all<Machine>().begin()->id;
  ASSERT_TRUE(store->set_clock(Clock{machine, noon(3, 5)}));
  store.reset();
  store.emplace(reopened(folder));
  ASSERT_TRUE(store->clock());
  EXPECT_EQ(store->clock()->machine, machine);
  EXPECT_EQ(store->clock()->started, noon(3, 5));
  ASSERT_TRUE(store->set_clock(std::nullopt));
  EXPECT_FALSE(store->clock());
}

TEST(BenchClock, IsNotThereWhileItsMachineIsTakenBack) {
  const TempFolder folder;
  Store store = new_store(folder);
  done(store, take_in(*store.shop(), "1"));
  ASSERT_TRUE(store.set_clock(Clock{store.shop()->all<Machine>().begin()->id, noon(3, 5)}));
  ASSERT_TRUE(store.undo());
  EXPECT_FALSE(store.clock());
  ASSERT_TRUE(store.redo());
  EXPECT_TRUE(store.clock());
}

TEST(Drafts, AreOneAFormAndOutliveAKill) {
  const TempFolder folder;
  std::optional<Store> store{new_store(folder)};
  ASSERT_TRUE(store->save_draft("yard.log-machine", "make=Tarn", noon(3, 5)));
  ASSERT_TRUE(store->save_draft("yard.log-machine", "make=Tarnwick\nnote='\"", noon(3, 6)));
  ASSERT_TRUE(store->save_draft("bench.finding", "", noon(3, 5)));
  store.reset();
  store.emplace(reopened(folder));
  ASSERT_EQ(store->drafts().size(), 2U);
  EXPECT_EQ(store->drafts().at(0).form, "bench.finding");
  EXPECT_EQ(store->drafts().at(1).text, "make=Tarnwick\nnote='\"");
  EXPECT_EQ(store->drafts().at(1).saved, noon(3, 6));
  ASSERT_TRUE(store->drop_draft("yard.log-machine"));
  ASSERT_TRUE(store->drop_draft("never.there"));
  EXPECT_EQ(store->drafts().size(), 1U);
  EXPECT_TRUE(store->history().empty());
}

TEST(Preferences, AreKeptByKey) {
  const TempFolder folder;
  std::optional<Store> store{new_store(folder)};
  EXPECT_FALSE(store->preference("light"));
  ASSERT_TRUE(store->set_preference("light", "dark"));
  ASSERT_TRUE(store->set_preference("light", "system"));
  store.reset();
  store.emplace(reopened(folder));
  EXPECT_EQ(store->preference("light"), "system");
}

}  // namespace
}  // namespace secondpull::db
