#pragma once
#include "engine/nail.hpp"

namespace footroom::engine {

/// Nails of a bracket that missed the rafter and hold in the sheathing only.
struct MissedRafterCase {
  Ratio sheathing_specific_gravity = 0.42;  ///< 0.31 to 0.73
  Length sheathing_thickness;               ///< 3 mm to 0.1 m
  Ratio specific_gravity;                   ///< of the rafter; 0.31 to 0.73
  Length nail_diameter;                     ///< 0.099 in to 0.236 in
  Length penetration;                       ///< into the rafter, had it been hit; 1 mm to 0.3 m
  int nails = 1;                            ///< 1 to 200
};

struct MissedRafter {
  Force in_sheathing;  ///< reference design value of the nails in the sheathing
  Force in_rafter;     ///< the same in the rafter
  Ratio share;         ///< of the rafter's that the sheathing gives
};

/// Returns what is left of the withdrawal design value when the nails miss the rafter.
///
/// Source: NDS 2018 equation 12.2-3 (second hand), with the sheathing's thickness as penetration.
/// A nail point through the far side holds no better, so this is an upper bound for panels.
/// Errors: OutOfDomain.
/// Checked: against nail-withdrawal (tests/engine/nail_test.cpp).
MissedRafter missed_rafter(const MissedRafterCase& c);

const Calculation& missed_rafter_calculation();

}  // namespace footroom::engine
