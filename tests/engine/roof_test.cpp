#include "engine/roof.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

#include "engine/drawn_values.hpp"
#include "engine/rafters.hpp"
#include "engine/roof_area.hpp"
#include "engine/roof_slide.hpp"
#include "engine/typed.hpp"

namespace footroom::engine {
namespace {

TEST(Roof, AFlatRoofIsItsOwnPlan) {
  const Roof flat = roof({radians(0), metres(5), degrees(18.4)});
  EXPECT_EQ(flat.unit_rise.value(), 0);
  EXPECT_EQ(flat.angle.value(), 0);
  EXPECT_EQ(flat.slope_factor.value(), 1);
  EXPECT_EQ(flat.rafter_length.value(), 5);
  EXPECT_EQ(flat.ridge_height.value(), 0);
  EXPECT_EQ(flat.kind, RoofKind::low_slope);
}

TEST(Roof, RunRiseAndRafterFormTheRightTriangle) {
  Draws draws(1);
  for (int i = 0; i < 5000; ++i) {
    const double pitch = draws.within(0, 80 * M_PI / 180);
    const double run = draws.within(0.3, 60);
    const Roof r = roof({radians(pitch), metres(run), degrees(18.4)});
    EXPECT_NEAR(r.rafter_length.value() * std::cos(pitch), run, 1e-12 * run);
    EXPECT_NEAR(r.rafter_length.value() * std::sin(pitch), r.ridge_height.value(), 1e-11 * run);
    EXPECT_NEAR(r.angle.value(), pitch, 1e-14);
  }
}

TEST(Roof, TheLimitItselfIsLowSlope) {
  const Angle limit = std::atan(4.0 / 12) * si::radian;
  EXPECT_EQ(roof({limit, metres(5), limit}).kind, RoofKind::low_slope);
  EXPECT_EQ(roof({limit * 1.0001, metres(5), limit}).kind, RoofKind::steep);
}

TEST(RoofArea, IsTheAreaOfTheSlantedRectangle) {
  Draws draws(2);
  for (int i = 0; i < 5000; ++i) {
    const double pitch = draws.within(0, 80 * M_PI / 180);
    const double eave = draws.within(0.1, 200);
    const double run = draws.within(0.3, 60);
    const RoofArea r = roof_area({radians(pitch), metres(eave), metres(run)});
    // Cross product of the edges (eave, 0, 0) and (0, run, rise).
    const double rise = run * std::tan(pitch);
    const double area = std::hypot(eave * rise, eave * run);
    EXPECT_NEAR(r.slope_area.value(), area, 1e-12 * area);
    EXPECT_NEAR(r.plan_area.value(), eave * run, 1e-12 * area);
  }
}

TEST(Rafters, AreCountedAndFoundAsASearchFindsThem) {
  Draws draws(3);
  for (int i = 0; i < 3000; ++i) {
    RaftersCase c{};
    c.ridge_length = metres(draws.within(3, 100));
    c.spacing = metres(draws.within(0.1, 3));
    c.first_rafter = metres(draws.within(0, 3));
    c.position = c.ridge_length * draws.share();
    const Rafters r = rafters(c);

    std::vector<double> centres;
    for (int k = 0;; ++k) {
      const double centre = c.first_rafter.value() + k * c.spacing.value();
      if (centre > c.ridge_length.value()) break;
      centres.push_back(centre);
    }
    ASSERT_EQ(r.count, static_cast<int>(centres.size()));
    ASSERT_EQ(r.positions.size(), centres.size());
    double miss = std::numeric_limits<double>::infinity();
    for (const double centre : centres)
      miss = std::min(miss, std::abs(centre - c.position.value()));
    EXPECT_NEAR(r.miss.value(), miss, 1e-10);
    EXPECT_EQ(r.hit, miss <= 0.0381 / 2 ? Hit::hit : Hit::miss);
    EXPECT_NEAR(std::abs((r.nearest_rafter - c.position).value()), miss, 1e-10);
  }
}

TEST(Rafters, OneOnTheRidgesEndCounts) {
  // 16 in spacing over 32 ft: 24 spacings, 25 rafters, though 9.7536 / 0.4064 rounds below 24.
  RaftersCase c{};
  c.ridge_length = feet(32);
  c.spacing = feet(16.0 / 12);
  c.first_rafter = metres(0);
  c.position = feet(32);
  EXPECT_EQ(rafters(c).count, 25);
  EXPECT_EQ(rafters(c).hit, Hit::hit);
}

TEST(Rafters, RefuseWhatLiesBeyondTheRidge) {
  RaftersCase c{};
  c.ridge_length = metres(2);
  c.spacing = metres(0.4);
  c.first_rafter = metres(0.2);
  c.position = metres(2.1);
  try {
    rafters(c);
    FAIL();
  } catch (const Refusal& refusal) {
    EXPECT_STREQ(refusal.what(), "rafters: position: lies beyond the end of the ridge");
  }
  c.position = metres(1);
  c.first_rafter = metres(2.5);
  try {
    rafters(c);
    FAIL();
  } catch (const Refusal& refusal) {
    EXPECT_STREQ(refusal.what(), "rafters: first-rafter: lies beyond the end of the ridge");
  }
}

TEST(RoofSlide, SlidesWhereTheTangentExceedsTheFriction) {
  Draws draws(4);
  for (int i = 0; i < 5000; ++i) {
    const double pitch = draws.within(0, 80 * M_PI / 180);
    const double friction = draws.within(0, 2);
    if (std::abs(std::tan(pitch) - friction) < 1e-9) continue;
    const RoofSlide r = roof_slide({radians(pitch), friction, metres(3)});
    EXPECT_EQ(r.sliding, std::tan(pitch) > friction ? Sliding::slides : Sliding::stays);
    EXPECT_EQ(r.sliding == Sliding::slides, r.speed.value() > 0);
  }
}

TEST(RoofSlide, ClosesTheEnergyBalance) {
  Draws draws(5);
  for (int i = 0; i < 5000; ++i) {
    const double pitch = draws.within(0.2, 80 * M_PI / 180);
    const double friction = std::tan(pitch) * draws.within(0, 0.95);
    if (friction > 2) continue;
    const double distance = draws.within(0.1, 60);
    const RoofSlide r = roof_slide({radians(pitch), friction, metres(distance)});
    const double per_mass =
        gravity * distance * std::sin(pitch) - friction * gravity * std::cos(pitch) * distance;
    EXPECT_NEAR(0.5 * r.speed.value() * r.speed.value(), per_mass, 1e-9 * per_mass);
    // The average speed of uniform acceleration is half the last.
    EXPECT_NEAR(0.5 * r.speed.value() * r.time.value(), distance, 1e-9 * distance);
  }
}

TEST(RoofSlide, WithoutFrictionOnAFlatRoofNothingMoves) {
  const RoofSlide r = roof_slide({radians(0), 0.0, metres(3)});
  EXPECT_EQ(r.sliding, Sliding::stays);
  EXPECT_EQ(r.acceleration.value(), 0);
  EXPECT_EQ(r.time.value(), 0);
}

TEST(Rafters, TheFirstMayStandAtTheVeryEndOfTheRidge) {
  RaftersCase c{};
  c.ridge_length = 3.0 * si::metre;
  c.spacing = 0.6 * si::metre;
  c.first_rafter = 3.0 * si::metre;
  c.position = 3.0 * si::metre;
  EXPECT_EQ(rafters(c).hit, Hit::hit);
  c.ridge_length = 2.999 * si::metre;
  EXPECT_THROW(rafters(c), Refusal);
}

}  // namespace
}  // namespace footroom::engine
