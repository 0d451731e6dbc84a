#include "engine/roof_area.hpp"

#include "engine/roof.hpp"
#include "engine/shared_inputs.hpp"

// Notation
//   theta  roof angle
//   e      length of the eave
//   r      run
//   k      slope factor
//   A_p    plan area
//   A      area along the slope

namespace footroom::engine {
namespace {

using Def = Definition<RoofAreaCase, RoofArea>;

const Def& definition() {
  static const Def made{
      "roof-area",
      {"Area of one side of a roof", "Área de un lado del techo"},
      {"How large one side of a roof is, seen from above and along the slope.",
       "Cuánto mide un lado del techo, visto desde arriba y sobre la pendiente."},
      {
          pitch_input(&RoofAreaCase::pitch),
          input("eave-length", "e", {"length of the eave", "largo del alero"},
                &RoofAreaCase::eave_length, {0.1, 200}, feet_show),
          input("run", "r",
                {"run: horizontal, from ridge to eave",
                 "recorrido horizontal, de la cumbrera al alero"},
                &RoofAreaCase::run, slope_length_domain, feet_show),
      },
      {
          output("slope-factor", "k", {"slope factor", "factor de pendiente"},
                 &RoofArea::slope_factor, factor_of_slope_show),
          output("plan-area", "A_p", {"area seen from above", "área vista desde arriba"},
                 &RoofArea::plan_area, area_show),
          output("slope-area", "A", {"area along the slope", "área sobre la pendiente"},
                 &RoofArea::slope_area, area_show),
      },
      {
          {"slope-factor",
           "sqrt(1 + tan(pitch) ^ 2)",
           "",
           {"For each unit of run, the slope is the long side of a right triangle.",
            "Por cada unidad de recorrido, la pendiente es el lado largo de un triángulo "
            "rectángulo."}},
          {"plan-area",
           "eave-length * run",
           "",
           {"From above, the side is a rectangle of eave and run.",
            "Desde arriba, el lado es un rectángulo de alero y recorrido."}},
          {"slope-area",
           "plan-area * slope-factor",
           "",
           {"The slope stretches it by the slope factor.",
            "La pendiente lo agranda según el factor de pendiente."}},
      },
      {
          {{"plane trigonometry", "trigonometría plana"},
           Status::computed,
           {"all of it", "todo el cálculo"}},
      },
      {
          {"One side only: an ordinary gable roof has two.",
           "Solo un lado: un techo a dos aguas común tiene dos."},
      }};
  return made;
}

}  // namespace

RoofArea roof_area(const RoofAreaCase& c) {
  refuse_outside_domain(definition(), c);
  RoofArea r{};
  r.slope_factor = slope_factor(tan(c.pitch));  // (1)
  r.plan_area = c.eave_length * c.run;          // (2)
  r.slope_area = r.plan_area * r.slope_factor;  // (3)
  return r;
}

const Calculation& roof_area_calculation() {
  static const Calculation made = make_calculation(definition(), roof_area);
  return made;
}

}  // namespace footroom::engine
