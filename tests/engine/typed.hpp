#pragma once
// Typed quantities from plain numbers, for tests.

#include "engine/quantity.hpp"

namespace footroom::engine {

inline Length metres(double number) {
  return number * si::metre;
}
inline Length feet(double number) {
  return number * 0.3048 * si::metre;
}
inline Angle radians(double number) {
  return number * si::radian;
}
inline Angle degrees(double number) {
  return number * M_PI / 180 * si::radian;
}
inline Force newtons(double number) {
  return number * si::newton;
}
inline Stiffness newtons_per_metre(double number) {
  return number * si::newton / si::metre;
}

inline const double gravity = standard_gravity.value();

}  // namespace footroom::engine
