#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/books/closing.h"
#include "core/shop/bench.h"
#include "core/shop/selling.h"
#include "db/rates/published_rates.h"
#include "tests/db/store/test_shop.h"

namespace secondpull::db {
namespace {

using namespace testing;
using ::testing::HasSubstr;

/// A shop with a machine bought and sold in March 2026, whose year is closed.
class ClosedYearOfAStore : public ::testing::Test {
 protected:
  ClosedYearOfAStore() {
    done(store, take_in(*store.shop(), "1"));
    machine = store.shop()->all<Machine>().begin()->id;
    done(store, sell(*store.shop(), {.machine = machine, .date = day(3, 20), .price = dollars(90)}));
    done(store, close_year(books(), published_self_employment_rates(), 2026, day(12, 31)), noon(12, 31));
  }
  Books books() const { return *Books::of(store.shop(), published_mileage_rates()); }
  Result<Done> log_hours(Date date) {
    return store.perform(*log_labour(*store.shop(), machine, date, Minutes{30}, Work::repair, ""),
                         noon(12, 31));
  }

  TempFolder folder;
  Store store = new_store(folder);
  MachineId machine{};
};

TEST_F(ClosedYearOfAStore, RefusesWhatWouldChangeItsFiguresAndLosesNothing) {
  const std::string before = store.dump();
  const auto refused = log_hours(day(3, 10));
  ASSERT_FALSE(refused);
  EXPECT_THAT(refused.error().sentence, HasSubstr("The books of 2026 are closed"));
  EXPECT_THAT(refused.error().sentence, HasSubstr("hours from 0 min to 30 min"));
  EXPECT_EQ(store.dump(), before);
}

TEST_F(ClosedYearOfAStore, IsOpenedByUndoAndClosedAgainByRedo) {
  ASSERT_TRUE(store.undo());
  EXPECT_TRUE(store.shop()->all<ClosedYear>().empty());
  ASSERT_TRUE(store.redo());
  EXPECT_NE(closed(*store.shop(), 2026), nullptr);
  EXPECT_FALSE(log_hours(day(3, 10)));
}

TEST_F(ClosedYearOfAStore, OpenedAgainTakesEditsAndThatIsUndoneLikeAnyAction) {
  done(store, reopen_year(*store.shop(), 2026));
  EXPECT_TRUE(log_hours(day(3, 10)));
  ASSERT_TRUE(store.undo());  // the hours
  ASSERT_TRUE(store.undo());  // the opening
  EXPECT_NE(closed(*store.shop(), 2026), nullptr);
  EXPECT_TRUE(drift(books(), published_self_employment_rates(), 2026)->empty());
}

TEST_F(ClosedYearOfAStore, IsStillClosedAfterTheShopWasOpenedAgain) {
  store = reopened(folder, Access::read);
  EXPECT_NE(closed(*store.shop(), 2026), nullptr);
  EXPECT_FALSE(store.shop()->all<KeptFigure>().empty());
}

TEST_F(ClosedYearOfAStore, LeavesLaterYearsAlone) {
  EXPECT_TRUE(log_hours(std::chrono::year{2027} / 1 / 5));
}

}  // namespace
}  // namespace secondpull::db
