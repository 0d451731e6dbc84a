#include "engine/nail.hpp"

#include <sstream>

#include "engine/told_refusal.hpp"

// Notation
//   G    specific gravity of the wood
//   D    diameter of the nail's shank
//   W    withdrawal per length of penetration
//   C_D  load duration factor

namespace footroom::engine {

Stiffness nail_withdrawal_per_length(Ratio specific_gravity, Length nail_diameter) {
  return 1380.0 * pound_force_per_square_inch * std::pow(specific_gravity.value(), 2.5) *
         nail_diameter;  // NDS 2018 (12.2-3)
}

void refuse_impact_duration(std::string_view calculation, Ratio load_duration) {
  if (load_duration.value() <= 1.6) return;
  std::ostringstream number;
  number.imbue(std::locale::classic());
  number << load_duration.value();
  throw ToldRefusal(std::string(calculation), "load-duration",
                    "is " + number.str() +
                        ", expected at most 1.6: the factor for impact does not apply to "
                        "connections (NDS 2018, 11.3.2)",
                    "es " + number.str() +
                        "; se espera a lo más 1.6: el factor de impacto no vale para las uniones "
                        "(NDS 2018, 11.3.2)");
}

}  // namespace footroom::engine
