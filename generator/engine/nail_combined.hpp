#pragma once
#include "engine/nail.hpp"

namespace footroom::engine {

/// A nail pulled at an angle: partly out of the wood, partly across its shank.
struct NailCombinedCase {
  Force withdrawal_capacity;  ///< adjusted, straight out; more than 0, up to 1 MN
  Force lateral_capacity;     ///< adjusted, across the shank; more than 0, up to 1 MN
  Angle load_angle;           ///< between the load and the wood's surface; 0 to 90 degrees
};

struct NailCombined {
  Force capacity;  ///< along the load
};

/// Returns the design value of nails under a load at an angle to the wood's surface.
///
/// Source: NDS 2018, 12.4.2, linear interaction for nails (second hand and from memory). It never
/// exceeds the interaction with squares that screws and lag screws have, so it is the safe form.
/// Errors: OutOfDomain.
/// Checked: 0 and 90 degrees, the interaction's sum of shares is 1
/// (tests/engine/nail_test.cpp).
NailCombined nail_combined(const NailCombinedCase& c);

const Calculation& nail_combined_calculation();

}  // namespace footroom::engine
