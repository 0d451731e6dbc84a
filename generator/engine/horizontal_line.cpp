#include "engine/horizontal_line.hpp"

// Notation
//   P  load at the middle
//   a  angle of each half below the horizontal
//   T  tension
//   q  amplification

namespace footroom::engine {
namespace {

constexpr Show degrees{"deg", 1, "deg", 1};
constexpr Show force{"lbf", 0, "kN", 2};

const Definition<HorizontalLineCase, HorizontalLine>& definition() {
  static const Definition<HorizontalLineCase, HorizontalLine> made{
      "horizontal-line",
      {"Tension of a horizontal line", "Tensión de una línea horizontal"},
      {"How a line between two anchors multiplies a load at its middle.",
       "Cómo una línea entre dos anclajes multiplica una carga en el medio."},
      {
          input("load", "P", {"load at the middle", "carga en el medio"}, &HorizontalLineCase::load,
                {0, 1e6}, force),
          input("sag-angle", "a", sag_angle_name, &HorizontalLineCase::sag_angle,
                {0.5 * M_PI / 180, M_PI / 2}, degrees),
      },
      {
          output("amplification", "q", {"tension over load", "tensión entre carga"},
                 &HorizontalLine::amplification, {"", 1, "", 1}),
          output("tension", "T", {"tension on each anchor", "tensión en cada anclaje"},
                 &HorizontalLine::tension, force),
      },
      {
          {"amplification",
           "1 / (2 * sin(sag-angle))",
           "",
           {"Each half carries half the load upwards; the flatter it lies, the harder it must "
            "pull.",
            "Cada mitad sostiene media carga hacia arriba; cuanto más plana, más fuerte tira."}},
          {"tension",
           "load * amplification",
           "",
           {"Every anchor gets the whole tension.", "Cada anclaje recibe toda la tensión."}},
      },
      {
          {{"29 CFR 1926 Subpart M, Appendix C", "29 CFR 1926 Subparte M, apéndice C"},
           Status::second_hand,
           {"15 degrees about 2 times the load, 5 degrees about 6 times",
            "15 grados, unas 2 veces la carga; 5 grados, unas 6 veces"}},
          {"29 CFR 1926.502(d)(8)",
           Status::second_hand,
           {"horizontal lifelines under a qualified person, safety factor 2",
            "líneas de vida horizontales a cargo de una persona calificada, factor de seguridad "
            "2"}},
      },
      {{"A horizontal lifeline is designed and supervised by a qualified person; this sum only "
        "shows "
        "why.",
        "Una línea de vida horizontal la diseña y supervisa una persona calificada; esta cuenta "
        "solo muestra por qué."}}};
  return made;
}

}  // namespace

HorizontalLine horizontal_line(const HorizontalLineCase& c) {
  refuse_outside_domain(definition(), c);
  HorizontalLine r{};
  r.amplification = 1 / (2 * double(sin(c.sag_angle)));  // T / P = 1 / (2 sin a)
  r.tension = c.load * r.amplification;
  return r;
}

const Calculation& horizontal_line_calculation() {
  static const Calculation made = make_calculation(definition(), horizontal_line);
  return made;
}

}  // namespace footroom::engine
