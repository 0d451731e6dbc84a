#include "engine/free_fall_motion.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   z      drop
//   t      time
//   v      speed at the end

namespace footroom::engine {
namespace {

using Def = Definition<FreeFallMotionCase, FreeFallMotion>;

const Def& definition() {
  static const Def made{
      "free-fall-motion",
      {"Time and speed of a free fall", "Tiempo y velocidad de una caída libre"},
      {"How long a free fall lasts and how fast it gets.",
       "Cuánto dura una caída libre y qué velocidad alcanza."},
      {
          input("drop", "z", {"drop", "altura de la caída"}, &FreeFallMotionCase::drop, {0, 100},
                feet_show),
      },
      {
          output("time", "t", {"time", "tiempo"}, &FreeFallMotion::time, time_show),
          output("speed", "v", {"speed at the end", "velocidad al final"}, &FreeFallMotion::speed,
                 speed_show),
      },
      {
          {"time",
           "sqrt(2 * drop / g)",
           "",
           {"From rest, the drop grows with the square of the time.",
            "Desde el reposo, la caída crece con el cuadrado del tiempo."}},
          {"speed",
           "sqrt(2 * g * drop)",
           "",
           {"The height lost turns into speed.", "La altura perdida se vuelve velocidad."}},
      },
      {
          {{"uniform acceleration at standard gravity (3rd CGPM 1901)",
            "aceleración uniforme con la gravedad normal (3.ª CGPM, 1901)"},
           Status::computed,
           {"all of it", "todo el cálculo"}},
      },
      {
          {"Air resistance is left out: from a roof it hardly slows the fall.",
           "No cuenta la resistencia del aire: desde un techo casi no frena la caída."},
      }};
  return made;
}

}  // namespace

FreeFallMotion free_fall_motion(const FreeFallMotionCase& c) {
  refuse_outside_domain(definition(), c);
  FreeFallMotion r{};
  r.time = sqrt(2.0 * c.drop / standard_gravity);   // (1)
  r.speed = sqrt(2.0 * standard_gravity * c.drop);  // (2)
  return r;
}

const Calculation& free_fall_motion_calculation() {
  static const Calculation made = make_calculation(definition(), free_fall_motion);
  return made;
}

}  // namespace footroom::engine
