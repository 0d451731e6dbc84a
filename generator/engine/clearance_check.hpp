#pragma once
#include "engine/datum.hpp"

namespace footroom::engine {

/// Two clearances below one datum; which one it is, the caller knows.
struct ClearanceCheckCase {
  Length needed;     ///< -5 m to 200 m
  Length available;  ///< -5 m to 1000 m
};

enum class Verdict { enough, too_little };

struct ClearanceCheck {
  Length spare;  ///< negative: so much is missing
  Verdict verdict;
};

/// Returns what is spare; zero is enough.
///
/// Source: subtraction. Errors: OutOfDomain.
/// Checked: tests/engine/clearance_test.cpp.
ClearanceCheck clearance_check(const ClearanceCheckCase& c);

/// The same for two clearances whose types say that they are below one datum.
template <class Below>
ClearanceCheck clearance_check(Clearance<Below> needed, Clearance<Below> available) {
  return clearance_check(ClearanceCheckCase{needed.depth(), available.depth()});
}

const Calculation& clearance_check_calculation();

}  // namespace footroom::engine
