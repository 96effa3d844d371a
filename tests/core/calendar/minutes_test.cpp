#include "core/calendar/minutes.h"

#include <gmock/gmock.h>
#include <rapidcheck.h>

namespace secondpull {
namespace {

std::int64_t typed(const char* text) {
  const auto minutes = parse_typed_minutes(text, "minutes");
  return minutes ? minutes->count : -1;
}

TEST(WrittenMinutes, AreDigitsAlone) {
  EXPECT_EQ(parse_minutes("0", "minutes"), Minutes{0});
  EXPECT_EQ(parse_minutes("100000000", "minutes"), Minutes{100'000'000});
  for (const char* text : {"", "-1", "+1", "1.5", "1h", " 1", "100000001", "99999999999999999999"})
    EXPECT_FALSE(parse_minutes(text, "minutes")) << text;
}

TEST(TypedMinutes, MayBeTypedTheShortWay) {
  for (const char* text :
       {"80", "80m", "80 min", "1h20", "1h 20m", "1H20M", "1:20", "1 h 20 min", "1 hour 20 minutes"})
    EXPECT_EQ(typed(text), 80) << text;
  EXPECT_EQ(typed("1.5h"), 90);
  EXPECT_EQ(typed(".5h"), 30);
  EXPECT_EQ(typed("0.33 h"), 20);
  EXPECT_EQ(typed("2h"), 120);
  EXPECT_EQ(typed("0"), 0);
}

TEST(TypedMinutes, RefusesWhatIsNoLengthOfWork) {
  for (const char* text : {"", "h", "-5", "1:60", "1:2", "1h60", "1.5", "1.5m", "1h20x", "80 apples", "1::20",
                           "1.h", "100000000h", "1.23456h"})
    EXPECT_EQ(typed(text), -1) << text;
}

TEST(ShownMinutes, ReadBackAsTheyWereShown) {
  EXPECT_TRUE(rc::check("typed(shown(x)) == x", [] {
    const Minutes minutes{*rc::gen::inRange<std::int64_t>(0, 1'000'000)};
    RC_ASSERT(parse_typed_minutes(shown(minutes), "minutes") == minutes);
  }));
  EXPECT_EQ(shown(Minutes{200}), "3 h 20 min");
  EXPECT_EQ(shown(Minutes{45}), "45 min");
  EXPECT_EQ(shown(Minutes{60}), "1 h");
  EXPECT_EQ(shown(Minutes{0}), "0 min");
}

// The money model's worked month: 3 h 20 min are 3.33 hours.
TEST(DecimalHours, HaveTwoDecimalsRounded) {
  EXPECT_EQ(decimal_hours(Minutes{200}), "3.33");
  EXPECT_EQ(decimal_hours(Minutes{100}), "1.67");
  EXPECT_EQ(decimal_hours(Minutes{1}), "0.02");
  EXPECT_EQ(decimal_hours(Minutes{0}), "0.00");
  EXPECT_EQ(decimal_hours(Minutes{100'000'000}), "1666666.67");
}

}  // namespace
}  // namespace secondpull
