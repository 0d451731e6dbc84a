#pragma once
#include "engine/datum.hpp"

namespace footroom::engine {

/// The terms of a clearance, each named and counted once.
struct ClearanceCase {
  Datum datum;
  Length free_fall;                              ///< of the D-ring; 0 to 30 m
  Length arrester_lock = 0.0 * si::metre;        ///< until the arrester locks; 0 to 5 m
  Length deceleration;                           ///< 0 to 5 m
  Length line_stretch = 0.0 * si::metre;         ///< 0 to 20 m
  Length harness_stretch = 0.0 * si::metre;      ///< with the shift of the D-ring; 0 to 1 m
  Length body_below;                             ///< D-ring to feet; 0 to 2.5 m
  Length safety_margin = 0.0 * si::metre;        ///< 0 to 10 m
  Length anchor_above_d_ring = 0.0 * si::metre;  ///< signed, datum below_anchor; -15 to 15 m
  Length d_ring_height = 0.0 * si::metre;  ///< datum below_standing_surface; 0, or 0.5 m to 2 m
};

struct ClearanceNeeded {
  Length fall_distance;  ///< of the D-ring, from onset to standstill
  Length needed;         ///< below the datum
};

/// Returns the clearance that a fall needs, below a datum.
///
/// Source: the terms are those of the OSHA Technical Manual, section V chapter 4 (second hand) and
/// of the Roofing Contractors Association of Washington (second hand). Their sum is a depth below
/// the D-ring at the onset of the fall; the other data differ by where the D-ring was.
/// Valid for a straight vertical fall; add any swing to the free fall.
/// Errors: OutOfDomain, naming `d-ring-height` also where it is left out and the datum needs it.
/// Checked: four published examples in tests/reference/clearance.csv; the terms add up, data
/// change and compose in tests/engine/clearance_test.cpp.
ClearanceNeeded clearance(const ClearanceCase& c);

const Calculation& clearance_calculation();

}  // namespace footroom::engine
