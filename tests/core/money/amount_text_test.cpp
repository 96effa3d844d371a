#include <gmock/gmock.h>
#include <rapidcheck.h>

#include "core/money/money.h"

namespace secondpull {
namespace {

using testing::HasSubstr;

const Currency kDollar{"USD", 2};
const Currency kYen{"JPY", 0};
const Currency kDinar{"KWD", 3};

Money units(std::int64_t count) {
  return Money::from_minor(count);
}

std::string problem_of(const Result<Money>& result) {
  return result ? "" : result.error().sentence;
}

TEST(Amount, ReadsBackWhatItPrintsForEveryNumberOfDigits) {
  EXPECT_TRUE(rc::check("parse(plain(x)) == x, also as typed", [] {
    const Currency currency =
        *rc::gen::elementOf(std::vector<Currency>{kYen, {"USN", 2}, kDinar, {"CLF", 4}, kDollar});
    const Money amount = units(*rc::gen::inRange<std::int64_t>(-kLargestAmount, kLargestAmount + 1));
    RC_ASSERT(parse_amount(plain(amount, currency), currency, "price") == amount);
    RC_ASSERT(parse_typed_amount(plain(amount, currency), currency, "price") == amount);
    RC_ASSERT(parse_typed_amount(shown(amount, currency), currency, "price") == amount);
    RC_ASSERT(parse_typed_amount(shown_short(amount, currency), currency, "price") == amount);
  }));
}

TEST(Amount, IsReadAsFilesHoldIt) {
  EXPECT_EQ(parse_amount("100.00", kDollar, "price"), units(10'000));
  EXPECT_EQ(parse_amount("100", kDollar, "price"), units(10'000));
  EXPECT_EQ(parse_amount("0.5", kDollar, "price"), units(50));
  EXPECT_EQ(parse_amount("-3.20", kDollar, "price"), units(-320));
  EXPECT_EQ(parse_amount("1234", kYen, "price"), units(1234));
  EXPECT_EQ(parse_amount("1.234", kDinar, "price"), units(1234));
}

TEST(Amount, KeepsUnitsThatABinaryFractionCannotHold) {
  // 2^53 + 1 is the first whole number that a double cannot hold.
  EXPECT_EQ(parse_amount("90071992547409.93", kDollar, "price"), units(9'007'199'254'740'993));
  EXPECT_EQ(plain(units(9'007'199'254'740'993), kDollar), "90071992547409.93");
}

TEST(Amount, RefusesWhatFilesMayNotHold) {
  for (const char* text : {"", "-", ".", ".5", "5.", "1,234.00", " 1", "1 ", "+1", "1e3", "0x1", "1.2.3",
                           "--1", "$1", "1.00-", "NaN", "\u0661"})
    EXPECT_FALSE(parse_amount(text, kDollar, "price")) << text;
  EXPECT_FALSE(parse_amount("1.0", kYen, "price"));
}

TEST(Amount, NamesTheFieldTheValueAndTheReason) {
  const auto result = parse_amount("12.345", kDollar, "pickup_cost");
  ASSERT_FALSE(result);
  EXPECT_EQ(result.error().field, "pickup_cost");
  EXPECT_EQ(result.error().value, "12.345");
  EXPECT_EQ(result.error().sentence, "The pickup cost 12.345 has more decimals than USD allows (2).");
  EXPECT_THAT(problem_of(parse_amount("lots", kDollar, "fee")), HasSubstr("The fee \"lots\" is no amount"));
  EXPECT_THAT(problem_of(parse_amount("", kDollar, "fee")), HasSubstr("The fee is empty"));
}

TEST(Amount, RefusesMoreThanCanBeKept) {
  EXPECT_EQ(parse_amount("100000000000000.00", kDollar, "price"), units(kLargestAmount));
  EXPECT_THAT(problem_of(parse_amount("100000000000000.01", kDollar, "price")), HasSubstr("too large"));
  EXPECT_THAT(problem_of(parse_amount("99999999999999999999999999", kDollar, "price")),
              HasSubstr("too large"));
  EXPECT_THAT(problem_of(parse_amount("-99999999999999999999999999", kDollar, "price")),
              HasSubstr("too large"));
}

TEST(TypedAmount, MayBeTypedTheShortWay) {
  for (const char* text : {"12.5", "12.50", "$12.5", "$ 12.5", "12.5$", "12.50 USD", "usd 12.5", "  12.5\t"})
    EXPECT_EQ(parse_typed_amount(text, kDollar, "price"), units(1250)) << text;
  EXPECT_EQ(parse_typed_amount(".5", kDollar, "price"), units(50));
  EXPECT_EQ(parse_typed_amount("12.", kDollar, "price"), units(1200));
  EXPECT_EQ(parse_typed_amount("1,234.50", kDollar, "price"), units(123'450));
  EXPECT_EQ(parse_typed_amount("1,234,567", kDollar, "price"), units(123'456'700));
  EXPECT_EQ(parse_typed_amount("-$3.20", kDollar, "price"), units(-320));
  EXPECT_EQ(parse_typed_amount("$-3.20", kDollar, "price"), units(-320));
  EXPECT_EQ(parse_typed_amount("\u2212$3.20", kDollar, "price"), units(-320));
}

TEST(TypedAmount, RefusesACommaThatDoesNotPartThousands) {
  for (const char* text : {"12,5", "1,23", "1,2345", ",123", "1,,234", "1234,567"})
    EXPECT_THAT(problem_of(parse_typed_amount(text, kDollar, "price")), HasSubstr("comma")) << text;
  EXPECT_FALSE(parse_typed_amount("1.234,50", kDollar, "price"));
  EXPECT_FALSE(parse_typed_amount("$", kDollar, "price"));
  EXPECT_FALSE(parse_typed_amount("€5", kDollar, "price"));
}

TEST(ShownAmount, IsGroupedAndCarriesItsSignOrCode) {
  EXPECT_EQ(shown(units(123'450), kDollar), "$1,234.50");
  EXPECT_EQ(shown(units(-320), kDollar), "\u2212$3.20");
  EXPECT_EQ(shown(units(1234), kYen), "1,234 JPY");
  EXPECT_EQ(shown(units(0), kDollar), "$0.00");
  EXPECT_EQ(shown(units(100'000'000), kDollar), "$1,000,000.00");
  EXPECT_EQ(shown_short(units(16'000), kDollar), "$160");
  EXPECT_EQ(shown_short(units(1250), kDollar), "$12.50");
}

}  // namespace
}  // namespace secondpull
