#include "grade/test_theory.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <tuple>

#include "draw/stream.hpp"

namespace footroom::grade {
namespace {

double value(const std::optional<double>& defined) {
  EXPECT_TRUE(defined.has_value());
  return defined.value_or(0);
}

/// Invented scores: who can do more earns more, in steps of `step` up to `most`.
Scores drawn_scores(std::uint32_t seed, std::size_t persons, std::size_t items, int most,
                    int step) {
  draw::Stream stream({seed});
  Scores scores(persons);
  for (auto& person : scores) {
    const auto ability = stream.below(60);
    for (std::size_t item = 0; item < items; ++item) {
      const auto chance = 20 + ability + 5 * static_cast<std::uint32_t>(item % 5);
      int score = 0;
      for (int i = 0; i < most; i += step)
        if (stream.below(120) < chance) score += step;
      person.push_back(score);
    }
  }
  return scores;
}

std::optional<double> item_rest(const Scores& scores, std::size_t item) {
  return centred_sums(column(scores, item), rest_totals(scores, item)).correlation();
}

// ---- Against R's psych -------------------------------------------------------------------------

struct FromR {
  Scores rows;
  std::map<std::string, std::vector<double>> named;
};

FromR ask_r(const std::string& word) {
  FromR answer;
  const std::string command =
      "Rscript '" FOOTROOM_SOURCE_DIR "/tests/grade/reliability.R' '" + word + "'";
  FILE* pipe = ::popen(command.c_str(), "r");
  if (!pipe) return answer;
  std::string text;
  for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) text += static_cast<char>(c);
  EXPECT_EQ(::pclose(pipe), 0) << command << ": is r-cran-psych of tests/packages.txt installed?";
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    std::istringstream words(line);
    std::string name;
    words >> name;
    std::vector<double> values;
    for (double one = 0; words >> one;) values.push_back(one);
    if (name == "row")
      answer.rows.push_back(values);
    else
      answer.named[name] = values;
  }
  return answer;
}

void expect_as_r(const Scores& scores, FromR& r) {
  constexpr double tolerance = 1e-9;
  ASSERT_EQ(r.named.size(), 5u);
  ASSERT_EQ(r.named["item-rest"].size(), scores.front().size());
  const double alpha = value(cronbach_alpha(scores));
  EXPECT_NEAR(alpha, r.named["alpha"].at(0), tolerance);
  for (std::size_t item = 0; item < scores.front().size(); ++item)
    EXPECT_NEAR(value(item_rest(scores, item)), r.named["item-rest"][item], tolerance) << item;
  const double deviation = value(standard_deviation(totals(scores)));
  EXPECT_NEAR(value(mean(totals(scores))), r.named["mean"].at(0), tolerance);
  EXPECT_NEAR(deviation, r.named["standard-deviation"].at(0), tolerance);
  EXPECT_NEAR(standard_error_of_measurement(deviation, alpha), r.named["standard-error"].at(0),
              tolerance);
}

class AgainstR : public ::testing::TestWithParam<std::tuple<int, int, int, int, int>> {};

TEST_P(AgainstR, ReliabilityAndItemRestCorrelations) {
  const auto [seed, persons, items, most, step] = GetParam();
  const Scores scores =
      drawn_scores(static_cast<std::uint32_t>(seed), static_cast<std::size_t>(persons),
                   static_cast<std::size_t>(items), most, step);
  const auto file = std::filesystem::path(::testing::TempDir()) /
                    ("scores-" + std::to_string(seed) + "-" + std::to_string(::getpid()) + ".csv");
  {
    std::ofstream out(file);
    for (const auto& person : scores)
      for (std::size_t item = 0; item < person.size(); ++item)
        out << person[item] << (item + 1 < person.size() ? ',' : '\n');
  }
  FromR r = ask_r(file.string());
  std::filesystem::remove(file);
  expect_as_r(scores, r);
  if (most == step) {
    const double kr20 = value(kuder_richardson_20(scores, most));
    EXPECT_NEAR(kr20, r.named["alpha"].at(0), 1e-9);
  }
}

// seed, persons, items, most points, step
INSTANTIATE_TEST_SUITE_P(Drawn, AgainstR,
                         ::testing::Values(std::tuple(1, 12, 10, 1, 1),
                                           std::tuple(2, 60, 15, 100, 100),
                                           std::tuple(3, 25, 8, 300, 50)));

// Scores of 1000 people on five items of 0 and 1, from Bock and Lieberman 1970, Psychometrika 35,
// 179-197, as they come with psych. The shares of right answers are printed in that paper, and an
// alpha of 0.295 by Rizopoulos 2006, Journal of Statistical Software 17(5) (both from memory).
TEST(Reliability, OfAPublishedTable) {
  FromR r = ask_r("lsat6");
  ASSERT_EQ(r.rows.size(), 1000u);
  const std::vector<double> shares{0.924, 0.709, 0.553, 0.763, 0.870};
  for (std::size_t item = 0; item < shares.size(); ++item)
    EXPECT_NEAR(value(mean(column(r.rows, item))), shares[item], 0.0005);
  EXPECT_NEAR(value(kuder_richardson_20(r.rows, 1)), 0.295, 0.0005);
  expect_as_r(r.rows, r);
}

// Chatterjee and Price 1977, Regression Analysis by Example, as it comes with R: scores that are
// not 0 and 1.
TEST(Reliability, OfATableThatComesWithR) {
  FromR r = ask_r("attitude");
  ASSERT_EQ(r.rows.size(), 30u);
  expect_as_r(r.rows, r);
}

// ---- Properties --------------------------------------------------------------------------------

TEST(Reliability, OfItemsThatAreAllTheSameIsOne) {
  Scores scores;
  for (const double score : {0.0, 100.0, 100.0, 33.0, 67.0})
    scores.push_back({score, score, score});
  EXPECT_NEAR(value(cronbach_alpha(scores)), 1, 1e-12);
  EXPECT_NEAR(value(item_rest(scores, 1)), 1, 1e-12);
}

// By hand: item variances 1/4 each (n), totals 2, 1, 1, 0 with variance 1/2: 2 (1 - 1) = 0.
TEST(Reliability, OfItemsThatHaveNothingInCommonIsNone) {
  const Scores scores{{1, 1}, {1, 0}, {0, 1}, {0, 0}};
  EXPECT_NEAR(value(cronbach_alpha(scores)), 0, 1e-12);
  EXPECT_NEAR(value(kuder_richardson_20(scores, 1)), 0, 1e-12);
  EXPECT_NEAR(value(item_rest(scores, 0)), 0, 1e-12);
}

TEST(Reliability, IsAlphaWhereScoresAreNoughtOrFull) {
  for (std::uint32_t seed = 10; seed < 40; ++seed) {
    const Scores scores = drawn_scores(seed, 5 + seed, 2 + seed % 9, 200, 200);
    EXPECT_NEAR(value(kuder_richardson_20(scores, 200)), value(cronbach_alpha(scores)), 1e-12);
  }
  EXPECT_FALSE(kuder_richardson_20({{1, 0.5}, {0, 1}}, 1));
  EXPECT_FALSE(kuder_richardson_20({{1, 0}, {0, 0}}, 0));
}

TEST(Reliability, StaysWhereAnItemGivesEverybodyMoreAndWhereAllCountDouble) {
  const Scores scores = drawn_scores(5, 20, 6, 300, 100);
  Scores more = scores;
  for (auto& person : more) {
    person[2] += 250;
    for (double& score : person) score *= 2;
  }
  EXPECT_NEAR(value(cronbach_alpha(more)), value(cronbach_alpha(scores)), 1e-12);
  for (std::size_t item = 0; item < 6; ++item)
    EXPECT_NEAR(value(item_rest(more, item)), value(item_rest(scores, item)), 1e-12);
}

TEST(Reliability, StaysWhereThePersonsComeInAnotherOrder) {
  const Scores scores = drawn_scores(6, 31, 6, 300, 100);
  Scores turned(scores.rbegin(), scores.rend());
  EXPECT_NEAR(value(cronbach_alpha(turned)), value(cronbach_alpha(scores)), 1e-12);
}

TEST(TestTheory, LeavesUndefinedWhatIsNotDefined) {
  EXPECT_FALSE(mean({}));
  EXPECT_FALSE(standard_deviation({}));
  EXPECT_FALSE(standard_deviation({7}));
  for (const Scores& scores : {Scores{}, Scores{{1, 0, 1}}, Scores{{1}, {0}}, Scores{{}, {}},
                               Scores{{1, 0}, {0, 1}}, Scores{{1, 1}, {1, 1}}}) {
    EXPECT_FALSE(cronbach_alpha(scores));
    EXPECT_FALSE(kuder_richardson_20(scores, 1));
  }
  // All right and all wrong: those items have no correlation, the others have one.
  const Scores scores{{1, 0, 1, 1}, {1, 0, 0, 0}, {1, 0, 1, 0}};
  EXPECT_FALSE(item_rest(scores, 0));
  EXPECT_FALSE(item_rest(scores, 1));
  EXPECT_TRUE(item_rest(scores, 2));
  EXPECT_FALSE(centred_sums({}, {}).correlation());
  // The mean of three times 0.1 is not 0.1 in doubles; it is constant all the same.
  EXPECT_EQ(standard_deviation({0.1, 0.1, 0.1}), 0);
}

TEST(StandardError, IsNoneOfAPerfectTestAndTheWholeDeviationOfAUselessOne) {
  EXPECT_EQ(standard_error_of_measurement(4, 1), 0);
  EXPECT_EQ(standard_error_of_measurement(4, 0), 4);
  EXPECT_EQ(standard_error_of_measurement(4, 0.75), 2);
  EXPECT_EQ(standard_error_of_measurement(4, 1 + 1e-15), 0);
}

// ---- Upper and lower group ---------------------------------------------------------------------

TEST(ExtremeGroups, AreHalvesOfAFew) {
  const auto groups = extreme_groups({10, 30, 20, 50, 40});
  ASSERT_TRUE(groups);
  EXPECT_EQ(groups->size, 2u);
  EXPECT_EQ(groups->upper, (std::vector<double>{0, 0, 0, 1, 1}));
  EXPECT_EQ(groups->lower, (std::vector<double>{1, 0, 1, 0, 0}));
}

TEST(ExtremeGroups, ShareThePlacesAmongThoseWhoTie) {
  const auto groups = extreme_groups({50, 40, 40, 40, 10, 10});
  ASSERT_TRUE(groups);
  EXPECT_EQ(groups->size, 3u);
  for (const std::size_t person : {1u, 2u, 3u}) {
    EXPECT_DOUBLE_EQ(groups->upper[person], 2.0 / 3);
    EXPECT_DOUBLE_EQ(groups->lower[person], 1.0 / 3);
  }
  EXPECT_EQ(groups->upper[0], 1);
  EXPECT_EQ(groups->lower[0], 0);
  EXPECT_EQ(groups->lower[5], 1);
}

TEST(ExtremeGroups, AreTwentySevenPercentOfMany) {
  std::vector<double> all;
  for (int i = 0; i < 100; ++i) all.push_back(i);
  const auto groups = extreme_groups(all);
  ASSERT_TRUE(groups);
  EXPECT_EQ(groups->size, 27u);
  EXPECT_EQ(groups->upper[73], 1);
  EXPECT_EQ(groups->upper[72], 0);
  EXPECT_EQ(groups->lower[26], 1);
  EXPECT_EQ(groups->lower[27], 0);
  all.resize(30);
  EXPECT_EQ(extreme_groups(all)->size, 8u);
  all.resize(29);
  EXPECT_EQ(extreme_groups(all)->size, 14u);
}

TEST(ExtremeGroups, ThereAreNoneOfOneOrOfEquals) {
  EXPECT_FALSE(extreme_groups({}));
  EXPECT_FALSE(extreme_groups({7}));
  EXPECT_FALSE(extreme_groups({7, 7, 7}));
}

}  // namespace
}  // namespace footroom::grade
