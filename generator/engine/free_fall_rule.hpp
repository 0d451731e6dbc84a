#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A worker on a lanyard that is tied off above, at or below the height of the D-ring.
struct FreeFallRuleCase {
  Length lanyard_length;       ///< 0.3 m to 15 m
  Length anchor_above_d_ring;  ///< negative: below; -15 m to 15 m
};

struct FreeFallRule {
  Length free_fall;
};

/// Returns the free fall: lanyard length less the height of the anchor above the D-ring.
///
/// Source: plane geometry; the rule stands in the OSHA Technical Manual, section V chapter 4
/// (second hand).
/// Valid for a vertical fall beside the anchor and a lanyard that does not stretch.
/// Errors: OutOfDomain; Refusal naming `anchor-above-d-ring` where the lanyard cannot span the
/// height between anchor and D-ring.
/// Checked: tests/reference/clearance.csv; from no free fall to twice the lanyard
/// (tests/engine/free_fall_test.cpp).
FreeFallRule free_fall_rule(const FreeFallRuleCase& c);

const Calculation& free_fall_rule_calculation();

}  // namespace footroom::engine
