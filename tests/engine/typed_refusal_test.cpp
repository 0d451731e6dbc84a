// A function refuses by itself what is outside its domain, whatever route leads into it: here none
// of the catalogue's, which looks at the domain, too.

#include <gtest/gtest.h>

#include <limits>
#include <typeinfo>

#include "engine/absorber.hpp"
#include "engine/anchor_reach.hpp"
#include "engine/anchor_strength.hpp"
#include "engine/arrest_force.hpp"
#include "engine/arrest_in_time.hpp"
#include "engine/capstan.hpp"
#include "engine/change_datum.hpp"
#include "engine/clearance.hpp"
#include "engine/clearance_check.hpp"
#include "engine/eave_swing.hpp"
#include "engine/edge_fall.hpp"
#include "engine/elastic_line.hpp"
#include "engine/free_fall_motion.hpp"
#include "engine/free_fall_rule.hpp"
#include "engine/gear_check.hpp"
#include "engine/hip_length.hpp"
#include "engine/holes_to_patch.hpp"
#include "engine/horizontal_line.hpp"
#include "engine/knot_strength.hpp"
#include "engine/ladder.hpp"
#include "engine/ladder_for_landing.hpp"
#include "engine/largest_slack.hpp"
#include "engine/line_then_absorber.hpp"
#include "engine/missed_rafter.hpp"
#include "engine/nail_combined.hpp"
#include "engine/nail_lateral.hpp"
#include "engine/nail_penetration.hpp"
#include "engine/nail_withdrawal.hpp"
#include "engine/nails_needed.hpp"
#include "engine/overhead_swing.hpp"
#include "engine/rafters.hpp"
#include "engine/rake_swing.hpp"
#include "engine/ridge_layout.hpp"
#include "engine/roof.hpp"
#include "engine/roof_area.hpp"
#include "engine/roof_slide.hpp"
#include "engine/roof_swing.hpp"
#include "engine/sag_angle.hpp"
#include "engine/travel_restraint_length.hpp"
#include "engine/user_mass.hpp"

namespace footroom::engine {
namespace {

/// With this one input not a number.
template <class Result, class Case, class Field>
void refuses(Result (*function)(const Case&), Field Case::*input) {
  Case c{};
  c.*input = Field::from_value(std::numeric_limits<double>::quiet_NaN());
  EXPECT_THROW(function(c), OutOfDomain) << typeid(Case).name();
}

TEST(TypedRefusal, EveryFunctionRefusesByItself) {
  refuses(absorber, &AbsorberCase::weight);
  refuses(anchor_reach, &AnchorReachCase::slope_length);
  refuses(anchor_strength, &AnchorStrengthCase::strength_per_person);
  refuses(arrest_force, &ArrestForceCase::weight);
  refuses(arrest_in_time, &ArrestInTimeCase::mass);
  refuses(capstan, &CapstanCase::force);
  refuses(change_datum, &ChangeDatumCase::clearance);
  refuses(clearance, &ClearanceCase::free_fall);
  refuses<ClearanceCheck, ClearanceCheckCase>(clearance_check, &ClearanceCheckCase::needed);
  refuses(eave_swing, &EaveSwingCase::slope_length);
  refuses(edge_fall, &EdgeFallCase::slope_length);
  refuses(elastic_line, &ElasticLineCase::weight);
  refuses(free_fall_motion, &FreeFallMotionCase::drop);
  refuses(free_fall_rule, &FreeFallRuleCase::lanyard_length);
  refuses(gear_check, &GearCheckCase::user_mass);
  refuses(hip_length, &HipLengthCase::pitch);
  refuses(horizontal_line, &HorizontalLineCase::load);
  refuses(knot_strength, &KnotStrengthCase::rope_strength);
  refuses(ladder, &LadderCase::working_length);
  refuses(ladder_for_landing, &LadderForLandingCase::landing_height);
  refuses(largest_slack, &LargestSlackCase::slope_length);
  refuses(line_then_absorber, &LineThenAbsorberCase::weight);
  refuses(missed_rafter, &MissedRafterCase::sheathing_specific_gravity);
  refuses(nail_combined, &NailCombinedCase::withdrawal_capacity);
  refuses(nail_lateral, &NailLateralCase::specific_gravity);
  refuses(nail_penetration, &NailPenetrationCase::nail_length);
  refuses(nail_withdrawal, &NailWithdrawalCase::specific_gravity);
  refuses(nails_needed, &NailsNeededCase::load);
  refuses(overhead_swing, &OverheadSwingCase::anchor_height);
  refuses(rafters, &RaftersCase::ridge_length);
  refuses(rake_swing, &RakeSwingCase::pitch);
  refuses(ridge_layout, &RidgeLayoutCase::ridge_length);
  refuses(roof, &RoofCase::pitch);
  refuses(roof_area, &RoofAreaCase::pitch);
  refuses(roof_slide, &RoofSlideCase::pitch);
  refuses(roof_swing, &RoofSwingCase::down);
  refuses(sag_angle, &SagAngleCase::span);
  refuses(travel_restraint_length, &TravelRestraintCase::to_eave);
  refuses(user_mass, &UserMassCase::body);
  HolesToPatchCase of_counts;
  of_counts.anchors = -1;
  EXPECT_THROW(holes_to_patch(of_counts), OutOfDomain);
}

}  // namespace
}  // namespace footroom::engine
