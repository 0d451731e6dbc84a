// A worker at the eave, straight below an anchor on the ridge.

#include <algorithm>
#include <cmath>

#include "figure/building.hpp"
#include "figure/scenes.hpp"
#include "figure/words.hpp"
#include "figure/worker.hpp"

namespace footroom::figure {
namespace {

struct EdgeScene {
  RoofSection roof;
  double d_ring_height;
  Point anchor;
  Point eave;
  Point start;  ///< of the D-ring
};

EdgeScene begin(Sketch& sketch, double wall_mm) {
  EdgeScene scene;
  scene.roof = {sketch.given("slope-length"), sketch.given("pitch"), {}};
  scene.d_ring_height = sketch.given("d-ring-height");
  scene.anchor = sketch.at(0, 0);
  scene.eave = scene.roof.eave(sketch);
  scene.start = scene.eave + sketch.at(0, scene.d_ring_height);
  sketch.mark("anchor", scene.anchor);
  sketch.mark("eave", scene.eave);
  sketch.mark("d-ring", scene.start);

  draw_roof_section(sketch, scene.roof, wall_mm);
  draw_ridge_anchor(sketch, scene.anchor, scene.roof.pitch);
  sketch.word(scene.anchor + Point{0, -1.5}, words::anchor);
  sketch.word(scene.eave + Point{0.8, 0.8}, words::eave);

  const double below =
      std::max(sketch.mm(0.15), 1.3) / std::max(std::cos(scene.roof.pitch), 0.34) + 4;
  sketch.dimension(scene.anchor, scene.eave, -below, "slope-length");
  const Point middle = scene.roof.on_slope(sketch, scene.roof.slope * 0.62);
  draw_pitch_sign(sketch, middle + scene.roof.inwards() * (below + 4.5), scene.roof.pitch, "pitch");
  return scene;
}

// The D-ring's height over the edge, ahead of the worker.
void add_height(Sketch& sketch, const EdgeScene& scene) {
  sketch.dimension(scene.start, scene.eave, std::max(sketch.mm(0.65), 5.0), "d-ring-height");
}

Surface surface_of(const EdgeScene& scene) {
  return {scene.anchor, scene.eave};
}

// The point so far before the end of a rope.
Point before_end(const std::vector<Point>& rope, double back) {
  for (std::size_t i = rope.size() - 1; i > 0; --i) {
    const double piece = distance(rope[i], rope[i - 1]);
    if (piece >= back - hair) return between(rope[i], rope[i - 1], back / piece);
    back -= piece;
  }
  return rope.front();
}

void add_slack_rope(Sketch& sketch, const EdgeScene& scene, double slack, std::string_view id) {
  const auto rope = loose_rope(scene.anchor, scene.start, sketch.mm(slack), surface_of(scene));
  sketch.line(rope, Pen::rope);
  sketch.tag(before_end(rope, sketch.mm(scene.d_ring_height) * 0.35), id);
}

// Where the taut line ran before the fall.
void add_before(Sketch& sketch, const EdgeScene& scene) {
  draw_worker(sketch, scene.start, sketch.mm(scene.d_ring_height),
              {Pose::standing, Look::light, false, 0});
  sketch.line({scene.anchor, scene.start}, Pen::rope_before);
  draw_ring(sketch, scene.start);
  sketch.tag_along(scene.anchor, scene.start, "taut-line");
}

// Down over the edge, or lying on the roof where the line is too short to get there. Where `below`
// the edge the D-ring ends, in metres; negative: upslope.
Point add_end(Sketch& sketch, const EdgeScene& scene, double below) {
  const double height = sketch.mm(scene.d_ring_height);
  if (below > 0) {
    const Point end = scene.eave + sketch.at(0, -below);
    draw_worker(sketch, end, height, {Pose::hanging, Look::solid, false, 0});
    sketch.line({scene.anchor, scene.eave, end}, Pen::rope);
    draw_ring(sketch, end);
    return end;
  }
  const Point end = scene.roof.on_slope(sketch, scene.roof.slope + below);
  draw_worker(sketch, end, height, {Pose::lying, Look::solid, false, scene.roof.pitch});
  sketch.line({scene.anchor, end}, Pen::rope);
  draw_ring(sketch, end);
  return end;
}

// From the level at which the D-ring started down to where it ends, ahead of the worker.
void add_fall(Sketch& sketch, const EdgeScene& scene, Point end, std::string_view id) {
  const double x = std::max(scene.eave.x, end.x) + std::max(sketch.mm(0.65), 5.0) + 15;
  sketch.line({scene.start + Point{1.5, 0}, {x + 1, scene.start.y}}, Pen::extension);
  sketch.line({end + Point{1.5, 0}, {x + 1, end.y}}, Pen::extension);
  sketch.dimension({x, scene.start.y}, {x, end.y}, 0, id);
}

constexpr double wall_on_sheet = 12;  // mm: the same, however far the fall goes

}  // namespace

void draw_edge_fall(Sketch& sketch) {
  if (!sketch.is_key()) {
    const EdgeScene scene = begin(sketch, wall_on_sheet);
    draw_worker(sketch, scene.start, sketch.mm(scene.d_ring_height), {});
    add_slack_rope(sketch, scene, sketch.given("slack"), "slack");
    draw_ring(sketch, scene.start);
    add_height(sketch, scene);
    for (const std::string_view outcome :
         {"free-fall", "below-edge", "stopped-upslope", "taut-line", "line-out"})
      if (sketch.labels(outcome)) {
        if (outcome == "free-fall")
          sketch.open_fall({scene.start.x + std::max(sketch.mm(0.65), 5.0) + 15, scene.start.y},
                           outcome);
        else if (outcome == "below-edge")
          sketch.open_fall(scene.eave + Point{2.5, 0}, outcome);
        else
          sketch.note(outcome);
      }
    sketch.note("end");
    return;
  }
  const double below = sketch.result("below-edge");
  const double shown = std::max(below, 0.0) + sketch.given("d-ring-height") * 0.6;
  const EdgeScene scene = begin(sketch, std::max(wall_on_sheet, sketch.mm(shown)));
  add_before(sketch, scene);
  const Point end = add_end(sketch, scene, below);
  sketch.mark("end", end);
  add_height(sketch, scene);
  if (below > 0)
    sketch.dimension(scene.eave, end, std::max(sketch.mm(0.65), 5.0), "below-edge");
  else
    sketch.dimension(end, scene.eave, sketch.mm(scene.d_ring_height) * 0.35, "stopped-upslope");
  add_fall(sketch, scene, end, "free-fall");
  sketch.tag_along(scene.anchor,
                   scene.roof.on_slope(sketch, scene.roof.slope + std::min(below, 0.0)),
                   "line-out");
  sketch.note("slack");
  sketch.note("end");
}

void draw_largest_slack(Sketch& sketch) {
  const double limit = sketch.given("free-fall-limit");
  const double h = sketch.given("d-ring-height");
  if (!sketch.is_key()) {
    const EdgeScene scene = begin(sketch, std::max(wall_on_sheet, sketch.mm(limit - h) + 4));
    draw_worker(sketch, scene.start, sketch.mm(h), {});
    // Some slack, whatever is asked: a tenth of the taut line.
    const double some = distance(scene.anchor, scene.start) / sketch.mm(1) * 0.1;
    add_slack_rope(sketch, scene, some, "slack-for-free-fall");
    draw_ring(sketch, scene.start);
    add_height(sketch, scene);
    add_fall(sketch, scene, {scene.start.x, scene.start.y + sketch.mm(limit)}, "free-fall-limit");
    sketch.note("taut-line");
    return;
  }
  const double slack = sketch.result("slack-for-free-fall");
  // Where the line is as long as that; a slack below zero means even the taut line is too long.
  const double line_out = sketch.result("taut-line") + std::max(slack, 0.0);
  const double below = line_out - sketch.given("slope-length");
  const EdgeScene scene = begin(
      sketch, std::max({wall_on_sheet, sketch.mm(below + h * 0.6), sketch.mm(limit - h) + 4}));
  add_before(sketch, scene);
  const Point end = add_end(sketch, scene, below);
  sketch.mark("end", end);
  add_height(sketch, scene);
  add_fall(sketch, scene, {scene.start.x, scene.start.y + sketch.mm(limit)}, "free-fall-limit");
  sketch.note("slack-for-free-fall");
}

}  // namespace footroom::figure
