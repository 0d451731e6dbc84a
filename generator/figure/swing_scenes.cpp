// Swings: the roof plane seen square on, and the view from the front.

#include <algorithm>
#include <cmath>

#include "figure/building.hpp"
#include "figure/scenes.hpp"
#include "figure/words.hpp"
#include "figure/worker.hpp"

namespace footroom::figure {
namespace {

constexpr double person = 1.5;  // D-ring height of the drawn person, metres

// What the roof plane shows, in metres: x along the ridge, y down the slope.
struct Plane {
  double left;
  double right;
  double bottom;
  bool eave;          ///< the bottom is the eave; else the slope goes on
  bool rake = false;  ///< the right edge is the rake; else the roof goes on
};

Point on_plane(const Sketch& sketch, double along, double down) {
  return sketch.at(along, -down);
}

void draw_plane(Sketch& sketch, const Plane& plane) {
  const Point a = on_plane(sketch, plane.left, 0);
  const Point b = on_plane(sketch, plane.right, 0);
  const Point c = on_plane(sketch, plane.right, plane.bottom);
  const Point d = on_plane(sketch, plane.left, plane.bottom);
  sketch.area({a, b, c, d}, Fill::paper);
  // A few courses of shingles at the open side, enough to tell roof from paper.
  const double course = 2.2;
  for (double y = a.y + course; y < d.y - 0.5 - hair; y += course)
    sketch.line({{d.x, y}, {d.x + (std::lround((y - a.y) / course) % 2 ? 4.0 : 2.6), y}},
                Pen::thin);
  sketch.line({a, b}, Pen::outline);
  if (plane.eave)
    sketch.line({d, c}, Pen::outline);
  else
    draw_break(sketch, d, c);
  draw_break(sketch, a, d);
  if (plane.rake)
    sketch.line({b, c}, Pen::outline);
  else
    draw_break(sketch, b, c);
  sketch.word(between(a, b, 0.88), words::ridge);
  if (plane.eave) sketch.word(between(d, c, 0.88), words::eave);
}

void draw_plan_anchor(Sketch& sketch, Point p) {
  const double half = std::clamp(sketch.mm(0.16), 1.4, 2.6);
  sketch.area({p + Point{-half, -half * 0.7}, p + Point{half, -half * 0.7},
               p + Point{half, half * 0.7}, p + Point{-half, half * 0.7}},
              Fill::light, Pen::edge);
  draw_ring(sketch, p);
}

// Large enough to be seen from above, whatever the scale.
double plan_height(const Sketch& sketch) {
  return std::max(sketch.mm(person), 7.0);
}

void draw_plan_worker(Sketch& sketch, Point ring, Look look) {
  draw_worker(sketch, ring, plan_height(sketch), {Pose::from_above, look, false, 0});
}

void add_fall_line(Sketch& sketch, Point from, Point to) {
  sketch.line({from, to}, Pen::hidden);
  sketch.word(between(from, to, 0.6), words::fall_line);
}

}  // namespace

void draw_eave_swing(Sketch& sketch) {
  const double slope = sketch.given("slope-length");
  const double offset = sketch.given("offset");
  const double aside = std::max(0.6, sketch.metres(8));
  draw_plane(sketch, {-aside, offset + aside, slope, true});
  const Point anchor = on_plane(sketch, 0, 0);
  const Point foot = on_plane(sketch, 0, slope);
  const Point start = on_plane(sketch, offset, slope);
  sketch.mark("anchor", anchor);
  sketch.mark("fall-line", foot);
  sketch.mark("start", start);
  add_fall_line(sketch, anchor, foot);
  const double below = sketch.is_key() ? 3.0 : 0.0;
  if (sketch.is_key()) {
    const double extra = sketch.result("extra-line");
    const Point end = on_plane(sketch, 0, slope + extra);
    sketch.mark("end", end);
    draw_plan_worker(sketch, start, Look::light);
    sketch.line({anchor, start}, Pen::rope_before);
    draw_worker(sketch, end, plan_height(sketch),
                {Pose::hanging_from_behind, Look::solid, false, 0});
    sketch.line({anchor, foot, end}, Pen::rope);
    sketch.arrow({start + Point{-2.5, 1.6}, foot + Point{1.5, 1.6}}, Pen::motion);
    draw_ring(sketch, start);
    draw_ring(sketch, end);
    sketch.dimension(foot, end, plan_height(sketch) * -0.3 - 4, "extra-line");
  } else {
    draw_plan_worker(sketch, start, Look::solid);
    sketch.line({anchor, start}, Pen::rope);
    draw_ring(sketch, start);
    if (sketch.labels("extra-line")) sketch.note("extra-line");
  }
  draw_plan_anchor(sketch, anchor);
  sketch.word(anchor + Point{0, -1.5}, words::anchor);
  sketch.dimension(anchor, foot, -(sketch.mm(aside) + 4), "slope-length");
  sketch.dimension(foot, start, -(5 + below + plan_height(sketch) * 0.3), "offset");
  sketch.dimension(anchor, start, 2.5, "diagonal");
  if (sketch.labels("angle") && offset > 0) {
    const double turn = std::atan2(offset, slope);
    const double radius = std::clamp(sketch.mm(slope) * 0.35, 5.0, 14.0);
    sketch.angle(anchor, radius, -M_PI / 2, -M_PI / 2 + turn, "angle");
  }
  sketch.note("speed");
}

void draw_roof_swing(Sketch& sketch) {
  const double down = sketch.given("down");
  const double across = sketch.given("across");
  const double aside = std::max(0.6, sketch.metres(8));
  const double line = std::hypot(down, across);
  const double bottom = (sketch.is_key() ? line : down) + std::max(0.6, sketch.metres(7));
  draw_plane(sketch, {-aside, across + aside, bottom, false});
  const Point anchor = on_plane(sketch, 0, 0);
  const Point start = on_plane(sketch, across, down);
  const Point level = on_plane(sketch, 0, down);
  const double outside = sketch.mm(aside) + 4;
  sketch.mark("anchor", anchor);
  sketch.mark("start", start);
  add_fall_line(sketch, anchor, on_plane(sketch, 0, bottom));
  if (sketch.is_key()) {
    const Point end = on_plane(sketch, 0, line);
    sketch.mark("end", end);
    draw_plan_worker(sketch, start, Look::light);
    sketch.line({anchor, start}, Pen::rope_before);
    sketch.arrow(sketch.arc(anchor, sketch.mm(line), -std::atan2(down, across), -M_PI / 2),
                 Pen::motion);
    draw_plan_worker(sketch, end, Look::solid);
    sketch.line({anchor, end}, Pen::rope);
    draw_ring(sketch, start);
    draw_ring(sketch, end);
    sketch.dimension(level, end, -outside, "slide");
  } else {
    draw_plan_worker(sketch, start, Look::solid);
    sketch.line({anchor, start}, Pen::rope);
    draw_ring(sketch, start);
    sketch.note("slide");
  }
  draw_plan_anchor(sketch, anchor);
  sketch.word(anchor + Point{0, -1.5}, words::anchor);
  sketch.dimension(anchor, level, -outside, "down");
  sketch.dimension(level, start, sketch.is_key() ? 0.01 : -(plan_height(sketch) * 0.3 + 3),
                   "across");
  sketch.dimension(anchor, start, 2.5, "line");
  for (const std::string_view id : {"pitch", "drop", "speed"}) sketch.note(id);
}

void draw_rake_swing(Sketch& sketch) {
  const double slope = sketch.given("slope-length");
  const double from_rake = sketch.given("anchor-from-rake");
  const double down = sketch.given("down-slope");
  const double aside = std::max(0.6, sketch.metres(8));
  draw_plane(sketch, {-aside, from_rake, slope, true, true});
  const Point anchor = on_plane(sketch, 0, 0);
  const Point corner = on_plane(sketch, from_rake, 0);
  const Point start = on_plane(sketch, from_rake, down);
  sketch.mark("anchor", anchor);
  sketch.mark("start", start);
  sketch.mark("rake", corner);
  sketch.mark("eave", on_plane(sketch, from_rake, slope));
  sketch.word(on_plane(sketch, from_rake, slope * 0.9), words::rake);
  const double outside = sketch.mm(aside) + 4;
  const double beyond = plan_height(sketch) * 0.4 + 4;  // dimensions stand clear of the worker
  if (sketch.is_key()) {
    const double rest = sketch.result("rest-position");
    const Point end = on_plane(sketch, from_rake, rest);
    sketch.mark("end", end);
    draw_plan_worker(sketch, start, Look::light);
    sketch.line({anchor, start}, Pen::rope_before);
    if (sketch.result_word("end") == "below-eave") {
      // Round the corner and along the eave to the anchor's fall line.
      const Point foot = on_plane(sketch, 0, slope);
      sketch.line({anchor, foot}, Pen::rope);
      sketch.arrow({start + Point{1.5, 0}, end + Point{1.5, 1.5}, foot + Point{1.5, 1.5}},
                   Pen::motion);
      draw_ring(sketch, foot);
    } else {
      sketch.line({anchor, end}, Pen::rope);
      if (distance(start, end) > 1 + hair)
        sketch.arrow({start + Point{1.5, 0}, end + Point{1.5, 0}}, Pen::motion);
      draw_ring(sketch, end);
      sketch.dimension(corner, end, beyond + 8, "rest-position");
    }
    draw_ring(sketch, start);
  } else {
    draw_plan_worker(sketch, start, Look::solid);
    sketch.line({anchor, start}, Pen::rope);
    draw_ring(sketch, start);
    sketch.note("rest-position");
  }
  draw_plan_anchor(sketch, anchor);
  sketch.word(anchor + Point{0, -1.5}, words::anchor);
  sketch.dimension(anchor, corner, 5, "anchor-from-rake");
  sketch.dimension(corner, start, beyond, "down-slope");
  sketch.dimension(anchor, on_plane(sketch, 0, slope), -outside, "slope-length");
  for (const std::string_view id :
       {"line", "pitch", "d-ring-height", "free-fall", "below-edge", "start-height", "rest-height",
        "drop", "swing-drop", "speed", "end"})
    sketch.note(id);
}

void draw_overhead_swing(Sketch& sketch) {
  const double high = sketch.given("anchor-height");
  const double offset = sketch.given("offset");
  const double line = std::hypot(high, offset);
  const double height = sketch.mm(person);
  const Point anchor = sketch.at(0, high);
  const Point start = sketch.at(offset, 0);
  sketch.mark("anchor", anchor);
  sketch.mark("start", start);

  // The beam overhead.
  const double half = std::max(0.5, sketch.metres(7));
  const double deep = std::max(sketch.mm(0.15), 2.0);
  const Point left = sketch.at(-half, high) - Point{0, 1.2};
  const Point right = sketch.at(std::max(half, offset * 0.4), high) - Point{0, 1.2};
  sketch.area({left, right, right - Point{0, deep}, left - Point{0, deep}}, Fill::timber,
              Pen::edge);
  sketch.line({left, right}, Pen::outline);
  draw_ring(sketch, anchor - Point{0, 0.5});
  sketch.word(anchor + Point{-1, 0}, words::anchor);
  // What the worker stands on.
  const Point shelf_left = sketch.at(offset - 0.4, -person);
  const Point shelf_right = sketch.at(offset + 0.9, -person);
  const double thick = std::max(sketch.mm(0.12), 1.4);
  sketch.area(
      {shelf_left, shelf_right, shelf_right + Point{0, thick}, shelf_left + Point{0, thick}},
      Fill::light, Pen::edge);
  sketch.line({shelf_left, shelf_right}, Pen::outline);

  const Point level = sketch.at(0, 0);
  const double reach = std::max(5.0, height * 0.25 + 2);
  if (sketch.is_key()) {
    const Point end = sketch.at(0, high - line);
    sketch.mark("end", end);
    draw_worker(sketch, start, height, {Pose::from_behind, Look::light, false, 0});
    sketch.line({anchor, start}, Pen::rope_before);
    sketch.arrow(sketch.arc(anchor, sketch.mm(line), -std::atan2(high, offset), -M_PI / 2),
                 Pen::motion);
    draw_worker(sketch, end, height, {Pose::hanging_from_behind, Look::solid, false, 0});
    sketch.line({anchor, end}, Pen::rope);
    draw_ring(sketch, start);
    draw_ring(sketch, end);
    sketch.line({{level.x - reach - 9, level.y}, start - Point{1, 0}}, Pen::hidden);
    sketch.line({end - Point{1, 0}, {end.x - reach - 2, end.y}}, Pen::extension);
    sketch.dimension({level.x - reach - 1, level.y}, {end.x - reach - 1, end.y}, 0,
                     "extra-clearance");
    sketch.line({anchor - Point{2, 0}, {anchor.x - reach - 9, anchor.y}}, Pen::extension);
    sketch.dimension({level.x - reach - 8, level.y}, {anchor.x - reach - 8, anchor.y}, 0,
                     "anchor-height");
    sketch.dimension(anchor, start, 3, "line");
  } else {
    draw_worker(sketch, start, height, {Pose::from_behind, Look::solid, false, 0});
    sketch.line({anchor, start}, Pen::rope);
    draw_ring(sketch, start);
    sketch.line({anchor, level}, Pen::hidden);
    sketch.line({{level.x - 6, level.y}, start - Point{1, 0}}, Pen::hidden);
    sketch.dimension(level, anchor, 5, "anchor-height");
    sketch.dimension(anchor, start, 3, "line");
    sketch.open_fall(level + Point{-3, 0}, "extra-clearance");
  }
  sketch.dimension(level, {start.x, level.y}, -std::max(4.0, height * 0.12), "offset");
  sketch.note("speed");
}

void draw_anchor_reach(Sketch& sketch) {
  const double slope = sketch.given("slope-length");
  const double half = sketch.given("eave-length") / 2;
  const double line = sketch.given("line-length");
  const double widest = sketch.given("greatest-angle");
  const Point anchor = on_plane(sketch, 0, 0);
  const Point foot = on_plane(sketch, 0, slope);
  sketch.mark("anchor", anchor);
  sketch.mark("fall-line", foot);
  sketch.mark("eave-start", on_plane(sketch, -half, slope));
  sketch.mark("eave-end", on_plane(sketch, half, slope));
  draw_plane(sketch, {-half, half, slope, true});
  add_fall_line(sketch, anchor, foot);

  // To both sides as far as the angle lets, within this side of the roof.
  const double across = std::min(slope * std::tan(widest), half);
  const double down = std::min(slope, across / std::tan(widest));
  for (const double side : {-1.0, 1.0})
    sketch.line({anchor, on_plane(sketch, side * across, down)}, Pen::limit);
  if (sketch.labels("line-length")) {
    const double open = std::min(widest, std::asin(std::min(half / line, 1.0)));
    if (line * std::cos(open) <= slope + hair) {  // else the line reaches past the eave
      sketch.line(sketch.arc(anchor, sketch.mm(line), -M_PI / 2 - open, -M_PI / 2 + open),
                  Pen::motion);
    }
    sketch.note("line-length");
  }
  const double radius = std::clamp(sketch.mm(slope) * 0.4, 5.0, 14.0);
  sketch.angle(anchor, radius, -M_PI / 2, -M_PI / 2 + widest, "greatest-angle");
  if (sketch.is_key()) {
    const double reach = sketch.result("reach");
    const double shown = std::min(reach, half);
    const Point from = on_plane(sketch, -shown, slope);
    const Point to = on_plane(sketch, shown, slope);
    sketch.mark("reach", on_plane(sketch, reach, slope));
    const Point thick{0, 0.6};
    sketch.area({from, to, to + thick, from + thick}, Fill::dark);
    if (reach <= half + hair)
      sketch.dimension(foot, to, -5, "reach");
    else
      sketch.note("reach");
  } else {
    sketch.note("reach");
  }
  for (const std::string_view id :
       {"by-angle", "by-line", "width", "share", "anchors", "limited-by"})
    sketch.note(id);
  draw_plan_anchor(sketch, anchor);
  sketch.word(anchor + Point{0, -1.5}, words::anchor);
  sketch.dimension(on_plane(sketch, -half, 0), on_plane(sketch, -half, slope), -4, "slope-length");
  sketch.dimension(on_plane(sketch, -half, slope), on_plane(sketch, half, slope), -11,
                   "eave-length");
}

}  // namespace footroom::figure
