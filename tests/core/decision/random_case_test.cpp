#include "tests/core/decision/random_case.h"

#include <map>
#include <string>

#include <gmock/gmock.h>

#include "tests/core/decision/case_count.h"
#include "tests/core/decision/plain_solver.h"

namespace secondpull::test {
namespace {

TEST(RandomCase, HasNoProblems) {
  for (std::uint64_t seed = 0; seed < case_count(2000); ++seed)
    EXPECT_THAT(diagnosis::problems_of(random_case(seed)), testing::IsEmpty()) << "seed " << seed;
}

TEST(RandomCase, IsTheSameForTheSameSeed) {
  const diagnosis::Case one = random_case(7);
  const diagnosis::Case again = random_case(7);
  ASSERT_EQ(one.causes.size(), again.causes.size());
  EXPECT_EQ(one.causes.back().weight, again.causes.back().weight);
  EXPECT_EQ(one.sunk.hours, again.sunk.hours);
}

// A comparison on random cases proves nothing if they all stop at once.
TEST(RandomCase, OffersEveryKindOfFirstMoveAndEvidence) {
  const std::uint64_t cases = case_count(1000);
  std::map<std::string, std::uint64_t> kinds;
  std::uint64_t with_evidence = 0;
  std::uint64_t open_endings = 0;
  for (std::uint64_t seed = 0; seed < cases; ++seed) {
    const diagnosis::Case of = random_case(seed);
    const PlainCourse course = PlainSolver{of}.solve();
    ++kinds[course.kind];
    if (!of.evidence.empty()) ++with_evidence;
    int possible = 0;
    for (const auto& [ending, chance] : course.chances)
      possible += chance > 0 ? 1 : 0;
    if (possible > 1) ++open_endings;
  }
  EXPECT_GT(kinds["stop"], cases / 10);
  EXPECT_GT(kinds["repair"], cases / 10);
  EXPECT_GT(kinds["test"], cases / 20);
  EXPECT_GT(with_evidence, cases / 5);
  EXPECT_GT(open_endings, cases / 5);
}

}  // namespace
}  // namespace secondpull::test
