#include "engine/largest_slack.hpp"

#include "engine/shared_inputs.hpp"
#include "engine/told_refusal.hpp"

// Notation
//   L         slope length, anchor to eave edge
//   theta     roof angle
//   h         height of the dorsal D-ring over the feet
//   FF_max    limit of the free fall
//   d_0       taut line: straight from the anchor to the D-ring
//   b         line below the edge at the limit
//   sigma_max largest slack

namespace footroom::engine {
namespace {

using Def = Definition<LargestSlackCase, LargestSlack>;

const Def& definition() {
  static const Def made{
      "largest-slack",
      {"Largest slack for a free-fall limit", "Mayor holgura para un límite de caída libre"},
      {"How much slack the line may have at the eave for the free fall to stay within a limit.",
       "Cuánta holgura puede tener la cuerda en el alero para que la caída libre no pase de un "
       "límite."},
      {
          slope_length_input(&LargestSlackCase::slope_length),
          pitch_input(&LargestSlackCase::pitch),
          d_ring_height_input(&LargestSlackCase::d_ring_height),
          limit_input("free-fall-limit", "FF_max",
                      {"free fall, at most", "caída libre, como máximo"},
                      &LargestSlackCase::free_fall_limit, free_fall_domain, feet_show, "free-fall"),
      },
      {
          output("taut-line", "d_0", {"taut line", "cuerda tensa"}, &LargestSlack::taut_line,
                 feet_show),
          output("below-edge", "b",
                 {"line below the edge at the limit", "cuerda debajo del borde en el límite"},
                 &LargestSlack::below_edge, feet_show),
          output("slack-for-free-fall", "sigma_max",
                 {"largest slack (negative: even a taut line is too long)",
                  "mayor holgura (negativa: hasta la cuerda tensa es demasiado larga)"},
                 &LargestSlack::slack_for_free_fall, feet_show),
      },
      {
          {"taut-line",
           "hypot(slope-length * cos(pitch), d-ring-height - slope-length * sin(pitch))",
           "",
           {"The taut line runs straight from the anchor to the D-ring.",
            "La cuerda tensa va recta del anclaje al anillo en D."}},
          {"below-edge",
           "free-fall-limit - d-ring-height",
           "free-fall-limit >= d-ring-height",
           {"The D-ring first comes down its height; what is left of the limit may hang below the "
            "edge.",
            "El anillo en D primero baja su altura; lo que queda del límite puede colgar debajo "
            "del borde."}},
          {"below-edge",
           "(free-fall-limit - d-ring-height) / sin(pitch)",
           "free-fall-limit < d-ring-height",
           {"The limit is less than the D-ring's height: the line must stop the fall upslope of "
            "the edge.",
            "El límite es menor que la altura del anillo en D: la cuerda debe detener la caída "
            "antes del borde."}},
          {"slack-for-free-fall",
           "below-edge + slope-length - taut-line",
           "",
           {"The line may be as long as slope and hanging part together; the taut line uses up "
            "its share.",
            "La cuerda puede medir lo que suman la pendiente y la parte que cuelga; la cuerda "
            "tensa ocupa lo suyo."}},
      },
      {
          {{"29 CFR 1926.500(b), free fall", "29 CFR 1926.500(b), caída libre"},
           Status::second_hand,
           {"what counts as free fall", "qué cuenta como caída libre"}},
          {"29 CFR 1926.502(d)(16)(iii)",
           Status::read,
           {"the limit of the free fall", "el límite de la caída libre"}},
      },
      {
          {"Valid on the anchor's fall line only; away from it take off the eave swing.",
           "Vale solo en la línea de máxima pendiente del anclaje; fuera de ella reste el péndulo "
           "por el alero."},
          {"The free fall must also end above any lower level: work out the clearance.",
           "Además, la caída no debe alcanzar un nivel inferior: calcule el espacio libre de "
           "caída."},
      }};
  return made;
}

}  // namespace

LargestSlack largest_slack(const LargestSlackCase& c) {
  refuse_outside_domain(definition(), c);
  LargestSlack r{};
  r.taut_line = hypot(c.slope_length * cos(c.pitch),
                      c.d_ring_height - c.slope_length * sin(c.pitch));  // (1)
  r.below_edge = c.free_fall_limit - c.d_ring_height;                    // (2)
  if (c.free_fall_limit < c.d_ring_height) {
    if (!(c.slope_length * sin(c.pitch) >= -r.below_edge))
      throw ToldRefusal(
          "largest-slack", "free-fall-limit",
          "cannot be kept on this roof: the D-ring's height exceeds it by more than the "
          "slope descends",
          "no se puede cumplir en este techo: la altura del anillo en D lo excede por más de lo "
          "que baja la pendiente");
    r.below_edge = r.below_edge / sin(c.pitch);  // (3)
  }
  r.slack_for_free_fall = r.below_edge + c.slope_length - r.taut_line;  // (4)
  return r;
}

const Calculation& largest_slack_calculation() {
  static const Calculation made = make_calculation(definition(), largest_slack);
  return made;
}

}  // namespace footroom::engine
