#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

struct RoofCase {
  Angle pitch;      ///< roof angle; 0 to 80 degrees
  Length run;       ///< horizontal, ridge to eave; 0.3 m to 60 m
  Angle low_slope;  ///< steepest roof that still counts as low-slope; 0 to 80 degrees
};

enum class RoofKind { low_slope, steep };

struct Roof {
  Ratio unit_rise;  ///< rise in a run of 12
  Angle angle;
  Ratio slope_factor;    ///< length along the slope for each unit of run
  Length rafter_length;  ///< along the slope, ridge line to eave line
  Length ridge_height;   ///< ridge over the eave
  RoofKind kind;
};

/// The slope factor: length along the slope over horizontal run, the secant of the roof angle.
Ratio slope_factor(Ratio rise_over_run);

/// Returns what follows from pitch and run of an equal slope.
///
/// Source: plane trigonometry; low-slope is 4:12 or less, 29 CFR 1926.500(b) (second hand), the
/// limit itself comes from the rule set.
/// Valid for one plane slope. The rafter length is the theoretical one: no overhang, and no
/// deduction for the ridge board.
/// Errors: OutOfDomain.
/// Checked: rafter tables of NAVEDTRA 14044 and EN0069A (tests/reference/roof.csv); flat roof.
Roof roof(const RoofCase& c);

const Calculation& roof_calculation();

}  // namespace footroom::engine
