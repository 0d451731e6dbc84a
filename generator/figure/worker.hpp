#pragma once
// The worker: a pictogram of capsules with a helmet, harness straps and the dorsal D-ring. Its
// origin is the D-ring; its measure is the height of the D-ring over the feet, so that feet and
// D-ring are to scale.

#include "figure/sketch.hpp"

namespace footroom::figure {

enum class Pose {
  standing,  ///< from the side
  hanging,   ///< from the side, under a line at the D-ring
  lying,     ///< from the side, on the back, feet ahead; the D-ring touches the surface
  from_behind,
  hanging_from_behind,
  from_above,  ///< looking ahead is down the page
};
enum class Look { solid, light };

struct Worker {
  Pose pose = Pose::standing;
  Look look = Look::solid;
  bool faces_left = false;
  double turn = 0;  ///< radians, clockwise
};

/// Draws the body with the D-ring at `d_ring`; `height` is that of the D-ring, in mm.
void draw_worker(Sketch& sketch, Point d_ring, double height, const Worker& worker);
/// The ring at the end of a line; drawn after the rope, so that it lies on top.
void draw_ring(Sketch& sketch, Point p);

}  // namespace footroom::figure
