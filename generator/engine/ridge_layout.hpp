#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// Anchors for a crew along a ridge, one for each worker, each on a rafter of its own.
struct RidgeLayoutCase {
  Length ridge_length;                    ///< 1 m to 100 m
  Length spacing;                         ///< rafters, centre to centre; 0.1 m to 3 m
  Length first_rafter;                    ///< its centre from the ridge's start; 0 to 3 m
  int workers;                            ///< 1 to 20
  Length end_distance = 0.0 * si::metre;  ///< of an anchor from either end, at least; 0 to 20 m
};

struct RidgeLayout {
  int rafter_count;
  std::vector<Ratio> rafter_numbers;  ///< of the anchors, from 1 at the ridge's start
  std::vector<Length> positions;      ///< of the anchors, from the ridge's start
  Length smallest_gap;                ///< between neighbouring anchors; 0 for a single one
  Length farthest_sideways;           ///< along the ridge, from a place to the anchor nearest to it
};

/// Returns the rafters for the anchors: each nearest to the middle of its worker's equal share of
/// the ridge, but a rafter carries one anchor only.
///
/// Source: geometry; one anchor for each worker follows the rule of separate lines (29 CFR
/// 1926.502(d)(10)(i), from memory).
/// Errors: OutOfDomain; Refusal naming `workers` where there are fewer rafters than workers.
/// Checked: every anchor on a rafter, none shared, against trying every choice of rafters
/// (tests/engine/ridge_layout_test.cpp).
RidgeLayout ridge_layout(const RidgeLayoutCase& c);

const Calculation& ridge_layout_calculation();

}  // namespace footroom::engine
