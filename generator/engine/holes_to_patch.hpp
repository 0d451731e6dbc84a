#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

struct HolesToPatchCase {
  int anchors;           ///< brackets taken off; 0 to 1,000
  int nails_per_anchor;  ///< 1 to 100
  int missed_nails = 0;  ///< further nails driven and pulled; 0 to 10,000
};

struct HolesToPatch {
  int holes;
};

/// Returns how many nail holes to seal after the anchors come off.
/// Source: counting. Errors: OutOfDomain. Checked: tests/engine/nail_test.cpp.
HolesToPatch holes_to_patch(const HolesToPatchCase& c);

const Calculation& holes_to_patch_calculation();

}  // namespace footroom::engine
