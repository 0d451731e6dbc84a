#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A line that bends around an edge, with a force on one side.
struct CapstanCase {
  Force force;       ///< on the one side; 0 to 1 MN
  Ratio friction;    ///< of the line on the edge; 0 to 2
  Angle edge_angle;  ///< the line turns by it; 0 to 180 degrees
};

struct Capstan {
  Ratio factor;
  Force least;     ///< on the other side, that still holds the force
  Force greatest;  ///< on the other side, before the line slides towards it
};

/// Returns between which forces on the other side a line stays put on an edge.
///
/// Source: capstan formula, exp(mu beta) (L. Euler, 1769; from memory). There is no authoritative
/// friction of a rope on a roof's edge: give it in the question.
/// Errors: OutOfDomain.
/// Checked: halving the angle twice, tests/engine/lines_test.cpp.
Capstan capstan(const CapstanCase& c);

const Calculation& capstan_calculation();

}  // namespace footroom::engine
