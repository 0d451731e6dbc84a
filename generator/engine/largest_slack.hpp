#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// As EdgeFallCase, with a limit of the free fall in place of the slack.
struct LargestSlackCase {
  Length slope_length;     ///< anchor to eave edge, along the slope; 0.3 m to 60 m
  Angle pitch;             ///< roof angle; 0 to 80 degrees
  Length d_ring_height;    ///< dorsal D-ring over the feet, upright; 0.5 m to 2 m
  Length free_fall_limit;  ///< 0 to 30 m
};

struct LargestSlack {
  Length taut_line;            ///< anchor to D-ring, straight
  Length below_edge;           ///< line below the eave at the limit; negative: ends on the roof
  Length slack_for_free_fall;  ///< negative: even a taut line falls farther than the limit
};

/// Returns the most slack with which a fall over the eave stays within a free-fall limit: the
/// inverse of edge_fall().
///
/// Source: plane trigonometry, see edge_fall(). Validity as there.
/// Errors: OutOfDomain; Refusal naming `free-fall-limit` where no line on this roof keeps it (the
/// fall would have to end upslope of the anchor).
/// Checked: edge_fall() with the slack found gives the limit (tests/engine/edge_fall_test.cpp).
LargestSlack largest_slack(const LargestSlackCase& c);

const Calculation& largest_slack_calculation();

}  // namespace footroom::engine
