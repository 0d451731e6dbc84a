#include "engine/clearance_check.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   C      clearance needed
//   C_a    clearance available
//   S      spare

namespace footroom::engine {
namespace {

using Def = Definition<ClearanceCheckCase, ClearanceCheck>;

const Def& definition() {
  static const Def made{
      "clearance-check",
      {"Is the clearance enough?", "¿Alcanza el espacio libre de caída?"},
      {"What is spare of the clearance, or missing.",
       "Cuánto sobra del espacio libre de caída, o cuánto falta."},
      {
          input("needed", "C", {"clearance needed", "espacio libre de caída necesario"},
                &ClearanceCheckCase::needed, {-5, 200}, feet_show),
          input("available", "C_a", {"clearance available", "espacio libre de caída disponible"},
                &ClearanceCheckCase::available, {-5, 1000}, feet_show),
      },
      {
          output(
              "spare", "S",
              {"spare clearance (negative: missing)", "espacio libre que sobra (negativo: falta)"},
              &ClearanceCheck::spare, feet_show),
          word_output(
              "verdict", {"verdict", "veredicto"}, &ClearanceCheck::verdict,
              {{"enough", {"enough", "alcanza"}}, {"too-little", {"too little", "no alcanza"}}}),
      },
      {
          {"spare",
           "available - needed",
           "",
           {"It is enough where nothing is missing.", "Alcanza si no falta nada."}},
      },
      {
          {"29 CFR 1926.502(d)(16)(iii)",
           Status::read,
           {"no contact with a lower level", "sin contacto con un nivel inferior"}},
      },
      {
          {"Both must be measured from the same datum.",
           "Ambos deben medirse desde el mismo nivel de referencia."},
      }};
  return made;
}

}  // namespace

ClearanceCheck clearance_check(const ClearanceCheckCase& c) {
  refuse_outside_domain(definition(), c);
  ClearanceCheck r{};
  r.spare = c.available - c.needed;  // (1)
  r.verdict = r.spare >= 0.0 * si::metre ? Verdict::enough : Verdict::too_little;
  return r;
}

const Calculation& clearance_check_calculation() {
  static const Calculation made = make_calculation(
      definition(), static_cast<ClearanceCheck (*)(const ClearanceCheckCase&)>(clearance_check));
  return made;
}

}  // namespace footroom::engine
