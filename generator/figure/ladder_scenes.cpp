// A ladder against a landing, from the side.

#include <algorithm>
#include <cmath>

#include "figure/building.hpp"
#include "figure/scenes.hpp"
#include "figure/words.hpp"
#include "figure/worker.hpp"

namespace footroom::figure {
namespace {

// All in metres.
struct LadderScene {
  double working;  ///< along the rails, foot to support
  double foot;     ///< foot to the wall, horizontal
  double support;  ///< height of the landing's edge
  double above;    ///< rails over the landing, vertical
};

void draw_leaning_ladder(Sketch& sketch, const LadderScene& scene) {
  const double along = scene.working + scene.above * scene.working / scene.support;
  const Point foot = sketch.at(-scene.foot, 0);
  const Point edge = sketch.at(0, scene.support);
  const Point wall_foot = sketch.at(0, 0);
  const Point top = between(foot, edge, along / scene.working);
  sketch.mark("foot", foot);
  sketch.mark("support", edge);
  sketch.mark("wall", wall_foot);
  sketch.mark("top", top);

  // The building: wall and landing, cut.
  const double deep = std::max(1.2, sketch.metres(14));
  const Point far = sketch.at(deep, scene.support);
  const double slab = std::max(sketch.mm(0.2), 1.8);
  const double thick = std::max(sketch.mm(0.2), 1.8);
  sketch.area({edge, far, far + Point{0, slab}, edge + Point{thick, slab},
               wall_foot + Point{thick, 0}, wall_foot},
              Fill::light, Pen::edge);
  sketch.line({wall_foot, edge, far}, Pen::outline);
  draw_break(sketch, far, far + Point{0, slab});
  draw_ground(sketch, foot.x - 9, wall_foot.x + sketch.mm(deep), foot.y);
  sketch.word(between(edge, far, 0.6), words::landing);

  // Rails seen as one, rungs as dots between two lines.
  const Point n = left_of(foot, top);
  const double half = std::max(sketch.mm(0.035), 0.45);
  sketch.area({foot + n * half, top + n * half, top - n * half, foot - n * half}, Fill::paper,
              Pen::edge);
  const double rung = std::max(0.3, sketch.metres(1.6));
  for (double s = rung; s < along - 0.1 - hair; s += rung)
    sketch.disc(between(foot, top, s / along), std::min(half * 0.45, 0.35), Pen::none, Fill::dark);

  sketch.dimension(foot, wall_foot, -6.5, "foot-distance");
  sketch.dimension(foot, edge, 4, "working-length");
  sketch.dimension(foot, top, 11, "rail-length");
  const double right = std::max(sketch.mm(deep) * 0.35, 8.0);
  if (sketch.labels("support-height") || sketch.labels("landing-height")) {
    const Point low{wall_foot.x + right, wall_foot.y};
    sketch.dimension({low.x, edge.y}, low, 0,
                     sketch.labels("landing-height") ? "landing-height" : "support-height");
  }
  if (sketch.labels("above-landing")) {
    const double x = std::max(top.x, edge.x) + 5;
    sketch.line({top, {x + 1, top.y}}, Pen::extension);
    sketch.dimension({x, top.y}, {x, edge.y}, 0, "above-landing");
  }
  if (sketch.labels("angle")) {
    const double radius = std::clamp(sketch.mm(scene.foot) * 0.6, 5.0, 12.0);
    sketch.angle(foot, radius, 0, std::atan2(scene.support, scene.foot), "angle");
  }
  sketch.note("foot-ratio");
}

}  // namespace

void draw_ladder(Sketch& sketch) {
  const double working = sketch.given("working-length");
  const double foot = working * sketch.given("foot-ratio");
  const double support = std::sqrt(std::max(working * working - foot * foot, 0.0));
  draw_leaning_ladder(sketch, {working, foot, support, sketch.given("above-landing")});
}

void draw_ladder_for_landing(Sketch& sketch) {
  const double support = sketch.given("landing-height");
  const double ratio = sketch.given("foot-ratio");
  const double working = support / std::sqrt(1 - ratio * ratio);
  draw_leaning_ladder(sketch, {working, working * ratio, support, sketch.given("above-landing")});
}

}  // namespace footroom::figure
