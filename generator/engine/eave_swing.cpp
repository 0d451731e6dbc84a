#include "engine/eave_swing.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   L      slope length, anchor to eave
//   x      offset along the eave
//   D      diagonal
//   e      extra line below the eave
//   v      speed at the fall line
//   phi    angle of the diagonal from the fall line

namespace footroom::engine {
namespace {

using Def = Definition<EaveSwingCase, EaveSwing>;

const Def& definition() {
  static const Def made{
      "eave-swing",
      {"Swing along the eave", "Péndulo a lo largo del alero"},
      {"How much farther down a fall goes when the worker falls to the side of the anchor's fall "
       "line, and the line slides along the eave.",
       "Cuánto más baja una caída cuando el trabajador cae a un lado de la línea de máxima "
       "pendiente del anclaje, y la cuerda corre por el alero."},
      {
          slope_length_input(&EaveSwingCase::slope_length),
          input("offset", "x",
                {"offset along the eave from the fall line",
                 "desvío por el alero desde la línea de máxima pendiente"},
                &EaveSwingCase::offset, {0, 60}, feet_show),
      },
      {
          output("diagonal", "D",
                 {"diagonal from the anchor to the place of the fall",
                  "diagonal del anclaje al lugar de la caída"},
                 &EaveSwing::diagonal, feet_show),
          output("extra-line", "e",
                 {"extra line below the eave after the swing",
                  "cuerda de más debajo del alero tras el péndulo"},
                 &EaveSwing::extra_line, feet_show),
          output("speed", "v",
                 {"speed at the fall line, at most",
                  "velocidad en la línea de máxima pendiente, como máximo"},
                 &EaveSwing::speed, speed_show),
          output("angle", "phi",
                 {"angle of the line from the fall line",
                  "ángulo de la cuerda con la línea de máxima pendiente"},
                 &EaveSwing::angle, degrees_show),
      },
      {
          {"diagonal",
           "hypot(slope-length, offset)",
           "",
           {"On the roof the line runs diagonally.", "Sobre el techo la cuerda va en diagonal."}},
          {"extra-line",
           "diagonal - slope-length",
           "",
           {"At the fall line the roof uses up the slope length only; the rest comes out below "
            "the eave.",
            "En la línea de máxima pendiente el techo ocupa solo el largo de la pendiente; el "
            "resto sale debajo del alero."}},
          {"speed",
           "sqrt(2 * g * extra-line)",
           "",
           {"The extra drop turns into speed.", "La caída de más se vuelve velocidad."}},
          {"angle",
           "atan(offset / slope-length)",
           "",
           {"Offset over slope length is the tangent of the angle.",
            "El desvío entre el largo de la pendiente es la tangente del ángulo."}},
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
          {"The line saws along the edge as it slides: protect the edge or keep below the anchor.",
           "La cuerda roza el borde al correr: proteja el borde o manténgase debajo del anclaje."},
      }};
  return made;
}

}  // namespace

EaveSwing eave_swing(const EaveSwingCase& c) {
  refuse_outside_domain(definition(), c);
  EaveSwing r{};
  r.diagonal = hypot(c.slope_length, c.offset);           // (1)
  r.extra_line = r.diagonal - c.slope_length;             // (2)
  r.speed = sqrt(2.0 * standard_gravity * r.extra_line);  // (3)
  r.angle = atan(Ratio(c.offset / c.slope_length));       // (4)
  return r;
}

const Calculation& eave_swing_calculation() {
  static const Calculation made = make_calculation(definition(), eave_swing);
  return made;
}

}  // namespace footroom::engine
