#include "engine/ladder_for_landing.hpp"

#include "engine/ladder.hpp"
#include "engine/shared_inputs.hpp"

// Notation
//   H      height of the landing
//   q      foot from the wall, part of the working length
//   u      rails above the landing, vertically
//   w      working length along the rails
//   f      foot from the wall
//   R      length of the rails

namespace footroom::engine {
namespace {

using Def = Definition<LadderForLandingCase, LadderForLanding>;

const Def& definition() {
  static const Def made{
      "ladder-for-landing",
      {"Ladder for a landing", "Escalera para un descanso"},
      {"Which ladder a landing of a given height needs, and where its foot belongs.",
       "Qué escalera necesita un descanso de cierta altura, y dónde va el pie."},
      {
          input("landing-height", "H", {"height of the landing", "altura del descanso"},
                &LadderForLandingCase::landing_height, {0.5, 25}, feet_show),
          foot_ratio_input(&LadderForLandingCase::foot_ratio),
          above_landing_input(&LadderForLandingCase::above_landing),
      },
      {
          output("working-length", "w",
                 {"working length along the rails", "largo de trabajo por los largueros"},
                 &LadderForLanding::working_length, feet_show),
          output("foot-distance", "f", {"foot from the wall", "distancia del pie a la pared"},
                 &LadderForLanding::foot_distance, feet_show),
          output("rail-length", "R", {"length of the rails", "largo de los largueros"},
                 &LadderForLanding::rail_length, feet_show),
      },
      {
          {"working-length",
           "landing-height / sqrt(1 - foot-ratio ^ 2)",
           "",
           {"Wall, ground and ladder form a right triangle whose foot is a set part of its long "
            "side.",
            "Pared, suelo y escalera forman un triángulo rectángulo cuyo pie es una parte fija de "
            "su lado largo."}},
          {"foot-distance",
           "working-length * foot-ratio",
           "",
           {"The foot stands this part of the working length from the wall.",
            "El pie va a esta parte del largo de trabajo desde la pared."}},
          {"rail-length",
           "(landing-height + above-landing) / sqrt(1 - foot-ratio ^ 2)",
           "",
           {"The rails go on at the same slant to their height above the landing.",
            "Los largueros siguen con la misma inclinación hasta su altura sobre el descanso."}},
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
          {"Sections of an extension ladder overlap: the length on the label is not the length in "
           "use.",
           "Los tramos de una escalera de extensión se traslapan: el largo de la etiqueta no es el "
           "largo en uso."},
      }};
  return made;
}

}  // namespace

LadderForLanding ladder_for_landing(const LadderForLandingCase& c) {
  refuse_outside_domain(definition(), c);
  const Ratio slant = rails_over_height(c.foot_ratio);
  LadderForLanding r{};
  r.working_length = c.landing_height * slant;                   // (1)
  r.foot_distance = r.working_length * c.foot_ratio;             // (2)
  r.rail_length = (c.landing_height + c.above_landing) * slant;  // (3)
  return r;
}

const Calculation& ladder_for_landing_calculation() {
  static const Calculation made = make_calculation(definition(), ladder_for_landing);
  return made;
}

}  // namespace footroom::engine
