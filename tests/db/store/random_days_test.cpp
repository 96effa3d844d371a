#include <algorithm>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "core/books/books.h"
#include "db/rates/published_rates.h"
#include "tests/db/store/shop_days.h"
#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;

/// What a person could see of a shop: its records, its figures, what a search finds, whether its photos are
/// there.
struct Seen {
  std::string dump;
  std::vector<std::int64_t> figures;
  std::vector<std::string> found;
  std::vector<std::string> photos;
  friend bool operator==(const Seen&, const Seen&) = default;
};

/// Every figure of every machine and of the year, in order.
std::vector<std::int64_t> figures_of(const Store& store) {
  const auto books = Books::of(store.shop(), published_mileage_rates());
  if (!books) throw std::runtime_error(books.error().sentence);
  std::vector<std::int64_t> figures;
  for (const MachineFigures& machine : books->machines()) {
    figures.push_back(machine.cost_basis.minor());
    figures.push_back(machine.running_costs.minor());
    figures.push_back(machine.minutes.count);
    figures.push_back(machine.profit ? machine.profit->minor() : -1);
  }
  const auto year = books->year(2026, published_self_employment_rates());
  if (!year) throw std::runtime_error(year.error().sentence);
  if (!year->off().is_zero()) throw std::runtime_error("the cost of goods is not that of the movements");
  for (const YearSize& one : sizes(*year))
    figures.push_back(one.size);
  return figures;
}

Seen seen(const Store& store) {
  Seen what{.dump = store.dump(), .figures = figures_of(store)};
  for (const char* text :
       {"tarnwick", "spark plug", "piston", "seiz", "größer", "火花塞", "50% \"off\"", "#3", "ru", "x"}) {
    for (const Hit& hit : store.search(text, 10'000))
      what.found.push_back(std::string{text} + ":" + std::to_string(hit.record.index()) + ":" + hit.text);
    what.found.emplace_back("--");
  }
  for (const Photo& photo : store.shop()->all<Photo>())
    what.photos.push_back(photo.sha256 + (store.photo(photo.sha256) ? " is there" : " is missing"));
  return what;
}

void keep_every_picture(Store& store) {
  for (const char* phrase : phrases()) {
    const auto bytes = std::as_bytes(std::span{phrase, std::char_traits<char>::length(phrase)});
    ASSERT_TRUE(store.keep_photo({bytes.begin(), bytes.end()}));
  }
}

bool adds_a_photo(const Change& change) {
  return std::ranges::any_of(change.edits(), [](const Edit& edit) {
    return edit.kind == EditKind::add && std::holds_alternative<Photo>(edit.record);
  });
}

/// Hours or days pass between actions, so that backups, thinning and sweeps of photos come between them; now
/// and then the shop is closed and opened.
void work_and_go_back(unsigned seed) {
  SCOPED_TRACE("seed " + std::to_string(seed));
  constexpr int actions = 60;
  std::mt19937 random{seed};
  const TempFolder folder;
  std::optional<Store> store{new_store(folder)};
  Instant now = noon(3, 5);
  std::vector<Seen> states{seen(*store)};
  while (states.size() <= actions) {
    now += std::chrono::hours{random() % 60};
    const auto change = random_action(*store->shop(), utc_day(now), random);
    if (!change || change->empty()) continue;
    if (adds_a_photo(*change)) keep_every_picture(*store);
    const auto performed = store->perform(*change, now);
    ASSERT_TRUE(performed) << change->title() << ": " << performed.error().sentence;
    states.push_back(seen(*store));
    EXPECT_TRUE(reopened(folder, Access::read).shop()->same_records(*store->shop()))
        << "after " << change->title();
    if (random() % 10 == 0) {
      store.reset();
      store.emplace(reopened(folder));
    }
  }
  for (auto before = states.rbegin() + 1; before != states.rend(); ++before) {
    const auto undone = store->undo();
    ASSERT_TRUE(undone) << undone.error().sentence;
    EXPECT_EQ(seen(*store), *before) << "after undoing " << undone->title;
  }
  EXPECT_FALSE(store->undo());
  EXPECT_EQ(store->check(), std::vector<Problem>{});
  store.reset();
  store.emplace(reopened(folder));
  for (auto after = states.begin() + 1; after != states.end(); ++after) {
    const auto redone = store->redo();
    ASSERT_TRUE(redone) << redone.error().sentence;
    EXPECT_EQ(seen(*store), *after) << "after redoing " << redone->title;
  }
  EXPECT_FALSE(store->redo());
  EXPECT_EQ(store->check(), std::vector<Problem>{});
}

TEST(RandomDays, UndoneToTheStartAndDoneAgainShowTheSameShop) {
  for (const unsigned seed : {1U, 2U, 3U})
    work_and_go_back(seed);
}

}  // namespace
}  // namespace secondpull::db
