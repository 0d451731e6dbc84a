// Clearance: terms one below the other, from a datum line down.

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "figure/building.hpp"
#include "figure/lettering.hpp"
#include "figure/scenes.hpp"
#include "figure/words.hpp"
#include "figure/worker.hpp"

namespace footroom::figure {
namespace {

constexpr double person = 1.5;  // D-ring height of the drawn person, metres

constexpr engine::Text datum_at_anchor{"datum: anchor", "referencia: anclaje"};
constexpr engine::Text datum_at_ring{"datum: D-ring before the fall",
                                     "referencia: anillo en D antes de la caída"};
constexpr engine::Text datum_at_surface{"datum: standing surface",
                                        "referencia: superficie de apoyo"};
constexpr engine::Text standing_surface{"standing surface", "superficie de apoyo"};
constexpr engine::Text needed_word{"needed", "necesario"};
constexpr engine::Text available_word{"available", "disponible"};

engine::Text datum_text(std::string_view datum) {
  if (datum == "below-anchor") return datum_at_anchor;
  if (datum == "below-standing-surface") return datum_at_surface;
  return datum_at_ring;
}

// Where the datum lies over the standing surface.
double datum_height(std::string_view datum, double d_ring, double anchor_above) {
  if (datum == "below-anchor") return d_ring + anchor_above;
  if (datum == "below-standing-surface") return 0;
  return d_ring;
}

void draw_level(Sketch& sketch, double from, double to, double y, engine::Text text) {
  sketch.line({{from, y}, {to, y}}, Pen::limit);
  sketch.needed_word({from + 1, y}, text);
}

constexpr double ring_behind_edge = -0.3;  // metres

// A post with an anchor on top, on a surface at `foot_y`.
void draw_post(Sketch& sketch, Point anchor, double foot_y) {
  const double half = std::max(sketch.mm(0.05), 0.7);
  const double top = std::min(anchor.y - 1.5, foot_y - 3);
  sketch.area({{anchor.x - half, top},
               {anchor.x + half, top},
               {anchor.x + half, foot_y},
               {anchor.x - half, foot_y}},
              Fill::light, Pen::edge);
}

// A roof edge in section with a worker on it, the D-ring at height 0, the edge at x = 0. Behind
// the worker an anchor, where its height over the D-ring matters.
void draw_edge_and_worker(Sketch& sketch, double tall, std::optional<double> anchor_above,
                          Look look) {
  const Point edge = sketch.at(0, -tall);
  const double left = std::max(sketch.mm(1.4), 9.0);
  const double deep = std::max(sketch.mm(0.2), 1.8);
  const Point inner = edge - Point{left, 0};
  sketch.area({inner, edge, edge + Point{0, deep}, inner + Point{0, deep}}, Fill::light, Pen::edge);
  sketch.line({inner, edge}, Pen::outline);
  draw_break(sketch, inner, inner + Point{0, deep});
  const Point ring = sketch.at(ring_behind_edge, 0);
  draw_worker(sketch, ring, sketch.mm(tall), {Pose::standing, look, false, 0});
  if (anchor_above) {
    const Point anchor = sketch.at(ring_behind_edge, *anchor_above) - Point{5, 0};
    draw_post(sketch, anchor, edge.y);
    sketch.line(loose_rope(anchor, ring, distance(anchor, ring) * 0.2 + 2), Pen::rope);
    draw_ring(sketch, anchor);
  }
  draw_ring(sketch, ring);
}

struct Term {
  std::string_view id;
  engine::Text word;
};
constexpr std::array<Term, 7> terms = {{
    {"free-fall", {"free fall", "caída libre"}},
    {"arrester-lock", {"lock distance", "distancia de bloqueo"}},
    {"deceleration", {"deceleration", "desaceleración"}},
    {"line-stretch", {"line stretch", "estiramiento de la cuerda"}},
    {"harness-stretch", {"harness stretch", "estiramiento del arnés"}},
    {"body-below", {"body below", "cuerpo debajo"}},
    {"safety-margin", {"safety margin", "margen de seguridad"}},
}};
/// The terms after which the D-ring has come to rest.
constexpr std::size_t terms_above_ring = 4;

// Texts beside the blocks, moved apart where blocks are thinner than texts.
struct Beside {
  double y;  ///< of the block's middle
  double text_y;
  std::vector<Run> runs;
  bool bold;
};
void spread(std::vector<Beside>& texts, double step, double lowest) {
  double below = -1e300;
  for (Beside& text : texts) {
    text.text_y = std::max(text.y, below + step);
    below = text.text_y;
  }
  double above = lowest;
  for (auto text = texts.rbegin(); text != texts.rend(); ++text) {
    text->text_y = std::min(text->text_y, above);
    above = text->text_y - step;
  }
}

}  // namespace

void draw_clearance(Sketch& sketch) {
  const std::string datum = sketch.given_word("datum");
  const double told_height = sketch.given_or("d-ring-height", 0);
  const double tall = told_height > 0 ? told_height : person;
  const double above = sketch.given_or("anchor-above-d-ring", 0);
  // The terms add up from the D-ring at the onset of the fall, at height 0.
  const double datum_at = datum_height(datum, tall, above) - tall;
  draw_edge_and_worker(sketch, tall, datum == "below-anchor" ? std::optional(above) : std::nullopt,
                       sketch.is_key() ? Look::light : Look::solid);
  // The harness lets the body hang lower under the D-ring.
  const double below_ring = sketch.given("body-below") + sketch.given_or("harness-stretch", 0);
  const double height = sketch.mm(below_ring > 0.6 - hair ? below_ring : person);
  const double falls_at = std::max(0.3, sketch.metres(3));
  const double column = sketch.at(falls_at, 0).x + height * 0.4 + 6;
  const double width = 6;
  const double datum_y = sketch.at(0, datum_at).y;
  sketch.mark("datum", {column, datum_y});
  sketch.mark("d-ring", {column, 0});

  std::vector<Beside> texts;
  double depth = 0;
  double ring_depth = 0;
  bool shaded = false;
  for (std::size_t i = 0; i < terms.size(); ++i) {
    const double metres = sketch.given_or(terms[i].id, 0);
    if (!(metres > 0)) continue;
    const Point top{column, sketch.mm(depth)};
    depth += metres;
    if (i < terms_above_ring) ring_depth = depth;
    const Point bottom{column + width, sketch.mm(depth)};
    const Fill fill = terms[i].id == "safety-margin" ? Fill::danger
                      : shaded                       ? Fill::light
                                                     : Fill::paper;
    sketch.area({top, {bottom.x, top.y}, bottom, {top.x, bottom.y}}, fill, Pen::edge);
    shaded = !shaded;
    sketch.mark(terms[i].id, bottom);
    auto runs = sketch.worded_tag(terms[i].word, terms[i].id);
    const double middle = (top.y + bottom.y) / 2;
    const bool asked = sketch.labels(terms[i].id) && !sketch.tells(terms[i].id);
    texts.push_back({middle, middle, std::move(runs), asked});
  }
  const double ground = sketch.mm(depth);
  constexpr double step = label_size * 1.25;
  spread(texts, step, ground - label_size * 0.7);
  const double text_x = column + width + 5;
  double far = text_x + 10;
  for (const Beside& text : texts) {
    sketch.line(
        {{column + width + 0.4, text.y}, {text_x - 2, text.text_y}, {text_x - 0.6, text.text_y}},
        Pen::thin);
    sketch.fixed({text_x, text.text_y}, text.runs, label_size, text.bold);
    far = std::max(far, text_x + runs_width(text.runs, label_size, text.bold));
  }
  far += 5;
  if (sketch.is_key()) {
    const Point end = sketch.at(falls_at, -ring_depth);
    sketch.mark("end", end);
    draw_worker(sketch, end, height, {Pose::hanging, Look::solid, false, 0});
    draw_ring(sketch, end);
  }
  const double left = sketch.at(0, 0).x - std::max(sketch.mm(1.4), 9.0);
  const double right = sketch.labels("needed") ? far + 3 : far;
  draw_level(sketch, left, right, datum_y, datum_text(datum));
  if (datum_at != 0) {
    sketch.line({{sketch.at(ring_behind_edge, 0).x + 1.5, 0}, {column + width, 0}}, Pen::extension);
    sketch.word({column - 2, 0}, words::d_ring);
  }
  sketch.mark("lower-level", {column, ground});
  draw_ground(sketch, left, right, ground);
  sketch.dimension({far, datum_y}, {far, ground}, 0, "needed");
  sketch.note("fall-distance");
  sketch.note("anchor-above-d-ring");
  sketch.note("d-ring-height");
  sketch.word({left + 3, ground}, words::lower_level);
}

void draw_clearance_check(Sketch& sketch) {
  const double needed = sketch.given("needed");
  const double available = sketch.given("available");
  const bool needed_shown = sketch.is_key() || sketch.tells("needed");
  const double width = 8;
  const double gap = 22;
  const double left = 0;
  const double ground = sketch.mm(available);
  const double depth = sketch.mm(needed);
  const double far = left + 2 * width + gap + 20;
  sketch.mark("datum", {left, 0});
  sketch.mark("available", {left, ground});
  const double y_end = std::max(ground, needed_shown ? depth : 0.0);

  const Point a{left + 16, 0};
  sketch.area({a, {a.x + width, 0}, {a.x + width, ground}, {a.x, ground}}, Fill::light, Pen::edge);
  sketch.dimension({a.x, 0}, {a.x, ground}, -4, "available");
  const double b = a.x + width + gap;
  draw_ground(sketch, left - 4, far, ground);
  if (needed_shown) {
    sketch.mark("needed", {b, depth});
    sketch.area({{b, 0}, {b + width, 0}, {b + width, depth}, {b, depth}}, Fill::paper, Pen::edge);
    if (sketch.is_key())
      sketch.area({{b, ground}, {b + width, ground}, {b + width, depth}, {b, depth}},
                  depth > ground ? Fill::danger : Fill::timber, Pen::edge);
    sketch.dimension({b + width, 0}, {b + width, depth}, 4, "needed");
    if (sketch.is_key()) sketch.dimension({b, ground}, {b, depth}, 4, "spare");
  } else {
    sketch.open_fall({b + width / 2, 0}, "needed");
  }
  if (!sketch.is_key()) sketch.note("spare");
  sketch.line({{left - 4, 0}, {far, 0}}, Pen::limit);
  sketch.word({left, 0}, {"datum", "referencia"});
  sketch.needed_word({a.x + width / 2, -0.2}, available_word);
  sketch.needed_word({b + width / 2, -0.2}, needed_word);
  sketch.word({left, y_end}, words::lower_level);
  sketch.note("verdict");
}

void draw_change_datum(Sketch& sketch) {
  const double clearance = sketch.given("clearance");
  const double d_ring = sketch.given("d-ring-height");
  const double above = sketch.given("anchor-above-d-ring");
  const std::string from = sketch.given_word("from");
  const std::string to = sketch.given_word("to");
  // Heights over the D-ring.
  const double from_height = datum_height(from, d_ring, above) - d_ring;
  const double to_height = datum_height(to, d_ring, above) - d_ring;
  const double ground = from_height - clearance;
  sketch.mark("ground", sketch.at(0, ground));
  sketch.mark("from", sketch.at(0, from_height));
  sketch.mark("to", sketch.at(0, to_height));
  const double roof = std::max(sketch.mm(1.4), 9.0);
  const Point anchor = sketch.at(ring_behind_edge, above) - Point{5, 0};
  draw_edge_and_worker(sketch, d_ring, above, Look::solid);

  const double first = std::max(sketch.mm(0.5), 6.0);
  const double far = first + 40;
  draw_ground(sketch, -roof, far, sketch.at(0, ground).y);
  const auto level = [&](double metres, engine::Text text, double start) {
    const double y = sketch.at(0, metres).y;
    sketch.line({{start, y}, {far, y}}, Pen::limit);
    sketch.level_word({far, y}, text);
  };
  level(above, words::anchor, anchor.x + 1.5);
  level(0, words::d_ring, sketch.at(ring_behind_edge, 0).x + 1.5);
  level(-d_ring, standing_surface, 0.5);
  const double y = sketch.at(0, ground).y;
  sketch.dimension({first + 4, sketch.at(0, from_height).y}, {first + 4, y}, 0, "clearance");
  sketch.dimension({first + 26, sketch.at(0, to_height).y}, {first + 26, y}, 0, "changed");
  const double outside = -roof - 5;
  for (const double level_y : {0.0, sketch.at(0, -d_ring).y, anchor.y})
    sketch.line({{outside - 1, level_y}, {-roof - 0.8, level_y}}, Pen::extension);
  sketch.dimension({outside, sketch.at(0, -d_ring).y}, {outside, 0}, 0, "d-ring-height");
  sketch.dimension({outside, 0}, {outside, anchor.y}, 0, "anchor-above-d-ring");
  sketch.note("below-d-ring");
  sketch.word({0, y}, words::lower_level);
}

}  // namespace footroom::figure
