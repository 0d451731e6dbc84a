#include "quiz/apportion.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "draw/stream.hpp"

namespace footroom::quiz {
namespace {

using Numbers = std::vector<int>;

TEST(Apportion, GivesWhatIsLeftToTheLargestRemainders) {
  EXPECT_EQ(apportion(20, {1, 1, 1}), (Numbers{7, 7, 6}));  // 6 2/3 each: the first of equal ones
  EXPECT_EQ(apportion(10, {5, 3, 1}), (Numbers{6, 3, 1}));  // 5.56, 3.33, 1.11
  EXPECT_EQ(apportion(7, {2, 3, 4}), (Numbers{2, 2, 3}));   // 1.56, 2.33, 3.11
  EXPECT_EQ(apportion(4, {0, 5, 0, 5}), (Numbers{0, 2, 0, 2}));
  EXPECT_EQ(apportion(2, {1, 1, 1}), (Numbers{1, 1, 0}));
  EXPECT_EQ(apportion(5, {0, 0}), (Numbers{0, 0}));
}

TEST(Apportion, GivesEachAtLeastWhatIsAskedAndDividesTheRest) {
  EXPECT_EQ(apportion(10, {100, 1, 1}, 1), (Numbers{8, 1, 1}));
  EXPECT_EQ(apportion(6, {1000, 10, 1}, 2), (Numbers{2, 2, 2}));
  // Raising the third leaves too little for the second.
  EXPECT_EQ(apportion(4, {70, 26, 4}, 1), (Numbers{2, 1, 1}));
}

TEST(Apportion, SumsToTheTotalWithinOneOfEachQuota) {
  draw::Stream stream({7});
  for (int round = 0; round < 2000; ++round) {
    Numbers weights;
    for (std::uint32_t i = 0, count = 1 + stream.below(9); i < count; ++i)
      weights.push_back(static_cast<int>(stream.below(50)));
    weights.push_back(1);
    const int total = static_cast<int>(stream.below(101));
    const Numbers numbers = apportion(total, weights);
    EXPECT_EQ(std::accumulate(numbers.begin(), numbers.end(), 0), total);
    const double sum = std::accumulate(weights.begin(), weights.end(), 0);
    for (std::size_t i = 0; i < weights.size(); ++i)
      EXPECT_LT(std::abs(numbers[i] - total * weights[i] / sum), 1);
  }
}

}  // namespace
}  // namespace footroom::quiz
