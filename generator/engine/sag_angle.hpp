#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A line between two level anchors, pulled down at the middle.
struct SagAngleCase {
  Length span;  ///< between the anchors; 0.5 m to 100 m
  Length sag;   ///< at the middle, under load; more than 0, up to 50 m
};

struct SagAngle {
  Angle sag_angle;
  Length line_length;  ///< between the anchors, along the line
};

/// Returns the angle of a line that sags at the middle. Source: plane trigonometry. Errors:
/// OutOfDomain. Checked: tests/engine/lines_test.cpp.
SagAngle sag_angle(const SagAngleCase& c);

const Calculation& sag_angle_calculation();

}  // namespace footroom::engine
