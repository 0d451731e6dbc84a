#pragma once
// What the nail calculations share: the units their formulas were fitted in, the inputs they have
// in common, and the adjustment factors.

#include "engine/catalogue.hpp"

namespace footroom::engine {

/// The empirical formulas of the nail calculations hold in pounds-force and inches. With these two
/// units written into them they take and give typed quantities. Both are exact.
inline const Length inch = 0.0254 * si::metre;
inline const Pressure pound_force_per_square_inch =
    4.4482216152605 / (0.0254 * 0.0254) * si::pascal;

enum class Moisture { dry, wet };
enum class Driving { straight, toe_nailed };

/// Withdrawal of a nail from side grain per length of penetration: W = 1380 G^2.5 D (lbf, in).
/// Source: NDS 2018 equation 12.2-3 (second hand).
Stiffness nail_withdrawal_per_length(Ratio specific_gravity, Length nail_diameter);

/// Throws Refusal naming `load-duration` for more than 1.6, the most that connections may have
/// (NDS 2018 section 11.3.2 and table 2.3.2, read): the 2.0 for impact is not for connections.
void refuse_impact_duration(std::string_view calculation, Ratio load_duration);

/// A handbook sum never certifies a bracket.
inline constexpr Text nail_caution{
    "A handbook sum never certifies a bracket: only the maker's tested rating and instructions do.",
    "Una suma de manual nunca certifica un soporte: solo lo hacen la resistencia probada y las "
    "instrucciones del fabricante."};

// ---- Inputs in common --------------------------------------------------------------------------

inline constexpr Show nail_diameter_show{"in", 3, "mm", 2};
inline constexpr Show short_length_show{"in", 2, "mm", 0};
inline constexpr Show nail_force_show{"lbf", 0, "N", 0};
inline constexpr Show factor_show{"", 2, "", 2};

/// 0.31 to 0.73: the range of the published tables (oven-dry weight and volume).
template <class Case>
Field<Case> specific_gravity_input(Ratio Case::*field) {
  return input("specific-gravity", "G",
               {"specific gravity of the wood (southern pine 0.55, Douglas fir-larch 0.50, "
                "hem-fir 0.43, spruce-pine-fir 0.42)",
                "gravedad específica de la madera (pino del sur 0.55, abeto Douglas y alerce "
                "0.50, hem-fir 0.43, pícea-pino-abeto 0.42)"},
               field, {0.31, 0.73}, factor_show);
}

/// 0.099 to 0.236 in: the shanks for which a bending yield strength is tabulated here.
template <class Case>
Field<Case> nail_diameter_input(Length Case::*field) {
  return input("nail-diameter", "D",
               {"diameter of the nail's shank", "diámetro del vástago del clavo"}, field,
               {0.099 * 0.0254, 0.236 * 0.0254}, nail_diameter_show);
}

template <class Case>
Field<Case> nail_penetration_input(Length Case::*field) {
  return input("penetration", "p",
               {"penetration of the nail into the rafter", "penetración del clavo en el cabrio"},
               field, {0.001, 0.3}, short_length_show);
}

template <class Case>
Field<Case> nails_input(int Case::*field) {
  return optional_input("nails", "n", {"number of nails", "cantidad de clavos"}, field, {1, 200},
                        {"", 0, "", 0});
}

/// 0.9 (permanent) to 1.6 (ten minutes: wind, earthquake). 2.0 is let through to a refusal that
/// gives the reason.
template <class Case>
Field<Case> load_duration_input(Ratio Case::*field) {
  return optional_input("load-duration", "C_D",
                        {"load duration factor", "factor de duración de la carga"}, field, {0.9, 2},
                        factor_show);
}

template <class Case>
Field<Case> moisture_input(Moisture Case::*field) {
  return optional_word_input(
      "moisture", {"moisture of the wood", "humedad de la madera"}, field,
      {{"dry", {"dry when nailed and in service", "seca al clavar y en uso"}},
       {"wet",
        {"wet when nailed or in service (over 19 percent)",
         "mojada al clavar o en uso (más de 19 por ciento)"}}});
}

template <class Case>
Field<Case> driving_input(Driving Case::*field) {
  return optional_word_input(
      "driving", {"how the nail is driven", "cómo se clava"}, field,
      {{"straight", {"straight", "recto"}}, {"toe-nailed", {"toe-nailed", "en ángulo (lancero)"}}});
}

}  // namespace footroom::engine
