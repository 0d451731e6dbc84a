#include "engine/nail_combined.hpp"

// Notation
//   W      adjusted withdrawal design value of the nails (W'p)
//   Z      adjusted lateral design value of the nails (Z')
//   alpha  angle between the load and the wood's surface
//   Z_a    design value along the load (Z'_alpha)

namespace footroom::engine {
namespace {

using Def = Definition<NailCombinedCase, NailCombined>;

const Def& definition() {
  static const Def made{
      "nail-combined",
      {"Nails pulled at an angle", "Clavos cargados en ángulo"},
      {"The handbook's design value of nails under a load between straight out and across.",
       "El valor de diseño del manual para clavos con una carga entre el arranque y la lateral."},
      {
          input("withdrawal-capacity", "W",
                {"adjusted design value straight out", "valor de diseño ajustado al arranque"},
                &NailCombinedCase::withdrawal_capacity, {0, 1e6, false}, nail_force_show),
          input("lateral-capacity", "Z",
                {"adjusted design value across the shank", "valor de diseño ajustado lateral"},
                &NailCombinedCase::lateral_capacity, {0, 1e6, false}, nail_force_show),
          input("load-angle", "alpha",
                {"angle between the load and the wood's surface",
                 "ángulo entre la carga y la superficie de la madera"},
                &NailCombinedCase::load_angle, {0, M_PI / 2}, {"deg", 0, "deg", 0}),
      },
      {
          output("capacity", "Z_alpha",
                 {"design value along the load", "valor de diseño en la dirección de la carga"},
                 &NailCombined::capacity, nail_force_show),
      },
      {
          {"capacity",
           "withdrawal-capacity * lateral-capacity / (withdrawal-capacity * cos(load-angle) + "
           "lateral-capacity * sin(load-angle))",
           "",
           {"What withdrawal uses up is missing across, in proportion.",
            "Lo que consume el arranque le falta a la carga lateral, en proporción."}},
      },
      {
          {"NDS 2018 (National Design Specification for Wood Construction), 12.4.2",
           Status::second_hand,
           {"linear interaction for nails", "interacción lineal para clavos"}},
      },
      {nail_caution}};
  return made;
}

}  // namespace

NailCombined nail_combined(const NailCombinedCase& c) {
  refuse_outside_domain(definition(), c);
  const Force W = c.withdrawal_capacity;
  const Force Z = c.lateral_capacity;
  const double lateral_part = cos(c.load_angle);
  const double withdrawal_part = sin(c.load_angle);
  return {W * Z / (W * lateral_part + Z * withdrawal_part)};  // NDS 2018 (12.4-2)
}

const Calculation& nail_combined_calculation() {
  static const Calculation made = make_calculation(definition(), nail_combined);
  return made;
}

}  // namespace footroom::engine
