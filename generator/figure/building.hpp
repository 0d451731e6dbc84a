#pragma once
// What stands around a worker: roofs, walls, ground, anchors, ropes, ladders.

#include <optional>

#include "figure/sketch.hpp"

namespace footroom::figure {

/// A roof in section, ridge to eave, falling to the right. The ridge is the origin.
struct RoofSection {
  double slope = 0;  ///< metres, ridge to eave edge
  double pitch = 0;  ///< radians
  /// Metres from the eave edge down to the ground; without it the wall is broken off.
  std::optional<double> to_ground = {};

  Point on_slope(const Sketch& sketch, double from_ridge) const;
  /// Inside the house, square off the slope.
  Point inwards() const { return turned(direction(pitch), M_PI / 2); }
  Point eave(const Sketch& sketch) const { return on_slope(sketch, slope); }
};
/// Draws roof and wall; `wall` is how far below the eave a broken wall is shown, in mm.
void draw_roof_section(Sketch& sketch, const RoofSection& roof, double wall_mm = 9);

/// The plate on the ridge with its eye at the origin.
void draw_ridge_anchor(Sketch& sketch, Point p, double pitch);
/// A small triangle like the slope, the middle of its slope at `beside`, with the tag of `id`.
void draw_pitch_sign(Sketch& sketch, Point beside, double pitch, std::string_view id);
void draw_ground(Sketch& sketch, double from_x_mm, double to_x_mm, double y_mm);
/// A wavy line across what is not drawn further.
void draw_break(Sketch& sketch, Point a, Point b);

/// A rope from `a` to `b`, longer than straight by `slack` mm, drooping; where it meets the surface
/// it lies on it, and what is still too long stands up in waves.
struct Surface {
  Point from;
  Point to;
};
std::vector<Point> loose_rope(Point a, Point b, double slack,
                              const std::optional<Surface>& surface = {});
double path_length(const std::vector<Point>& points);

}  // namespace footroom::figure
