#include "engine/roof_swing.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   a      down the slope from the anchor
//   b      across
//   theta  roof angle
//   R      line
//   c      slide: farther down the slope
//   z      drop
//   v      speed at the fall line

namespace footroom::engine {
namespace {

using Def = Definition<RoofSwingCase, RoofSwing>;

const Def& definition() {
  static const Def made{
      "roof-swing",
      {"Swing on the roof", "Péndulo sobre el techo"},
      {"How far down the slope a worker to the side of the anchor swings on a taut line.",
       "Cuánto baja por la pendiente un trabajador a un lado del anclaje, en péndulo con la "
       "cuerda tensa."},
      {
          input("down", "a", {"down the slope from the anchor", "pendiente abajo desde el anclaje"},
                &RoofSwingCase::down, {0, 60}, feet_show),
          input(
              "across", "b",
              {"across, to the side of the fall line", "a un lado de la línea de máxima pendiente"},
              &RoofSwingCase::across, {0, 60}, feet_show),
          pitch_input(&RoofSwingCase::pitch),
      },
      {
          output("line", "R",
                 {"line from the anchor to the worker", "cuerda del anclaje al trabajador"},
                 &RoofSwing::line, feet_show),
          output("slide", "c",
                 {"farther down the slope after the swing",
                  "cuánto más pendiente abajo tras el péndulo"},
                 &RoofSwing::slide, feet_show),
          output("drop", "z", {"vertical drop of the swing", "bajada vertical del péndulo"},
                 &RoofSwing::drop, feet_show),
          output("speed", "v",
                 {"speed at the fall line, at most",
                  "velocidad en la línea de máxima pendiente, como máximo"},
                 &RoofSwing::speed, speed_show),
      },
      {
          {"line",
           "hypot(down, across)",
           "",
           {"The taut line is the radius of the swing.",
            "La cuerda tensa es el radio del péndulo."}},
          {"slide",
           "line - down",
           "",
           {"The swing ends straight below the anchor, a whole line's length down the slope.",
            "El péndulo acaba justo debajo del anclaje, a todo el largo de la cuerda."}},
          {"drop",
           "slide * sin(pitch)",
           "",
           {"Along the slope times the sine of the roof angle is the vertical drop.",
            "Lo recorrido en la pendiente por el seno del ángulo del techo es la bajada "
            "vertical."}},
          {"speed",
           "sqrt(2 * g * drop)",
           "",
           {"The drop turns into speed.", "La bajada se vuelve velocidad."}},
      },
      {
          {{"plane trigonometry and energy balance", "trigonometría plana y balance de energía"},
           Status::computed,
           {"all of it", "todo el cálculo"}},
      },
      {
          upper_bound_of_swing,
          {"Where the line is longer than the slope below the anchor, the swing leaves the roof "
           "over the eave: work out the eave swing.",
           "Si la cuerda es más larga que la pendiente debajo del anclaje, el péndulo sale del "
           "techo por el alero: calcule el péndulo por el alero."},
      }};
  return made;
}

}  // namespace

RoofSwing roof_swing(const RoofSwingCase& c) {
  refuse_outside_domain(definition(), c);
  RoofSwing r{};
  r.line = hypot(c.down, c.across);                 // (1)
  r.slide = r.line - c.down;                        // (2)
  r.drop = r.slide * sin(c.pitch);                  // (3)
  r.speed = sqrt(2.0 * standard_gravity * r.drop);  // (4)
  return r;
}

const Calculation& roof_swing_calculation() {
  static const Calculation made = make_calculation(definition(), roof_swing);
  return made;
}

}  // namespace footroom::engine
