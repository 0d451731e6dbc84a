#pragma once
#include "engine/nail.hpp"

namespace footroom::engine {

/// A nail through a bracket and what lies under it, into a rafter.
struct NailPenetrationCase {
  Length nail_length;                            ///< without the head; 0.01 m to 0.3 m
  Length nail_diameter;                          ///< 0.099 in to 0.236 in
  Length bracket_thickness;                      ///< 0 to 0.1 m
  Length shingle_thickness = 0.0 * si::metre;    ///< 0 to 0.1 m
  Length sheathing_thickness = 0.0 * si::metre;  ///< 0 to 0.1 m
};

/// In diameters of the nail: under 6, from 6 to 10, 10 and more.
enum class PenetrationState { too_short, reduced, full };

struct NailPenetration {
  Length penetration;  ///< into the rafter; 0 where the nail does not reach it
  Ratio diameters;     ///< penetration over the nail's diameter
  PenetrationState state;
};

/// Returns how far a nail goes into the rafter, and what that means for lateral load.
///
/// Source: lengths add up; the bounds are those of NDS 2018, 12.1.6 and table 12N (second hand).
/// Errors: OutOfDomain.
/// Checked: tests/engine/nail_test.cpp.
NailPenetration nail_penetration(const NailPenetrationCase& c);

const Calculation& nail_penetration_calculation();

}  // namespace footroom::engine
