#include "engine/travel_restraint_length.hpp"

#include <algorithm>

// Notation
//   L    anchor to eave, along the slope
//   x_r  anchor to the nearest rake
//   m    margin kept from every edge
//   c    length of the connectors
//   d    nearest edge
//   T    longest line

namespace footroom::engine {
namespace {

using Def = Definition<TravelRestraintCase, TravelRestraint>;

const Def& definition() {
  constexpr Show feet{"ft", 1, "m", 2};
  static const Def made{
      "travel-restraint-length",
      {"Line for travel restraint", "Cuerda para restricción de desplazamiento"},
      {"The longest line with which the worker cannot reach any edge.",
       "La cuerda más larga con la que el trabajador no llega a ningún borde."},
      {
          input("to-eave", "L",
                {"anchor to eave, along the slope", "del anclaje al alero, por la pendiente"},
                &TravelRestraintCase::to_eave, {0.3, 60}, feet),
          optional_input("to-rake", "x_r",
                         {"anchor to the nearest rake", "del anclaje al borde lateral más cercano"},
                         &TravelRestraintCase::to_rake, {0.3, 100}, feet),
          input("margin", "m", {"margin kept from every edge", "margen que se guarda a cada borde"},
                &TravelRestraintCase::margin, {0, 10}, feet),
          optional_input("connectors", "c",
                         {"length of lanyard and D-ring extension",
                          "largo de la cuerda de seguridad y la extensión del anillo en D"},
                         &TravelRestraintCase::connectors, {0, 5}, feet),
      },
      {
          output("nearest-edge", "d",
                 {"distance to the nearest edge", "distancia al borde más cercano"},
                 &TravelRestraint::nearest_edge, feet),
          output("longest-line", "T", {"longest line", "cuerda más larga"},
                 &TravelRestraint::longest_line, feet),
          word_output("restraint",
                      {"restraint from this anchor is", "la restricción desde aquí es"},
                      &TravelRestraint::restraint,
                      {{"possible", {"possible", "posible"}},
                       {"impossible",
                        {"impossible: too near an edge", "imposible: muy cerca de un borde"}}}),
      },
      {
          {"nearest-edge",
           "min(to-eave, to-rake)",
           "",
           {"The nearest edge decides, in whatever direction.",
            "Decide el borde más cercano, en cualquier dirección."}},
          {"longest-line",
           "nearest-edge - margin - connectors",
           "",
           {"Lanyard and margin are part of the reach.",
            "La cuerda de seguridad y el margen cuentan en el alcance."}},
      },
      {{{"margin from the edge", "margen desde el borde"},
        Status::common_practice,
        {"the margin is an input", "el margen es un dato"}}},
      {{"An adjustable line restrains only while it is set to that length.",
        "Una cuerda ajustable solo restringe mientras está ajustada a ese largo."}}};
  return made;
}

}  // namespace

TravelRestraint travel_restraint_length(const TravelRestraintCase& c) {
  refuse_outside_domain(definition(), c);
  TravelRestraint r{};
  r.nearest_edge = std::min(c.to_eave, c.to_rake);
  r.longest_line = r.nearest_edge - c.margin - c.connectors;
  r.restraint = r.longest_line.value() > 0 ? Restraint::possible : Restraint::impossible;
  return r;
}

const Calculation& travel_restraint_length_calculation() {
  static const Calculation made = make_calculation(definition(), travel_restraint_length);
  return made;
}

}  // namespace footroom::engine
