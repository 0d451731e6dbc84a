#pragma once
// Names of parts, in the trade's words.

#include "engine/text.hpp"

namespace footroom::figure::words {

inline constexpr engine::Text anchor{"anchor", "anclaje"};
inline constexpr engine::Text ridge{"ridge", "cumbrera"};
inline constexpr engine::Text eave{"eave", "alero"};
inline constexpr engine::Text rake{"rake", "borde inclinado"};
inline constexpr engine::Text rafter{"rafter", "cabrio"};
inline constexpr engine::Text d_ring{"D-ring", "anillo en D"};
inline constexpr engine::Text fall_line{"fall line", "línea de máxima pendiente"};
inline constexpr engine::Text lower_level{"lower level", "nivel inferior"};
inline constexpr engine::Text absorber{"energy absorber", "absorbedor de energía"};
inline constexpr engine::Text taut_line{"taut line", "cuerda tensa"};
inline constexpr engine::Text start{"start", "inicio"};
inline constexpr engine::Text landing{"landing", "descanso"};
inline constexpr engine::Text plan{"from above", "desde arriba"};
inline constexpr engine::Text section{"section", "corte"};
inline constexpr engine::Text line_takes_load{"line takes load", "la cuerda recibe carga"};
inline constexpr engine::Text end_of_fall{"end of the fall", "fin de la caída"};

}  // namespace footroom::figure::words
