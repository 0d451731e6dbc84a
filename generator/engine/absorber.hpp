#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A worker falls onto an energy absorber that tears open at a constant force.
struct AbsorberCase {
  Force weight;                                 ///< with tools; 100 N to 5,000 N
  Length free_fall;                             ///< 0 to 30 m
  Force force;                                  ///< average; more than the weight, to 100 kN
  Length maximum_elongation = 5.0 * si::metre;  ///< 0 (excluded) to 5 m
};

enum class AbsorberEnd { within_elongation, bottoms_out };

struct Absorber {
  Length elongation;        ///< that the stop needs; more than there is where it bottoms out
  Length fall_distance;     ///< free fall and elongation, at most the maximum elongation
  Energy energy;            ///< taken up by the absorber
  Energy remaining_energy;  ///< left to stop otherwise where it bottoms out, else 0
  AbsorberEnd state;
};

/// Throws OutOfDomain naming `force` where it does not exceed the weight: the absorber then never
/// stops the fall.
void refuse_weak_absorber(std::string_view calculation, Force force, Force weight);

/// Returns how far an absorber tears open.
///
/// Source: energy balance W (FF + X) = F X.
/// Valid for a force that is constant while it tears, a rigid line and body, and no swing.
/// Errors: OutOfDomain, naming `force` also where it does not exceed the weight.
/// Checked: tests/reference/physics.csv; force over distance by quadrature and the motion stepped
/// in time (tests/engine/arrest_test.cpp).
Absorber absorber(const AbsorberCase& c);

const Calculation& absorber_calculation();

}  // namespace footroom::engine
