#include "core/shop/words.h"

#include <set>

#include <gmock/gmock.h>

namespace secondpull {
namespace {

template <class Word>
class Words : public testing::Test {};
using Vocabularies = testing::Types<Source, MachineKind, FaultEnd, FindEnd, Work, SoldAs, OfferResult,
                                    DisposalKind, DistanceUnit, Stage>;
TYPED_TEST_SUITE(Words, Vocabularies);

TYPED_TEST(Words, ReadBackAsTheyAreWrittenAndAreNeverTheSame) {
  std::set<std::string_view> seen;
  for (const TypeParam value : all_words<TypeParam>()) {
    EXPECT_EQ(from_word<TypeParam>(word(value)), value);
    EXPECT_TRUE(seen.insert(word(value)).second) << word(value);
  }
  EXPECT_FALSE(from_word<TypeParam>(""));
  EXPECT_FALSE(from_word<TypeParam>("Kept"));
}

TEST(WordsOfTheExchange, AreSpelledAsTheFilesSpellThem) {
  EXPECT_EQ(word(Source::private_sale), "private");
  EXPECT_EQ(word(Source::trade_in), "trade-in");
  EXPECT_EQ(word(MachineKind::lawn_tractor), "lawn tractor");
  EXPECT_EQ(word(FaultEnd::given_up), "given up");
  EXPECT_EQ(word(FindEnd::passed_on), "passed on");
  EXPECT_EQ(word(Work::test_run), "test run");
  EXPECT_EQ(word(SoldAs::as_is), "as is");
  EXPECT_EQ(word(OfferResult::no_show), "no show");
  EXPECT_EQ(word(DisposalKind::parted_out), "parted out");
  EXPECT_EQ(word(Stage::waiting_on_parts), "waiting on parts");
  EXPECT_EQ(all_words<Stage>().size(), 9u);
}

}  // namespace
}  // namespace secondpull
