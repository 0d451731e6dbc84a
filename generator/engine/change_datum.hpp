#pragma once
#include "engine/datum.hpp"

namespace footroom::engine {

struct ChangeDatumCase {
  Length clearance;  ///< below `from`; -20 m to 1000 m
  Datum from;
  Datum to;
  Length d_ring_height;        ///< over the surface stood on; 0.5 m to 2 m
  Length anchor_above_d_ring;  ///< negative: below; -60 m to 60 m
};

struct ChangedDatum {
  Length below_d_ring;
  Length changed;  ///< below `to`
};

/// Returns the depth of the same level below another datum.
///
/// Source: subtraction of heights. The D-ring is where it is standing, before the fall.
/// Errors: OutOfDomain.
/// Checked: round trips and compositions (tests/engine/clearance_test.cpp).
ChangedDatum change_datum(const ChangeDatumCase& c);

const Calculation& change_datum_calculation();

}  // namespace footroom::engine
