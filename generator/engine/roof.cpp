#include "engine/roof.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   theta  roof angle
//   p      pitch as given
//   m      rise in a run of 12
//   r      run
//   k      slope factor
//   R      rafter length
//   H      height of the ridge over the eave

namespace footroom::engine {
namespace {

using Def = Definition<RoofCase, Roof>;

const Def& definition() {
  static const Def made{
      "roof",
      {"Pitch, rafter and height of a roof", "Pendiente, cabrio y altura de un techo"},
      {"Angle, slope factor, rafter length and ridge height of a roof from pitch and run, and "
       "whether it counts as low-slope or steep.",
       "Ángulo, factor de pendiente, largo del cabrio y altura de la cumbrera de un techo según "
       "su pendiente y su recorrido horizontal, y si cuenta como de poca pendiente o empinado."},
      {
          input("pitch", "p", {"pitch of the roof", "pendiente del techo"}, &RoofCase::pitch,
                pitch_domain, pitch_show),
          input("run", "r",
                {"run: horizontal, from ridge to eave",
                 "recorrido horizontal, de la cumbrera al alero"},
                &RoofCase::run, slope_length_domain, feet_show),
          limit_input(
              "low-slope", "p_low",
              {"steepest low-slope roof", "mayor inclinación de un techo de poca pendiente"},
              &RoofCase::low_slope, pitch_domain, pitch_show, "low-slope"),
      },
      {
          output("unit-rise", "m", {"rise in a run of 12", "subida en un recorrido de 12"},
                 &Roof::unit_rise, {"", 1, "", 2}),
          output("angle", "theta", {"roof angle", "ángulo del techo"}, &Roof::angle, degrees_show),
          output("slope-factor", "k", {"slope factor", "factor de pendiente"}, &Roof::slope_factor,
                 factor_of_slope_show),
          output("rafter-length", "R", {"rafter length", "largo del cabrio"}, &Roof::rafter_length,
                 feet_show),
          output("ridge-height", "H",
                 {"height of the ridge over the eave", "altura de la cumbrera sobre el alero"},
                 &Roof::ridge_height, feet_show),
          word_output("kind", {"kind of roof", "tipo de techo"}, &Roof::kind,
                      {{"low-slope", {"low-slope", "de poca pendiente"}},
                       {"steep", {"steep", "empinado"}}}),
      },
      {
          {"unit-rise",
           "12 * tan(pitch)",
           "",
           {"A pitch is the rise in a run of 12.",
            "La pendiente es la subida en un recorrido de 12."}},
          {"angle",
           "atan(unit-rise / 12)",
           "",
           {"Rise over run is the tangent of the roof angle.",
            "La subida entre el recorrido es la tangente del ángulo del techo."}},
          {"slope-factor",
           "sqrt(1 + (unit-rise / 12) ^ 2)",
           "",
           {"For each unit of run, the slope is the long side of a right triangle.",
            "Por cada unidad de recorrido, la pendiente es el lado largo de un triángulo "
            "rectángulo."}},
          {"rafter-length",
           "run * slope-factor",
           "",
           {"Run times slope factor is the length along the slope.",
            "El recorrido por el factor de pendiente es el largo sobre la pendiente."}},
          {"ridge-height",
           "run * unit-rise / 12",
           "",
           {"The ridge stands the rise of the whole run above the eave.",
            "La cumbrera está sobre el alero lo que sube el recorrido entero."}},
      },
      {
          {{"29 CFR 1926.500(b), low-slope roof and steep roof",
            "29 CFR 1926.500(b), techo de poca y de mucha pendiente"},
           Status::second_hand,
           {"low-slope up to 4:12, steep above",
            "poca pendiente hasta 4:12, mucha pendiente desde ahí"}},
          {"US Navy NAVEDTRA 14044 and US Army EN0069A, rafter tables",
           Status::read,
           {"length along the slope for each foot of run",
            "largo por la pendiente por cada pie de recorrido"}},
      },
      {
          {"The rafter length is the theoretical one: add the overhang, deduct half the ridge "
           "board.",
           "El largo del cabrio es el teórico: sume el vuelo y reste la mitad de la tabla de "
           "cumbrera."},
      }};
  return made;
}

}  // namespace

Ratio slope_factor(Ratio rise_over_run) {
  return sqrt(1.0 + rise_over_run * rise_over_run);
}

Roof roof(const RoofCase& c) {
  refuse_outside_domain(definition(), c);
  Roof r{};
  r.unit_rise = 12.0 * tan(c.pitch);                  // (1)
  r.angle = atan(Ratio(r.unit_rise / 12.0));          // (2)
  r.slope_factor = slope_factor(r.unit_rise / 12.0);  // (3)
  r.rafter_length = c.run * r.slope_factor;           // (4)
  r.ridge_height = c.run * r.unit_rise / 12.0;        // (5)
  r.kind = c.pitch <= c.low_slope ? RoofKind::low_slope : RoofKind::steep;
  return r;
}

const Calculation& roof_calculation() {
  static const Calculation made = make_calculation(definition(), roof);
  return made;
}

}  // namespace footroom::engine
