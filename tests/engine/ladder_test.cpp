#include "engine/ladder.hpp"

#include <gtest/gtest.h>

#include "engine/drawn_values.hpp"
#include "engine/ladder_for_landing.hpp"
#include "engine/typed.hpp"

namespace footroom::engine {
namespace {

TEST(Ladder, FormsTheRightTriangle) {
  Draws draws(61);
  for (int i = 0; i < 5000; ++i) {
    const double working = draws.within(1, 25);
    const double ratio = draws.within(0.05, 0.7);
    const double above = draws.within(0, 3);
    const Ladder r = ladder({metres(working), ratio, metres(above)});
    EXPECT_NEAR(std::hypot(r.foot_distance.value(), r.support_height.value()), working, 1e-11);
    EXPECT_NEAR(std::atan2(r.support_height.value(), r.foot_distance.value()), r.angle.value(),
                1e-12);
    // The top of the rails, as a point.
    EXPECT_NEAR(r.rail_length.value() * std::sin(r.angle.value()), r.support_height.value() + above,
                1e-10);
  }
}

TEST(Ladder, ForALandingIsTheInverse) {
  Draws draws(62);
  for (int i = 0; i < 5000; ++i) {
    const double working = draws.within(1, 25);
    const double ratio = draws.within(0.05, 0.7);
    const double above = draws.within(0, 3);
    const Ladder there = ladder({metres(working), ratio, metres(above)});
    const LadderForLanding back = ladder_for_landing({there.support_height, ratio, metres(above)});
    EXPECT_NEAR(back.working_length.value(), working, 1e-10);
    EXPECT_NEAR(back.foot_distance.value(), there.foot_distance.value(), 1e-10);
    EXPECT_NEAR(back.rail_length.value(), there.rail_length.value(), 1e-10);
  }
}

TEST(Ladder, WithoutRailsAboveTheLandingEndsThere) {
  const Ladder r = ladder({metres(5), 0.25, metres(0)});
  EXPECT_EQ(r.rail_length.value(), 5);
}

}  // namespace
}  // namespace footroom::engine
