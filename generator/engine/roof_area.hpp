#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// One rectangular side of a roof.
struct RoofAreaCase {
  Angle pitch;         ///< roof angle; 0 to 80 degrees
  Length eave_length;  ///< along the eave; 0.1 m to 200 m
  Length run;          ///< horizontal, ridge to eave; 0.3 m to 60 m
};

struct RoofArea {
  Ratio slope_factor;
  Area plan_area;   ///< as seen from above
  Area slope_area;  ///< as walked on
};

/// Returns the area of one side of a roof, seen from above and along the slope.
///
/// Source: plane trigonometry. Valid for a rectangular side without valleys, hips or openings.
/// Errors: OutOfDomain.
/// Checked: tests/reference/roof.csv, tests/engine/roof_test.cpp.
RoofArea roof_area(const RoofAreaCase& c);

const Calculation& roof_area_calculation();

}  // namespace footroom::engine
