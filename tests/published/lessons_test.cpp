#include <gmock/gmock.h>

#include "core/lessons/flow.h"
#include "core/lessons/mean.h"

namespace secondpull::lessons {
namespace {

// J. D. C. Little, S. C. Graves, Little's Law (2008) (text): 160 bottles of which eight a month go stay 20
// months.
TEST(PublishedLessons, HaveLittlesLaw) {
  EXPECT_EQ(months_through(160, 8), 20);
}

// Student, The probable error of a mean, Biometrika 6 (1908): hours of sleep gained by ten patients, the
// difference of two drugs. R has the data as `sleep`; t.test gives the mean 1.58 and the 95 % interval
// 0.7001142 to 2.4598858 (data from memory, recomputed with R).
TEST(PublishedLessons, HaveStudentsInterval) {
  const double gained[] = {1.2, 2.4, 1.3, 1.3, 0, 1, 1.8, 0.8, 4.6, 1.4};
  const Mean mean = mean_of(gained);
  EXPECT_NEAR(mean.mean, 1.58, 1e-12);
  EXPECT_NEAR(mean.deviation, 1.22999548327987, 1e-12);
  EXPECT_NEAR(mean.interval(0.95)->low, 0.700114236723018, 1e-12);
  EXPECT_NEAR(mean.interval(0.95)->high, 2.459885763276982, 1e-12);
}

}  // namespace
}  // namespace secondpull::lessons
