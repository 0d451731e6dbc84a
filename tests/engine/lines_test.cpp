#include <gtest/gtest.h>

#include <cmath>

#include "engine/capstan.hpp"
#include "engine/hip_length.hpp"
#include "engine/horizontal_line.hpp"
#include "engine/knot_strength.hpp"
#include "engine/sag_angle.hpp"
#include "engine/travel_restraint_length.hpp"
#include "engine/user_mass.hpp"

namespace footroom::engine {
namespace {

constexpr double degree = M_PI / 180;

TEST(HorizontalLine, BothHalvesHoldTheLoad) {
  for (double angle = 0.5; angle <= 90; angle += 0.5) {
    const HorizontalLine r = horizontal_line({1000.0 * si::newton, angle * degree * si::radian});
    EXPECT_NEAR(2 * r.tension.value() * std::sin(angle * degree), 1000, 1e-9);
    EXPECT_NEAR(r.amplification, r.tension.value() / 1000, 1e-12);
  }
  EXPECT_NEAR(horizontal_line({1.0 * si::newton, 30 * degree * si::radian}).amplification, 1,
              1e-12);
  EXPECT_THROW(horizontal_line({1.0 * si::newton, 0.0 * si::radian}), OutOfDomain);
}

TEST(SagAngle, IsThatOfTheTriangle) {
  const SagAngle r = sag_angle({8.0 * si::metre, 3.0 * si::metre});
  EXPECT_NEAR(r.line_length.value(), 10, 1e-12);
  EXPECT_NEAR(std::sin(r.sag_angle.value()), 0.6, 1e-12);
}

TEST(Capstan, TwoHalvesOfAnAngleAreTheWhole) {
  const CapstanCase whole{500.0 * si::newton, 0.4, M_PI / 2 * si::radian};
  CapstanCase half = whole;
  half.edge_angle = M_PI / 4 * si::radian;
  const Force between = capstan(half).greatest;
  half.force = between;
  EXPECT_NEAR(capstan(half).greatest / capstan(whole).greatest, 1, 1e-12);
  EXPECT_NEAR(capstan(whole).least * capstan(whole).greatest / (whole.force * whole.force), 1,
              1e-12);
  // mu 0.4 over a right angle: e^0.6283 = 1.874 (by table)
  EXPECT_NEAR(capstan(whole).factor, 1.874, 0.001);
}

TEST(Capstan, WithoutFrictionBothSidesAreEqual) {
  const Capstan r = capstan({500.0 * si::newton, 0.0, M_PI * si::radian});
  EXPECT_EQ(r.least.value(), 500);
  EXPECT_EQ(r.greatest.value(), 500);
}

TEST(KnotStrength, IsComparedWithTheNeed) {
  const KnotStrengthCase half{22e3 * si::newton, 0.5, 11e3 * si::newton};
  EXPECT_EQ(knot_strength(half).verdict, StrengthVerdict::enough);
  EXPECT_EQ(knot_strength(half).spare.value(), 0);
  KnotStrengthCase weaker = half;
  weaker.knot_factor = 0.49;
  EXPECT_EQ(knot_strength(weaker).verdict, StrengthVerdict::too_little);
  EXPECT_NEAR(knot_strength(weaker).spare.value(), -220, 1e-9);
  weaker.knot_factor = 1.01;
  EXPECT_THROW(knot_strength(weaker), OutOfDomain);
}

TEST(TravelRestraint, TheNearestEdgeDecides) {
  TravelRestraintCase c{};
  c.to_eave = 6.0 * si::metre;
  c.margin = 1.0 * si::metre;
  c.connectors = 0.9 * si::metre;
  EXPECT_NEAR(travel_restraint_length(c).longest_line.value(), 4.1, 1e-12);
  c.to_rake = 3.0 * si::metre;
  EXPECT_NEAR(travel_restraint_length(c).longest_line.value(), 1.1, 1e-12);
  EXPECT_EQ(travel_restraint_length(c).restraint, Restraint::possible);
  // A line of no length holds nobody.
  c.connectors = 2.0 * si::metre;
  EXPECT_EQ(travel_restraint_length(c).longest_line.value(), 0);
  EXPECT_EQ(travel_restraint_length(c).restraint, Restraint::impossible);
  c.connectors = 0.9 * si::metre;
  c.to_rake = 1.5 * si::metre;
  EXPECT_EQ(travel_restraint_length(c).restraint, Restraint::impossible);
  EXPECT_LT(travel_restraint_length(c).longest_line.value(), 0);
}

TEST(UserMass, MustStayBelowTheLimit) {
  UserMassCase c{110.0 * si::kilogram, 29.0 * si::kilogram, 140.0 * si::kilogram,
                 59.0 * si::kilogram};
  EXPECT_EQ(user_mass(c).verdict, UserMassVerdict::within);
  c.tools = 30.0 * si::kilogram;
  EXPECT_EQ(user_mass(c).verdict, UserMassVerdict::too_heavy);
  EXPECT_EQ(user_mass(c).spare.value(), 0);
  c.body = 50.0 * si::kilogram;
  c.tools = 5.0 * si::kilogram;
  EXPECT_EQ(user_mass(c).verdict, UserMassVerdict::too_light);
  c.least = 140.0 * si::kilogram;
  EXPECT_THROW(user_mass(c), Refusal);
}

TEST(HipLength, IsTheDistanceFromCornerToRidge) {
  for (int rise = 0; rise <= 24; ++rise) {
    const double run = 3.7;
    const double height = run * rise / 12;
    const HipLength r = hip_length({std::atan(rise / 12.0) * si::radian, run * si::metre});
    EXPECT_NEAR(r.length.value(), std::hypot(run, run, height), 1e-12);
    EXPECT_NEAR(r.length.value() * std::sin(r.angle.value()), height, 1e-12);
  }
}

}  // namespace
}  // namespace footroom::engine
