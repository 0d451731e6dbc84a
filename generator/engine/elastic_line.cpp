#include "engine/elastic_line.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   W        weight of the person with tools
//   FF       free fall
//   l        length of the line
//   F_t      force in the test, epsilon the elongation at it
//   k        stiffness
//   F_peak   peak force
//   e        stretch

namespace footroom::engine {
namespace {

using Def = Definition<ElasticLineCase, ElasticLine>;

const Def& definition() {
  static const Def made{
      "elastic-line",
      {"Elastic line without an absorber", "Cuerda elástica sin absorbedor"},
      {"Peak force and stretch when a line alone stops the fall.",
       "Fuerza máxima y estiramiento cuando la cuerda sola detiene la caída."},
      {
          weight_input(&ElasticLineCase::weight),
          free_fall_input(&ElasticLineCase::free_fall),
          input("line-length", "l", {"length of the line", "largo de la cuerda"},
                &ElasticLineCase::line_length, {0.3, 100}, feet_show),
          input("test-force", "F_t",
                {"force at which the line's elongation is stated",
                 "fuerza a la que se indica el alargamiento de la cuerda"},
                &ElasticLineCase::test_force, {100, 100000}, force_show),
          input("test-elongation", "epsilon",
                {"elongation at that force, part of the length",
                 "alargamiento a esa fuerza, parte del largo"},
                &ElasticLineCase::test_elongation, {0.001, 1}, {"percent", 1, "percent", 1}),
      },
      {
          output("stiffness", "k", {"stiffness of the line", "rigidez de la cuerda"},
                 &ElasticLine::stiffness, stiffness_show),
          output("peak-force", "F_peak", {"peak force", "fuerza máxima"}, &ElasticLine::peak_force,
                 force_show),
          output("stretch", "e", {"stretch of the line", "estiramiento de la cuerda"},
                 &ElasticLine::stretch, feet_show),
      },
      {
          {"stiffness",
           "test-force / (test-elongation * line-length)",
           "",
           {"Stiffness is force over stretch; a longer line is softer.",
            "La rigidez es fuerza entre estiramiento; una cuerda más larga es más blanda."}},
          {"peak-force",
           "weight + sqrt(weight ^ 2 + 2 * weight * stiffness * free-fall)",
           "",
           {"At the lowest place the line holds all the energy that the weight gave up.",
            "En el punto más bajo la cuerda guarda toda la energía que cedió el peso."}},
          {"stretch",
           "peak-force / stiffness",
           "",
           {"Force over stiffness is the stretch.", "Fuerza entre rigidez es el estiramiento."}},
      },
      {
          {{"energy balance with a linear spring", "balance de energía con un resorte lineal"},
           Status::computed,
           {"W (FF + e) = k e^2 / 2", "W (FF + e) = k e^2 / 2"}},
      },
      {
          {"Even without any free fall the peak is twice the weight.",
           "Aun sin caída libre la fuerza máxima es el doble del peso."},
          {"Stretch belongs to the clearance, never to the free fall.",
           "El estiramiento cuenta en el espacio libre de caída, nunca en la caída libre."},
          {"Real ropes stiffen as they stretch and lose stretch with use: take an absorber.",
           "Las cuerdas reales se endurecen al estirarse y pierden elasticidad con el uso: use un "
           "absorbedor."},
      }};
  return made;
}

}  // namespace

Force elastic_peak(Force weight, Stiffness stiffness, Length free_fall) {
  return weight + sqrt(weight * weight + 2.0 * weight * stiffness * free_fall);
}

ElasticLine elastic_line(const ElasticLineCase& c) {
  refuse_outside_domain(definition(), c);
  ElasticLine r{};
  r.stiffness = c.test_force / (c.test_elongation * c.line_length);  // (1)
  r.peak_force = elastic_peak(c.weight, r.stiffness, c.free_fall);   // (2)
  r.stretch = r.peak_force / r.stiffness;                            // (3)
  return r;
}

const Calculation& elastic_line_calculation() {
  static const Calculation made = make_calculation(definition(), elastic_line);
  return made;
}

}  // namespace footroom::engine
