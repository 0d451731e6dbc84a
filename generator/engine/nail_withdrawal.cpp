#include "engine/nail_withdrawal.hpp"

#include "engine/told_refusal.hpp"

// Notation
//   G     specific gravity of the rafter
//   D     diameter of the nail's shank
//   p     penetration into the rafter
//   n     number of nails
//   W     reference design value per length of penetration
//   C_D   load duration factor
//   C_M   wet service factor
//   C_tn  toe-nail factor
//   W'    adjusted design value per length of penetration
//   P_u   ultimate withdrawal of one nail

namespace footroom::engine {
namespace {

using Def = Definition<NailWithdrawalCase, NailWithdrawal>;

const Def& definition() {
  constexpr Show per_length{"lbf/in", 1, "kN/m", 2};
  static const Def made{
      "nail-withdrawal",
      {"Nails pulled straight out", "Clavos arrancados en línea recta"},
      {"The handbook's design value of plain-shank nails in withdrawal from side grain.",
       "El valor de diseño del manual para clavos lisos que se arrancan de la madera, clavados "
       "perpendicular a la fibra."},
      {
          specific_gravity_input(&NailWithdrawalCase::specific_gravity),
          nail_diameter_input(&NailWithdrawalCase::nail_diameter),
          nail_penetration_input(&NailWithdrawalCase::penetration),
          nails_input(&NailWithdrawalCase::nails),
          load_duration_input(&NailWithdrawalCase::load_duration),
          moisture_input(&NailWithdrawalCase::moisture),
          driving_input(&NailWithdrawalCase::driving),
          optional_word_input("grain",
                              {"grain the nail stands in", "fibra en la que entra el clavo"},
                              &NailWithdrawalCase::grain,
                              {{"side", {"side grain", "perpendicular a la fibra"}},
                               {"end", {"end grain", "a lo largo de la fibra (cabeza)"}}}),
      },
      {
          output("reference-per-length", "W",
                 {"design value of one nail per length of penetration",
                  "valor de diseño de un clavo por largo de penetración"},
                 &NailWithdrawal::reference_per_length, per_length),
          output("moisture-factor", "C_M", {"wet service factor", "factor de humedad"},
                 &NailWithdrawal::moisture_factor, factor_show),
          output("toe-nail-factor", "C_tn", {"toe-nail factor", "factor de clavo en ángulo"},
                 &NailWithdrawal::toe_nail_factor, factor_show),
          output("adjusted-per-length", "W_a",
                 {"adjusted design value per length of penetration",
                  "valor de diseño ajustado por largo de penetración"},
                 &NailWithdrawal::adjusted_per_length, per_length),
          output("capacity-per-nail", "P_1",
                 {"design value of one nail", "valor de diseño de un clavo"},
                 &NailWithdrawal::capacity_per_nail, nail_force_show),
          output("capacity", "P",
                 {"design value of all nails", "valor de diseño de todos los clavos"},
                 &NailWithdrawal::capacity, nail_force_show),
          output("ultimate-per-nail", "P_u",
                 {"mean force at which a nail came out in tests",
                  "fuerza media a la que salió un clavo en los ensayos"},
                 &NailWithdrawal::ultimate_per_nail, nail_force_show),
      },
      {
          {"reference-per-length",
           "1380 psi * specific-gravity ^ 2.5 * nail-diameter",
           "",
           {"Dense wood and a thick shank hold better.",
            "La madera densa y el vástago grueso agarran mejor."}},
          {"moisture-factor",
           "if(moisture == \"wet\", 0.25, 1)",
           "",
           {"Wood that was wet or gets wet holds a quarter.",
            "La madera que estuvo o estará mojada agarra la cuarta parte."}},
          {"toe-nail-factor",
           "if(driving == \"toe-nailed\", 0.67, 1)",
           "",
           {"A toe-nail counts for two thirds in withdrawal.",
            "Un clavo en ángulo cuenta dos tercios al arranque."}},
          {"adjusted-per-length",
           "reference-per-length * load-duration * moisture-factor * toe-nail-factor",
           "",
           {"The factors change the table's value to the conditions at hand.",
            "Los factores ajustan el valor de la tabla a las condiciones reales."}},
          {"capacity-per-nail",
           "adjusted-per-length * penetration",
           "",
           {"Only the length in the rafter holds.", "Solo agarra el largo que está en el cabrio."}},
          {"capacity",
           "nails * capacity-per-nail",
           "",
           {"The nails share the pull.", "Los clavos se reparten el tirón."}},
          {"ultimate-per-nail",
           "6900 psi * specific-gravity ^ 2.5 * nail-diameter * penetration",
           "",
           {"Tests on the average gave five times the design value; single nails scatter widely.",
            "Los ensayos dieron en promedio cinco veces el valor de diseño; los clavos sueltos "
            "varían mucho."}},
      },
      {
          {"NDS 2018 (National Design Specification for Wood Construction), equation 12.2-3 and "
           "table 12.2C",
           Status::second_hand,
           {"withdrawal per length of penetration", "extracción por largo de penetración"}},
          {"NDS 2018, 11.3 and 12.5.4",
           Status::read,
           {"load duration at most 1.6; wet 0.25; toe-nail 0.67; no withdrawal from end grain",
            "duración de carga 1.6 como máximo; húmedo 0.25; clavo oblicuo 0.67; sin extracción de "
            "la testa"}},
          {"Forest Products Laboratory, Research Note FPL-093 (1965)",
           Status::read,
           {"ultimate withdrawal", "extracción última"}},
      },
      {nail_caution}};
  return made;
}

}  // namespace

NailWithdrawal nail_withdrawal(const NailWithdrawalCase& c) {
  refuse_outside_domain(definition(), c);
  refuse_impact_duration(definition().id, c.load_duration);
  if (c.grain == Grain::end)
    throw ToldRefusal(
        "nail-withdrawal", "grain",
        "is end, expected side: nails in end grain may not be loaded in withdrawal (NDS "
        "2018, 12.2.3)",
        "es de punta; se espera de lado: los clavos en la punta de la fibra no deben cargarse a "
        "extracción (NDS 2018, 12.2.3)");
  NailWithdrawal r{};
  r.reference_per_length = nail_withdrawal_per_length(c.specific_gravity, c.nail_diameter);
  r.moisture_factor = c.moisture == Moisture::wet ? 0.25 : 1.0;       // NDS table 11.3.3
  r.toe_nail_factor = c.driving == Driving::toe_nailed ? 0.67 : 1.0;  // NDS 12.5.4.1
  r.adjusted_per_length =
      r.reference_per_length * c.load_duration * r.moisture_factor * r.toe_nail_factor;
  r.capacity_per_nail = r.adjusted_per_length * c.penetration;
  r.capacity = double(c.nails) * r.capacity_per_nail;
  r.ultimate_per_nail = 6900.0 * pound_force_per_square_inch *
                        std::pow(c.specific_gravity.value(), 2.5) * c.nail_diameter *
                        c.penetration;  // FPL-093
  return r;
}

const Calculation& nail_withdrawal_calculation() {
  static const Calculation made = make_calculation(definition(), nail_withdrawal);
  return made;
}

}  // namespace footroom::engine
