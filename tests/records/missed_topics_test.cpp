#include "records/missed_topics.hpp"

#include <gtest/gtest.h>

namespace footroom::records {
namespace {

using Topics = std::vector<TopicPoints>;

Numbered<Result> result(Number number, const char* day, Topics topics,
                        Occasion occasion = Occasion::test) {
  return {number, {1, "Q" + std::to_string(number), read_date(day).value(), occasion, topics}, {}};
}

TEST(MissedTopics, AreThoseWithLessThanAllPoints) {
  EXPECT_EQ(missed_topics({}), std::vector<std::string>{});
  EXPECT_EQ(
      missed_topics({result(1, "2026-03-02",
                            {{"swing", 0, 100}, {"roof", 200, 200}, {"clearance", 199, 200}})}),
      (std::vector<std::string>{"clearance", "swing"}));
}

TEST(MissedTopics, TheLatestResultThatAskedATopicCounts) {
  const auto first =
      result(8, "2026-03-02", {{"swing", 0, 100}, {"roof", 0, 100}, {"clearance", 100, 100}});
  const auto second = result(5, "2026-03-09", {{"swing", 100, 100}, {"clearance", 50, 100}});
  const std::vector<std::string> expected{"clearance", "roof"};
  EXPECT_EQ(missed_topics({first, second}), expected);
  EXPECT_EQ(missed_topics({second, first}), expected);
}

TEST(MissedTopics, OfOneDayTheLaterEntryCounts) {
  const auto first = result(3, "2026-03-02", {{"swing", 0, 100}});
  const auto second = result(4, "2026-03-02", {{"swing", 100, 100}});
  EXPECT_EQ(missed_topics({first, second}), std::vector<std::string>{});
  EXPECT_EQ(missed_topics({second, first}), std::vector<std::string>{});
}

TEST(MissedTopics, PracticeShowsThemToo) {
  EXPECT_EQ(missed_topics({result(1, "2026-03-02", {{"swing", 100, 100}}),
                           result(2, "2026-03-03", {{"swing", 0, 100}}, Occasion::practice)}),
            std::vector<std::string>{"swing"});
}

}  // namespace
}  // namespace footroom::records
