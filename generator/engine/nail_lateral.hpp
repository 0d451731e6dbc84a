#pragma once
#include "engine/nail.hpp"

namespace footroom::engine {

enum class SideMaterial { wood, steel };

/// The six ways in which a nail in single shear gives way (NDS 2018, appendix I).
enum class YieldMode { I_m, I_s, II, III_m, III_s, IV };

/// Nails through a side member (a board or a bracket's steel) into a rafter, loaded across the
/// shank in single shear.
struct NailLateralCase {
  Ratio specific_gravity;  ///< of the rafter; 0.31 to 0.73
  Length nail_diameter;    ///< 0.099 in to 0.236 in
  Length penetration;      ///< into the rafter; at least 6 diameters, up to 0.3 m
  Length side_thickness;   ///< 0.5 mm to 0.1 m
  SideMaterial side_material = SideMaterial::steel;
  Ratio side_specific_gravity = 0.42;  ///< of a wood side member; 0.31 to 0.73
  int nails = 1;                       ///< 1 to 200
  Ratio load_duration = 1.0;           ///< 0.9 to 1.6
  Moisture moisture = Moisture::dry;
  Driving driving = Driving::straight;
};

struct NailLateral {
  Pressure main_bearing_strength;
  Pressure side_bearing_strength;
  Pressure bending_yield_strength;
  Ratio reduction;
  Length bearing_length;  ///< of the rafter, as the published tables take it
  Ratio bearing_ratio;
  Ratio length_ratio;
  Ratio k_1, k_2, k_3;
  Force mode_I_m, mode_I_s, mode_II, mode_III_m, mode_III_s, mode_IV;
  Force reference;  ///< the least of the six
  YieldMode mode;   ///< the mode that gives it
  Ratio penetration_factor;
  Ratio moisture_factor;
  Ratio toe_nail_factor;
  Force capacity_per_nail;
  Force capacity;  ///< all nails together
};

/// Returns the design value of nails in single shear, and the mode in which they give way.
///
/// Source: NDS 2018 table 12.3.1A (yield limit equations), 12.3.3 (bearing strength, rounded to 50
/// psi as the tables are), table I1 (bending yield strength), 12.1.6 and footnote to table 12N
/// (penetration), 12.5.4 (toe-nails): second hand, in part from memory; see the sources.
/// Valid for plain-shank nails driven into side grain, the side member lying on the rafter:
/// sheathing or shingles between bracket and rafter are not covered and lower the value. The
/// reference value is that of a penetration of at least 10 diameters, as in the tables; a shorter
/// one is taken by the factor p / (10 D). Errors: OutOfDomain; Refusal naming `penetration` (under
/// 6 diameters) or `load-duration`. Checked: every published table cell in tests/reference/wood.csv
/// to the printed digit; the six modes against free-body equilibrium in tests/engine/nail_test.cpp.
NailLateral nail_lateral(const NailLateralCase& c);

const Calculation& nail_lateral_calculation();

}  // namespace footroom::engine
