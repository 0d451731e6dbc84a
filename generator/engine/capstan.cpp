#include "engine/capstan.hpp"

// Notation
//   F      force on the one side
//   mu     friction of the line on the edge
//   beta   angle by which the line turns
//   f      factor between the two sides

namespace footroom::engine {
namespace {

using Def = Definition<CapstanCase, Capstan>;

const Def& definition() {
  constexpr Show force{"lbf", 0, "N", 0};
  static const Def made{
      "capstan",
      {"Friction of a line over an edge", "Fricción de una cuerda en un borde"},
      {"How much an edge changes the force in a line that bends around it.",
       "Cuánto cambia un borde la fuerza de una cuerda que lo rodea."},
      {
          input("force", "F", {"force on the one side", "fuerza en un lado"}, &CapstanCase::force,
                {0, 1e6}, force),
          input("friction", "mu", {"friction of the line on the edge", "fricción en el borde"},
                &CapstanCase::friction, {0, 2}, {"", 2, "", 2}),
          input("edge-angle", "beta",
                {"angle by which the line turns", "ángulo que gira la cuerda"},
                &CapstanCase::edge_angle, {0, M_PI}, {"deg", 0, "deg", 0}),
      },
      {
          output("factor", "f", {"factor between the two sides", "factor entre los dos lados"},
                 &Capstan::factor, {"", 2, "", 2}),
          output("least", "F_min",
                 {"least force on the other side that holds",
                  "fuerza mínima del otro lado que sostiene"},
                 &Capstan::least, force),
          output("greatest", "F_max",
                 {"force on the other side at which the line slides",
                  "fuerza del otro lado a la que la cuerda desliza"},
                 &Capstan::greatest, force),
      },
      {
          {"factor",
           "exp(friction * number-of(edge-angle, \"rad\"))",
           "",
           {"Friction grows with the force, so that the factor grows with every degree.",
            "La fricción crece con la fuerza, así que el factor crece con cada grado."}},
          {"least",
           "force / factor",
           "",
           {"The edge carries the rest.", "El borde sostiene el resto."}},
          {"greatest",
           "force * factor",
           "",
           {"To slide the line the other way, the edge must be overcome.",
            "Para deslizar la cuerda hacia el otro lado hay que vencer el borde."}},
      },
      {{{"capstan formula, L. Euler, 1769", "fórmula del cabrestante, L. Euler, 1769"},
        Status::from_memory,
        {"factor", "factor"}}},
      {{"An edge that holds force also cuts: pad it, or use a line rated for edges.",
        "Un borde que sostiene fuerza también corta: protéjalo o use una cuerda apta para "
        "bordes."}}};
  return made;
}

}  // namespace

Capstan capstan(const CapstanCase& c) {
  refuse_outside_domain(definition(), c);
  const Ratio factor = std::exp(c.friction.value() * c.edge_angle.value());
  return {factor, c.force / factor, c.force * factor};
}

const Calculation& capstan_calculation() {
  static const Calculation made = make_calculation(definition(), capstan);
  return made;
}

}  // namespace footroom::engine
