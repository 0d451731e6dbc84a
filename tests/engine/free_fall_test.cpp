#include <gtest/gtest.h>

#include "engine/drawn_values.hpp"
#include "engine/free_fall_motion.hpp"
#include "engine/free_fall_rule.hpp"
#include "engine/typed.hpp"

namespace footroom::engine {
namespace {

double free_fall(double lanyard, double anchor_above) {
  return free_fall_rule({metres(lanyard), metres(anchor_above)}).free_fall.value();
}

TEST(FreeFallRule, GoesFromNothingToTwiceTheLanyard) {
  EXPECT_EQ(free_fall(2, 2), 0);
  EXPECT_EQ(free_fall(2, 0), 2);
  EXPECT_EQ(free_fall(2, -2), 4);
}

TEST(FreeFallRule, GrowsOneToOneAsTheAnchorComesDown) {
  Draws draws(21);
  for (int i = 0; i < 5000; ++i) {
    const double lanyard = draws.within(0.3, 15);
    const double high = draws.within(-lanyard, lanyard);
    const double low = draws.within(-lanyard, high);
    EXPECT_NEAR(free_fall(lanyard, low) - free_fall(lanyard, high), high - low, 1e-12);
  }
}

TEST(FreeFallRule, RefusesAnAnchorOutOfReach) {
  for (const double anchor : {2.5, -2.5}) {
    try {
      free_fall(2, anchor);
      FAIL();
    } catch (const Refusal& refusal) {
      EXPECT_STREQ(refusal.what(),
                   "free-fall-rule: anchor-above-d-ring: is farther from the D-ring than the "
                   "lanyard reaches");
    }
  }
}

TEST(FreeFallMotion, AgreesWithMotionInSteps) {
  for (const double drop : {0.5, 1.8, 7.0, 30.0}) {
    const FreeFallMotion r = free_fall_motion({metres(drop)});
    // The mean speed of each step moves the fall; exact for uniform acceleration.
    constexpr int steps = 1000;
    const double step = r.time.value() / steps;
    double speed = 0;
    double fallen = 0;
    for (int i = 0; i < steps; ++i) {
      const double before = speed;
      speed += gravity * step;
      fallen += (before + speed) / 2 * step;
    }
    EXPECT_NEAR(fallen, drop, 1e-9 * drop);
    EXPECT_NEAR(speed, r.speed.value(), 1e-9 * speed);
  }
}

TEST(FreeFallMotion, StartsAtRest) {
  const FreeFallMotion r = free_fall_motion({metres(0)});
  EXPECT_EQ(r.time.value(), 0);
  EXPECT_EQ(r.speed.value(), 0);
}

}  // namespace
}  // namespace footroom::engine
