#include "engine/line_then_absorber.hpp"

#include <algorithm>

#include "engine/absorber.hpp"
#include "engine/elastic_line.hpp"
#include "engine/shared_inputs.hpp"

// Notation
//   W        weight of the person with tools
//   FF       free fall
//   k        stiffness of the line
//   F        average force of the absorber
//   X_max    most that it can tear out
//   F_el     elastic peak: of the line alone
//   E_r      energy remaining when the absorber has bottomed out
//   F_peak   peak force
//   e        stretch of the line
//   X        elongation of the absorber
//   S        total stopping distance

namespace footroom::engine {
namespace {

using Def = Definition<LineThenAbsorberCase, LineThenAbsorber>;

const Def& definition() {
  static const Def made{
      "line-then-absorber",
      {"Elastic line with an energy absorber", "Cuerda elástica con absorbedor de energía"},
      {"Whether the absorber opens at all, and what line and absorber give on the way to a stop.",
       "Si el absorbedor llega a abrirse, y cuánto ceden la cuerda y el absorbedor hasta parar."},
      {
          weight_input(&LineThenAbsorberCase::weight),
          free_fall_input(&LineThenAbsorberCase::free_fall),
          input("stiffness", "k", {"stiffness of the line", "rigidez de la cuerda"},
                &LineThenAbsorberCase::stiffness, {100, 1e7}, stiffness_show),
          absorber_force_input(&LineThenAbsorberCase::force),
          maximum_elongation_input(&LineThenAbsorberCase::maximum_elongation),
      },
      {
          output("elastic-peak", "F_el",
                 {"peak force of the line alone", "fuerza máxima de la cuerda sola"},
                 &LineThenAbsorber::elastic_peak, force_show),
          word_output("deploys", {"does the absorber open", "¿se abre el absorbedor?"},
                      &LineThenAbsorber::deploys,
                      {{"deploys", {"opens", "se abre"}},
                       {"stays-closed", {"stays closed", "queda cerrado"}},
                       {"bottoms-out", {"opens and bottoms out", "se abre y se agota"}}}),
          output("remaining-energy", "E_r",
                 {"energy left to the line where the absorber bottoms out (0: it does not)",
                  "energía que le queda a la cuerda si el absorbedor se agota (0: no se agota)"},
                 &LineThenAbsorber::remaining_energy, energy_show),
          output("peak-force", "F_peak", {"peak force", "fuerza máxima"},
                 &LineThenAbsorber::peak_force, force_show),
          output("stretch", "e", {"stretch of the line", "estiramiento de la cuerda"},
                 &LineThenAbsorber::stretch, feet_show),
          output("elongation", "X", {"elongation of the absorber", "alargamiento del absorbedor"},
                 &LineThenAbsorber::elongation, feet_show),
          output("total-stopping", "S", {"total stopping distance", "distancia total de parada"},
                 &LineThenAbsorber::total_stopping, feet_show),
      },
      {
          {"elastic-peak",
           "weight + sqrt(weight ^ 2 + 2 * weight * stiffness * free-fall)",
           "",
           {"If the line alone stopped the fall it would reach this peak; the absorber opens only "
            "where it exceeds the absorber's force.",
            "Si la cuerda sola detuviera la caída llegaría a este máximo; el absorbedor se abre "
            "solo si este supera su fuerza."}},
          {"remaining-energy",
           "max(0 J, weight * (free-fall + force / stiffness + maximum-elongation) - force ^ 2 / "
           "(2 * "
           "stiffness) - force * maximum-elongation)",
           "deploys == \"bottoms-out\"",
           {"What line and absorber have not taken up when the absorber is torn out.",
            "Lo que la cuerda y el absorbedor no han recibido cuando este se ha abierto del "
            "todo."}},
          {"peak-force",
           "elastic-peak",
           "deploys == \"stays-closed\"",
           {"The absorber stays closed: the line alone stops the fall.",
            "El absorbedor queda cerrado: la cuerda sola detiene la caída."}},
          {"peak-force",
           "force",
           "deploys == \"deploys\"",
           {"The absorber opens and holds its force.",
            "El absorbedor se abre y mantiene su fuerza."}},
          {"peak-force",
           "weight + sqrt((force - weight) ^ 2 + 2 * stiffness * remaining-energy)",
           "deploys == \"bottoms-out\"",
           {"The rest of the energy stretches the line further, beyond the absorber's force.",
            "El resto de la energía estira más la cuerda, por encima de la fuerza del "
            "absorbedor."}},
          {"stretch",
           "peak-force / stiffness",
           "",
           {"Force over stiffness is the stretch of the line.",
            "Fuerza entre rigidez es el estiramiento de la cuerda."}},
          {"elongation",
           "max(0 ft, (weight * (free-fall + stretch) - stiffness * stretch ^ 2 / 2) / (force - "
           "weight))",
           "deploys == \"deploys\"",
           {"The absorber takes up what the stretched line has not.",
            "El absorbedor recibe lo que no ha guardado la cuerda estirada."}},
          {"elongation",
           "0 ft",
           "deploys == \"stays-closed\"",
           {"The absorber gives nothing.", "El absorbedor no cede nada."}},
          {"elongation",
           "maximum-elongation",
           "deploys == \"bottoms-out\"",
           {"It is torn out to its end.", "Se ha abierto hasta el final."}},
          {"total-stopping",
           "stretch + elongation",
           "",
           {"Both add up on the way down.", "Ambos se suman en la bajada."}},
      },
      {
          {{"energy balance with a linear spring and a constant force",
            "balance de energía con un resorte lineal y una fuerza constante"},
           Status::computed,
           {"all of it", "todo el cálculo"}},
          {{"OSHA interpretation letter, 9 February 1995",
            "carta de interpretación de OSHA, 9 de febrero de 1995"},
           Status::read,
           {"stretch of the line is no part of the deceleration distance",
            "el estiramiento de la cuerda no es parte de la distancia de desaceleración"}},
      },
      {
          {"The stretch of the line counts for the clearance, not for the deceleration limit.",
           "El estiramiento de la cuerda cuenta para el espacio libre de caída, no para el límite "
           "de desaceleración."},
          {"An absorber that bottoms out no longer limits the force.",
           "Un absorbedor que se agota ya no limita la fuerza."},
      }};
  return made;
}

}  // namespace

LineThenAbsorber line_then_absorber(const LineThenAbsorberCase& c) {
  refuse_outside_domain(definition(), c);
  refuse_weak_absorber("line-then-absorber", c.force, c.weight);
  LineThenAbsorber r{};
  r.elastic_peak = elastic_peak(c.weight, c.stiffness, c.free_fall);  // (1)
  if (r.elastic_peak <= c.force) {
    r.deploys = Deploys::stays_closed;
    r.peak_force = r.elastic_peak;  // (2)
  } else {
    r.deploys = Deploys::deploys;
    r.peak_force = c.force;  // (3)
    const Length stretch = c.force / c.stiffness;
    const Energy left = c.weight * (c.free_fall + stretch) - c.stiffness * stretch * stretch / 2.0;
    r.elongation = std::max(0.0 * si::metre, Length(left / (c.force - c.weight)));  // (4)
  }
  if (r.elongation > c.maximum_elongation) {
    r.deploys = Deploys::bottoms_out;
    r.elongation = c.maximum_elongation;  // (5)
    r.remaining_energy = c.weight * (c.free_fall + c.force / c.stiffness + c.maximum_elongation) -
                         c.force * c.force / (2.0 * c.stiffness) -
                         c.force * c.maximum_elongation;  // (6)
    r.remaining_energy = std::max(0.0 * si::joule, r.remaining_energy);
    const Force excess = c.force - c.weight;
    r.peak_force =
        c.weight + sqrt(excess * excess + 2.0 * c.stiffness * r.remaining_energy);  // (7)
  }
  r.stretch = r.peak_force / c.stiffness;       // (8)
  r.total_stopping = r.stretch + r.elongation;  // (9)
  return r;
}

const Calculation& line_then_absorber_calculation() {
  static const Calculation made = make_calculation(definition(), line_then_absorber);
  return made;
}

}  // namespace footroom::engine
