#include "engine/arrest_force.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   W      weight of the person with tools
//   FF     free fall
//   S      stopping distance
//   F_avg  average force

namespace footroom::engine {
namespace {

using Def = Definition<ArrestForceCase, ArrestForce>;

const Def& definition() {
  static const Def made{
      "arrest-force",
      {"Average arresting force", "Fuerza media de detención"},
      {"The average force that stops a fall within a given distance.",
       "La fuerza media que detiene una caída en una distancia dada."},
      {
          weight_input(&ArrestForceCase::weight),
          free_fall_input(&ArrestForceCase::free_fall),
          input("stopping-distance", "S",
                {"stopping distance: from taut line to standstill",
                 "distancia de parada: de la cuerda tensa al reposo"},
                &ArrestForceCase::stopping_distance, {0.01, 15}, feet_show),
      },
      {
          output("average-force", "F_avg", {"average arresting force", "fuerza media de detención"},
                 &ArrestForce::average_force, force_show),
      },
      {
          {"average-force",
           "weight * (free-fall + stopping-distance) / stopping-distance",
           "",
           {"The weight works over the whole way down, the stopping force over its own distance "
            "alone.",
            "El peso trabaja en toda la bajada; la fuerza que detiene, solo en su propia "
            "distancia."}},
      },
      {
          {{"energy balance", "balance de energía"},
           Status::computed,
           {"W (FF + S) = F S", "W (FF + S) = F S"}},
      },
      {
          {"An average: the peak is higher, twice as high where a spring stops the fall.",
           "Es un promedio: el máximo es mayor, el doble si un resorte detiene la caída."},
      }};
  return made;
}

}  // namespace

ArrestForce arrest_force(const ArrestForceCase& c) {
  refuse_outside_domain(definition(), c);
  ArrestForce r{};
  r.average_force = c.weight * (c.free_fall + c.stopping_distance) / c.stopping_distance;  // (1)
  return r;
}

const Calculation& arrest_force_calculation() {
  static const Calculation made = make_calculation(definition(), arrest_force);
  return made;
}

}  // namespace footroom::engine
