#pragma once
// Names of parts, in the trade's words.

#include "engine/text.hpp"

namespace footroom::figure::words {

inline constexpr engine::Text anchor{"anchor", "anclaje"};
inline constexpr engine::Text ridge{"ridge", "cumbrera"};
inline constexpr engine::Text eave{"eave", "alero"};
inline constexpr engine::Text rake{"rake", "borde del hastial"};
inline constexpr engine::Text d_ring{"D-ring", "anillo en D"};
inline constexpr engine::Text fall_line{"fall line", "máxima pendiente"};
inline constexpr engine::Text lower_level{"lower level", "nivel inferior"};
inline constexpr engine::Text absorber{"energy absorber", "absorbedor de energía"};
inline constexpr engine::Text landing{"landing", "descanso"};

}  // namespace footroom::figure::words
