#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A worker falls to the side of an anchor overhead, on a line that was nearly taut.
struct OverheadSwingCase {
  Length anchor_height;  ///< anchor above the D-ring; 0 (excluded) to 30 m
  Length offset;         ///< horizontal, from below the anchor; 0 to 30 m
};

struct OverheadSwing {
  Length line;             ///< anchor to D-ring, taut
  Length extra_clearance;  ///< how much lower the D-ring hangs below the anchor than it started
  Speed speed;             ///< below the anchor
  Angle angle;             ///< of the line from the plumb line
};

/// Returns what a swing below an overhead anchor adds to the clearance.
///
/// Source: plane trigonometry and energy balance.
/// Valid for a taut line that does not touch anything, without friction.
/// Errors: OutOfDomain.
/// Checked: the pendulum's motion stepped in time (tests/engine/swing_test.cpp).
OverheadSwing overhead_swing(const OverheadSwingCase& c);

const Calculation& overhead_swing_calculation();

}  // namespace footroom::engine
