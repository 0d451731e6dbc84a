#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

struct UserMassCase {
  Mass body;                        ///< with clothes; 20 kg to 300 kg
  Mass tools;                       ///< tools and gear carried; 0 to 100 kg
  Mass below;                       ///< the total must stay below it; 20 kg to 300 kg
  Mass least = 0.0 * si::kilogram;  ///< the maker's least user mass; 0 to 200 kg
};

enum class UserMassVerdict { within, too_heavy, too_light };

struct UserMass {
  Mass total;
  Mass spare;  ///< up to the limit; negative: over it
  UserMassVerdict verdict;
};

/// Returns whether a worker with tools is within the mass that the gear is made for.
///
/// Source: note to 29 CFR 1926.502(d)(16) (read): criteria hold below 310 lb (140 kg) with tools.
/// A least user mass is a maker's figure.
/// Errors: OutOfDomain.
/// Checked: both sides of the limit (tests/engine/lines_test.cpp).
UserMass user_mass(const UserMassCase& c);

const Calculation& user_mass_calculation();

}  // namespace footroom::engine
