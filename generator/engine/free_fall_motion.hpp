#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

struct FreeFallMotionCase {
  Length drop;  ///< 0 to 100 m
};

struct FreeFallMotion {
  Time time;
  Speed speed;  ///< at the end of the drop
};

/// Returns how long a free fall takes and how fast it is at its end.
///
/// Source: uniform acceleration at standard gravity. Valid from rest, without air resistance.
/// Errors: OutOfDomain.
/// Checked: tests/reference/physics.csv (a table made with g = 32 ft/s2); stepped motion in
/// tests/engine/free_fall_test.cpp.
FreeFallMotion free_fall_motion(const FreeFallMotionCase& c);

const Calculation& free_fall_motion_calculation();

}  // namespace footroom::engine
