#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

struct ArrestForceCase {
  Force weight;              ///< with tools; 100 N to 5,000 N
  Length free_fall;          ///< 0 to 30 m
  Length stopping_distance;  ///< from taut to standstill; 0.01 m to 15 m
};

struct ArrestForce {
  Force average_force;
};

/// Returns the average force that stops a fall within a distance.
///
/// Source: energy balance W (FF + S) = F S. The peak is higher, except for a constant force.
/// Errors: OutOfDomain.
/// Checked: tests/reference/physics.csv; the inverse of absorber() (tests/engine/arrest_test.cpp).
ArrestForce arrest_force(const ArrestForceCase& c);

const Calculation& arrest_force_calculation();

}  // namespace footroom::engine
