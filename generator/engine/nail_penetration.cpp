#include "engine/nail_penetration.hpp"

#include <algorithm>

#include "engine/counting.hpp"

// Notation
//   l              length of the nail
//   D              diameter of the nail's shank
//   t_b, t_c, t_s  thickness of bracket, shingles (cover) and sheathing
//   p              penetration into the rafter

namespace footroom::engine {
namespace {

using Def = Definition<NailPenetrationCase, NailPenetration>;

const Def& definition() {
  static const Def made{
      "nail-penetration",
      {"Penetration of a nail into the rafter", "Penetración de un clavo en el cabrio"},
      {"How much of a nail stands in the rafter after bracket, shingles and sheathing.",
       "Cuánto de un clavo queda en el cabrio después del soporte, las tejas y el entablado."},
      {
          input("nail-length", "l", {"length of the nail", "largo del clavo"},
                &NailPenetrationCase::nail_length, {0.01, 0.3}, short_length_show),
          nail_diameter_input(&NailPenetrationCase::nail_diameter),
          input("bracket-thickness", "t_b",
                {"thickness of the bracket's plate", "grosor de la placa del soporte"},
                &NailPenetrationCase::bracket_thickness, {0, 0.1}, {"in", 3, "mm", 1}),
          optional_input("shingle-thickness", "t_c",
                         {"thickness of the shingles under the bracket",
                          "grosor de las tejas debajo del soporte"},
                         &NailPenetrationCase::shingle_thickness, {0, 0.1}, {"in", 3, "mm", 1}),
          optional_input("sheathing-thickness", "t_s",
                         {"thickness of the sheathing", "grosor del entablado"},
                         &NailPenetrationCase::sheathing_thickness, {0, 0.1}, {"in", 3, "mm", 1}),
      },
      {
          output("penetration", "p",
                 {"penetration of the nail into the rafter", "penetración del clavo en el cabrio"},
                 &NailPenetration::penetration, short_length_show),
          output("diameters", "p_D",
                 {"penetration in nail diameters", "penetración en diámetros del clavo"},
                 &NailPenetration::diameters, {"", 1, "", 1}),
          word_output(
              "state", {"for lateral load", "para carga lateral"}, &NailPenetration::state,
              {{"too-short",
                {"too short: no lateral design value", "muy corta: sin valor de diseño lateral"}},
               {"reduced", {"reduced lateral design value", "valor de diseño lateral reducido"}},
               {"full", {"full lateral design value", "valor de diseño lateral completo"}}}),
      },
      {
          {"penetration",
           "max(0 in, nail-length - bracket-thickness - shingle-thickness - sheathing-thickness)",
           "",
           {"Only what is left of the nail stands in the rafter.",
            "En el cabrio solo entra lo que queda del clavo."}},
          {"diameters",
           "penetration / nail-diameter",
           "",
           {"Lateral design values need 10 diameters; from 6 to 10 they are reduced; under 6 there "
            "is none.",
            "Los valores laterales exigen 10 diámetros; de 6 a 10 se reducen; con menos de 6 no "
            "hay valor."}},
      },
      {
          {"NDS 2018 (National Design Specification for Wood Construction), 12.1.6 and table 12N",
           Status::second_hand,
           {"6 and 10 diameters", "6 y 10 diámetros"}},
      },
      {nail_caution}};
  return made;
}

}  // namespace

NailPenetration nail_penetration(const NailPenetrationCase& c) {
  refuse_outside_domain(definition(), c);
  NailPenetration r{};
  r.penetration = std::max(0.0 * si::metre, c.nail_length - c.bracket_thickness -
                                                c.shingle_thickness - c.sheathing_thickness);
  r.diameters = whole_if_near(r.penetration / c.nail_diameter);
  r.state = r.diameters < 6.0    ? PenetrationState::too_short
            : r.diameters < 10.0 ? PenetrationState::reduced
                                 : PenetrationState::full;
  return r;
}

const Calculation& nail_penetration_calculation() {
  static const Calculation made = make_calculation(definition(), nail_penetration);
  return made;
}

}  // namespace footroom::engine
