#include "engine/absorber.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   W      weight of the person with tools
//   FF     free fall
//   F      average force of the absorber
//   X      elongation needed
//   X_max  most that it can tear out
//   z      fall distance
//   E      energy taken up
//   E_r    energy remaining

namespace footroom::engine {
namespace {

using Def = Definition<AbsorberCase, Absorber>;

const Def& definition() {
  static const Def made{
      "absorber",
      {"Energy absorber", "Absorbedor de energía"},
      {"How far an energy absorber tears open to stop a fall, and whether it is long enough.",
       "Cuánto se abre un absorbedor de energía para detener una caída, y si le alcanza el largo."},
      {
          weight_input(&AbsorberCase::weight),
          free_fall_input(&AbsorberCase::free_fall),
          absorber_force_input(&AbsorberCase::force),
          maximum_elongation_input(&AbsorberCase::maximum_elongation),
      },
      {
          output("elongation", "X",
                 {"elongation needed for the stop", "alargamiento necesario para la detención"},
                 &Absorber::elongation, feet_show),
          output("fall-distance", "z",
                 {"fall distance: free fall and elongation",
                  "distancia de caída: caída libre y alargamiento"},
                 &Absorber::fall_distance, feet_show),
          output("energy", "E",
                 {"energy taken up by the absorber", "energía que recibe el absorbedor"},
                 &Absorber::energy, energy_show),
          output("remaining-energy", "E_r",
                 {"energy remaining (0: the absorber is long enough)",
                  "energía restante (0: el absorbedor alcanza)"},
                 &Absorber::remaining_energy, energy_show),
          word_output(
              "state", {"does the absorber suffice", "¿alcanza el absorbedor?"}, &Absorber::state,
              {{"within-elongation", {"within its elongation", "dentro de su alargamiento"}},
               {"bottoms-out", {"bottoms out: too short", "se agota: le falta largo"}}}),
      },
      {
          {"elongation",
           "weight * free-fall / (force - weight)",
           "",
           {"The weight works over free fall and elongation, the absorber over the elongation "
            "alone; both works are equal.",
            "El peso trabaja en la caída libre y el alargamiento, el absorbedor solo en el "
            "alargamiento; ambos trabajos son iguales."}},
          {"fall-distance",
           "free-fall + elongation",
           "state == \"within-elongation\"",
           {"The D-ring goes down the free fall and the elongation.",
            "El anillo en D baja la caída libre y el alargamiento."}},
          {"fall-distance",
           "free-fall + maximum-elongation",
           "state == \"bottoms-out\"",
           {"The absorber tears out to its end and has not stopped the fall yet.",
            "El absorbedor se abre hasta el final y aún no ha detenido la caída."}},
          {"energy",
           "force * elongation",
           "state == \"within-elongation\"",
           {"Force times elongation is the energy taken up.",
            "Fuerza por alargamiento es la energía recibida."}},
          {"energy",
           "force * maximum-elongation",
           "state == \"bottoms-out\"",
           {"It takes up no more than force times its whole elongation.",
            "No recibe más que la fuerza por todo su alargamiento."}},
          {"remaining-energy",
           "weight * fall-distance - energy",
           "state == \"bottoms-out\"",
           {"The rest of the fall's energy comes as a hard jerk.",
            "El resto de la energía de la caída llega como un tirón brusco."}},
      },
      {
          {{"energy balance", "balance de energía"},
           Status::computed,
           {"W (FF + X) = F X", "W (FF + X) = F X"}},
          {{"ANSI/ASSP Z359.13, absorber for 6 ft of free fall",
            "ANSI/ASSP Z359.13, absorbedor para 6 ft de caída libre"},
           Status::second_hand,
           {"average force at most 900 lbf", "fuerza media de 900 lbf como máximo"}},
          {"EN 355",
           Status::second_hand,
           {"arrest force at most 6 kN with 100 kg and 4 m",
            "fuerza de detención de 6 kN como máximo con 100 kg y 4 m"}},
      },
      {
          {"An absorber that bottoms out passes on a force that no limit covers: shorten the free "
           "fall or take one made for it.",
           "Un absorbedor que se agota transmite una fuerza que ningún límite cubre: acorte la "
           "caída libre o use uno hecho para ella."},
          {"Without the maker's maximum elongation the verdict says little: give it.",
           "Sin el alargamiento máximo del fabricante el veredicto dice poco: indíquelo."},
      }};
  return made;
}

}  // namespace

void refuse_weak_absorber(std::string_view calculation, Force force, Force weight) {
  const Domain able{weight.value(), arrest_force_domain.highest, false};
  if (!able.contains(force.value()))
    throw OutOfDomain(std::string(calculation), "force", erase_type(force), able);
}

Absorber absorber(const AbsorberCase& c) {
  refuse_outside_domain(definition(), c);
  refuse_weak_absorber("absorber", c.force, c.weight);
  Absorber r{};
  r.elongation = c.weight * c.free_fall / (c.force - c.weight);  // (1)
  if (r.elongation <= c.maximum_elongation) {
    r.state = AbsorberEnd::within_elongation;
    r.fall_distance = c.free_fall + r.elongation;  // (2)
    r.energy = c.force * r.elongation;             // (3)
  } else {
    r.state = AbsorberEnd::bottoms_out;
    r.fall_distance = c.free_fall + c.maximum_elongation;        // (4)
    r.energy = c.force * c.maximum_elongation;                   // (5)
    r.remaining_energy = c.weight * r.fall_distance - r.energy;  // (6)
  }
  return r;
}

const Calculation& absorber_calculation() {
  static const Calculation made = make_calculation(definition(), absorber);
  return made;
}

}  // namespace footroom::engine
