#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

struct AnchorStrengthCase {
  int persons;                ///< attached to the anchorage; 1 to 20
  Force strength_per_person;  ///< 100 N to 100 kN
  Force arrest_force;         ///< of one person's system; more than 0, to 100 kN
  Ratio safety_factor;        ///< of a complete system under a qualified person; 1 to 10
};

struct AnchorStrength {
  Force strength_needed;    ///< without further proof
  Force designed_strength;  ///< as part of a complete system under a qualified person
};

/// Returns what an anchorage must carry, by either way that the rule leaves.
///
/// Source: 29 CFR 1926.502(d)(15) (read): 5,000 lbf per person attached, or part of a complete
/// system with a safety factor of at least two under a qualified person. All numbers come from the
/// rule set.
/// Valid for all persons falling at once.
/// Errors: OutOfDomain.
/// Checked: tests/reference/anchor.csv.
AnchorStrength anchor_strength(const AnchorStrengthCase& c);

const Calculation& anchor_strength_calculation();

}  // namespace footroom::engine
