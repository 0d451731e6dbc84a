#pragma once
#include <vector>

#include "engine/catalogue.hpp"

namespace footroom::engine {

/// Rafters at equal spacing along a ridge, and a place where someone means to nail.
struct RaftersCase {
  Length ridge_length;                       ///< 0.5 m to 100 m
  Length spacing;                            ///< centre to centre; 0.1 m to 3 m
  Length first_rafter;                       ///< its centre, from the ridge's start; 0 to 3 m
  Length position;                           ///< of the nail, from the ridge's start; 0 to 100 m
  Length rafter_width = 0.0381 * si::metre;  ///< 1.5 in: a nominal 2-by; 0.01 m to 0.3 m
};

enum class Hit { hit, miss };

struct Rafters {
  int count;
  std::vector<Length> positions;  ///< centres, from the ridge's start
  Length nearest_rafter;          ///< centre of the rafter nearest to the position
  Length miss;                    ///< from the position to that centre
  Hit hit;                        ///< hit where the position lies over the rafter's width
};

/// Returns where the rafters lie and whether a place along the ridge hits one.
///
/// Source: arithmetic. Valid for rafters at right angles to the ridge at one spacing; a place
/// half-way between two counts to the farther along. A rafter that falls on the ridge's end counts,
/// rounding errors aside.
/// Errors: OutOfDomain; Refusal naming `first-rafter` or `position` (beyond the ridge's end).
/// Checked: against a search through all rafters (tests/engine/roof_test.cpp).
Rafters rafters(const RaftersCase& c);

const Calculation& rafters_calculation();

}  // namespace footroom::engine
