#pragma once
// Inputs and units that several calculations have in common, so that a quantity bears one name,
// one symbol and one domain wherever it occurs.

#include "engine/catalogue.hpp"

namespace footroom::engine {

inline constexpr Show feet_show{"ft", 1, "m", 2};
inline constexpr Show inches_show{"in", 2, "cm", 1};
inline constexpr Show pitch_show{"pitch", 0, "deg", 1};
inline constexpr Show degrees_show{"deg", 1, "deg", 1};
inline constexpr Show speed_show{"ft/s", 1, "m/s", 1};
inline constexpr Show time_show{"s", 2, "s", 2};
inline constexpr Show area_show{"ft2", 0, "m2", 1};
inline constexpr Show weight_show{"lbf", 0, "N", 0};
inline constexpr Show force_show{"lbf", 0, "kN", 2};
inline constexpr Show energy_show{"ft-lbf", 0, "J", 0};
inline constexpr Show stiffness_show{"lbf/ft", 0, "kN/m", 2};
inline constexpr Show factor_of_slope_show{"", 4, "", 4};
inline constexpr Show count_show{"", 0, "", 0};

inline constexpr Domain pitch_domain{0, 80 * M_PI / 180};
inline constexpr Domain slope_length_domain{0.3, 60};
inline constexpr Domain d_ring_height_domain{0.5, 2};
inline constexpr Domain weight_domain{100, 5000};
inline constexpr Domain free_fall_domain{0, 30};
inline constexpr Domain arrest_force_domain{0, 100000, false};

template <class Case>
Field<Case> pitch_input(Angle Case::*field) {
  return input("pitch", "theta", {"roof angle", "ángulo del techo"}, field, pitch_domain,
               pitch_show);
}

template <class Case>
Field<Case> slope_length_input(Length Case::*field) {
  return input(
      "slope-length", "L",
      {"slope length from anchor to eave edge", "largo de la pendiente, del anclaje al alero"},
      field, slope_length_domain, feet_show);
}

inline constexpr Text d_ring_height_name{"height of the D-ring over the feet",
                                         "altura del anillo en D sobre los pies"};

template <class Case>
Field<Case> d_ring_height_input(Length Case::*field) {
  return input("d-ring-height", "h", d_ring_height_name, field, d_ring_height_domain, feet_show);
}

template <class Case>
Field<Case> weight_input(Force Case::*field) {
  return input("weight", "W",
               {"weight of the person with tools", "peso de la persona con herramientas"}, field,
               weight_domain, weight_show);
}

template <class Case>
Field<Case> free_fall_input(Length Case::*field) {
  return input("free-fall", "FF", {"free fall", "caída libre"}, field, free_fall_domain, feet_show);
}

/// Where the weight is not carried the absorber never stops the fall; see refuse_weak_absorber().
template <class Case>
Field<Case> absorber_force_input(Force Case::*field) {
  return input("force", "F",
               {"average force of the energy absorber", "fuerza media del absorbedor de energía"},
               field, arrest_force_domain, force_show);
}

/// The fallback holds more than any absorber in the trade, so that leaving it out asks nothing.
inline const Length generous_elongation = 5.0 * si::metre;

template <class Case>
Field<Case> maximum_elongation_input(Length Case::*field) {
  return optional_input(
      "maximum-elongation", "X_max",
      {"most the absorber can tear out", "lo máximo que se puede abrir el absorbedor"}, field,
      {0, generous_elongation.value(), false}, feet_show);
}

inline constexpr Text upper_bound_of_swing{
    "The speed is an upper bound, without friction; a swing also hits what stands in its way.",
    "La velocidad es un límite superior, sin fricción; además, el péndulo golpea lo que halla en "
    "su camino."};

}  // namespace footroom::engine
