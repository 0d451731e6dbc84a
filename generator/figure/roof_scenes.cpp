// Roofs by themselves.

#include <algorithm>
#include <cmath>

#include "figure/building.hpp"
#include "figure/scenes.hpp"
#include "figure/words.hpp"
#include "figure/worker.hpp"

namespace footroom::figure {
namespace {

std::vector<Point> rectangle(Point a, Point b) {
  return {a, {b.x, a.y}, b, {a.x, b.y}};
}

// One side of a roof in section with its run, height and rafter.
void add_section(Sketch& sketch, double run, double pitch) {
  const RoofSection roof{run / std::cos(pitch), pitch, {}};
  draw_roof_section(sketch, roof);
  const Point ridge = sketch.at(0, 0);
  const Point eave = roof.eave(sketch);
  sketch.mark("ridge", ridge);
  sketch.mark("eave", eave);
  sketch.dimension(ridge, eave, 5, "rafter-length");
  const double foot = eave.y + 16;
  const Point below{ridge.x, foot};
  if (sketch.labels("run")) {
    sketch.line({{ridge.x, ridge.y + std::max(sketch.mm(0.2), 3.0)}, {ridge.x, foot + 1}},
                Pen::extension);
    sketch.line({eave + Point{0, 3}, {eave.x, foot + 1}}, Pen::extension);
    sketch.dimension(below, {eave.x, foot}, 0, "run");
  }
  if (sketch.labels("ridge-height")) {
    const double x = std::min(ridge.x, ridge.x - 9) - 3;
    sketch.line({{x - 1, eave.y}, eave}, Pen::hidden);
    sketch.line({{x - 1, ridge.y}, ridge + Point{-1, 0}}, Pen::extension);
    sketch.dimension({x, eave.y}, {x, ridge.y}, 0, "ridge-height");
  }
  const double radius = std::clamp(distance(ridge, eave) * 0.35, 6.0, 18.0);
  if (sketch.labels("angle") || sketch.labels("pitch")) {
    sketch.line({eave, eave - Point{radius + 3, 0}}, Pen::hidden);
    sketch.angle(eave, radius, M_PI - pitch, M_PI, sketch.labels("pitch") ? "pitch" : "angle");
    if (sketch.labels("pitch")) sketch.note("angle");
  }
  sketch.word(ridge + Point{0, -0.6}, words::ridge);
  sketch.word(eave + Point{0.6, 0.4}, words::eave);
}

}  // namespace

void draw_roof(Sketch& sketch) {
  add_section(sketch, sketch.given("run"), sketch.given("pitch"));
  for (const std::string_view id : {"low-slope", "unit-rise", "slope-factor", "kind"})
    sketch.note(id);
}

void draw_roof_area(Sketch& sketch) {
  const double run = sketch.given("run");
  const double pitch = sketch.given("pitch");
  const double eave_length = sketch.given("eave-length");
  add_section(sketch, run, pitch);
  // The plan to the left of the section, ridge above.
  const double right = -sketch.metres(26);
  const Point top_right = sketch.at(right, 0);
  const Point bottom_left = sketch.at(right - eave_length, -run);
  const Point top_left{bottom_left.x, top_right.y};
  const Point bottom_right{top_right.x, bottom_left.y};
  sketch.area(rectangle(top_left, bottom_right), Fill::light, Pen::edge);
  sketch.line({top_left, top_right}, Pen::outline);
  sketch.line({bottom_left, bottom_right}, Pen::outline);
  sketch.mark("plan-top-left", top_left);
  sketch.mark("plan-bottom-right", bottom_right);
  // Which way water runs.
  const Point middle = between(top_left, bottom_right, 0.5);
  const double half = std::min(sketch.mm(run) * 0.3, 6.0);
  sketch.arrow({middle - Point{0, half}, middle + Point{0, half}}, Pen::edge);
  sketch.dimension(bottom_right, bottom_left, 5, "eave-length");
  sketch.tag(middle + Point{2, 0}, "plan-area");
  sketch.word(between(top_left, top_right, 0.5), words::ridge);
  sketch.tag_along(sketch.at(0, 0), sketch.at(run, -run * std::tan(pitch)), "slope-area");
  sketch.note("slope-factor");
}

void draw_rafters(Sketch& sketch) {
  const double ridge_length = sketch.given("ridge-length");
  const double spacing = sketch.given("spacing");
  const double first = sketch.given_or("first-rafter", 0);
  const double position = sketch.given("position");
  const double width = sketch.given_or("rafter-width", 0.0381);
  const double reach = sketch.metres(9);
  const Point west = sketch.at(0, 0);
  const Point east = sketch.at(ridge_length, 0);

  sketch.area(rectangle(sketch.at(0, reach), sketch.at(ridge_length, -reach)), Fill::paper,
              Pen::edge);
  const double half = std::max(sketch.mm(width) / 2, 0.25);
  const auto rafter = [&](double x, Fill fill) {
    sketch.area(rectangle(sketch.at(x, reach * 0.92) - Point{half, 0},
                          sketch.at(x, -reach * 0.92) + Point{half, 0}),
                fill, Pen::thin);
  };
  const double nearest = sketch.is_key() ? sketch.result("nearest-rafter") : -1;
  int count = 0;
  for (int i = 0; i < 400; ++i) {
    const double x = first + i * spacing;
    if (x > ridge_length * (1 + 1e-12)) break;
    rafter(x, std::abs(x - nearest) < spacing * 1e-6 ? Fill::dark : Fill::light);
    ++count;
  }
  sketch.line({west, east}, Pen::outline);
  sketch.mark("ridge-start", west);
  sketch.mark("ridge-end", east);
  const Point place = sketch.at(position, 0);
  sketch.mark("position", place);
  sketch.area({place + Point{0, -0.4}, place + Point{-1.5, -3.2}, place + Point{1.5, -3.2}},
              Fill::dark);

  const double edge = sketch.mm(reach);
  sketch.dimension(west + Point{0, edge}, east + Point{0, edge}, -10, "ridge-length");
  if (first > 0)
    sketch.dimension(west + Point{0, edge}, sketch.at(first, 0) + Point{0, edge}, -4,
                     "first-rafter");
  if (count > 1) {
    const int from = count > 2 ? 1 : 0;
    sketch.dimension(sketch.at(first + from * spacing, 0) + Point{0, edge},
                     sketch.at(first + (from + 1) * spacing, 0) + Point{0, edge}, -4, "spacing");
  }
  sketch.dimension(west - Point{0, edge}, place - Point{0, edge}, 5, "position");
  sketch.line({place - Point{0, 3.2}, place - Point{0, edge + 5}}, Pen::extension);
  if (sketch.is_key()) {
    const Point centre = sketch.at(nearest, 0) + Point{0, edge * 0.5};
    sketch.tag(centre, "nearest-rafter");
    const Point edge_of_rafter = sketch.at(nearest, 0) - Point{0, edge};
    sketch.dimension(edge_of_rafter, {place.x, edge_of_rafter.y}, nearest < position ? 11 : -11,
                     "miss");
  } else {
    sketch.note("nearest-rafter");
    sketch.note("miss");
  }
  for (const std::string_view id : {"rafter-width", "count", "positions", "hit"}) sketch.note(id);
  sketch.word(sketch.at(ridge_length, 0), words::ridge);
}

void draw_roof_slide(Sketch& sketch) {
  const double pitch = sketch.given("pitch");
  const double along = sketch.given("distance");
  const double tall = 1.5;  // D-ring height of the drawn person, metres
  const double above = tall * 1.3;
  const RoofSection roof{along + above, pitch, {}};
  draw_roof_section(sketch, roof);
  const Point start = roof.on_slope(sketch, above);
  const Point eave = roof.eave(sketch);
  sketch.mark("start", start);
  sketch.mark("eave", eave);
  const bool slides = sketch.is_key() && sketch.result_word("sliding") == "slides";
  // The distance runs from the shoes, which lie ahead of the D-ring.
  const Point d_ring = roof.on_slope(sketch, above - tall * 0.97);
  draw_worker(sketch, d_ring, sketch.mm(tall), {Pose::lying, Look::solid, false, pitch});
  const Point out = left_of(start, eave);
  const double deep = std::max(sketch.mm(0.15), 1.3) / std::max(std::cos(pitch), 0.34) + 4;
  sketch.dimension(start, eave, -deep, "distance");
  const Point middle = roof.on_slope(sketch, roof.slope * 0.55);
  draw_pitch_sign(sketch, middle + roof.inwards() * (deep + 4.5), pitch, "pitch");
  sketch.tag(start, "friction");
  if (slides) {
    const Point lift = out * 3.0;
    sketch.arrow({start + lift, eave + lift}, Pen::motion);
    sketch.tag(eave + lift, "speed");
    sketch.tag(between(start, eave, 0.5) + lift, "acceleration");
  } else {
    sketch.note("speed");
    sketch.note("acceleration");
  }
  sketch.note("time");
  sketch.note("sliding");
  sketch.word(eave + Point{0.6, 0.4}, words::eave);
}

}  // namespace footroom::figure
