#include "engine/nail_lateral.hpp"

#include <algorithm>
#include <sstream>

#include "engine/told_refusal.hpp"

// Notation (the symbols of the NDS)
//   G, G_s      specific gravity of the rafter (main member) and of a wood side member
//   D           diameter of the nail's shank
//   p           penetration into the rafter
//   l_m, l_s    bearing length in the main and in the side member
//   F_em, F_es  dowel bearing strength of the main and of the side member
//   F_yb        bending yield strength of the nail
//   K_D         reduction term (R_d in the table of equations)
//   R_e, R_t    F_em / F_es and l_m / l_s
//   k_1 k_2 k_3 terms of modes II, III_m, III_s
//   Z, Z'       reference and adjusted design value
//   C_D, C_M, C_tn, C_p  factors: load duration, wet service, toe-nail, penetration

namespace footroom::engine {
namespace {

using Def = Definition<NailLateralCase, NailLateral>;

std::vector<ResultField<NailLateral>> outputs() {
  constexpr Show strength{"psi", 0, "MPa", 1};
  constexpr Show term{"", 3, "", 3};
  const auto mode_force = [](std::string_view id, std::string_view symbol, Text name,
                             Force NailLateral::*field) {
    return output(id, symbol, name, field, nail_force_show);
  };
  return {
      output("main-bearing-strength", "F_em",
             {"bearing strength of the rafter", "resistencia al aplastamiento del cabrio"},
             &NailLateral::main_bearing_strength, strength),
      output("side-bearing-strength", "F_es",
             {"bearing strength of the side member",
              "resistencia al aplastamiento de la pieza lateral"},
             &NailLateral::side_bearing_strength, strength),
      output("bending-yield-strength", "F_yb",
             {"bending yield strength of the nail", "límite de fluencia a flexión del clavo"},
             &NailLateral::bending_yield_strength, strength),
      output("reduction", "K_D", {"reduction term", "término de reducción"},
             &NailLateral::reduction, factor_show),
      output("bearing-length", "l_m",
             {"bearing length in the rafter", "largo de apoyo en el cabrio"},
             &NailLateral::bearing_length, short_length_show),
      output("bearing-ratio", "R_e",
             {"bearing strength of the rafter over the side member's",
              "resistencia del cabrio entre la de la pieza lateral"},
             &NailLateral::bearing_ratio, term),
      output("length-ratio", "R_t",
             {"bearing length in the rafter over the side member's",
              "largo de apoyo en el cabrio entre el de la pieza lateral"},
             &NailLateral::length_ratio, term),
      output("k1", "k_1", {"term of mode II", "término del modo II"}, &NailLateral::k_1, term),
      output("k2", "k_2", {"term of mode III m", "término del modo III m"}, &NailLateral::k_2,
             term),
      output("k3", "k_3", {"term of mode III s", "término del modo III s"}, &NailLateral::k_3,
             term),
      mode_force("mode-im", "Z_Im",
                 {"the rafter crushes under the nail", "el cabrio se aplasta bajo el clavo"},
                 &NailLateral::mode_I_m),
      mode_force(
          "mode-is", "Z_Is",
          {"the side member crushes under the nail", "la pieza lateral se aplasta bajo el clavo"},
          &NailLateral::mode_I_s),
      mode_force(
          "mode-ii", "Z_II",
          {"the straight nail turns and crushes both", "el clavo gira recto y aplasta ambas"},
          &NailLateral::mode_II),
      mode_force("mode-iiim", "Z_IIIm",
                 {"the nail bends in the side member and crushes the rafter",
                  "el clavo se dobla en la pieza lateral y aplasta el cabrio"},
                 &NailLateral::mode_III_m),
      mode_force("mode-iiis", "Z_IIIs",
                 {"the nail bends in the rafter and crushes the side member",
                  "el clavo se dobla en el cabrio y aplasta la pieza lateral"},
                 &NailLateral::mode_III_s),
      mode_force("mode-iv", "Z_IV",
                 {"the nail bends in both members", "el clavo se dobla en ambas piezas"},
                 &NailLateral::mode_IV),
      mode_force("reference", "Z",
                 {"design value of one nail: the least of the six modes",
                  "valor de diseño de un clavo: el menor de los seis modos"},
                 &NailLateral::reference),
      word_output(
          "mode", {"how it gives way", "cómo cede"}, &NailLateral::mode,
          {{"im", {"mode I m: the rafter crushes", "modo I m: se aplasta el cabrio"}},
           {"is", {"mode I s: the side member crushes", "modo I s: se aplasta la pieza lateral"}},
           {"ii",
            {"mode II: the nail turns and crushes both", "modo II: el clavo gira y aplasta ambas"}},
           {"iiim",
            {"mode III m: the nail bends in the side member",
             "modo III m: el clavo se dobla en la pieza lateral"}},
           {"iiis",
            {"mode III s: the nail bends in the rafter",
             "modo III s: el clavo se dobla en el cabrio"}},
           {"iv",
            {"mode IV: the nail bends in both members",
             "modo IV: el clavo se dobla en ambas piezas"}}}),
      output("penetration-factor", "C_p", {"penetration factor", "factor de penetración"},
             &NailLateral::penetration_factor, factor_show),
      output("moisture-factor", "C_M", {"wet service factor", "factor de humedad"},
             &NailLateral::moisture_factor, factor_show),
      output("toe-nail-factor", "C_tn", {"toe-nail factor", "factor de clavo en ángulo"},
             &NailLateral::toe_nail_factor, factor_show),
      mode_force("capacity-per-nail", "Z_1",
                 {"adjusted design value of one nail", "valor de diseño ajustado de un clavo"},
                 &NailLateral::capacity_per_nail),
      mode_force("capacity", "Z_n",
                 {"design value of all nails", "valor de diseño de todos los clavos"},
                 &NailLateral::capacity),
  };
}

std::vector<Step> steps() {
  return {
      {"main-bearing-strength",
       "50 psi * round(16600 * specific-gravity ^ 1.84 / 50)",
       "",
       {"How hard the nail may press on the rafter's wood, to the nearest 50 psi.",
        "Cuánto puede apretar el clavo contra la madera del cabrio, a los 50 psi más cercanos."}},
      {"side-bearing-strength",
       "50 psi * round(16600 * side-specific-gravity ^ 1.84 / 50)",
       "side-material == \"wood\"",
       {"The same for the side member's wood.", "Lo mismo para la madera de la pieza lateral."}},
      {"side-bearing-strength",
       "61850 psi",
       "side-material == \"steel\"",
       {"Sheet steel bears 61,850 psi.", "La lámina de acero soporta 61,850 psi."}},
      {"bending-yield-strength",
       "if(nail-diameter <= 0.142 in, 100000 psi, if(nail-diameter <= 0.177 in, 90000 psi, "
       "80000 psi))",
       "",
       {"Thin nails are of harder wire.", "Los clavos delgados son de alambre más duro."}},
      {"reduction",
       "if(nail-diameter <= 0.17 in, 2.2, 10 * number-of(nail-diameter, \"in\") + 0.5)",
       "",
       {"The reduction keeps the design value far below the yield load.",
        "La reducción deja el valor de diseño muy por debajo de la carga de fluencia."}},
      {"bearing-length",
       "max(penetration, 10 * nail-diameter)",
       "",
       {"The modes are worked out for at least 10 diameters, as in the tables; the penetration "
        "factor below makes up for less.",
        "Los modos se calculan para al menos 10 diámetros, como en las tablas; el factor de "
        "penetración corrige si hay menos."}},
      {"bearing-ratio",
       "main-bearing-strength / side-bearing-strength",
       "",
       {"How much harder the rafter is than the side member.",
        "Cuánto más duro es el cabrio que la pieza lateral."}},
      {"length-ratio",
       "bearing-length / side-thickness",
       "",
       {"How much longer the nail bears in the rafter.",
        "Cuánto más largo se apoya el clavo en el cabrio."}},
      {"k1",
       "(sqrt(bearing-ratio + 2 * bearing-ratio ^ 2 * (1 + length-ratio + length-ratio ^ 2) + "
       "length-ratio ^ 2 * bearing-ratio ^ 3) - bearing-ratio * (1 + length-ratio)) / (1 + "
       "bearing-ratio)",
       "",
       {"A term of mode II.", "Un término del modo II."}},
      {"k2",
       "-1 + sqrt(2 * (1 + bearing-ratio) + 2 * bending-yield-strength * (1 + 2 * bearing-ratio) * "
       "nail-diameter ^ 2 / (3 * main-bearing-strength * bearing-length ^ 2))",
       "",
       {"A term of mode III m.", "Un término del modo III m."}},
      {"k3",
       "-1 + sqrt(2 * (1 + bearing-ratio) / bearing-ratio + 2 * bending-yield-strength * (2 + "
       "bearing-ratio) * nail-diameter ^ 2 / (3 * main-bearing-strength * side-thickness ^ 2))",
       "",
       {"A term of mode III s.", "Un término del modo III s."}},
      {"mode-im",
       "nail-diameter * bearing-length * main-bearing-strength / reduction",
       "",
       {"Mode I m: the rafter crushes.", "Modo I m: se aplasta el cabrio."}},
      {"mode-is",
       "nail-diameter * side-thickness * side-bearing-strength / reduction",
       "",
       {"Mode I s: the side member crushes.", "Modo I s: se aplasta la pieza lateral."}},
      {"mode-ii",
       "k1 * nail-diameter * side-thickness * side-bearing-strength / reduction",
       "",
       {"Mode II: the straight nail turns.", "Modo II: el clavo gira recto."}},
      {"mode-iiim",
       "k2 * nail-diameter * bearing-length * main-bearing-strength / ((1 + 2 * bearing-ratio) * "
       "reduction)",
       "",
       {"Mode III m: the nail bends in the side member.",
        "Modo III m: el clavo se dobla en la pieza lateral."}},
      {"mode-iiis",
       "k3 * nail-diameter * side-thickness * main-bearing-strength / ((2 + bearing-ratio) * "
       "reduction)",
       "",
       {"Mode III s: the nail bends in the rafter.",
        "Modo III s: el clavo se dobla en el cabrio."}},
      {"mode-iv",
       "nail-diameter ^ 2 / reduction * sqrt(2 * main-bearing-strength * bending-yield-strength / "
       "(3 * (1 + bearing-ratio)))",
       "",
       {"Mode IV: the nail bends in both members.", "Modo IV: el clavo se dobla en ambas piezas."}},
      {"reference",
       "min(mode-im, min(mode-is, min(mode-ii, min(mode-iiim, min(mode-iiis, mode-iv)))))",
       "",
       {"The least of the six modes counts.", "Cuenta el menor de los seis modos."}},
      {"penetration-factor",
       "min(1, penetration / (10 * nail-diameter))",
       "",
       {"Less than 10 diameters in the rafter counts in proportion; less than 6 not at all.",
        "Menos de 10 diámetros en el cabrio cuenta en proporción; menos de 6 no cuenta."}},
      {"moisture-factor",
       "if(moisture == \"wet\", 0.7, 1)",
       "",
       {"Wood that was wet or gets wet bears less.",
        "La madera que estuvo o estará mojada soporta menos."}},
      {"toe-nail-factor",
       "if(driving == \"toe-nailed\", 0.83, 1)",
       "",
       {"A toe-nail counts for five sixths across its shank.",
        "Un clavo en ángulo cuenta cinco sextos a carga lateral."}},
      {"capacity-per-nail",
       "reference * load-duration * moisture-factor * toe-nail-factor * penetration-factor",
       "",
       {"The factors change the table's value to the conditions at hand.",
        "Los factores ajustan el valor de la tabla a las condiciones reales."}},
      {"capacity",
       "nails * capacity-per-nail",
       "",
       {"The nails share the load.", "Los clavos se reparten la carga."}},
  };
}

const Def& definition() {
  static const Def made{
      "nail-lateral",
      {"Nails loaded across the shank", "Clavos con carga lateral"},
      {"The handbook's design value of plain-shank nails in single shear, by the six yield modes.",
       "El valor de diseño del manual para clavos lisos en cortante simple, según los seis modos "
       "de fluencia."},
      {
          specific_gravity_input(&NailLateralCase::specific_gravity),
          nail_diameter_input(&NailLateralCase::nail_diameter),
          nail_penetration_input(&NailLateralCase::penetration),
          input("side-thickness", "l_s",
                {"thickness of the side member (board or bracket)",
                 "grosor de la pieza lateral (tabla o soporte)"},
                &NailLateralCase::side_thickness, {0.0005, 0.1}, {"in", 3, "mm", 1}),
          optional_word_input("side-material", {"side member of", "pieza lateral de"},
                              &NailLateralCase::side_material,
                              {{"wood", {"wood", "madera"}}, {"steel", {"steel", "acero"}}}),
          optional_input("side-specific-gravity", "G_s",
                         {"specific gravity of a wood side member (spruce-pine-fir unless given)",
                          "gravedad específica de una pieza lateral de madera "
                          "(pícea-pino-abeto si no se indica)"},
                         &NailLateralCase::side_specific_gravity, {0.31, 0.73}, factor_show),
          nails_input(&NailLateralCase::nails),
          load_duration_input(&NailLateralCase::load_duration),
          moisture_input(&NailLateralCase::moisture),
          driving_input(&NailLateralCase::driving),
      },
      outputs(),
      steps(),
      {
          {"NDS 2018 (National Design Specification for Wood Construction), table 12.3.1A",
           Status::second_hand,
           {"yield limit equations", "ecuaciones de fluencia"}},
          {"NDS 2018, table 12.3.3",
           Status::second_hand,
           {"bearing strength of wood and steel",
            "resistencia al aplastamiento de madera y acero"}},
          {"NDS 2018, table I1 and table 12.3.1B",
           Status::from_memory,
           {"bending yield strength and reduction term",
            "fluencia a flexión y término de reducción"}},
          {"NDS 2018, tables 12N and 12P",
           Status::second_hand,
           {"cells reproduced; penetration from 6 to 10 diameters",
            "celdas reproducidas; penetración de 6 a 10 diámetros"}},
          {"NDS 2018, 12.5.4",
           Status::read,
           {"toe-nail 0.83; load duration at most 1.6",
            "clavo oblicuo 0.83; duración de carga 1.6 como máximo"}},
          {"NDS 2018, table 11.3.3",
           Status::from_memory,
           {"wet service 0.7", "servicio húmedo 0.7"}},
      },
      {nail_caution,
       {"Valid where the side member lies on the rafter; sheathing or shingles between them lower "
        "the value.",
        "Vale si la pieza lateral se apoya en el cabrio; el entablado o las tejas entre ambos "
        "bajan el valor."}}};
  return made;
}

/// F_e of wood for nails (D under 1/4 in): 16,600 G^1.84 psi, rounded to 50 psi.
Pressure wood_bearing_strength(Ratio specific_gravity) {
  const double in_fifties = std::round(16600 * std::pow(specific_gravity.value(), 1.84) / 50);
  return 50.0 * pound_force_per_square_inch * in_fifties;  // NDS table 12.3.3
}

/// F_yb of common nail wire.
Pressure nail_bending_yield_strength(Length diameter) {
  const double ksi = diameter <= 0.142 * inch ? 100 : diameter <= 0.177 * inch ? 90 : 80;
  return ksi * 1000.0 * pound_force_per_square_inch;  // NDS table I1
}

void refuse_shallow(const NailLateralCase& c) {
  // The allowance keeps "6 diameters" typed as a rounded length from being refused.
  const double diameters = c.penetration / c.nail_diameter;
  if (diameters >= 6 * (1 - 1e-9)) return;
  std::ostringstream number;
  number.imbue(std::locale::classic());
  number.precision(3);
  number << diameters;
  throw ToldRefusal("nail-lateral", "penetration",
                    "is " + number.str() +
                        " nail diameters, expected at least 6: a shallower nail has no lateral "
                        "design value (NDS 2018, 12.1.6)",
                    "es de " + number.str() +
                        " diámetros del clavo; se esperan al menos 6: un clavo menos profundo no "
                        "tiene valor lateral de diseño (NDS 2018, 12.1.6)");
}

}  // namespace

NailLateral nail_lateral(const NailLateralCase& c) {
  refuse_outside_domain(definition(), c);
  refuse_impact_duration(definition().id, c.load_duration);
  refuse_shallow(c);

  NailLateral r{};
  const Length D = c.nail_diameter;
  const Length l_s = c.side_thickness;
  const Pressure F_em = r.main_bearing_strength = wood_bearing_strength(c.specific_gravity);
  const Pressure F_es = r.side_bearing_strength =
      c.side_material == SideMaterial::steel ? 61850.0 * pound_force_per_square_inch
                                             : wood_bearing_strength(c.side_specific_gravity);
  const Pressure F_yb = r.bending_yield_strength = nail_bending_yield_strength(D);
  r.reduction = D <= 0.17 * inch ? 2.2 : 10 * double(D / inch) + 0.5;  // table 12.3.1B
  const double K_D = r.reduction;
  const Length l_m = r.bearing_length = std::max(c.penetration, 10.0 * D);
  r.bearing_ratio = F_em / F_es;
  r.length_ratio = l_m / l_s;
  const double R_e = r.bearing_ratio;
  const double R_t = r.length_ratio;
  const double slender_m = F_yb / F_em * (D * D) / (l_m * l_m);
  const double slender_s = F_yb / F_em * (D * D) / (l_s * l_s);

  r.k_1 = (std::sqrt(R_e + 2 * R_e * R_e * (1 + R_t + R_t * R_t) + R_t * R_t * R_e * R_e * R_e) -
           R_e * (1 + R_t)) /
          (1 + R_e);
  r.k_2 = -1 + std::sqrt(2 * (1 + R_e) + 2 * (1 + 2 * R_e) * slender_m / 3);
  r.k_3 = -1 + std::sqrt(2 * (1 + R_e) / R_e + 2 * (2 + R_e) * slender_s / 3);

  r.mode_I_m = D * l_m * F_em / K_D;                                      // (12.3-1)
  r.mode_I_s = D * l_s * F_es / K_D;                                      // (12.3-2)
  r.mode_II = double(r.k_1) * D * l_s * F_es / K_D;                       // (12.3-3)
  r.mode_III_m = double(r.k_2) * D * l_m * F_em / ((1 + 2 * R_e) * K_D);  // (12.3-4)
  r.mode_III_s = double(r.k_3) * D * l_s * F_em / ((2 + R_e) * K_D);      // (12.3-5)
  r.mode_IV =
      D * D / K_D * F_em * std::sqrt(2 * double(F_yb / F_em) / (3 * (1 + R_e)));  // (12.3-6)

  const std::vector<Force> modes = {r.mode_I_m,   r.mode_I_s,   r.mode_II,
                                    r.mode_III_m, r.mode_III_s, r.mode_IV};
  const auto least = std::min_element(modes.begin(), modes.end());
  r.reference = *least;
  r.mode = static_cast<YieldMode>(least - modes.begin());

  r.penetration_factor = std::min(1.0, double(c.penetration / (10.0 * D)));  // table 12N, footnote
  r.moisture_factor = c.moisture == Moisture::wet ? 0.7 : 1.0;               // table 11.3.3
  r.toe_nail_factor = c.driving == Driving::toe_nailed ? 0.83 : 1.0;         // 12.5.4.2
  r.capacity_per_nail =
      r.reference * c.load_duration * r.moisture_factor * r.toe_nail_factor * r.penetration_factor;
  r.capacity = double(c.nails) * r.capacity_per_nail;
  return r;
}

const Calculation& nail_lateral_calculation() {
  static const Calculation made = make_calculation(definition(), nail_lateral);
  return made;
}

}  // namespace footroom::engine
