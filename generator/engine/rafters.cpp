#include "engine/rafters.hpp"

#include <algorithm>

#include "engine/counting.hpp"
#include "engine/shared_inputs.hpp"
#include "engine/told_refusal.hpp"

// Notation
//   R    ridge length
//   s    rafter spacing, centre to centre
//   f    centre of the first rafter from the ridge's start
//   x    position of the nail from the ridge's start
//   w    width of a rafter
//   N    number of rafters
//   x_i  centre of rafter i; x_n of the nearest
//   d    distance from the position to the nearest centre

namespace footroom::engine {
namespace {

using Def = Definition<RaftersCase, Rafters>;

const Def& definition() {
  static const Def made{
      "rafters",
      {"Rafters along the ridge: hit or miss", "Cabrios en la cumbrera: acierto o fallo"},
      {"Where the rafters lie along the ridge, and whether a nail at a place hits one.",
       "Dónde están los cabrios en la cumbrera, y si un clavo en cierto lugar da en uno."},
      {
          input("ridge-length", "R", {"length of the ridge", "largo de la cumbrera"},
                &RaftersCase::ridge_length, {0.5, 100}, feet_show),
          input("spacing", "s",
                {"spacing of the rafters, center to center",
                 "separación de los cabrios, de centro a centro"},
                &RaftersCase::spacing, {0.1, 3}, inches_show),
          input("first-rafter", "f",
                {"center of the first rafter from the ridge's start",
                 "centro del primer cabrio desde el inicio de la cumbrera"},
                &RaftersCase::first_rafter, {0, 3}, inches_show),
          input("position", "x",
                {"place of the nail from the ridge's start",
                 "lugar del clavo desde el inicio de la cumbrera"},
                &RaftersCase::position, {0, 100}, inches_show),
          optional_input("rafter-width", "w", {"width of a rafter", "ancho de un cabrio"},
                         &RaftersCase::rafter_width, {0.01, 0.3}, inches_show),
      },
      {
          output("count", "N", {"rafters along the ridge", "cabrios en la cumbrera"},
                 &Rafters::count, count_show),
          output("positions", "x_i",
                 {"centers of the rafters from the ridge's start",
                  "centros de los cabrios desde el inicio de la cumbrera"},
                 &Rafters::positions, inches_show),
          output("nearest-rafter", "x_n",
                 {"center of the nearest rafter", "centro del cabrio más cercano"},
                 &Rafters::nearest_rafter, inches_show),
          output("miss", "d",
                 {"distance from the nearest rafter's center",
                  "distancia al centro del cabrio más cercano"},
                 &Rafters::miss, inches_show),
          word_output("hit", {"hit or miss", "acierto o fallo"}, &Rafters::hit,
                      {{"hit", {"hits the rafter", "da en el cabrio"}},
                       {"miss", {"misses the rafter", "no da en el cabrio"}}}),
      },
      {
          {"count",
           "floor((ridge-length - first-rafter) / spacing) + 1",
           "",
           {"The first rafter, and one more for every whole spacing behind it.",
            "El primer cabrio, y uno más por cada separación entera que sigue."}},
          {"nearest-rafter",
           "first-rafter + spacing * max(0, min(count - 1, round((position - first-rafter) / "
           "spacing)))",
           "",
           {"Count the spacings from the first rafter to the place, to the nearest whole one.",
            "Cuente las separaciones del primer cabrio al lugar, hasta la entera más cercana."}},
          {"miss",
           "abs(position - nearest-rafter)",
           "",
           {"The rafter is hit where this is no more than half its width.",
            "Da en el cabrio si esto no pasa de la mitad de su ancho."}},
      },
      {
          {"29 CFR 1926.502(d)(15)",
           Status::read,
           {"an anchorage must carry the load, so its nails must be in the frame",
            "el anclaje debe soportar la carga, así que sus clavos deben ir en la estructura"}},
      },
      {
          {"A rafter's place is measured on the roof, not assumed: probe before nailing.",
           "El lugar del cabrio se mide en el techo, no se supone: compruebe antes de clavar."},
          {"A nail close to a rafter's side splits the wood: aim for the center.",
           "Un clavo cerca del costado del cabrio raja la madera: apunte al centro."},
      }};
  return made;
}

}  // namespace

Rafters rafters(const RaftersCase& c) {
  refuse_outside_domain(definition(), c);
  if (c.first_rafter > c.ridge_length)
    throw ToldRefusal("rafters", "first-rafter", "lies beyond the end of the ridge",
                      "queda más allá del final de la cumbrera");
  if (c.position > c.ridge_length)
    throw ToldRefusal("rafters", "position", "lies beyond the end of the ridge",
                      "queda más allá del final de la cumbrera");
  Rafters r{};
  r.count = 1 + whole_below((c.ridge_length - c.first_rafter) / c.spacing);  // (1)
  for (int i = 0; i < r.count; ++i) r.positions.push_back(c.first_rafter + c.spacing * double(i));
  const double spacings = (c.position - c.first_rafter) / c.spacing;
  const double nearest = std::max(0.0, std::min(r.count - 1.0, std::round(spacings)));
  r.nearest_rafter = c.first_rafter + c.spacing * nearest;  // (2)
  r.miss = abs(c.position - r.nearest_rafter);              // (3)
  r.hit = r.miss <= 0.5 * c.rafter_width ? Hit::hit : Hit::miss;
  return r;
}

const Calculation& rafters_calculation() {
  static const Calculation made = make_calculation(definition(), rafters);
  return made;
}

}  // namespace footroom::engine
