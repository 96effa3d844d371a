#include "core/planning/case_numbers.h"

#include <gmock/gmock.h>

#include "core/shop/own_numbers.h"
#include "tests/core/learning/small_knowledge.h"

namespace secondpull::planning {
namespace {

using test::BareShop;
using test::day;
using What = CaseNumber::What;

class TheCauses : public testing::Test {
 protected:
  TheCauses() {
    base.knowledge = test::small_knowledge();
    Machine changed = *bare.shop.find(machine);
    changed.symptom = "won't pop";
    bare.shop.all<Machine>().replace(changed);
  }
  std::vector<CaseNumber> causes() const {
    const auto books = Books::of(std::make_shared<const Shop>(bare.shop), MileageRates{});
    const Situation now{std::make_shared<const Books>(*books),
                        std::make_shared<const learning::KnowledgeBase>(base), day("2026-04-01")};
    std::vector<CaseNumber> numbers = case_numbers(now, now.case_of(machine, 0).value(), std::nullopt);
    std::erase_if(numbers, [](const CaseNumber& number) { return number.what != What::cause_share; });
    return numbers;
  }
  learning::KnowledgeBase base;
  BareShop bare;
  MachineId machine = bare.machine();
};

TEST_F(TheCauses, StandWithTheirSharesTheMostFrequentFirst) {
  const std::vector<CaseNumber> all = causes();
  ASSERT_GT(all.size(), 2U);
  double sum = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    sum += all[i].value;
    if (i > 0) {
      EXPECT_LE(all[i].value, all[i - 1].value);
    }
  }
  EXPECT_NEAR(sum, 1, 1e-12);
}

TEST_F(TheCauses, TakeTheShareThatIsSaidForThisMachineAndShowWhatItWas) {
  const CaseNumber rarest = causes().back();
  const double weight = weight_for_share(rarest, 0.6);
  const auto said = set_own_number(bare.shop, machine, rarest.path, weight);
  ASSERT_TRUE(said) << said.error().sentence;
  bare.shop = apply(bare.shop, *said).value();
  const std::vector<CaseNumber> after = causes();
  EXPECT_EQ(after.front().of, rarest.of);
  EXPECT_NEAR(after.front().value, 0.6, 1e-12);
  ASSERT_TRUE(after.front().computed);
  EXPECT_NEAR(*after.front().computed, rarest.value, 1e-12);
}

}  // namespace
}  // namespace secondpull::planning
