#include "engine/rake_swing.hpp"

#include <algorithm>

#include "engine/shared_inputs.hpp"
#include "engine/told_refusal.hpp"

// Notation
//   theta  roof angle
//   L      slope length along the rake, ridge to eave
//   x      anchor from the rake
//   s      worker down the slope
//   T      line
//   h      height of the D-ring over the feet
//   FF     free fall
//   c      place of rest: where the line bends over the edge, down the slope
//   b      line below the edge at rest
//   z_0    D-ring over the anchor at the start, z_1 at rest
//   z      drop
//   z_s    drop of the swing
//   v      speed at the place of rest

namespace footroom::engine {
namespace {

using Def = Definition<RakeSwingCase, RakeSwing>;

const Def& definition() {
  static const Def made{
      "rake-swing",
      {"Fall over the rake", "Caída por el borde del hastial"},
      {"Where a worker comes to rest who falls over the sloping edge of the gable, and how far "
       "the D-ring goes down.",
       "Dónde queda colgado un trabajador que cae por el borde inclinado del hastial, y cuánto "
       "baja el anillo en D."},
      {
          pitch_input(&RakeSwingCase::pitch),
          input("slope-length", "L",
                {"slope length along the rake, from ridge to eave",
                 "largo de la pendiente por el borde, de cumbrera a alero"},
                &RakeSwingCase::slope_length, slope_length_domain, feet_show),
          input("anchor-from-rake", "x",
                {"anchor from the rake, along the ridge",
                 "anclaje desde el borde del hastial, por la cumbrera"},
                &RakeSwingCase::anchor_from_rake, {0, 60}, feet_show),
          input("down-slope", "s",
                {"worker down the slope from the ridge",
                 "trabajador, pendiente abajo desde la cumbrera"},
                &RakeSwingCase::down_slope, {0, 60}, feet_show),
          input("line", "T",
                {"line from the anchor to the D-ring", "cuerda del anclaje al anillo en D"},
                &RakeSwingCase::line, {0.3, 100}, feet_show),
          optional_input("d-ring-height", "h", d_ring_height_name, &RakeSwingCase::d_ring_height,
                         d_ring_height_domain, feet_show),
      },
      {
          output("free-fall", "FF",
                 {"free fall until the line takes load",
                  "caída libre hasta que la cuerda recibe carga"},
                 &RakeSwing::free_fall, feet_show),
          output("rest-position", "c",
                 {"place of rest: where the line bends over the edge, down the slope",
                  "lugar de reposo: donde la cuerda dobla sobre el borde, pendiente abajo"},
                 &RakeSwing::rest_position, feet_show),
          output("below-edge", "b",
                 {"line below the edge at rest", "cuerda debajo del borde en reposo"},
                 &RakeSwing::below_edge, feet_show),
          output("start-height", "z_0",
                 {"D-ring above the anchor at the start (negative: below)",
                  "anillo en D sobre el anclaje al inicio (negativo: debajo)"},
                 &RakeSwing::start_height, feet_show),
          output("rest-height", "z_1",
                 {"D-ring above the anchor at rest (negative: below)",
                  "anillo en D sobre el anclaje en reposo (negativo: debajo)"},
                 &RakeSwing::rest_height, feet_show),
          output("drop", "z",
                 {"drop of the D-ring from standing to rest",
                  "bajada del anillo en D, de estar de pie al reposo"},
                 &RakeSwing::drop, feet_show),
          output("swing-drop", "z_s",
                 {"drop that the swing adds to the free fall",
                  "bajada que el péndulo suma a la caída libre"},
                 &RakeSwing::swing_drop, feet_show),
          output("speed", "v",
                 {"speed at the place of rest, at most",
                  "velocidad en el lugar de reposo, como máximo"},
                 &RakeSwing::speed, speed_show),
          word_output(
              "end", {"where the fall ends", "dónde termina la caída"}, &RakeSwing::end,
              {{"below-rake", {"below the rake", "debajo del borde del hastial"}},
               {"at-rake",
                {"at the rake, with the line used up", "junto al borde, con la cuerda agotada"}},
               {"below-eave",
                {"round the corner, below the eave", "tras la esquina, debajo del alero"}}}),
      },
      {
          {"free-fall",
           "d-ring-height + line - hypot(anchor-from-rake, down-slope)",
           "",
           {"The D-ring comes down its height and then as far as the line hangs below the rake.",
            "El anillo en D baja su altura y luego lo que cuelga la cuerda debajo del borde."}},
          {"rest-position",
           "anchor-from-rake * tan(pitch)",
           "end == \"below-rake\"",
           {"The swing ends where sliding on would lift the D-ring as much as the rake descends.",
            "El péndulo termina donde seguir corriendo subiría el anillo en D tanto como baja el "
            "borde."}},
          {"rest-position",
           "sqrt(line ^ 2 - anchor-from-rake ^ 2)",
           "end == \"at-rake\"",
           {"Before that the line is used up: it runs straight from the anchor to the D-ring.",
            "Antes se acaba la cuerda: va recta del anclaje al anillo en D."}},
          {"rest-position",
           "slope-length",
           "end == \"below-eave\"",
           {"The rake ends before that: the line slips round the corner and along the eave.",
            "El borde termina antes: la cuerda pasa la esquina y corre por el alero."}},
          {"below-edge",
           "line - hypot(anchor-from-rake, rest-position)",
           "end == \"below-rake\"",
           {"What the line does not need on the roof hangs below the rake.",
            "Lo que la cuerda no ocupa en el techo cuelga debajo del borde."}},
          {"below-edge",
           "0 ft",
           "end == \"at-rake\"",
           {"No line is left to hang below the rake.",
            "No queda cuerda que cuelgue debajo del borde."}},
          {"below-edge",
           "line - slope-length",
           "end == \"below-eave\"",
           {"What the slope does not use up hangs below the eave.",
            "Lo que la pendiente no ocupa cuelga debajo del alero."}},
          {"start-height",
           "d-ring-height - down-slope * sin(pitch)",
           "",
           {"Standing, the D-ring is its height above the place on the slope.",
            "De pie, el anillo en D está a su altura sobre el lugar en la pendiente."}},
          {"rest-height",
           "-rest-position * sin(pitch) - below-edge",
           "",
           {"At rest it hangs below the edge, which itself lies below the anchor.",
            "En reposo cuelga debajo del borde, que a su vez está debajo del anclaje."}},
          {"drop",
           "start-height - rest-height",
           "",
           {"From standing to rest.", "De estar de pie al reposo."}},
          {"swing-drop",
           "max(0 ft, drop - free-fall)",
           "",
           {"What goes beyond the free fall comes from the swing.",
            "Lo que pasa de la caída libre viene del péndulo."}},
          {"speed",
           "sqrt(2 * g * swing-drop)",
           "",
           {"The drop of the swing turns into speed.",
            "La bajada del péndulo se vuelve velocidad."}},
      },
      {
          {{"plane trigonometry: the lowest place of the D-ring along the rake",
            "trigonometría plana: el punto más bajo del anillo en D a lo largo del borde del "
            "hastial"},
           Status::computed,
           {"all of it", "todo el cálculo"}},
          {{"OSHA Technical Manual, section V, chapter 4, D-ring height of 5 ft",
            "OSHA Technical Manual, sección V, capítulo 4, altura de 5 ft del anillo en D"},
           Status::second_hand,
           {"the fallback of the D-ring height",
            "el valor por defecto de la altura del anillo en D"}},
      },
      {
          upper_bound_of_swing,
          {"A swing under way goes beyond the place of rest, and along the rake it can reach the "
           "corner of the eave.",
           "El péndulo en marcha pasa del lugar de reposo, y por el borde puede llegar a la "
           "esquina del alero."},
          {"The line saws along the rake as it slides: protect the edge.",
           "La cuerda roza el borde al correr: proteja el borde."},
      }};
  return made;
}

}  // namespace

RakeSwing rake_swing(const RakeSwingCase& c) {
  refuse_outside_domain(definition(), c);
  if (c.down_slope > c.slope_length)
    throw ToldRefusal("rake-swing", "down-slope", "lies beyond the eave",
                      "queda más allá del alero");
  if (!(c.line >= hypot(c.anchor_from_rake, c.down_slope)))
    throw ToldRefusal("rake-swing", "line",
                      "does not let the worker over the rake there: the fall ends on the roof",
                      "no deja pasar al trabajador por el borde lateral en ese lugar: la caída "
                      "termina sobre el techo");
  const Length taut_line =
      hypot(c.anchor_from_rake,
            hypot(c.down_slope * cos(c.pitch), c.d_ring_height - c.down_slope * sin(c.pitch)));
  if (!(c.line >= taut_line))
    throw ToldRefusal("rake-swing", "line", "does not reach the D-ring of a worker standing there",
                      "no alcanza el anillo en D de un trabajador parado en ese lugar");
  RakeSwing r{};
  r.free_fall = c.d_ring_height + c.line - hypot(c.anchor_from_rake, c.down_slope);  // (1)

  const Length lowest = c.anchor_from_rake * double(tan(c.pitch));
  const Length used_up = sqrt(c.line * c.line - c.anchor_from_rake * c.anchor_from_rake);
  r.rest_position = std::min({lowest, used_up, c.slope_length});  // (2)
  if (r.rest_position == lowest) {
    r.end = RakeSwingEnd::below_rake;
    r.below_edge = c.line - hypot(c.anchor_from_rake, lowest);  // (3)
  } else if (r.rest_position == used_up) {
    r.end = RakeSwingEnd::at_rake;
  } else {
    r.end = RakeSwingEnd::below_eave;
    r.below_edge = c.line - c.slope_length;  // (4)
  }

  r.start_height = c.d_ring_height - c.down_slope * sin(c.pitch);  // (5)
  r.rest_height = -r.rest_position * sin(c.pitch) - r.below_edge;  // (6)
  r.drop = r.start_height - r.rest_height;                         // (7)
  r.swing_drop = std::max(0.0 * si::metre, r.drop - r.free_fall);  // (8)
  r.speed = sqrt(2.0 * standard_gravity * r.swing_drop);           // (9)
  return r;
}

const Calculation& rake_swing_calculation() {
  static const Calculation made = make_calculation(definition(), rake_swing);
  return made;
}

}  // namespace footroom::engine
