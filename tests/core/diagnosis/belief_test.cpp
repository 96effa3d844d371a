#include "core/diagnosis/belief.h"

#include <limits>

#include <gmock/gmock.h>

#include "tests/core/diagnosis/sound_case.h"

namespace secondpull::diagnosis {
namespace {

using test::sound_case;
using testing::DoubleNear;
using testing::ElementsAre;

constexpr double kExact = 1e-15;

TEST(LikelihoodTable, TakesOtherwiseForACauseWithoutARow) {
  const Case of = sound_case();
  EXPECT_THAT(likelihood_table(of.tests[0], of.causes),
              ElementsAre(ElementsAre(0.9, 0.2, 0.5), ElementsAre(0.1, 0.8, 0.5)));
}

TEST(LikelihoodTable, WithoutOtherwiseEveryOutcomeIsEquallyLikely) {
  const Case of = sound_case();
  EXPECT_THAT(likelihood_table(of.tests[1], of.causes),
              ElementsAre(ElementsAre(1, 0.5, 0.5), ElementsAre(0, 0.5, 0.5)));
}

TEST(CureRow, IsZeroForACauseThatIsAbsent) {
  const Case of = sound_case();
  EXPECT_THAT(cure_row(of.repairs[0], of.causes), ElementsAre(0.3, 0, 0));
}

std::vector<std::string> tests_of(const std::vector<Evidence>& lines) {
  std::vector<std::string> names;
  for (const Evidence& line : lines)
    names.push_back(std::holds_alternative<TestShowed>(line) ? std::get<TestShowed>(line).test
                                                             : std::get<RepairFailed>(line).repair);
  return names;
}

TEST(CountingEvidence, IsOfOneGroupTheLastListedAlone) {
  Case of = sound_case();
  of.evidence = {TestShowed{"look", "wet"}, RepairFailed{"seat"}, TestShowed{"bowl", "full"},
                 TestShowed{"tester", "none"}, RepairFailed{"seat"}};
  EXPECT_THAT(tests_of(counting_evidence(of)), ElementsAre("seat", "bowl", "tester", "seat"));
}

TEST(Posterior, WithoutEvidenceIsTheWeightsNormalised) {
  Case of = sound_case();
  of.evidence.clear();
  EXPECT_THAT(posterior(of), ElementsAre(DoubleNear(3 / 4.5, kExact), DoubleNear(1 / 4.5, kExact),
                                         DoubleNear(0.5 / 4.5, kExact)));
}

// By hand: weights 3, 1, 0.5; "wet" 0.9, 0.2, 0.5; the seat failed 0.7, 1, 1: 1.89, 0.2, 0.25, in all 2.34.
TEST(Posterior, FollowsBayesRule) {
  EXPECT_THAT(posterior(sound_case()),
              ElementsAre(DoubleNear(1.89 / 2.34, kExact), DoubleNear(0.2 / 2.34, kExact),
                          DoubleNear(0.25 / 2.34, kExact)));
}

// By hand: the seat failed twice, 0.49 of the leak is left: 1.47, 1, 0.5, in all 2.97.
TEST(Posterior, CountsEveryFailedTry) {
  Case of = sound_case();
  of.evidence = {RepairFailed{"seat"}, RepairFailed{"seat"}};
  EXPECT_THAT(posterior(of), ElementsAre(DoubleNear(1.47 / 2.97, kExact), DoubleNear(1 / 2.97, kExact),
                                         DoubleNear(0.5 / 2.97, kExact)));
}

TEST(Posterior, OfImpossibleEvidenceIsZeroThroughout) {
  Case of = sound_case();
  of.causes = {{"spark", 1}, {"leak", 0}};
  of.evidence = {RepairFailed{"coil"}, TestShowed{"look", "wet"}};
  EXPECT_THAT(posterior(of), ElementsAre(0, 0));
}

TEST(Posterior, StandsTheLargestAndTheSmallestWeights) {
  Case of = sound_case();
  of.evidence.clear();
  of.causes = {{"leak", std::numeric_limits<double>::max()}, {"spark", std::numeric_limits<double>::max()}};
  EXPECT_THAT(posterior(of), ElementsAre(0.5, 0.5));
  of.causes = {{"leak", std::numeric_limits<double>::denorm_min()}, {"spark", 0}};
  EXPECT_THAT(posterior(of), ElementsAre(1, 0));
}

}  // namespace
}  // namespace secondpull::diagnosis
