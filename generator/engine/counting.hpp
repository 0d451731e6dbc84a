#pragma once
#include <cmath>

namespace footroom::engine {

/// `ratio`, or the whole number that it misses by rounding errors only (relative 1e-9): 600 lbf
/// over 100 lbf are 6 pieces, never 7.
inline double whole_if_near(double ratio) {
  const double whole = std::round(ratio);
  return std::abs(ratio - whole) <= 1e-9 * std::abs(whole) ? whole : ratio;
}

}  // namespace footroom::engine
