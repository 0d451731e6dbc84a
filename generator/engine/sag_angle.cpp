#include "engine/sag_angle.hpp"

#include "engine/horizontal_line.hpp"

// Notation
//   s  span
//   d  sag
//   a  angle of each half below the horizontal
//   l  length of the line

namespace footroom::engine {
namespace {

constexpr Show feet{"ft", 2, "m", 2};

const Definition<SagAngleCase, SagAngle>& definition() {
  static const Definition<SagAngleCase, SagAngle> made{
      "sag-angle",
      {"Sag of a horizontal line", "Flecha de una línea horizontal"},
      {"The angle at which a line sags at its middle, and its length.",
       "El ángulo con que una línea cuelga en el medio, y su largo."},
      {
          input("span", "s", {"span between the anchors", "distancia entre los anclajes"},
                &SagAngleCase::span, {0.5, 100}, feet),
          input("sag", "d", {"sag at the middle, under load", "flecha en el medio, con carga"},
                &SagAngleCase::sag, {0, 50, false}, feet),
      },
      {
          output("sag-angle", "a", sag_angle_name, &SagAngle::sag_angle, {"deg", 1, "deg", 1}),
          output("line-length", "l", {"length of the line", "largo de la línea"},
                 &SagAngle::line_length, feet),
      },
      {
          {"sag-angle",
           "atan(2 * sag / span)",
           "",
           {"Half the span lies level, the sag stands upright.",
            "La mitad de la distancia va a nivel, la flecha va a plomo."}},
          {"line-length",
           "2 * hypot(span / 2, sag)",
           "",
           {"Two equal halves, each the long side of that triangle.",
            "Dos mitades iguales, cada una el lado largo de ese triángulo."}},
      },
      {{{"plane trigonometry", "trigonometría plana"},
        Status::computed,
        {"angle and length", "ángulo y largo"}}},
      {}};
  return made;
}

}  // namespace

SagAngle sag_angle(const SagAngleCase& c) {
  refuse_outside_domain(definition(), c);
  return {std::atan2(2 * c.sag.value(), c.span.value()) * si::radian,
          2.0 * hypot(0.5 * c.span, c.sag)};
}

const Calculation& sag_angle_calculation() {
  static const Calculation made = make_calculation(definition(), sag_angle);
  return made;
}

}  // namespace footroom::engine
