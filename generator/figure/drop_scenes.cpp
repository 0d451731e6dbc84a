// Straight falls beside a wall, the start at the left and, on a key, the end at the right.

#include <algorithm>
#include <cmath>

#include "figure/building.hpp"
#include "figure/scenes.hpp"
#include "figure/words.hpp"
#include "figure/worker.hpp"

namespace footroom::figure {
namespace {

constexpr double person = 1.5;  // D-ring height of the drawn person, metres

/// A piece of the fall, labelled with the tag of `id`.
struct Fall {
  double metres;
  std::string_view id;
};

struct DropScene {
  double anchor_above;  ///< over the D-ring at the start, metres; negative: below
  double line;          ///< length, metres; 0: no line
  std::string_view line_id = {};
  bool absorber = false;
  double torn = 0;                           ///< metres of absorber torn out at the end
  std::vector<Fall> told = {};               ///< on a sheet: pieces whose length is an input
  std::vector<Fall> outcome = {};            ///< on a key: all pieces down to the end
  std::vector<std::string_view> asked = {};  ///< on a sheet: open arrows
};

constexpr double wall_to_ring = 0.42;  // metres

// The pack on the line next to the D-ring: closed, or torn out over `torn` mm.
// Returns the middle of the pack.
Point draw_line_with_absorber(Sketch& sketch, std::vector<Point> rope, double torn) {
  const Point ring = rope.back();
  const double pack = std::max(sketch.mm(0.2), 2.2);
  const double wanted = std::max(torn, 0.0) + pack;
  // Shorten the rope by what the absorber takes.
  double left = std::min(wanted, path_length(rope) * 0.9);
  while (rope.size() > 1) {
    const double last = distance(rope[rope.size() - 2], rope.back());
    if (last > left + hair) break;
    left -= last;
    rope.pop_back();
  }
  if (rope.size() > 1)
    rope.back() = between(rope.back(), rope[rope.size() - 2],
                          left / distance(rope[rope.size() - 2], rope.back()));
  sketch.line(rope, Pen::rope);
  const Point top = rope.back();
  const double whole = distance(top, ring);
  const Point along = unit(ring - top);
  const Point aside = turned(along, M_PI / 2);
  const double share = whole > 0 ? std::min(1.0, pack / whole) : 1.0;
  const Point packed = between(ring, top, share);
  const double half = std::clamp(sketch.mm(0.055), 0.6, 1.3);
  const bool is_torn = torn > 0.2 + hair;
  if (is_torn) {  // torn webbing: a close zigzag
    const int teeth =
        std::max(2, static_cast<int>(std::lround(distance(top, packed) / 1.4 + hair)));
    std::vector<Point> zigzag{top};
    for (int i = 0; i < teeth; ++i) {
      const Point p = between(top, packed, (i + 0.5) / teeth);
      zigzag.push_back(p + aside * (i % 2 ? half : -half));
    }
    zigzag.push_back(packed);
    sketch.line(std::move(zigzag), Pen::edge);
  }
  sketch.area(
      {packed + aside * half, ring + aside * half, ring - aside * half, packed - aside * half},
      is_torn ? Fill::light : Fill::timber, Pen::edge);
  return between(packed, ring, 0.5);
}

void draw_wall(Sketch& sketch, double x, double top, double bottom) {
  const double thick = std::max(sketch.mm(0.16), 1.6);
  const Point a = sketch.at(x, top);
  const Point b = sketch.at(x, bottom);
  sketch.area({a, b, b - Point{thick, 0}, a - Point{thick, 0}}, Fill::light);
  sketch.line({a, b}, Pen::outline);
  sketch.line({a - Point{thick, 0}, b - Point{thick, 0}}, Pen::thin);
  draw_break(sketch, a - Point{thick, 0}, a);
  draw_break(sketch, b - Point{thick, 0}, b);
}

void draw_wall_anchor(Sketch& sketch, Point p) {
  const double high = std::clamp(sketch.mm(0.12), 1.2, 2.4);
  sketch.area(
      {p + Point{0, -high}, p + Point{0.9, -high}, p + Point{0.9, high}, p + Point{0, high}},
      Fill::dark);
  draw_ring(sketch, p + Point{1.4, 0});
}

void draw_drop(Sketch& sketch, const DropScene& scene) {
  const auto& falls = sketch.is_key() ? scene.outcome : scene.told;
  double fallen = 0;
  for (const Fall& fall : falls) fallen += fall.metres;
  const double top = std::max(scene.anchor_above, 0.3 * person) + sketch.metres(4);
  const double ledge = -person;
  const double lowest = std::min({ledge, scene.anchor_above, -fallen});
  const double ring_x = std::max(wall_to_ring, sketch.metres(3.2));
  const double height = sketch.mm(person);

  // Start.
  const double start_foot = sketch.is_key() ? ledge : lowest;
  draw_wall(sketch, 0, top, start_foot - sketch.metres(5));
  const Point anchor = sketch.at(0, scene.anchor_above) + Point{1.4, 0};
  const Point start = sketch.at(ring_x, 0);
  const double ledge_end = ring_x + 0.3 * person;
  const double deep = std::max(sketch.mm(0.08), 1.0);
  const Point ledge_left = sketch.at(0, ledge);
  const Point ledge_right = sketch.at(ledge_end, ledge);
  sketch.area({ledge_left, ledge_right, ledge_right + Point{0, deep}, ledge_left + Point{0, deep}},
              Fill::timber, Pen::edge);
  sketch.line({ledge_left, ledge_right}, Pen::outline);
  sketch.mark("anchor", sketch.at(0, scene.anchor_above));
  sketch.mark("d-ring", start);
  draw_worker(sketch, start, height,
              {Pose::standing, sketch.is_key() ? Look::light : Look::solid, false, 0});
  if (scene.line > 0) draw_wall_anchor(sketch, sketch.at(0, scene.anchor_above));
  const bool tied = scene.line > 0;
  const auto rope = loose_rope(anchor, start, sketch.mm(scene.line) - distance(anchor, start));
  if (scene.absorber)
    sketch.word(draw_line_with_absorber(sketch, rope, 0), words::absorber);
  else if (tied)
    sketch.line(rope, Pen::rope);
  draw_ring(sketch, start);
  if (!scene.line_id.empty()) sketch.tag(rope[rope.size() / 2], scene.line_id);
  if (tied) sketch.word(anchor + Point{0, -1}, words::anchor);

  // End.
  double dimension_x = sketch.at(ledge_end, 0).x + 9;
  if (sketch.is_key()) {
    const double second = ledge_end + std::max(1.2, sketch.metres(12));
    draw_wall(sketch, second, top, lowest - person * 1.05 - sketch.metres(2));
    const Point fixed = sketch.at(second, scene.anchor_above);
    const Point end = sketch.at(second + ring_x, -fallen);
    sketch.mark("end", end);
    draw_worker(sketch, end, height, {Pose::hanging, Look::solid, false, 0});
    if (tied) draw_wall_anchor(sketch, fixed);
    const std::vector<Point> taut{fixed + Point{1.4, 0}, end};
    if (scene.absorber)
      draw_line_with_absorber(sketch, taut, sketch.mm(scene.torn));
    else if (tied)
      sketch.line(taut, Pen::rope);
    draw_ring(sketch, end);
    dimension_x = end.x + height * 0.4 + 6;
  }
  double depth = 0;
  const Point level = sketch.is_key() ? Point{start.x + 1.5, start.y} : start + Point{1.5, 0};
  sketch.line({level, {dimension_x + 1, level.y}}, Pen::extension);
  for (const Fall& fall : falls) {
    const Point from{dimension_x, sketch.at(0, -depth).y};
    depth += fall.metres;
    const Point to{dimension_x, sketch.at(0, -depth).y};
    sketch.dimension(from, to, 0, fall.id);
    const double back = sketch.is_key() ? 5.0 + height * 0.2 : 5.0;
    sketch.line({to - Point{back, 0}, to + Point{1, 0}}, Pen::limit);
  }
  if (!sketch.is_key()) {
    double x = dimension_x;
    for (const std::string_view id : scene.asked)
      if (sketch.labels(id)) {
        sketch.open_fall({x, sketch.at(0, -depth).y}, id);
        x += 14;
      }
  }
}

}  // namespace

void draw_free_fall_rule(Sketch& sketch) {
  const double above = sketch.given("anchor-above-d-ring");
  const double lanyard = sketch.given("lanyard-length");
  DropScene scene{above, lanyard, "lanyard-length"};
  if (sketch.is_key()) scene.outcome = {{sketch.result("free-fall"), "free-fall"}};
  scene.asked = {"free-fall"};
  draw_drop(sketch, scene);
  const double x = -std::max(sketch.mm(0.16), 1.6) - 4;
  const Point anchor = sketch.at(0, above);
  const Point ring = sketch.at(0, 0);
  if (sketch.labels("anchor-above-d-ring")) {
    for (const Point p : {anchor, ring}) sketch.line({{x - 1, p.y}, p}, Pen::extension);
    sketch.dimension({x, ring.y}, {x, anchor.y}, 0, "anchor-above-d-ring");
  }
}

void draw_free_fall_motion(Sketch& sketch) {
  const double drop = sketch.given("drop");
  draw_drop(sketch, {0, 0, {}, false, 0, {{drop, "drop"}}, {{drop, "drop"}}});
  for (const std::string_view id : {"time", "speed"}) sketch.note(id);
}

void draw_absorber(Sketch& sketch) {
  const double free_fall = sketch.given("free-fall");
  DropScene scene{0, free_fall, {}, true, 0, {{free_fall, "free-fall"}}, {}};
  if (sketch.is_key()) {
    // An absorber that bottoms out tears no farther than it can.
    const double needed = sketch.result("elongation");
    const double most = sketch.given_or("maximum-elongation", needed);
    const bool too_short = needed > most;
    scene.torn = std::min(needed, most);
    scene.outcome = {{free_fall, "free-fall"},
                     {scene.torn, too_short ? "maximum-elongation" : "elongation"}};
    if (too_short)
      sketch.note("elongation");
    else
      sketch.note("maximum-elongation");
  } else {
    sketch.note("maximum-elongation");
  }
  scene.asked = {"elongation", "fall-distance"};
  draw_drop(sketch, scene);
  if (sketch.is_key()) sketch.note("fall-distance");
  for (const std::string_view id : {"weight", "force", "energy", "remaining-energy", "state"})
    sketch.note(id);
}

void draw_arrest_force(Sketch& sketch) {
  const std::vector<Fall> falls{{sketch.given("free-fall"), "free-fall"},
                                {sketch.given("stopping-distance"), "stopping-distance"}};
  draw_drop(sketch, {0, falls[0].metres, {}, true, falls[1].metres, falls, falls});
  for (const std::string_view id : {"weight", "average-force"}) sketch.note(id);
}

void draw_elastic_line(Sketch& sketch) {
  const double free_fall = sketch.given("free-fall");
  const double line = sketch.given("line-length");
  DropScene scene{line - free_fall, line, "line-length", false, 0, {{free_fall, "free-fall"}}, {}};
  if (sketch.is_key())
    scene.outcome = {{free_fall, "free-fall"}, {sketch.result("stretch"), "stretch"}};
  scene.asked = {"stretch"};
  draw_drop(sketch, scene);
  for (const std::string_view id :
       {"weight", "test-force", "test-elongation", "stiffness", "peak-force"})
    sketch.note(id);
}

void draw_line_then_absorber(Sketch& sketch) {
  const double free_fall = sketch.given("free-fall");
  DropScene scene{0, free_fall, {}, true, 0, {{free_fall, "free-fall"}}, {}};
  if (sketch.is_key()) {
    scene.torn = sketch.result("elongation");
    scene.outcome = {{free_fall, "free-fall"},
                     {sketch.result("stretch"), "stretch"},
                     {scene.torn, "elongation"}};
  }
  scene.asked = {"total-stopping", "elongation", "stretch"};
  draw_drop(sketch, scene);
  if (sketch.is_key()) sketch.note("total-stopping");
  for (const std::string_view id : {"weight", "stiffness", "force", "maximum-elongation",
                                    "elastic-peak", "deploys", "remaining-energy", "peak-force"})
    sketch.note(id);
}

}  // namespace footroom::figure
