#include "practice/bench.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "draw/stream.hpp"
#include "practice/the_bank.hpp"

namespace footroom::practice {
namespace {

const Face us{};
const Face si{notation::System::si, {engine::Language::spanish, '.'}};

Bench bench(const BenchValues& values, const Face& face = us) {
  return make_bench(the_bank(), "us-construction", face, values);
}

std::string output(const Bench& bench, const std::string& symbol) {
  for (const BenchLine& line : bench.outputs)
    if (line.symbol == symbol) return line.text;
  return "absent";
}

const BenchLimit& limit(const Bench& bench, const std::string& citation) {
  return *std::find_if(bench.limits.begin(), bench.limits.end(),
                       [&](const BenchLimit& one) { return one.citation == citation; });
}

// By hand: on a flat roof the line runs level to the edge, so the free fall is the height of the
// D-ring and what the line has beyond the slope: sqrt(16^2 + 5^2) - 16 + 2 + 5 = 7.763 ft.
TEST(Bench, WorksOutTheFallOverAFlatEdge) {
  const Bench made = bench({{"pitch", 0}, {"slope-length", 16}, {"slack", 2}});
  EXPECT_EQ(output(made, "FF"), "7.8\u00A0ft");
  EXPECT_TRUE(limit(made, "29 CFR 1926.502(d)(16)(iii)").broken);
}

// To the side the line runs down the diagonal: anchor and D-ring are (L cos p, x, L sin p - h)
// apart, so d = sqrt((16 cos p)^2 + 12^2 + (16 sin p - 5)^2) with tan p = 6/12, D = 20 ft.
TEST(Bench, FollowsTheDiagonalToTheSide) {
  const double p = std::atan(0.5);
  const double taut =
      std::sqrt(std::pow(16 * std::cos(p), 2) + 144 + std::pow(16 * std::sin(p) - 5, 2));
  const double free_fall = 5 + taut + 2 - 20;
  const Bench made = bench({{"slope-length", 16}, {"offset", 12}, {"slack", 2}, {"pitch", 6}});
  EXPECT_EQ(output(made, "FF"),
            notation::write_quantity(free_fall, *notation::find_unit("ft"), 1, {}));
  EXPECT_EQ(output(made, "e"), "4.0\u00A0ft");  // 20 - 16
  EXPECT_EQ(made.scenes.size(), 3u);
  EXPECT_EQ(made.stack->terms[1].text, "4.0\u00A0ft");
}

TEST(Bench, ShowsTheSameFallFromEverywhereOnTheFallLine) {
  const Bench straight = bench({{"offset", 0}});
  EXPECT_EQ(output(straight, "e"), "absent");
  EXPECT_EQ(straight.scenes.size(), 2u);
}

TEST(Bench, StopsAShortLineOnTheRoof) {
  const Bench made = bench({{"slack", 0}, {"slope-length", 40}, {"pitch", 12}});
  EXPECT_FALSE(made.stack.has_value());
  EXPECT_FALSE(made.plot.has_value());
  ASSERT_FALSE(made.notes.empty());
}

TEST(Bench, MarksEachLimitWhereItIsBroken) {
  const Bench fine = bench({{"slack", 0}, {"pitch", 0}, {"mass", 200}, {"eave-height", 40}});
  for (const BenchLimit& one : fine.limits) EXPECT_FALSE(one.broken) << one.name;
  EXPECT_EQ(fine.limits.size(), 5u);
  EXPECT_TRUE(limit(bench({{"mass", 310}}), "29 CFR 1926.502(d)(16), note").broken);
  EXPECT_FALSE(limit(bench({{"mass", 305}}), "29 CFR 1926.502(d)(16), note").broken);
  EXPECT_TRUE(limit(bench({{"slack", 12}}), "29 CFR 1926.502(d)(16)(iii)").broken);
  EXPECT_TRUE(
      limit(bench({{"maximum-elongation", 0}, {"rope-stretch", 1}}), "29 CFR 1926.502(d)(16)(ii)")
          .broken);
  EXPECT_TRUE(limit(bench({{"slack", 6}, {"maximum-elongation", 5}, {"absorber-force", 450}}),
                    "29 CFR 1926.502(d)(16)(iv)")
                  .broken);
  const Bench low = bench({{"eave-height", 6}});
  EXPECT_TRUE(low.stack->broken);
  EXPECT_TRUE(low.limits.back().broken);
}

TEST(Bench, StacksTermsThatAddUpToTheClearanceNeeded) {
  const Bench made = bench({{"offset", 8}});
  double share = 0;
  for (const BenchTerm& term : made.stack->terms) share += term.share;
  const double whole = std::max(share, made.stack->available_share);
  EXPECT_NEAR(whole, 1, 1e-12);
}

TEST(Bench, HoldsOverAllItsSliders) {
  draw::Stream stream({1});
  for (const Face& face : {us, si}) {
    const auto controls = bench({}, face).controls;
    for (int i = 0; i < 300; ++i) {
      BenchValues values;
      for (const BenchControl& control : controls) {
        const double ends[] = {control.least, control.most, control.value};
        values[control.id] =
            i % 2 == 0 ? ends[stream.below(3)]
                       : control.least + (control.most - control.least) * stream.below(101) / 100;
      }
      const Bench made = bench(values, face);
      EXPECT_EQ(made.problem, "");
      for (const BenchControl& control : made.controls) {
        EXPECT_GE(control.value, control.least);
        EXPECT_LE(control.value, control.most);
      }
    }
  }
}

TEST(Bench, TakesWhatIsOutsideToTheEndAndWhatIsUnknownToTheStart) {
  const Bench made = bench({{"slack", 99}, {"no-such", 1}, {"mass", std::nan("")}});
  EXPECT_EQ(made.controls[0].value, 12);
  EXPECT_EQ(made.controls[4].value, 220);
}

TEST(Bench, KeepsTheSettingsInOtherUnits) {
  const BenchValues metric =
      bench_values_in(notation::System::si, {{"slope-length", 20}, {"mass", 220}, {"pitch", 12}},
                      notation::System::us);
  EXPECT_EQ(metric.at("slope-length"), 6.1);
  EXPECT_EQ(metric.at("mass"), 100);
  EXPECT_EQ(metric.at("pitch"), 45);
}

TEST(Bench, TakesTheLimitsOfItsRuleSet) {
  const Bench made = make_bench(the_bank(), "european", si, {});
  for (const BenchLimit& one : made.limits) EXPECT_FALSE(one.citation.empty());
}

}  // namespace
}  // namespace footroom::practice
