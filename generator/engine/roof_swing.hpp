#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A worker slips on the slope, to the side of the anchor's fall line, and swings on the roof.
struct RoofSwingCase {
  Length down;    ///< from the anchor straight down the slope; 0 to 60 m
  Length across;  ///< from there along the eave's direction; 0 to 60 m
  Angle pitch;    ///< roof angle; 0 to 80 degrees
};

struct RoofSwing {
  Length line;   ///< anchor to worker, taut
  Length slide;  ///< farther down the slope at the end of the swing
  Length drop;   ///< the same, vertically
  Speed speed;   ///< at the fall line
};

/// Returns how far a swing on a taut line brings the worker down the slope.
///
/// Source: plane trigonometry and energy balance.
/// Valid for a taut line, a plane slope that reaches that far, and no friction.
/// Errors: OutOfDomain.
/// Checked: tests/reference/swing.csv; the lowest point of the circle by numerical minimisation
/// (tests/engine/swing_test.cpp).
RoofSwing roof_swing(const RoofSwingCase& c);

const Calculation& roof_swing_calculation();

}  // namespace footroom::engine
