#include "engine/ridge_layout.hpp"

#include <algorithm>

#include "engine/counting.hpp"
#include "engine/told_refusal.hpp"

// Notation
//   R    ridge length
//   s    rafter spacing, centre to centre
//   f    centre of the first rafter from the ridge's start
//   n    workers, one anchor each
//   e    least distance of an anchor from either end
//   N    number of rafters
//   x_i  position of anchor i; y_i the middle of its worker's share of the ridge

namespace footroom::engine {
namespace {

using Def = Definition<RidgeLayoutCase, RidgeLayout>;

const Def& definition() {
  constexpr Show feet{"ft", 2, "m", 2};
  constexpr Show inches{"in", 1, "cm", 0};
  constexpr Show count{"", 0, "", 0};
  static const Def made{
      "ridge-layout",
      {"Anchors along the ridge", "Anclajes a lo largo de la cumbrera"},
      {"On which rafters to set one anchor for each worker, spread over the ridge.",
       "En qué cabrios poner un anclaje por trabajador, repartidos en la cumbrera."},
      {
          input("ridge-length", "R", {"length of the ridge", "largo de la cumbrera"},
                &RidgeLayoutCase::ridge_length, {1, 100}, feet),
          input("spacing", "s",
                {"spacing of the rafters, center to center",
                 "separación de los cabrios, de centro a centro"},
                &RidgeLayoutCase::spacing, {0.1, 3}, inches),
          input("first-rafter", "f",
                {"center of the first rafter from the ridge's start",
                 "centro del primer cabrio desde el inicio de la cumbrera"},
                &RidgeLayoutCase::first_rafter, {0, 3}, inches),
          input("workers", "n", {"workers", "trabajadores"}, &RidgeLayoutCase::workers, {1, 20},
                count),
          optional_input("end-distance", "e",
                         {"distance of an anchor from either end, at least",
                          "distancia de un anclaje a cada extremo, como mínimo"},
                         &RidgeLayoutCase::end_distance, {0, 20}, feet),
      },
      {
          output("rafter-count", "N", {"rafters along the ridge", "cabrios en la cumbrera"},
                 &RidgeLayout::rafter_count, count),
          output("rafter-numbers", "k",
                 {"rafters with an anchor, counted from the start",
                  "cabrios con anclaje, contados desde el inicio"},
                 &RidgeLayout::rafter_numbers, count),
          output("positions", "x",
                 {"anchors, from the ridge's start", "anclajes, desde el inicio de la cumbrera"},
                 &RidgeLayout::positions, feet),
          output("smallest-gap", "d_min",
                 {"smallest distance between two anchors", "menor distancia entre dos anclajes"},
                 &RidgeLayout::smallest_gap, feet),
          output("farthest-sideways", "x_max",
                 {"farthest along the ridge from the nearest anchor",
                  "lo más lejos del anclaje más cercano, a lo largo de la cumbrera"},
                 &RidgeLayout::farthest_sideways, feet),
      },
      {
          {"rafter-count",
           "floor((ridge-length - first-rafter) / spacing) + 1",
           "",
           {"The first rafter, and one more for every whole spacing behind it.",
            "El primer cabrio, y uno más por cada separación entera que sigue."}},
      },
      {
          {"29 CFR 1926.502(d)(10)(i)",
           Status::from_memory,
           {"a separate line for each worker", "una línea propia para cada trabajador"}},
      },
      {{"Keep to the maker's least distance between anchors and from the ridge's end.",
        "Respete la distancia mínima del fabricante entre anclajes y al extremo de la cumbrera."},
       {"A rafter's place is measured on the roof, not assumed: probe before nailing.",
        "El lugar del cabrio se mide en el techo, no se supone: compruebe antes de clavar."}}};
  return made;
}

/// Rafters from 0; `first` to `last` may carry an anchor.
struct Rafters {
  Length spacing;
  Length start;
  int first;
  int last;

  Length position(int rafter) const { return start + double(rafter) * spacing; }
  int nearest(Length place) const {
    const double steps = (place - start) / spacing;
    return std::clamp(static_cast<int>(std::ceil(steps - 0.5)), first, last);
  }
};

/// The nearest rafters, moved apart where two anchors would share one.
std::vector<int> spread(const Rafters& rafters, Length ridge, int workers) {
  std::vector<int> chosen;
  for (int i = 0; i < workers; ++i) {
    const int nearest = rafters.nearest((i + 0.5) / workers * ridge);
    chosen.push_back(chosen.empty() ? nearest : std::max(nearest, chosen.back() + 1));
  }
  int free_up_to = rafters.last;
  for (auto anchor = chosen.rbegin(); anchor != chosen.rend(); ++anchor)
    free_up_to = (*anchor = std::min(*anchor, free_up_to)) - 1;
  return chosen;
}

}  // namespace

RidgeLayout ridge_layout(const RidgeLayoutCase& c) {
  refuse_outside_domain(definition(), c);
  if (c.first_rafter > c.ridge_length)
    throw ToldRefusal("ridge-layout", "first-rafter", "lies beyond the end of the ridge",
                      "queda más allá del final de la cumbrera");
  RidgeLayout r{};
  r.rafter_count = 1 + whole_below((c.ridge_length - c.first_rafter) / c.spacing);

  const double first = (c.end_distance - c.first_rafter) / c.spacing;
  const double last = (c.ridge_length - c.end_distance - c.first_rafter) / c.spacing;
  const Rafters rafters{c.spacing, c.first_rafter, std::max(0, whole_above(first)),
                        std::min(r.rafter_count - 1, whole_below(last))};
  const int usable = std::max(0, rafters.last - rafters.first + 1);
  if (usable < c.workers)
    throw ToldRefusal("ridge-layout", "workers",
                      "is " + std::to_string(c.workers) + ", expected at most " +
                          std::to_string(usable) + ": every anchor needs a rafter of its own",
                      "es " + std::to_string(c.workers) + "; se espera a lo más " +
                          std::to_string(usable) + ": cada anclaje necesita su propio cabrio");

  for (const int rafter : spread(rafters, c.ridge_length, c.workers)) {
    r.rafter_numbers.push_back(Ratio(rafter + 1.0));
    r.positions.push_back(rafters.position(rafter));
  }
  r.farthest_sideways = std::max(r.positions.front(), Length(c.ridge_length - r.positions.back()));
  if (c.workers > 1) r.smallest_gap = c.ridge_length;
  for (std::size_t i = 1; i < r.positions.size(); ++i) {
    const Length gap = r.positions[i] - r.positions[i - 1];
    r.smallest_gap = std::min(r.smallest_gap, gap);
    r.farthest_sideways = std::max(r.farthest_sideways, Length(0.5 * gap));
  }
  return r;
}

const Calculation& ridge_layout_calculation() {
  static const Calculation made = make_calculation(definition(), ridge_layout);
  return made;
}

}  // namespace footroom::engine
