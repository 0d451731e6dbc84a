#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A worker stands at the eave, straight below the anchor on the ridge, and falls over the edge.
struct EdgeFallCase {
  Length slope_length;   ///< anchor to eave edge, along the slope; 0.3 m to 60 m
  Angle pitch;           ///< roof angle; 0 to 80 degrees
  Length d_ring_height;  ///< dorsal D-ring over the feet, upright; 0.5 m to 2 m
  Length slack;          ///< line in hand beyond the taut line; 0 to 30 m
};

enum class EdgeFallEnd { below_edge, on_the_roof };

struct EdgeFall {
  Length taut_line;        ///< anchor to D-ring, straight
  Length line_out;         ///< line between anchor and D-ring
  Length below_edge;       ///< line that hangs below the eave; negative: too short to reach it
  Length free_fall;        ///< vertical travel of the D-ring until the line takes load
  Length stopped_upslope;  ///< how far upslope of the edge the fall ends; 0 if over the edge
  EdgeFallEnd end;
};

/// Returns the free fall of the D-ring when the worker goes straight down over the eave, or, where
/// the line is too short for that, the drop until it stops them on the roof.
///
/// Source: plane trigonometry; the meaning of free fall is that of 29 CFR 1926.500(b) (second
/// hand): vertical travel of the attachment point from onset to just before the system applies
/// force, without deceleration distance or stretch.
/// Valid for a line that runs straight over a square edge without friction, no swing (the worker
/// stands on the anchor's fall line), and an upright start.
/// Errors: OutOfDomain.
/// Checked: limits (flat roof: line L + slack from the edge), free fall grows one to one with
/// slack, a traced polyline of the line's length in tests/engine/edge_fall_test.cpp.
EdgeFall edge_fall(const EdgeFallCase& c);

const Calculation& edge_fall_calculation();

}  // namespace footroom::engine
