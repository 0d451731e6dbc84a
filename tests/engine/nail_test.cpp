#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "engine/holes_to_patch.hpp"
#include "engine/missed_rafter.hpp"
#include "engine/nail_combined.hpp"
#include "engine/nail_lateral.hpp"
#include "engine/nail_penetration.hpp"
#include "engine/nail_withdrawal.hpp"
#include "engine/nails_needed.hpp"

namespace footroom::engine {
namespace {

const Force pound_force = 4.4482216152605 * si::newton;

double in_pounds(Force force) {
  return force / pound_force;
}

template <class Function>
std::string refusal_of(Function&& function) {
  try {
    function();
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "no refusal";
}

NailWithdrawalCase sixteen_penny_out() {
  NailWithdrawalCase c{};
  c.specific_gravity = 0.42;
  c.nail_diameter = 0.162 * inch;
  c.penetration = 2.0 * inch;
  return c;
}

NailLateralCase sixteen_penny_across() {
  NailLateralCase c{};
  c.specific_gravity = 0.50;
  c.side_specific_gravity = 0.50;
  c.side_material = SideMaterial::wood;
  c.nail_diameter = 0.162 * inch;
  c.penetration = 2.0 * inch;
  c.side_thickness = 1.5 * inch;
  return c;
}

// ---- Withdrawal --------------------------------------------------------------------------------

TEST(NailWithdrawal, ComesOutInTestsAtFiveTimesTheDesignValue) {
  for (const double gravity : {0.31, 0.42, 0.5, 0.55, 0.73}) {
    NailWithdrawalCase c = sixteen_penny_out();
    c.specific_gravity = gravity;
    const NailWithdrawal r = nail_withdrawal(c);
    EXPECT_NEAR(r.ultimate_per_nail / r.capacity_per_nail, 5.0, 1e-12);
  }
}

TEST(NailWithdrawal, AdjustsByEveryFactor) {
  NailWithdrawalCase c = sixteen_penny_out();
  const NailWithdrawal plain = nail_withdrawal(c);
  EXPECT_DOUBLE_EQ(plain.capacity.value(), plain.capacity_per_nail.value());
  c.nails = 8;
  c.load_duration = 1.6;
  c.moisture = Moisture::wet;
  c.driving = Driving::toe_nailed;
  const NailWithdrawal all = nail_withdrawal(c);
  EXPECT_NEAR(all.capacity / plain.capacity, 8 * 1.6 * 0.25 * 0.67, 1e-12);
  EXPECT_DOUBLE_EQ(all.ultimate_per_nail.value(), plain.ultimate_per_nail.value());
}

TEST(NailWithdrawal, RefusesEndGrain) {
  NailWithdrawalCase c = sixteen_penny_out();
  c.grain = Grain::end;
  EXPECT_EQ(refusal_of([&] { nail_withdrawal(c); }),
            "nail-withdrawal: grain: is end, expected side: nails in end grain may not be loaded "
            "in withdrawal (NDS 2018, 12.2.3)");
}

TEST(NailWithdrawal, RefusesTheFactorForImpactWithItsReason) {
  NailWithdrawalCase c = sixteen_penny_out();
  c.load_duration = 1.6;
  EXPECT_NO_THROW(nail_withdrawal(c));
  c.load_duration = 2.0;
  EXPECT_EQ(refusal_of([&] { nail_withdrawal(c); }),
            "nail-withdrawal: load-duration: is 2, expected at most 1.6: the factor for impact "
            "does not apply to connections (NDS 2018, 11.3.2)");
}

TEST(NailWithdrawal, RefusesWhatIsNoNumber) {
  NailWithdrawalCase c = sixteen_penny_out();
  c.penetration = std::numeric_limits<double>::quiet_NaN() * si::metre;
  EXPECT_THROW(nail_withdrawal(c), OutOfDomain);
  c = sixteen_penny_out();
  c.specific_gravity = std::numeric_limits<double>::infinity();
  EXPECT_THROW(nail_withdrawal(c), OutOfDomain);
  c = sixteen_penny_out();
  c.penetration = 0.0 * si::metre;
  EXPECT_THROW(nail_withdrawal(c), OutOfDomain);
}

// ---- Lateral -----------------------------------------------------------------------------------

/// The yield loads from equilibrium of the nail as a rigid-plastic beam on rigid-plastic wood, not
/// from the closed solutions: the greatest force whose mode can bring it into balance. For each
/// mode the unknown is the depth at which the pressure changes sides (or where the hinge is).
struct Equilibrium {
  double D, l_m, l_s, F_em, F_es, M_y;  // consistent units; M_y the plastic moment of the shank

  double I_m() const { return D * l_m * F_em; }
  double I_s() const { return D * l_s * F_es; }

  /// Moment balance about the shear plane of the whole straight shank; bisect for the force F,
  /// the net pressure on either side. A straight shank in a member of bearing length l under shear
  /// F at the plane turns about the depth z with F = F_e D (2 z - l), and the moment at the plane
  /// is M = F_e D (z^2 - (l^2 - z^2)) / 2.
  double II() const {
    return bisect([&](double F) { return turned(F, l_m, F_em) + turned(F, l_s, F_es); });
  }
  /// As II, but with a hinge in one member at the depth where the shear is zero, F / (F_e D).
  double III_m() const {
    return bisect([&](double F) { return turned(F, l_m, F_em) + hinged(F, F_es); });
  }
  double III_s() const {
    return bisect([&](double F) { return hinged(F, F_em) + turned(F, l_s, F_es); });
  }
  double IV() const {
    return bisect([&](double F) { return hinged(F, F_em) + hinged(F, F_es); });
  }

 private:
  double turned(double F, double l, double F_e) const {
    const double z = (F / (F_e * D) + l) / 2;
    return F_e * D * (z * z - (l * l - z * z)) / 2;
  }
  double hinged(double F, double F_e) const { return F * F / (2 * F_e * D) - M_y; }

  template <class Balance>
  static double bisect(Balance balance) {
    double low = 0;
    double high = 1;
    while (balance(high) < 0) high *= 2;
    for (int i = 0; i < 200; ++i) (balance((low + high) / 2) < 0 ? low : high) = (low + high) / 2;
    return low;
  }
};

TEST(NailLateral, AgreesWithEquilibriumInEveryMode) {
  int compared = 0;
  for (const double gravity : {0.42, 0.55}) {
    for (const double diameter : {0.131, 0.162, 0.192}) {
      for (const double thickness : {0.3, 0.75, 1.5}) {
        for (const SideMaterial material : {SideMaterial::wood, SideMaterial::steel}) {
          NailLateralCase c = sixteen_penny_across();
          c.specific_gravity = gravity;
          c.nail_diameter = diameter * inch;
          c.side_thickness = thickness * inch;
          c.side_material = material;
          const NailLateral r = nail_lateral(c);
          const double D = c.nail_diameter.value();
          const double plastic_moment = r.bending_yield_strength.value() * D * D * D / 6;
          const Equilibrium e{D,
                              r.bearing_length.value(),
                              c.side_thickness.value(),
                              r.main_bearing_strength.value(),
                              r.side_bearing_strength.value(),
                              plastic_moment};
          const double K_D = r.reduction;
          EXPECT_NEAR(r.mode_I_m.value() * K_D / e.I_m(), 1, 1e-9);
          EXPECT_NEAR(r.mode_I_s.value() * K_D / e.I_s(), 1, 1e-9);
          EXPECT_NEAR(r.mode_II.value() * K_D / e.II(), 1, 1e-9);
          EXPECT_NEAR(r.mode_III_m.value() * K_D / e.III_m(), 1, 1e-9);
          EXPECT_NEAR(r.mode_III_s.value() * K_D / e.III_s(), 1, 1e-9);
          EXPECT_NEAR(r.mode_IV.value() * K_D / e.IV(), 1, 1e-9);
          ++compared;
        }
      }
    }
  }
  EXPECT_EQ(compared, 36);
}

TEST(NailLateral, NamesTheModeOfTheLeastValue) {
  NailLateralCase c = sixteen_penny_across();
  EXPECT_EQ(nail_lateral(c).mode, YieldMode::IV);
  c.side_thickness = 0.75 * inch;
  EXPECT_EQ(nail_lateral(c).mode, YieldMode::III_s);
  c.side_thickness = 0.1 * inch;
  const NailLateral thin = nail_lateral(c);
  EXPECT_EQ(thin.mode, YieldMode::I_s);
  EXPECT_EQ(thin.reference, thin.mode_I_s);
}

TEST(NailLateral, LessPenetrationCountsInProportionDownToSixDiameters) {
  NailLateralCase c = sixteen_penny_across();
  const Force full = nail_lateral(c).capacity_per_nail;
  c.penetration = 10.0 * c.nail_diameter;
  EXPECT_NEAR(nail_lateral(c).capacity_per_nail / full, 1, 1e-12);
  c.penetration = 8.0 * c.nail_diameter;
  EXPECT_NEAR(nail_lateral(c).capacity_per_nail / full, 0.8, 1e-12);
  c.penetration = 6.0 * c.nail_diameter;
  EXPECT_NEAR(nail_lateral(c).capacity_per_nail / full, 0.6, 1e-12);
  c.penetration = 0.9 * inch;
  EXPECT_EQ(refusal_of([&] { nail_lateral(c); }),
            "nail-lateral: penetration: is 5.56 nail diameters, expected at least 6: a shallower "
            "nail has no lateral design value (NDS 2018, 12.1.6)");
}

TEST(NailLateral, AdjustsByEveryFactorAndRefusesImpact) {
  NailLateralCase c = sixteen_penny_across();
  const Force plain = nail_lateral(c).capacity;
  c.nails = 6;
  c.load_duration = 1.6;
  c.moisture = Moisture::wet;
  c.driving = Driving::toe_nailed;
  EXPECT_NEAR(nail_lateral(c).capacity / plain, 6 * 1.6 * 0.7 * 0.83, 1e-12);
  c.load_duration = 1.61;
  EXPECT_THROW(nail_lateral(c), Refusal);
}

TEST(NailLateral, TakesTheWeakerWoodIntoAccount) {
  NailLateralCase c = sixteen_penny_across();
  const Force alike = nail_lateral(c).reference;
  c.side_specific_gravity = 0.36;
  EXPECT_LT(nail_lateral(c).reference, alike);
}

TEST(NailLateral, GivesFiniteValuesAtEveryCornerOfItsDomain) {
  for (const double gravity : {0.31, 0.73})
    for (const double side_gravity : {0.31, 0.73})
      for (const double diameter : {0.099, 0.142, 0.170, 0.177, 0.236})
        for (const double thickness : {0.0005, 0.1})
          for (const double penetration : {6 * diameter * 0.0254, 0.3})
            for (const SideMaterial material : {SideMaterial::wood, SideMaterial::steel}) {
              NailLateralCase c{};
              c.specific_gravity = gravity;
              c.side_specific_gravity = side_gravity;
              c.nail_diameter = diameter * inch;
              c.side_thickness = thickness * si::metre;
              c.penetration = penetration * si::metre;
              c.side_material = material;
              const NailLateral r = nail_lateral(c);
              EXPECT_TRUE(std::isfinite(r.capacity.value()));
              EXPECT_GT(r.capacity.value(), 0);
              for (const Force& mode :
                   {r.mode_I_m, r.mode_I_s, r.mode_II, r.mode_III_m, r.mode_III_s, r.mode_IV})
                EXPECT_LE(r.reference, mode);
            }
}

// ---- Combined ----------------------------------------------------------------------------------

TEST(NailCombined, IsLateralAlongTheWoodAndWithdrawalStraightOut) {
  NailCombinedCase c{100.0 * si::newton, 700.0 * si::newton, 0.0 * si::radian};
  EXPECT_NEAR(nail_combined(c).capacity.value(), 700, 1e-9);
  c.load_angle = M_PI / 2 * si::radian;
  EXPECT_NEAR(nail_combined(c).capacity.value(), 100, 1e-9);
}

TEST(NailCombined, UsesBothSharesUpExactlyAndStaysBelowTheFormWithSquares) {
  for (int degrees = 0; degrees <= 90; degrees += 5) {
    const double angle = degrees * M_PI / 180;
    const NailCombinedCase c{250.0 * si::newton, 700.0 * si::newton, angle * si::radian};
    const double capacity = nail_combined(c).capacity.value();
    EXPECT_NEAR(capacity * std::sin(angle) / 250 + capacity * std::cos(angle) / 700, 1, 1e-12);
    const double with_squares =
        250.0 * 700 / (250 * std::pow(std::cos(angle), 2) + 700 * std::pow(std::sin(angle), 2));
    EXPECT_LE(capacity, with_squares * (1 + 1e-12));
  }
}

// ---- Counting ----------------------------------------------------------------------------------

TEST(NailsNeeded, OneLessDoesNotHold) {
  for (int pounds = 50; pounds <= 5000; pounds += 37) {
    const NailsNeededCase c{double(pounds) * pound_force, 141.0 * pound_force};
    const NailsNeeded r = nails_needed(c);
    EXPECT_GE(in_pounds(r.capacity), pounds * (1 - 1e-12));
    EXPECT_LT((r.count - 1) * 141, pounds);
  }
}

TEST(NailsNeeded, AnExactMultipleTakesNoFurtherNail) {
  for (int count = 1; count <= 60; ++count)
    for (const double each : {0.1, 0.7, 1.1, 14.13}) {
      const NailsNeededCase c{count * 100 * each * pound_force, 100 * each * pound_force};
      EXPECT_EQ(nails_needed(c).count, count);
    }
  EXPECT_EQ(nails_needed({0.0 * pound_force, 100.0 * pound_force}).count, 0);
}

TEST(NailPenetration, LeavesWhatTheLayersDoNotTake) {
  NailPenetrationCase c{};
  c.nail_length = 3.5 * inch;
  c.nail_diameter = 0.162 * inch;
  c.bracket_thickness = 0.125 * inch;
  c.shingle_thickness = 0.25 * inch;
  c.sheathing_thickness = 0.5 * inch;
  EXPECT_NEAR(nail_penetration(c).penetration / inch, 2.625, 1e-12);
  EXPECT_EQ(nail_penetration(c).state, PenetrationState::full);
  c.nail_length = 2.0 * inch;
  EXPECT_EQ(nail_penetration(c).state, PenetrationState::reduced);
  c.nail_length = 1.5 * inch;
  EXPECT_EQ(nail_penetration(c).state, PenetrationState::too_short);
  c.nail_length = 0.5 * inch;
  EXPECT_EQ(nail_penetration(c).penetration.value(), 0);
}

TEST(NailPenetration, TenDiametersInDecimalsAreTen) {
  NailPenetrationCase c{};
  c.nail_diameter = 0.131 * inch;
  c.nail_length = 1.31 * inch + 0.1 * inch;
  c.bracket_thickness = 0.1 * inch;
  EXPECT_EQ(nail_penetration(c).state, PenetrationState::full);
}

TEST(MissedRafter, HoldsWhatTheThinSheathingHolds) {
  MissedRafterCase c{};
  c.sheathing_specific_gravity = 0.42;
  c.sheathing_thickness = 7.0 / 16 * inch;
  c.specific_gravity = 0.42;
  c.nail_diameter = 0.162 * inch;
  c.penetration = 2.625 * inch;
  c.nails = 6;
  const MissedRafter r = missed_rafter(c);
  NailWithdrawalCase hit = sixteen_penny_out();
  hit.penetration = c.penetration;
  hit.nails = 6;
  EXPECT_NEAR(r.in_rafter / nail_withdrawal(hit).capacity, 1, 1e-12);
  EXPECT_NEAR(r.share, (7.0 / 16) / 2.625, 1e-12);
  EXPECT_LT(in_pounds(r.in_sheathing), 70);
}

TEST(HolesToPatch, CountsEveryNail) {
  EXPECT_EQ(holes_to_patch({4, 8, 3}).holes, 35);
  EXPECT_EQ(holes_to_patch({0, 8}).holes, 0);
  EXPECT_THROW(holes_to_patch({-1, 8}), OutOfDomain);
}

}  // namespace
}  // namespace footroom::engine
