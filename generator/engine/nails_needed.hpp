#pragma once
#include "engine/nail.hpp"

namespace footroom::engine {

struct NailsNeededCase {
  Force load;               ///< 0 to 1 MN
  Force capacity_per_nail;  ///< adjusted design value along the load; at least 10 N, up to 1 MN
};

struct NailsNeeded {
  Ratio share;     ///< load over the design value of one nail
  int count;       ///< whole nails
  Force capacity;  ///< of that many
};

/// Returns how many nails a load needs by the handbook's design value of one.
///
/// Source: counting. The nails share the load evenly only if they are alike and well apart.
/// Errors: OutOfDomain.
/// Checked: one nail less does not hold, exact multiples (tests/engine/nail_test.cpp).
NailsNeeded nails_needed(const NailsNeededCase& c);

const Calculation& nails_needed_calculation();

}  // namespace footroom::engine
