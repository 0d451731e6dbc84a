#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A worker falls over the eave away from the anchor's fall line and swings along the eave to it.
struct EaveSwingCase {
  Length slope_length;  ///< anchor to eave, straight down the slope; 0.3 m to 60 m
  Length offset;        ///< along the eave from the anchor's fall line; 0 to 60 m
};

struct EaveSwing {
  Length diagonal;    ///< anchor to the place of the fall at the eave
  Length extra_line;  ///< line that the swing sets free: the D-ring comes down by as much
  Speed speed;        ///< at the fall line
  Angle angle;        ///< of the diagonal from the fall line
};

/// Returns how much farther a fall at an offset goes down once the line has slid along the eave.
///
/// Source: plane trigonometry and energy balance.
/// Valid for a straight, level, frictionless eave and a line long enough to hang below it at the
/// offset. The pitch does not matter: both lengths lie in the roof's plane.
/// Errors: OutOfDomain.
/// Checked: the lowest place of the D-ring along the eave, by numerical minimisation
/// (tests/engine/swing_test.cpp).
EaveSwing eave_swing(const EaveSwingCase& c);

const Calculation& eave_swing_calculation();

}  // namespace footroom::engine
