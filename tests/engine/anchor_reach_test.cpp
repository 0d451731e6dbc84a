#include "engine/anchor_reach.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace footroom::engine {
namespace {

AnchorReachCase slope_of_20(double line, double eave) {
  AnchorReachCase c{};
  c.slope_length = 20.0 * si::metre;
  c.eave_length = eave * si::metre;
  c.line_length = line * si::metre;
  return c;
}

TEST(AnchorReach, TheSmallerOfAngleAndLineCounts) {
  const AnchorReach wide = anchor_reach(slope_of_20(50, 40));
  EXPECT_EQ(wide.limited_by, ReachLimit::angle);
  EXPECT_NEAR(wide.reach.value(), 20 / std::sqrt(3.0), 1e-9);
  const AnchorReach tight = anchor_reach(slope_of_20(21, 40));
  EXPECT_EQ(tight.limited_by, ReachLimit::line);
  EXPECT_NEAR(tight.reach.value(), std::sqrt(41.0), 1e-9);  // 21^2 - 20^2
  EXPECT_NEAR(tight.width.value(), 2 * std::sqrt(41.0), 1e-9);
}

TEST(AnchorReach, AtTheLimitTheLineStandsAtTheAngle) {
  const AnchorReachCase c = slope_of_20(50, 40);
  const AnchorReach r = anchor_reach(c);
  const double line = std::hypot(20, r.reach.value());
  EXPECT_NEAR(std::acos(20 / line), c.greatest_angle.value(), 1e-12);
}

TEST(AnchorReach, CoversTheEaveWithNoAnchorToSpare) {
  for (int eave = 1; eave <= 200; ++eave) {
    const AnchorReach r = anchor_reach(slope_of_20(50, eave));
    EXPECT_GE(r.anchors * r.width.value(), eave * (1 - 1e-9));
    EXPECT_LT((r.anchors - 1) * r.width.value(), eave);
  }
  const double width = anchor_reach(slope_of_20(50, 40)).width.value();
  EXPECT_EQ(anchor_reach(slope_of_20(50, 3 * width)).anchors, 3);
}

TEST(AnchorReach, RefusesALineThatEndsAtTheEave) {
  for (const double line : {10.0, 20.0}) {
    try {
      anchor_reach(slope_of_20(line, 40));
      FAIL();
    } catch (const Refusal& refusal) {
      EXPECT_STREQ(refusal.what(),
                   "anchor-reach: line-length: does not reach past the eave: expected more than "
                   "the slope length");
    }
  }
  EXPECT_THROW(anchor_reach(slope_of_20(20 * (1 + 1e-15), 200)), Refusal);
}

}  // namespace
}  // namespace footroom::engine
