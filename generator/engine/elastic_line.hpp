#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A worker falls onto an elastic line without an absorber.
struct ElasticLineCase {
  Force weight;           ///< with tools; 100 N to 5,000 N
  Length free_fall;       ///< 0 to 30 m
  Length line_length;     ///< that stretches; 0.3 m to 100 m
  Force test_force;       ///< at which the elongation was measured; 100 N to 100 kN
  Ratio test_elongation;  ///< part of the length; 0.001 to 1
};

struct ElasticLine {
  Stiffness stiffness;
  Force peak_force;
  Length stretch;  ///< at the lowest place
};

/// The peak force of a fall onto a spring: W + sqrt(W^2 + 2 W k FF).
Force elastic_peak(Force weight, Stiffness stiffness, Length free_fall);

/// Returns the peak force and stretch of a line that behaves like a spring.
///
/// Source: energy balance W (FF + e) = k e^2 / 2 with F = k e.
/// Valid for a linear line without damping, up to its breaking; real ropes stiffen.
/// Errors: OutOfDomain.
/// Checked: force over distance by quadrature, the motion stepped in time
/// (tests/engine/arrest_test.cpp).
ElasticLine elastic_line(const ElasticLineCase& c);

const Calculation& elastic_line_calculation();

}  // namespace footroom::engine
