#include "engine/missed_rafter.hpp"

// Notation
//   G_s, G  specific gravity of sheathing and rafter
//   t_s     thickness of the sheathing
//   D       diameter of the nail's shank
//   p       penetration into the rafter
//   n       number of nails
//   P_s, P  design value of the nails in sheathing and rafter

namespace footroom::engine {
namespace {

using Def = Definition<MissedRafterCase, MissedRafter>;

const Def& definition() {
  static const Def made{
      "missed-rafter",
      {"Nails that missed the rafter", "Clavos que no dieron en el cabrio"},
      {"What is left of the holding when a bracket's nails stand in the sheathing only.",
       "Cuánto agarre queda cuando los clavos de un soporte están solo en el entablado."},
      {
          optional_input("sheathing-specific-gravity", "G_s",
                         {"specific gravity of the sheathing", "gravedad específica del entablado"},
                         &MissedRafterCase::sheathing_specific_gravity, {0.31, 0.73}, factor_show),
          input("sheathing-thickness", "t_s",
                {"thickness of the sheathing", "grosor del entablado"},
                &MissedRafterCase::sheathing_thickness, {0.003, 0.1}, {"in", 3, "mm", 1}),
          specific_gravity_input(&MissedRafterCase::specific_gravity),
          nail_diameter_input(&MissedRafterCase::nail_diameter),
          nail_penetration_input(&MissedRafterCase::penetration),
          nails_input(&MissedRafterCase::nails),
      },
      {
          output("in-sheathing", "P_s",
                 {"withdrawal design value in the sheathing",
                  "valor de diseño al arranque en el entablado"},
                 &MissedRafter::in_sheathing, nail_force_show),
          output(
              "in-rafter", "P",
              {"withdrawal design value in the rafter", "valor de diseño al arranque en el cabrio"},
              &MissedRafter::in_rafter, nail_force_show),
          output("share", "q",
                 {"sheathing's part of the rafter's value",
                  "parte del valor del cabrio que da el entablado"},
                 &MissedRafter::share, {"percent", 0, "percent", 0}),
      },
      {
          {"in-sheathing",
           "nails * 1380 psi * sheathing-specific-gravity ^ 2.5 * nail-diameter * "
           "sheathing-thickness",
           "",
           {"The sheathing's thickness is all the penetration there is.",
            "El grosor del entablado es toda la penetración que hay."}},
          {"in-rafter",
           "nails * 1380 psi * specific-gravity ^ 2.5 * nail-diameter * penetration",
           "",
           {"In the rafter the whole penetration holds.",
            "En el cabrio agarra toda la penetración."}},
          {"share",
           "in-sheathing / in-rafter",
           "",
           {"What is left when the nails miss the rafter.",
            "Lo que queda cuando los clavos no dan en el cabrio."}},
      },
      {
          {"NDS 2018 (National Design Specification for Wood Construction), equation 12.2-3",
           Status::second_hand,
           {"withdrawal per length of penetration", "extracción por largo de penetración"}},
          {"NDS 2018, table 12.3.3B",
           Status::from_memory,
           {"specific gravity 0.42 of panels", "gravedad específica 0.42 de los tableros"}},
      },
      {nail_caution,
       {"An anchor nailed into sheathing alone is no anchor: move it to a rafter.",
        "Un anclaje clavado solo en el entablado no es anclaje: páselo a un cabrio."}}};
  return made;
}

}  // namespace

MissedRafter missed_rafter(const MissedRafterCase& c) {
  refuse_outside_domain(definition(), c);
  const double n = c.nails;
  MissedRafter r{};
  r.in_sheathing = n * nail_withdrawal_per_length(c.sheathing_specific_gravity, c.nail_diameter) *
                   c.sheathing_thickness;
  r.in_rafter = n * nail_withdrawal_per_length(c.specific_gravity, c.nail_diameter) * c.penetration;
  r.share = r.in_sheathing / r.in_rafter;
  return r;
}

const Calculation& missed_rafter_calculation() {
  static const Calculation made = make_calculation(definition(), missed_rafter);
  return made;
}

}  // namespace footroom::engine
