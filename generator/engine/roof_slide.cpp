#include "engine/roof_slide.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   theta  roof angle
//   mu     coefficient of friction
//   d      distance to the eave along the slope
//   a      acceleration along the slope
//   v      speed at the eave
//   t      time to the eave

namespace footroom::engine {
namespace {

/// A pull down the slope that exceeds the friction by less is taken to equal it.
constexpr double rounding_errors = 1e-12;

using Def = Definition<RoofSlideCase, RoofSlide>;

const Def& definition() {
  static const Def made{
      "roof-slide",
      {"Sliding down the roof", "Resbalar por el techo"},
      {"Whether a load on the slope slides, and its speed at the eave.",
       "Si una carga en la pendiente resbala, y su velocidad en el alero."},
      {
          pitch_input(&RoofSlideCase::pitch),
          input("friction", "mu", {"coefficient of friction", "coeficiente de fricción"},
                &RoofSlideCase::friction, {0, 2}, {"", 2, "", 2}),
          input("distance", "d",
                {"distance to the eave along the slope", "distancia al alero sobre la pendiente"},
                &RoofSlideCase::distance, {0, 60, false}, feet_show),
      },
      {
          word_output("sliding", {"does it slide", "¿resbala?"}, &RoofSlide::sliding,
                      {{"slides", {"slides", "resbala"}}, {"stays", {"stays", "se queda"}}}),
          output("acceleration", "a",
                 {"acceleration along the slope (0: it stays)",
                  "aceleración sobre la pendiente (0: se queda)"},
                 &RoofSlide::acceleration, {"ft/s2", 1, "m/s2", 2}),
          output("speed", "v",
                 {"speed at the eave (0: it stays)", "velocidad en el alero (0: se queda)"},
                 &RoofSlide::speed, speed_show),
          output("time", "t",
                 {"time to the eave (0: it stays)", "tiempo hasta el alero (0: se queda)"},
                 &RoofSlide::time, time_show),
      },
      {
          {"acceleration",
           "g * (sin(pitch) - friction * cos(pitch))",
           "sliding == \"slides\"",
           {"It slides, since the tangent of the roof angle is more than the coefficient of "
            "friction: the pull down the slope exceeds the friction.",
            "Resbala, pues la tangente del ángulo del techo es mayor que el coeficiente de "
            "fricción: el tirón cuesta abajo supera la fricción."}},
          {"speed",
           "sqrt(2 * acceleration * distance)",
           "sliding == \"slides\"",
           {"From rest, the speed grows with the root of the distance.",
            "Desde el reposo, la velocidad crece con la raíz de la distancia."}},
          {"time",
           "sqrt(2 * distance / acceleration)",
           "sliding == \"slides\"",
           {"This is all the time there is to grab hold.",
            "Es todo el tiempo que hay para agarrarse."}},
      },
      {
          {{"mechanics of the inclined plane with Coulomb friction",
            "mecánica del plano inclinado con fricción de Coulomb"},
           Status::computed,
           {"all of it", "todo el cálculo"}},
      },
      {
          {"The coefficient of friction is assumed: no authoritative value for shoes on shingles "
           "is known, and dust, moss, frost and wear change it.",
           "El coeficiente de fricción es supuesto: no se conoce un valor oficial para calzado "
           "sobre tejas asfálticas, y el polvo, el musgo, la escarcha y el desgaste lo cambian."},
      }};
  return made;
}

}  // namespace

RoofSlide roof_slide(const RoofSlideCase& c) {
  refuse_outside_domain(definition(), c);
  RoofSlide r{};
  r.sliding = Sliding::stays;
  const Ratio excess = sin(c.pitch) - c.friction * cos(c.pitch);
  if (excess > rounding_errors) {
    r.sliding = Sliding::slides;
    r.acceleration = standard_gravity * excess;         // (1)
    r.speed = sqrt(2.0 * r.acceleration * c.distance);  // (2)
    r.time = sqrt(2.0 * c.distance / r.acceleration);   // (3)
  }
  return r;
}

const Calculation& roof_slide_calculation() {
  static const Calculation made = make_calculation(definition(), roof_slide);
  return made;
}

}  // namespace footroom::engine
