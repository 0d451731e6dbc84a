#pragma once
#include "engine/nail.hpp"

namespace footroom::engine {

enum class Grain { side, end };

/// Smooth-shank nails in a rafter, pulled straight out.
struct NailWithdrawalCase {
  Ratio specific_gravity;     ///< of the rafter; 0.31 to 0.73
  Length nail_diameter;       ///< 0.099 in to 0.236 in
  Length penetration;         ///< into the rafter; 1 mm to 0.3 m
  int nails = 1;              ///< 1 to 200
  Ratio load_duration = 1.0;  ///< 0.9 to 1.6
  Moisture moisture = Moisture::dry;
  Driving driving = Driving::straight;
  Grain grain = Grain::side;  ///< end grain is refused
};

struct NailWithdrawal {
  Stiffness reference_per_length;  ///< design value for one nail, a length of penetration
  Ratio moisture_factor;
  Ratio toe_nail_factor;
  Stiffness adjusted_per_length;
  Force capacity_per_nail;
  Force capacity;           ///< all nails together
  Force ultimate_per_nail;  ///< at which one nail came out in tests, on average; no design value
};

/// Returns the design value of nails in withdrawal, and the mean force at which they came out in
/// tests.
///
/// Source: NDS 2018 equation 12.2-3, sections 11.3 and 12.5.4 (second hand; factors read); ultimate
/// value: Forest Products Laboratory, Research Note FPL-093 (1965) (read).
/// Valid for plain-shank nails driven into side grain, the penetration counted without head,
/// bracket, shingles and sheathing. Toe-nailed in wet wood, both factors are taken, which is the
/// safe side. Errors: OutOfDomain; Refusal naming `grain` (end grain) or `load-duration`
/// (over 1.6). Checked: published table cells in tests/reference/wood.csv.
NailWithdrawal nail_withdrawal(const NailWithdrawalCase& c);

const Calculation& nail_withdrawal_calculation();

}  // namespace footroom::engine
