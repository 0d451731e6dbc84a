#include "engine/overhead_swing.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   H      height of the anchor above the D-ring
//   x      offset
//   R      line
//   e      extra clearance
//   v      speed below the anchor
//   phi    angle of the line from the plumb line

namespace footroom::engine {
namespace {

using Def = Definition<OverheadSwingCase, OverheadSwing>;

const Def& definition() {
  static const Def made{
      "overhead-swing",
      {"Swing below an anchor overhead", "Péndulo bajo un anclaje elevado"},
      {"How much clearance a swing adds when the worker falls to the side of an anchor overhead.",
       "Cuánto espacio libre de más pide el péndulo cuando el trabajador cae a un lado de un "
       "anclaje elevado."},
      {
          input(
              "anchor-height", "H",
              {"height of the anchor above the D-ring", "altura del anclaje sobre el anillo en D"},
              &OverheadSwingCase::anchor_height, {0, 30, false}, feet_show),
          input("offset", "x",
                {"horizontal offset from below the anchor",
                 "desvío horizontal desde debajo del anclaje"},
                &OverheadSwingCase::offset, {0, 30}, feet_show),
      },
      {
          output("line", "R",
                 {"line from the anchor to the D-ring", "cuerda del anclaje al anillo en D"},
                 &OverheadSwing::line, feet_show),
          output("extra-clearance", "e",
                 {"extra clearance for the swing", "espacio libre de más para el péndulo"},
                 &OverheadSwing::extra_clearance, feet_show),
          output("speed", "v",
                 {"speed below the anchor, at most", "velocidad debajo del anclaje, como máximo"},
                 &OverheadSwing::speed, speed_show),
          output("angle", "phi",
                 {"angle of the line from the plumb line", "ángulo de la cuerda con la vertical"},
                 &OverheadSwing::angle, degrees_show),
      },
      {
          {"line",
           "hypot(anchor-height, offset)",
           "",
           {"The taut line runs slantwise up to the anchor.",
            "La cuerda tensa sube en diagonal al anclaje."}},
          {"extra-clearance",
           "line - anchor-height",
           "",
           {"Below the anchor the whole line hangs down; before, only its height did.",
            "Debajo del anclaje cuelga toda la cuerda; antes, solo su altura."}},
          {"speed",
           "sqrt(2 * g * extra-clearance)",
           "",
           {"The extra drop turns into speed.", "La caída de más se vuelve velocidad."}},
          {"angle",
           "atan(offset / anchor-height)",
           "",
           {"Offset over height is the tangent of the angle.",
            "El desvío entre la altura es la tangente del ángulo."}},
      },
      {
          {{"plane trigonometry and energy balance", "trigonometría plana y balance de energía"},
           Status::computed,
           {"all of it", "todo el cálculo"}},
          {{"within 30 degrees of the anchor", "a no más de 30 grados del anclaje"},
           Status::common_practice,
           {"what is often kept; 15 and 45 degrees are published too",
            "lo que suele respetarse; también se publican 15 y 45 grados"}},
      },
      {
          upper_bound_of_swing,
          {"Add the slack, the deceleration and the stretch: this is the swing's share alone.",
           "Sume la holgura, la desaceleración y el estiramiento: esta es solo la parte del "
           "péndulo."},
      }};
  return made;
}

}  // namespace

OverheadSwing overhead_swing(const OverheadSwingCase& c) {
  refuse_outside_domain(definition(), c);
  OverheadSwing r{};
  r.line = hypot(c.anchor_height, c.offset);                   // (1)
  r.extra_clearance = r.line - c.anchor_height;                // (2)
  r.speed = sqrt(2.0 * standard_gravity * r.extra_clearance);  // (3)
  r.angle = atan(Ratio(c.offset / c.anchor_height));           // (4)
  return r;
}

const Calculation& overhead_swing_calculation() {
  static const Calculation made = make_calculation(definition(), overhead_swing);
  return made;
}

}  // namespace footroom::engine
