#include "engine/hip_length.hpp"

// Notation
//   theta  pitch of both slopes
//   r      run of the common rafter
//   H      rise
//   r_h    run of the hip or valley
//   R_h    its length; phi its angle

namespace footroom::engine {
namespace {

using Def = Definition<HipLengthCase, HipLength>;

const Def& definition() {
  constexpr Show feet{"ft", 2, "m", 2};
  static const Def made{
      "hip-length",
      {"Hip or valley rafter", "Lima tesa o lima hoya"},
      {"Length and slope of a hip or valley rafter where two equal pitches meet at a right angle.",
       "Largo e inclinación de una lima tesa o lima hoya donde dos pendientes iguales se juntan en "
       "ángulo recto."},
      {
          input("pitch", "theta", {"roof angle", "ángulo del techo"}, &HipLengthCase::pitch,
                {0, 80 * M_PI / 180}, {"pitch", 0, "deg", 1}),
          input("run", "r", {"run of the common rafter", "proyección horizontal del cabrio"},
                &HipLengthCase::run, {0.1, 60}, feet),
      },
      {
          output("rise", "H", {"rise", "subida"}, &HipLength::rise, feet),
          output("plan-run", "r_h",
                 {"run of the hip or valley", "proyección horizontal de la lima"},
                 &HipLength::plan_run, feet),
          output("length", "R_h", {"length of the hip or valley", "largo de la lima"},
                 &HipLength::length, feet),
          output("angle", "phi",
                 {"angle of the hip or valley to the level", "ángulo de la lima con la horizontal"},
                 &HipLength::angle, {"deg", 1, "deg", 1}),
      },
      {
          {"rise",
           "run * tan(pitch)",
           "",
           {"The hip climbs as high as the common rafter.",
            "La lima sube lo mismo que el cabrio común."}},
          {"plan-run",
           "run * sqrt(2)",
           "",
           {"Seen from above it runs across a square: 16.97 for every 12, in any unit.",
            "Vista desde arriba cruza un cuadrado: 16.97 por cada 12, en cualquier unidad."}},
          {"length",
           "hypot(plan-run, rise)",
           "",
           {"The long side of that triangle.", "El lado largo de ese triángulo."}},
          {"angle",
           "atan(rise / plan-run)",
           "",
           {"The same rise over a longer run: a hip is less steep than the roof.",
            "La misma subida en más recorrido: la lima es menos inclinada que el techo."}},
      },
      {{{"plane trigonometry; unit run 16.97 in as on the framing square",
         "trigonometría plana; recorrido unitario de 16.97 in como en la escuadra"},
        Status::from_memory,
        {"run of the hip", "recorrido de la lima"}}},
      {}};
  return made;
}

}  // namespace

HipLength hip_length(const HipLengthCase& c) {
  refuse_outside_domain(definition(), c);
  HipLength r{};
  r.rise = c.run * double(tan(c.pitch));
  r.plan_run = c.run * M_SQRT2;
  r.length = hypot(r.plan_run, r.rise);
  r.angle = std::atan2(r.rise.value(), r.plan_run.value()) * si::radian;
  return r;
}

const Calculation& hip_length_calculation() {
  static const Calculation made = make_calculation(definition(), hip_length);
  return made;
}

}  // namespace footroom::engine
