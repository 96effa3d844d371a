#include <chrono>
#include <filesystem>
#include <random>
#include <thread>

#include <gtest/gtest.h>

#include "tests/faults/busy_shop.h"
#include "tests/faults/child.h"

namespace secondpull::faults {
namespace {

namespace fs = std::filesystem;
using std::chrono::microseconds;

constexpr int kills = 100;

void wait_somewhere_in(microseconds span, std::mt19937& random) {
  std::this_thread::sleep_for(
      microseconds{std::uniform_int_distribution<microseconds::rep>{0, span.count()}(random)});
}

TEST(Kill, InTheMiddleOfASaveLeavesTheShopBeforeOrAfterIt) {
  const TempFolder folder;
  make_shop(folder.shop());
  std::uint64_t confirmed = 0;
  std::optional<Expected> expected;
  {
    const db::Store store = open_shop(folder.shop());
    confirmed = store.generation();
    expected.emplace(*store.shop(), confirmed);
  }
  std::mt19937 random{11};
  for (int i = 0; i < kills; ++i) {
    SCOPED_TRACE("kill " + std::to_string(i));
    {
      Child child{[&](const Teller& teller) {
        db::Store store = open_shop(folder.shop());
        for (;;) {
          teller.tell(store.generation());
          do_step(store);
        }
      }};
      ASSERT_TRUE(child.next()) << "opened";
      wait_somewhere_in(std::chrono::milliseconds{60}, random);
      child.kill();
      while (const auto told = child.next())
        confirmed = *told;
    }
    const db::Store store = open_shop(folder.shop());
    ASSERT_GE(store.generation(), confirmed) << "what was saved is lost";
    ASSERT_LE(store.generation(), confirmed + 1);
    ASSERT_TRUE(store.shop()->same_records(expected->at(store.generation())));
    ASSERT_EQ(store.shop()->next_id, expected->at(store.generation()).next_id);
    ASSERT_TRUE(store.check().empty()) << store.check().front().sentence;
    ASSERT_EQ(store.search("tarnwick", 1'000'000).size(), store.shop()->all<Machine>().size());
    confirmed = store.generation();
  }
}

TEST(Kill, InTheMiddleOfAnImportLeavesTheShopBeforeOrAfterIt) {
  constexpr int lines = 2000;
  const TempFolder folder;
  make_shop(folder.shop());
  const auto fresh_copy = [&] {
    fs::remove_all(folder.other());
    fs::copy(folder.shop(), folder.other(), fs::copy_options::recursive);
  };
  microseconds whole{};
  // How long an import takes here is learned from those that are let finish: in a child with cold caches it
  // can take much longer than in this process. Every tenth is killed right after it said that it was saved.
  constexpr int let_finish_every = 10;
  std::mt19937 random{12};
  int before = 0;
  for (int i = 0; i < kills; ++i) {
    SCOPED_TRACE("kill " + std::to_string(i));
    fresh_copy();
    {
      Child child{[&](const Teller& teller) {
        db::Store store = open_shop(folder.other());
        const Change import = import_labour(*store.shop(), lines);
        teller.tell(0);
        if (store.perform(import, now)) teller.tell(1);
        std::this_thread::sleep_for(std::chrono::hours{1});
      }};
      ASSERT_TRUE(child.next());
      bool saved = false;
      if (i % let_finish_every == 0) {
        const auto begin = std::chrono::steady_clock::now();
        saved = child.next().has_value();
        ASSERT_TRUE(saved);
        whole = std::chrono::duration_cast<microseconds>(std::chrono::steady_clock::now() - begin);
        child.kill();
      } else {
        wait_somewhere_in(whole * 5 / 4, random);
        child.kill();
        saved = child.next().has_value();
      }
      db::Store store = open_shop(folder.other());
      const std::size_t found = store.shop()->all<Labour>().size();
      const auto at_first = std::size_t{1};  // the shop's one machine was fetched
      ASSERT_TRUE(found == at_first || found == at_first + lines) << found;
      if (saved) {
        ASSERT_EQ(found, at_first + lines);
      }
      ASSERT_TRUE(store.check().empty()) << store.check().front().sentence;
      if (found == at_first) ++before;
      const auto generation = store.generation();
      ASSERT_TRUE(store.undo()) << "the import or what was before it";
      ASSERT_EQ(store.generation(), generation + 1);
    }
  }
  EXPECT_GT(before, 0) << "no kill came in time";
}

}  // namespace
}  // namespace secondpull::faults
