#include "engine/edge_fall.hpp"

#include <gtest/gtest.h>

#include "engine/drawn_values.hpp"
#include "engine/largest_slack.hpp"
#include "engine/typed.hpp"

namespace footroom::engine {
namespace {

struct Point {
  double x, y;
};

EdgeFallCase drawn_case(Draws& draws) {
  return {metres(draws.within(0.3, 60)), radians(draws.within(0, 80 * M_PI / 180)),
          metres(draws.within(0.5, 2)), metres(draws.within(0, 10))};
}

/// Where a line of this length ends that is laid down the slope, and over the eave straight down.
/// The anchor is the origin, y points up.
Point end_of_line_laid_out(double slope, double pitch, double length) {
  const Point eave{slope * std::cos(pitch), -slope * std::sin(pitch)};
  const double on_the_roof = std::min(length, slope);
  const Point bend{eave.x * on_the_roof / slope, eave.y * on_the_roof / slope};
  return {bend.x, bend.y - (length - on_the_roof)};
}

TEST(EdgeFall, EndsWhereTheLaidOutLineEnds) {
  Draws draws(11);
  int below = 0;
  int on_the_roof = 0;
  for (int i = 0; i < 5000; ++i) {
    const EdgeFallCase c = drawn_case(draws);
    const EdgeFall r = edge_fall(c);
    const double slope = c.slope_length.value();
    const double pitch = c.pitch.value();
    const Point start{slope * std::cos(pitch), -slope * std::sin(pitch) + c.d_ring_height.value()};
    const double length = std::hypot(start.x, start.y) + c.slack.value();
    const Point end = end_of_line_laid_out(slope, pitch, length);
    EXPECT_NEAR(r.line_out.value(), length, 1e-9);
    EXPECT_NEAR(r.free_fall.value(), start.y - end.y, 1e-9) << i;
    EXPECT_EQ(r.end, length > slope ? EdgeFallEnd::below_edge : EdgeFallEnd::on_the_roof);
    ++(r.end == EdgeFallEnd::below_edge ? below : on_the_roof);
  }
  EXPECT_GT(below, 500);
  EXPECT_GT(on_the_roof, 100);
}

TEST(EdgeFall, ALineThatJustReachesTheEdgeStopsTheWorkerOnTheRoof) {
  EdgeFallCase c{metres(8), radians(0.6), metres(1.4), metres(0)};
  c.slack = -edge_fall(c).below_edge;
  ASSERT_GT(c.slack.value(), 0);
  const EdgeFall r = edge_fall(c);
  ASSERT_EQ(r.below_edge.value(), 0);
  EXPECT_EQ(r.end, EdgeFallEnd::on_the_roof);
  EXPECT_EQ(r.free_fall, c.d_ring_height);
}

TEST(EdgeFall, GrowsOneToOneWithSlackBelowTheEdge) {
  Draws draws(12);
  for (int i = 0; i < 5000; ++i) {
    EdgeFallCase c = drawn_case(draws);
    const EdgeFall shorter = edge_fall(c);
    if (shorter.end != EdgeFallEnd::below_edge) continue;
    const double more = draws.within(0, 5);
    c.slack += metres(more);
    EXPECT_NEAR((edge_fall(c).free_fall - shorter.free_fall).value(), more, 1e-9);
  }
}

TEST(EdgeFall, OnAFlatRoofDependsOnTheDiagonal) {
  const EdgeFall r = edge_fall({metres(4), radians(0), metres(1.5), metres(0)});
  EXPECT_NEAR(r.taut_line.value(), std::hypot(4, 1.5), 1e-12);
  EXPECT_NEAR(r.free_fall.value(), 1.5 + std::hypot(4, 1.5) - 4, 1e-12);
}

TEST(LargestSlack, GivesBackTheLimit) {
  Draws draws(13);
  int on_the_roof = 0;
  int accepted = 0;
  for (int i = 0; i < 5000; ++i) {
    const EdgeFallCase drawn = drawn_case(draws);
    const LargestSlackCase c{drawn.slope_length, drawn.pitch, drawn.d_ring_height,
                             metres(draws.within(0, 4))};
    LargestSlack r{};
    try {
      r = largest_slack(c);
    } catch (const Refusal&) {
      // Even at the anchor's level the D-ring has come down farther than the limit.
      EXPECT_GT(c.d_ring_height.value() - c.slope_length.value() * std::sin(c.pitch.value()),
                c.free_fall_limit.value());
      continue;
    }
    ++accepted;
    if (r.below_edge < metres(0)) ++on_the_roof;
    if (r.slack_for_free_fall < metres(0)) continue;
    const EdgeFall fall =
        edge_fall({c.slope_length, c.pitch, c.d_ring_height, r.slack_for_free_fall});
    EXPECT_NEAR(fall.free_fall.value(), c.free_fall_limit.value(), 1e-9) << i;
    EXPECT_NEAR(fall.below_edge.value(), r.below_edge.value(), 1e-9) << i;
  }
  EXPECT_GT(accepted, 3000);
  EXPECT_GT(on_the_roof, 100);
}

TEST(LargestSlack, IsNegativeWhereATautLineIsTooLong) {
  // Flat roof, 1 m from the anchor: taut line hypot(1, 1.5) = 1.803 m, free fall 2.303 m.
  const LargestSlack r = largest_slack({metres(1), radians(0), metres(1.5), metres(1.8)});
  EXPECT_NEAR(r.slack_for_free_fall.value(), 1.8 - 1.5 + 1 - std::hypot(1, 1.5), 1e-12);
  EXPECT_LT(r.slack_for_free_fall.value(), 0);
}

TEST(LargestSlack, RefusesALimitThatNoLineKeeps) {
  try {
    largest_slack({metres(4), radians(0), metres(1.5), metres(1)});
    FAIL();
  } catch (const Refusal& refusal) {
    EXPECT_STREQ(refusal.what(),
                 "largest-slack: free-fall-limit: cannot be kept on this roof: the D-ring's height "
                 "exceeds it by more than the slope descends");
  }
}

}  // namespace
}  // namespace footroom::engine
