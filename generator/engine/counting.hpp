#pragma once
#include <cmath>

namespace footroom::engine {

/// `ratio`, or the whole number that it misses by rounding errors only (relative 1e-9): 600 lbf
/// over 100 lbf are 6 pieces, never 7.
inline double whole_if_near(double ratio) {
  const double whole = std::round(ratio);
  return std::abs(ratio - whole) <= 1e-9 * std::abs(whole) ? whole : ratio;
}

/// `ratio` rounded down or up to a whole number, where it misses one by rounding errors only to
/// that one; like floor and ceil of the formulas.
inline int whole_below(double ratio) {
  return static_cast<int>(std::floor(ratio + 1e-9));
}
inline int whole_above(double ratio) {
  return static_cast<int>(std::ceil(ratio - 1e-9));
}

}  // namespace footroom::engine
