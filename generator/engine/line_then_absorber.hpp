#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A worker falls onto an elastic line with an energy absorber in series.
struct LineThenAbsorberCase {
  Force weight;                                 ///< with tools; 100 N to 5,000 N
  Length free_fall;                             ///< 0 to 30 m
  Stiffness stiffness;                          ///< of the line; 100 N/m to 10 MN/m
  Force force;                                  ///< average, absorber; above the weight, to 100 kN
  Length maximum_elongation = 5.0 * si::metre;  ///< 0 (excluded) to 5 m
};

enum class Deploys { deploys, stays_closed, bottoms_out };

struct LineThenAbsorber {
  Force elastic_peak;  ///< what the line alone would reach
  Deploys deploys;
  Energy remaining_energy;  ///< left to the line where the absorber bottoms out, else 0
  Force peak_force;
  Length stretch;         ///< of the line at the lowest place
  Length elongation;      ///< of the absorber
  Length total_stopping;  ///< both
};

/// Returns what an elastic line and an absorber share of a stop.
///
/// Source: energy balance. Up to the absorber's force the line stretches alone, to e = F/k; then
/// the absorber tears, W (FF + e + X) = k e^2/2 + F X. If the elastic peak is not above F, the
/// absorber stays closed. If X would exceed the maximum, the line takes the rest E_r as a spring:
/// E_r + W y = F y + k y^2/2, whose peak is W + sqrt((F - W)^2 + 2 k E_r).
/// Valid for a linear line without damping and a constant absorber force.
/// Errors: OutOfDomain, naming `force` also where it does not exceed the weight.
/// Checked: force over distance by quadrature, the motion stepped in time, elastic_line() and
/// absorber() as limits (tests/engine/arrest_test.cpp).
LineThenAbsorber line_then_absorber(const LineThenAbsorberCase& c);

const Calculation& line_then_absorber_calculation();

}  // namespace footroom::engine
