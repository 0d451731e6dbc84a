#include "engine/ladder.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   w      working length along the rails
//   q      foot from the wall, part of the working length
//   u      rails above the landing, vertically
//   f      foot from the wall
//   alpha  angle with the ground
//   H      height of the top support
//   R      length of the rails

namespace footroom::engine {
namespace {

using Def = Definition<LadderCase, Ladder>;

const Def& definition() {
  static const Def made{
      "ladder",
      {"Foot and rails of a ladder", "Pie y largueros de una escalera"},
      {"How far from the wall the foot of a ladder belongs, and how long the rails must be.",
       "A qué distancia de la pared va el pie de una escalera, y cuánto deben medir los "
       "largueros."},
      {
          input("working-length", "w",
                {"working length: along the rails, from foot to top support",
                 "largo de trabajo: por los largueros, del pie al apoyo superior"},
                &LadderCase::working_length, {1, 25}, feet_show),
          foot_ratio_input(&LadderCase::foot_ratio),
          above_landing_input(&LadderCase::above_landing),
      },
      {
          output("foot-distance", "f", {"foot from the wall", "distancia del pie a la pared"},
                 &Ladder::foot_distance, feet_show),
          output("angle", "alpha",
                 {"angle of the ladder with the ground", "ángulo de la escalera con el suelo"},
                 &Ladder::angle, degrees_show),
          output("support-height", "H", {"height of the top support", "altura del apoyo superior"},
                 &Ladder::support_height, feet_show),
          output("rail-length", "R", {"length of the rails", "largo de los largueros"},
                 &Ladder::rail_length, feet_show),
      },
      {
          {"foot-distance",
           "working-length * foot-ratio",
           "",
           {"The foot stands this part of the working length from the wall.",
            "El pie va a esta parte del largo de trabajo desde la pared."}},
          {"angle",
           "acos(foot-distance / working-length)",
           "",
           {"Foot distance over working length is the cosine of the angle.",
            "La distancia del pie entre el largo de trabajo es el coseno del ángulo."}},
          {"support-height",
           "sqrt(working-length ^ 2 - foot-distance ^ 2)",
           "",
           {"Wall, ground and ladder form a right triangle.",
            "Pared, suelo y escalera forman un triángulo rectángulo."}},
          {"rail-length",
           "working-length + above-landing * working-length / support-height",
           "",
           {"Above the landing the rails go on at the same slant.",
            "Sobre el descanso los largueros siguen con la misma inclinación."}},
      },
      {
          {"29 CFR 1926.1053(b)(5)(i)",
           Status::read,
           {"foot at a quarter of the working length", "pie a un cuarto del largo de trabajo"}},
          {"29 CFR 1926.1053(b)(1)",
           Status::second_hand,
           {"rails 3 ft above the landing", "largueros 3 ft sobre el descanso"}},
      },
      {
          ladder_caution,
      }};
  return made;
}

}  // namespace

Ratio rails_over_height(Ratio foot_ratio) {
  return 1.0 / sqrt(1.0 - foot_ratio * foot_ratio);
}

Ladder ladder(const LadderCase& c) {
  refuse_outside_domain(definition(), c);
  Ladder r{};
  r.foot_distance = c.working_length * c.foot_ratio;                                     // (1)
  r.angle = acos(Ratio(r.foot_distance / c.working_length));                             // (2)
  r.support_height = c.working_length / rails_over_height(c.foot_ratio);                 // (3)
  r.rail_length = c.working_length + c.above_landing * rails_over_height(c.foot_ratio);  // (4)
  return r;
}

const Calculation& ladder_calculation() {
  static const Calculation made = make_calculation(definition(), ladder);
  return made;
}

}  // namespace footroom::engine
