#include "app/print/qr_code.h"

#include <gtest/gtest.h>

namespace secondpull::app::test {
namespace {

// ISO/IEC 18004, from memory: version 1 has 21 modules a side and holds 11 bytes at level Q; each version has
// 4 more.
TEST(QrCode, OfATagIsTheSmallestThereIs) {
  const auto code = qrCode("#14");
  ASSERT_TRUE(code);
  EXPECT_EQ(code->side, 21);
  EXPECT_EQ(code->dark.size(), 21U * 21U);
  EXPECT_EQ(qrCode("#2345678901")->side, 21);
  EXPECT_EQ(qrCode("#23456789012")->side, 25);
}

// Its three finder patterns: a dark corner with a light ring one module in.
TEST(QrCode, HasItsFinderPatterns) {
  const auto code = qrCode("#14");
  ASSERT_TRUE(code);
  for (const auto& [x, y] : {std::pair{0, 0}, std::pair{14, 0}, std::pair{0, 14}}) {
    EXPECT_TRUE(code->isDark(x, y));
    EXPECT_FALSE(code->isDark(x + 1, y + 1));
    EXPECT_TRUE(code->isDark(x + 3, y + 3));
  }
  EXPECT_FALSE(code->isDark(7, 7));
}

TEST(QrCode, OfNothingOrOfTooMuchIsNone) {
  EXPECT_FALSE(qrCode(""));
  EXPECT_FALSE(qrCode(std::string(5000, 'x')));  // the largest holds 1663 bytes at level Q
}

TEST(QrCode, NeverHasModulesBelowHalfAMillimetre) {
  const auto small = qrCode("#14");
  EXPECT_DOUBLE_EQ(qrSide(*small, 30), 30);
  const auto large = qrCode(std::string(400, 'x'));
  EXPECT_GE(qrSide(*large, 30) / (large->side + 2 * kQuietModules), kLeastModule);
}

}  // namespace
}  // namespace secondpull::app::test
