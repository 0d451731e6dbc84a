// Workers side by side on a roof, each with an own line and anchor. The count is drawn; distances
// are not meant.

#include <algorithm>
#include <cmath>

#include "figure/building.hpp"
#include "figure/scenes.hpp"
#include "figure/words.hpp"
#include "figure/worker.hpp"

namespace footroom::figure {

void draw_anchor_strength(Sketch& sketch) {
  sketch.without_scale_bar();
  constexpr int most_drawn = 8;
  constexpr double person = 1.5;
  constexpr double spacing = 2.0;
  constexpr double slope = 4.2;
  const int persons = static_cast<int>(std::lround(std::min(sketch.given("persons"), 1e6)));
  const int drawn = std::clamp(persons, 1, most_drawn);
  const bool more = persons > most_drawn;
  const double left = -spacing * 0.7;
  const double right = (drawn - 1 + (more ? 1 : 0)) * spacing + spacing * 0.7;
  const Point a = sketch.at(left, 0);
  const Point b = sketch.at(right, 0);
  const Point c = sketch.at(right, -slope);
  const Point d = sketch.at(left, -slope);
  for (double y = a.y + 2.4; y < d.y - 1 - hair; y += 2.4) {
    sketch.line({{a.x, y}, {a.x + 3.5, y}}, Pen::thin);
    sketch.line({{b.x - 3.5, y}, {b.x, y}}, Pen::thin);
  }
  sketch.line({a, b}, Pen::outline);
  sketch.line({d, c}, Pen::outline);
  draw_break(sketch, a, d);
  draw_break(sketch, b, c);
  for (int i = 0; i < drawn; ++i) {
    const Point anchor = sketch.at(i * spacing, 0);
    // Staggered, as people at work are.
    const Point ring = sketch.at(i * spacing, -(i % 2 ? 2.5 : 1.7));
    draw_worker(sketch, ring, sketch.mm(person), {Pose::from_behind, Look::solid, false, 0});
    sketch.line({anchor, ring}, Pen::rope);
    draw_ring(sketch, ring);
    draw_ridge_anchor(sketch, anchor, 0);
  }
  if (more)
    for (const double aside : {-1.6, 0.0, 1.6})
      sketch.disc(sketch.at(drawn * spacing, -2.1) + Point{aside, 0}, 0.35, Pen::none, Fill::dark);
  sketch.word(between(a, b, 0.02), words::ridge);
  sketch.word(between(d, c, 0.02), words::eave);
  for (const std::string_view id : {"persons", "strength-per-person", "arrest-force",
                                    "safety-factor", "strength-needed", "designed-strength"})
    sketch.note(id);
}

}  // namespace footroom::figure
