#include <gtest/gtest.h>

#include <algorithm>
#include <boost/math/tools/minima.hpp>

#include "engine/drawn_values.hpp"
#include "engine/eave_swing.hpp"
#include "engine/overhead_swing.hpp"
#include "engine/rake_swing.hpp"
#include "engine/roof_swing.hpp"
#include "engine/typed.hpp"

namespace footroom::engine {
namespace {

struct Lowest {
  double place;
  double height;
};

/// The lowest height over [from, to], by Brent's method.
template <class Height>
Lowest lowest(const Height& height, double from, double to) {
  const auto [place, found] = boost::math::tools::brent_find_minima(height, from, to, 52);
  Lowest best{place, found};
  for (const double end : {from, to})
    if (height(end) < best.height) best = {end, height(end)};
  return best;
}

TEST(EaveSwing, EndsAtTheLowestPlaceAlongTheEave) {
  Draws draws(31);
  for (int i = 0; i < 2000; ++i) {
    const double slope = draws.within(0.3, 60);
    const double offset = draws.within(0, 60);
    const double line = std::hypot(slope, offset) + draws.within(0, 5);
    const auto height = [&](double along) { return -(line - std::hypot(slope, along)); };
    const EaveSwing r = eave_swing({metres(slope), metres(offset)});
    const Lowest end = lowest(height, -offset - 1, offset + 1);
    EXPECT_NEAR(height(offset) - end.height, r.extra_line.value(), 1e-9);
    EXPECT_NEAR(r.speed.value() * r.speed.value(), 2 * gravity * r.extra_line.value(), 1e-9);
    EXPECT_NEAR(std::tan(r.angle.value()) * slope, offset, 1e-9);
  }
}

TEST(EaveSwing, IsNothingOnTheFallLine) {
  const EaveSwing r = eave_swing({metres(5), metres(0)});
  EXPECT_EQ(r.extra_line.value(), 0);
  EXPECT_EQ(r.speed.value(), 0);
  EXPECT_EQ(r.angle.value(), 0);
}

TEST(RoofSwing, EndsAtTheLowestPointOfTheCircle) {
  Draws draws(32);
  for (int i = 0; i < 2000; ++i) {
    const double down = draws.within(0, 60);
    const double across = draws.within(0, 60);
    const double pitch = draws.within(0.05, 80 * M_PI / 180);
    const double radius = std::hypot(down, across);
    const auto height = [&](double turn) { return -radius * std::cos(turn) * std::sin(pitch); };
    const RoofSwing r = roof_swing({metres(down), metres(across), radians(pitch)});
    const double start = std::atan2(across, down);
    const Lowest end = lowest(height, -start - 0.1, start + 0.1);
    EXPECT_NEAR(height(start) - end.height, r.drop.value(), 1e-9);
    EXPECT_NEAR(r.slide.value(), radius - down, 1e-12 * radius);
  }
}

TEST(RoofSwing, OnAFlatRoofNothingDrops) {
  EXPECT_EQ(roof_swing({metres(3), metres(4), radians(0)}).drop.value(), 0);
}

/// The speed of a pendulum as it passes below its anchor, stepped by the classical Runge-Kutta
/// method.
double speed_of_pendulum(double radius, double start) {
  const double k = gravity / radius;
  double turn = start;
  double rate = 0;
  const double step = std::sqrt(radius / gravity) / 2000;
  while (true) {
    const auto pull = [k](double at) { return -k * std::sin(at); };
    const double a1 = pull(turn);
    const double a2 = pull(turn + step / 2 * rate);
    const double a3 = pull(turn + step / 2 * (rate + step / 2 * a1));
    const double a4 = pull(turn + step * (rate + step / 2 * a2));
    const double next = turn + step * rate + step * step / 6 * (a1 + a2 + a3);
    if (next <= 0) return radius * std::abs(rate);
    turn = next;
    rate += step / 6 * (a1 + 2 * a2 + 2 * a3 + a4);
  }
}

TEST(OverheadSwing, AgreesWithTheMotionOfAPendulum) {
  Draws draws(33);
  for (int i = 0; i < 100; ++i) {
    const double height = draws.within(0.5, 30);
    const double offset = draws.within(0.1, 30);
    const OverheadSwing r = overhead_swing({metres(height), metres(offset)});
    const double turn = std::atan2(offset, height);
    EXPECT_NEAR(r.angle.value(), turn, 1e-12);
    const double stepped = speed_of_pendulum(std::hypot(height, offset), turn);
    EXPECT_NEAR(r.speed.value(), stepped, 1e-5 * stepped);
    EXPECT_NEAR(r.extra_clearance.value(), r.line.value() * (1 - std::cos(turn)), 1e-9);
  }
}

// ---- Over the rake -----------------------------------------------------------------------------

RakeSwingCase drawn_rake(Draws& draws) {
  RakeSwingCase c{};
  const double slope = draws.within(0.5, 15);
  const double from_rake = draws.within(0, 12);
  const double down = draws.within(0, slope);
  c.pitch = radians(draws.within(0, 80 * M_PI / 180));
  c.slope_length = metres(slope);
  c.anchor_from_rake = metres(from_rake);
  c.down_slope = metres(down);
  const double d_ring = draws.within(0.5, 2);
  c.d_ring_height = metres(d_ring);
  const double taut = std::hypot(from_rake, down * std::cos(c.pitch.value()),
                                 d_ring - down * std::sin(c.pitch.value()));
  c.line = metres(0.01 + std::max({0.3, taut, std::hypot(from_rake, down)}) + draws.within(0, 3));
  return c;
}

/// Height of the hanging D-ring over the anchor where the line bends over the rake at `c`.
double height_over_rake(const RakeSwingCase& k, double c) {
  return -c * std::sin(k.pitch.value()) -
         (k.line.value() - std::hypot(k.anchor_from_rake.value(), c));
}

TEST(RakeSwing, RestsAtTheLowestPlace) {
  Draws draws(34);
  int ends[3] = {};
  for (int i = 0; i < 3000; ++i) {
    const RakeSwingCase c = drawn_rake(draws);
    const RakeSwing r = rake_swing(c);
    ++ends[static_cast<int>(r.end)];
    const double line = c.line.value();
    const double from_rake = c.anchor_from_rake.value();
    const double used_up = std::sqrt(line * line - from_rake * from_rake);
    const double slope = c.slope_length.value();
    const auto height = [&](double at) { return height_over_rake(c, at); };
    Lowest end = lowest(height, 0, std::min(slope, used_up));
    if (end.place == slope) {
      // Round the corner: the eave is level, the line runs from the anchor to `along` of it.
      const auto below_eave = [&](double along) {
        return -slope * std::sin(c.pitch.value()) - (line - std::hypot(slope, along));
      };
      end.height = lowest(below_eave, -from_rake, from_rake).height;
      EXPECT_EQ(r.end, RakeSwingEnd::below_eave);
    }
    EXPECT_NEAR(r.rest_height.value(), end.height, 1e-8) << i;
    EXPECT_NEAR(r.rest_position.value(), end.place, 1e-3) << i;
    EXPECT_GE(r.below_edge.value(), -1e-12);
    EXPECT_LE(r.rest_height.value(), height(c.down_slope.value()) + 1e-9);
  }
  EXPECT_GT(ends[0], 500);
  EXPECT_GT(ends[1], 20);
  EXPECT_GT(ends[2], 200);
}

TEST(RakeSwing, ClosesTheEnergyBalance) {
  Draws draws(35);
  for (int i = 0; i < 3000; ++i) {
    const RakeSwingCase c = drawn_rake(draws);
    const RakeSwing r = rake_swing(c);
    const double caught = height_over_rake(c, c.down_slope.value());
    EXPECT_NEAR((r.start_height - r.free_fall).value(), caught, 1e-9);
    EXPECT_NEAR(0.5 * r.speed.value() * r.speed.value(), gravity * (caught - r.rest_height.value()),
                1e-6);
    EXPECT_NEAR((r.free_fall + r.swing_drop).value(), r.drop.value(), 1e-9);
  }
}

TEST(RakeSwing, AWorkerStraightAboveTheRestDoesNotSwing) {
  RakeSwingCase c{};
  c.pitch = degrees(45);
  c.slope_length = metres(8);
  c.anchor_from_rake = metres(3);
  c.down_slope = metres(3);
  c.line = metres(5);
  const RakeSwing r = rake_swing(c);
  EXPECT_EQ(r.end, RakeSwingEnd::below_rake);
  EXPECT_NEAR(r.rest_position.value(), 3, 1e-12);
  EXPECT_NEAR(r.swing_drop.value(), 0, 1e-12);
}

TEST(RakeSwing, OnAFlatRoofEndsBesideTheAnchor) {
  RakeSwingCase c{};
  c.pitch = radians(0);
  c.slope_length = metres(8);
  c.anchor_from_rake = metres(3);
  c.down_slope = metres(4);
  c.line = metres(6);
  const RakeSwing r = rake_swing(c);
  EXPECT_EQ(r.rest_position.value(), 0);
  EXPECT_NEAR(r.below_edge.value(), 3, 1e-12);
  EXPECT_NEAR(r.swing_drop.value(), 2, 1e-12);  // 5 m of line on the roof at first, then 3 m
}

TEST(RakeSwing, WithTheAnchorAtTheRakeHangsFromIt) {
  RakeSwingCase c{};
  c.pitch = degrees(30);
  c.slope_length = metres(8);
  c.anchor_from_rake = metres(0);
  c.down_slope = metres(4);
  c.line = metres(6);
  const RakeSwing r = rake_swing(c);
  EXPECT_EQ(r.rest_position.value(), 0);
  EXPECT_NEAR(r.rest_height.value(), -6, 1e-12);
}

TEST(RakeSwing, RefusesALineThatStopsTheFallOnTheRoof) {
  RakeSwingCase c{};
  c.pitch = degrees(30);
  c.slope_length = metres(8);
  c.anchor_from_rake = metres(3);
  c.down_slope = metres(4);
  c.line = metres(4.9);
  try {
    rake_swing(c);
    FAIL();
  } catch (const Refusal& refusal) {
    EXPECT_STREQ(refusal.what(),
                 "rake-swing: line: does not let the worker over the rake there: the fall ends on "
                 "the roof");
  }
  c.pitch = radians(0);
  c.line = metres(5.1);  // the D-ring is 5.23 m away
  try {
    rake_swing(c);
    FAIL();
  } catch (const Refusal& refusal) {
    EXPECT_STREQ(refusal.what(),
                 "rake-swing: line: does not reach the D-ring of a worker standing there");
  }
  c.line = metres(10);
  c.down_slope = metres(8.5);
  try {
    rake_swing(c);
    FAIL();
  } catch (const Refusal& refusal) {
    EXPECT_STREQ(refusal.what(), "rake-swing: down-slope: lies beyond the eave");
  }
}

}  // namespace
}  // namespace footroom::engine
