#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// As LadderCase, from the height of the landing.
struct LadderForLandingCase {
  Length landing_height;  ///< over the ground; 0.5 m to 25 m
  Ratio foot_ratio;       ///< foot from the wall over working length; 0.05 to 0.7
  Length above_landing;   ///< rails above the landing, vertically; 0 to 3 m
};

struct LadderForLanding {
  Length working_length;  ///< along the rails, foot to landing
  Length foot_distance;
  Length rail_length;
};

/// Returns the ladder that a landing needs. Source, validity: see ladder().
/// Errors: OutOfDomain.
/// Checked: the inverse of ladder() (tests/engine/ladder_test.cpp).
LadderForLanding ladder_for_landing(const LadderForLandingCase& c);

const Calculation& ladder_for_landing_calculation();

}  // namespace footroom::engine
