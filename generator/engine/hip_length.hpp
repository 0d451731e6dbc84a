#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A hip or valley rafter between two slopes of equal pitch that meet at a right angle.
struct HipLengthCase {
  Angle pitch;  ///< of both slopes; 0 to 80 degrees
  Length run;   ///< of the common rafter, horizontal; 0.1 m to 60 m
};

struct HipLength {
  Length rise;
  Length plan_run;  ///< of the hip or valley, horizontal: 16.97 in for 12 in of common run
  Length length;
  Angle angle;  ///< of the hip or valley to the horizontal
};

/// Returns the length of a hip or valley rafter along its line of measurement, without thickness or
/// overhang.
///
/// Source: plane trigonometry; the unit run of 16.97 in is that of the framing square (from
/// memory). Errors: OutOfDomain. Checked: framing-square values (tests/reference/lines.csv),
/// distance of two points in space.
HipLength hip_length(const HipLengthCase& c);

const Calculation& hip_length_calculation();

}  // namespace footroom::engine
