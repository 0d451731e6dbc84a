#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A line that keeps the worker from reaching any edge.
struct TravelRestraintCase {
  Length to_eave;                       ///< anchor to eave, along the slope; 0.3 m to 60 m
  Length to_rake = 100.0 * si::metre;   ///< anchor to the nearest rake; 0.3 m to 100 m
  Length margin;                        ///< kept from every edge, body included; 0 to 10 m
  Length connectors = 0.0 * si::metre;  ///< lanyard and D-ring extension; 0 to 5 m
};

enum class Restraint { possible, impossible };

struct TravelRestraint {
  Length nearest_edge;
  Length longest_line;  ///< between anchor and connectors; negative: even none is too long
  Restraint restraint;
};

/// Returns the longest line that still holds the worker back from the nearest edge, with the D-ring
/// down at the roof, where it reaches farthest.
///
/// Source: plane geometry. What margin the body needs has no single source: give it in the
/// question. Valid while the line stays taut from the anchor, without stretch. Errors: OutOfDomain.
/// Checked: tests/engine/lines_test.cpp.
TravelRestraint travel_restraint_length(const TravelRestraintCase& c);

const Calculation& travel_restraint_length_calculation();

}  // namespace footroom::engine
