#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A portable ladder that leans against the edge of a landing.
struct LadderCase {
  Length working_length;  ///< along the rails, foot to top support; 1 m to 25 m
  Ratio foot_ratio;       ///< foot from the wall over working length; 0.05 to 0.7
  Length above_landing;   ///< rails above the landing, vertically; 0 to 3 m
};

struct Ladder {
  Length foot_distance;  ///< horizontal, from the foot to below the top support
  Angle angle;           ///< of the rails with the ground
  Length support_height;
  Length rail_length;  ///< rails that reach so far above the landing
};

/// Length along the rails for each unit of height: 1/sqrt(1 - q^2).
Ratio rails_over_height(Ratio foot_ratio);

/// Returns where the foot of a ladder belongs and how long its rails must be.
///
/// Source: 29 CFR 1926.1053(b)(5)(i) (read): the foot at a quarter of the working length, which is
/// the distance along the ladder between foot and top support; (b)(1) (second hand): rails 3 ft
/// above the landing. Both limits come from the rule set. The rest is plane trigonometry.
/// Valid on level ground, with the landing at the top support.
/// Errors: OutOfDomain.
/// Checked: tests/reference/ladder.csv; ladder_for_landing() is the inverse
/// (tests/engine/ladder_test.cpp).
Ladder ladder(const LadderCase& c);

const Calculation& ladder_calculation();

// ---- In common with ladder_for_landing() -------------------------------------------------------

template <class Case>
Field<Case> foot_ratio_input(Ratio Case::*field) {
  return limit_input("foot-ratio", "q",
                     {"foot from the wall, part of the working length",
                      "distancia del pie a la pared, parte del largo de trabajo"},
                     field, {0.05, 0.7}, {"", 2, "", 2}, "ladder-foot");
}

template <class Case>
Field<Case> above_landing_input(Length Case::*field) {
  return limit_input(
      "above-landing", "u",
      {"rails above the landing, vertically", "largueros sobre el descanso, en vertical"}, field,
      {0, 3}, {"ft", 1, "m", 2}, "ladder-above-landing");
}

/// A quarter along the rails is 75.5 degrees; the two ways to measure differ.
inline constexpr Text ladder_caution{
    "The quarter is of the length along the rails (75.5 degrees), not of the height (76.0 "
    "degrees).",
    "El cuarto es del largo por los largueros (75.5 grados), no de la altura (76.0 grados)."};

}  // namespace footroom::engine
