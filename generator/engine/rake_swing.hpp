#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A worker stands at the rake (the sloping edge of the gable), falls over it, and swings along
/// it on a line from an anchor on the ridge.
struct RakeSwingCase {
  Angle pitch;                               ///< roof angle; 0 to 80 degrees
  Length slope_length;                       ///< ridge to eave along the rake; 0.3 m to 60 m
  Length anchor_from_rake;                   ///< along the ridge; 0 to 60 m
  Length down_slope;                         ///< of the worker, from the ridge; 0 to 60 m
  Length line;                               ///< anchor to D-ring; 0.3 m to 100 m
  Length d_ring_height = 1.524 * si::metre;  ///< over the feet; 5 ft; 0.5 m to 2 m
};

enum class RakeSwingEnd {
  below_rake,  ///< hangs below the rake, where the swing sets the most line free
  at_rake,     ///< the line is used up before: the D-ring lies at the rake
  below_eave,  ///< the line slips round the corner, and the swing goes on along the eave
};

struct RakeSwing {
  Length free_fall;      ///< of the D-ring until the line takes load, at the place of the fall
  Length rest_position;  ///< where the line bends over the edge, down the slope from the ridge
  Length below_edge;     ///< line that hangs below the edge at rest
  Length start_height;   ///< D-ring above the anchor, standing; negative: below
  Length rest_height;    ///< D-ring above the anchor, hanging at rest
  Length drop;           ///< of the D-ring, from standing to rest
  Length swing_drop;     ///< part of the drop that the swing adds to the free fall
  Speed speed;           ///< at the place of rest
  RakeSwingEnd end;
};

/// Returns where a fall over the rake comes to rest, and how far the D-ring goes down.
///
/// Source: derived here. The line bends over the rake at c down the slope; below hangs
/// T - hypot(x, c), so the D-ring is at height z(c) = -c sin(theta) - (T - hypot(x, c)) over the
/// anchor. dz/dc = 0 gives c/hypot(x, c) = sin(theta), c = x tan(theta); z is convex, so this is
/// the lowest place. A worker above it slides down the rake, one below it is drawn up.
/// If the line is used up before (hypot(x, c) > T), the D-ring stops at the rake where
/// hypot(x, c) = T. If c lies beyond the eave, the line slips round the corner and slides along
/// the eave to the anchor's fall line, where T - L hangs below.
/// Valid for an edge without friction, a vertical gable and a worker at rest in the end; a swing
/// under way goes beyond the place of rest.
/// Errors: OutOfDomain; Refusal naming `down-slope` (beyond the eave) or `line` (does not reach the
/// standing worker's D-ring, or does not let the worker over the rake: the fall ends on the roof).
/// Checked: numerical minimisation of z, limits (flat roof, anchor at the rake) in
/// tests/engine/swing_test.cpp.
RakeSwing rake_swing(const RakeSwingCase& c);

const Calculation& rake_swing_calculation();

}  // namespace footroom::engine
