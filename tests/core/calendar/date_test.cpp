#include "core/calendar/date.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

namespace secondpull {
namespace {

using testing::HasSubstr;

Date day(const char* text) {
  return parse_date(text, "date").value();
}

/// As it is typed on Thursday, 5 March 2026.
std::string typed(const char* text) {
  const auto date = parse_typed_date(text, day("2026-03-05"), "date");
  return date ? iso(*date) : date.error().sentence;
}

TEST(WrittenDate, ReadsBackWhatItPrints) {
  EXPECT_TRUE(rc::check("parse(iso(x)) == x", [] {
    const Date date = plus_days(day("1900-01-01"), *rc::gen::inRange(0, 2'958'000));
    RC_ASSERT(parse_date(iso(date), "date") == date);
    RC_ASSERT(parse_typed_date(iso(date), day("2026-03-05"), "date") == date);
    RC_ASSERT(parse_typed_date(shown(date), day("2026-03-05"), "date") == date);
  }));
}

TEST(WrittenDate, IsADayOfTheCalendar) {
  for (const char* text : {"2000-02-29", "2024-02-29", "1900-01-01", "9999-12-31"})
    EXPECT_TRUE(parse_date(text, "date")) << text;
  for (const char* text : {"1900-02-29", "2001-02-29", "2000-13-01", "2000-00-10", "2000-01-00", "2000-01-32",
                           "2000-04-31", "1899-12-31", "2026-3-05", "2026/03/05", "05-03-2026", "2026-03-05 ",
                           " 2026-03-05", "20260305", "2026-03-0x", ""})
    EXPECT_FALSE(parse_date(text, "date")) << text;
}

TEST(WrittenDate, NamesTheFieldAndTheText) {
  const auto date = parse_date("2001-02-29", "hulk_gone");
  ASSERT_FALSE(date);
  EXPECT_EQ(date.error().field, "hulk_gone");
  EXPECT_EQ(date.error().value, "2001-02-29");
  EXPECT_THAT(date.error().sentence, HasSubstr("The hulk gone \"2001-02-29\" is no day of the calendar"));
}

TEST(TypedDate, MayBeTypedTheShortWay) {
  EXPECT_EQ(typed("today"), "2026-03-05");
  EXPECT_EQ(typed(" Yesterday "), "2026-03-04");
  EXPECT_EQ(typed("tomorrow"), "2026-03-06");
  EXPECT_EQ(typed("-3"), "2026-03-02");
  EXPECT_EQ(typed("+7"), "2026-03-12");
  EXPECT_EQ(typed("3/5"), "2026-03-05");
  EXPECT_EQ(typed("3/5/26"), "2026-03-05");
  EXPECT_EQ(typed("3/5/2025"), "2025-03-05");
  EXPECT_EQ(typed("5 mar"), "2026-03-05");
  EXPECT_EQ(typed("5mar"), "2026-03-05");
  EXPECT_EQ(typed("mar 5"), "2026-03-05");
  EXPECT_EQ(typed("4 December 2025"), "2025-12-04");
  EXPECT_EQ(typed("2026-03-05"), "2026-03-05");
}

TEST(TypedDate, IsTheLatestOneNotAfterTodayWithoutAYear) {
  EXPECT_EQ(typed("3/6"), "2025-03-06");
  EXPECT_EQ(typed("31 dec"), "2025-12-31");
  EXPECT_EQ(typed("2/29"), "2024-02-29");
}

// 5 March 2026 is a Thursday: from memory, recomputed from 1 January 2000, a Saturday.
TEST(TypedDate, TakesAWeekdayForTheLastOneTodayIncluded) {
  EXPECT_EQ(typed("thu"), "2026-03-05");
  EXPECT_EQ(typed("mon"), "2026-03-02");
  EXPECT_EQ(typed("Friday"), "2026-02-27");
}

TEST(TypedDate, RefusesWhatIsNoDay) {
  for (const char* text : {"", "soon", "13/5", "2/30", "30 feb", "3/5/126", "5 m", "-", "-99999999", "3//",
                           "/", "mo", "5 mar 2026 x", "2026-02-30"})
    EXPECT_FALSE(parse_typed_date(text, day("2026-03-05"), "date")) << text;
}

TEST(ShownDate, IsReadInFull) {
  EXPECT_EQ(shown(day("2026-03-05")), "5 March 2026");
  EXPECT_EQ(shown_short(day("2026-03-05"), day("2026-12-31")), "5 Mar");
  EXPECT_EQ(shown_short(day("2025-03-05"), day("2026-01-01")), "5 Mar 2025");
  EXPECT_EQ(weekday_short(day("2026-03-06")), "Fri");
}

TEST(Days, AreCountedOverLeapDays) {
  EXPECT_EQ(days_between(day("2026-03-02"), day("2026-03-21")), 19);
  EXPECT_EQ(days_between(day("2024-02-28"), day("2024-03-01")), 2);
  EXPECT_EQ(days_between(day("2026-03-02"), day("2026-03-01")), -1);
  EXPECT_EQ(plus_days(day("2024-02-28"), 1), day("2024-02-29"));
  EXPECT_EQ(plus_days(day("2026-01-01"), -1), day("2025-12-31"));
}

}  // namespace
}  // namespace secondpull
