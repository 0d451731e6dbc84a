#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

struct KnotStrengthCase {
  Force rope_strength;  ///< breaking strength without a knot; 0 to 1 MN
  Ratio knot_factor;    ///< part of it left with the knot; more than 0, up to 1
  Force needed;         ///< 0 to 1 MN
};

enum class StrengthVerdict { enough, too_little };

struct KnotStrength {
  Force strength;  ///< with the knot
  Force spare;     ///< negative: missing
  StrengthVerdict verdict;
};

/// Returns what strength a knot leaves in a rope, against the strength needed.
///
/// Source: the definition of the factor. No single source gives factors of knots for the ropes in
/// use: take the rope maker's.
/// Errors: OutOfDomain.
/// Checked: tests/engine/lines_test.cpp.
KnotStrength knot_strength(const KnotStrengthCase& c);

const Calculation& knot_strength_calculation();

}  // namespace footroom::engine
