#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// Something or someone lies on the slope, at rest, and is let go.
struct RoofSlideCase {
  Angle pitch;      ///< roof angle; 0 to 80 degrees
  Ratio friction;   ///< coefficient of friction, one value for rest and motion; 0 to 2
  Length distance;  ///< along the slope to the eave; 0 (excluded) to 60 m
};

enum class Sliding { slides, stays };

struct RoofSlide {
  Sliding sliding;
  Acceleration acceleration;  ///< along the slope; 0 where it stays
  Speed speed;                ///< at the eave; 0 where it stays
  Time time;                  ///< to the eave; 0 where it stays
};

/// Returns whether a load slides down the roof, and how fast it is at the eave.
///
/// Source: Coulomb friction on an inclined plane (mechanics). The coefficient is an assumption of
/// whoever asks: no authoritative value for shoes on shingles was found.
/// Valid for a plane slope, a start at rest and one coefficient of friction.
/// Errors: OutOfDomain.
/// Checked: energy balance, stepped motion, and tan(theta) against the coefficient
/// (tests/engine/roof_test.cpp).
RoofSlide roof_slide(const RoofSlideCase& c);

const Calculation& roof_slide_calculation();

}  // namespace footroom::engine
