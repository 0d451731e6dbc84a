#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A line from an anchor on the ridge, straight to a point of the eave.
struct AnchorReachCase {
  Length slope_length;                           ///< ridge to eave; 0.3 m to 60 m
  Length eave_length;                            ///< to be covered; 0.1 m to 200 m
  Length line_length;                            ///< anchor to the worker's edge; up to 100 m
  Angle greatest_angle = M_PI / 6 * si::radian;  ///< from straight down the slope; 5 to 60 deg
};

enum class ReachLimit { angle, line };

struct AnchorReach {
  Length by_angle;  ///< along the eave, to one side
  Length by_line;
  Length reach;  ///< the smaller of both
  Length width;  ///< covered by one anchor, both sides
  ReachLimit limited_by;
  Ratio share;  ///< eave length over that width
  int anchors;  ///< to cover the eave
};

/// Returns how far along the eave one anchor reaches, and how many cover the eave.
///
/// Source: plane trigonometry in the roof's plane. 30 degrees from the anchor is common practice,
/// no single source; 15 and 45 are published too.
/// Valid for equal slopes with the ridge parallel to the eave.
/// Errors: OutOfDomain; Refusal naming `line-length` (does not reach past the eave's nearest point)
/// or `eave-length` (more than 1,000 anchors).
/// Checked: tests/engine/anchor_reach_test.cpp.
AnchorReach anchor_reach(const AnchorReachCase& c);

const Calculation& anchor_reach_calculation();

}  // namespace footroom::engine
