#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

/// A worker on an elastic line with an energy absorber, followed through time.
struct ArrestInTimeCase {
  Mass mass;                                 ///< with tools; 10 kg to 300 kg
  Length free_fall;                          ///< from the edge until the line is taut; 0 to 30 m
  Stiffness stiffness;                       ///< of the line; 1 kN/m to 10 MN/m
  Force absorber_force;                      ///< tears at it and holds it; 100 N to 100 kN
  Length maximum_elongation;                 ///< of the absorber, 0: none; 0 to 10 m
  Ratio damping_ratio = 0.0;                 ///< of the line, 1: critical; 0 to 0.5
  Length slide_distance = 0.0 * si::metre;   ///< on the roof before the edge; 0 to 60 m
  Angle pitch = 0.0 * si::radian;            ///< of that roof; 0 to 80 degrees
  Ratio roof_friction = 0.0;                 ///< worker on that roof; 0 to 2
  Ratio edge_friction = 0.0;                 ///< line on the roof's edge; 0 to 2
  Angle edge_angle = M_PI / 2 * si::radian;  ///< the line turns by it; 0 to 180 degrees
};

enum class AbsorberState { stays_closed, tears, bottoms_out };

/// What the closed formulas (elastic-line, absorber, line-then-absorber) assume and is not so here.
enum class BrokenAssumption {
  bottoms_out,
  tears_under_weight,  ///< the absorber's force does not exceed the weight
  line_damping,
  edge_friction,
  roof_slide,
};

struct ArrestInTime {
  Ratio edge_factor;  ///< line force on the worker's side over that on the anchor's
  Speed speed_at_taut;
  Time time_to_taut;         ///< from the onset of the slide, or of the fall
  Time time_to_arrest;       ///< from the same onset to the first standstill
  Force peak_force;          ///< on the worker, up to the first standstill
  Force peak_anchor_force;   ///< on the anchor
  Length elongation;         ///< of the absorber
  Length stopping_distance;  ///< from taut to the first standstill: stretch and elongation
  Length lowest_drop;        ///< of the D-ring below its start at the edge
  Length drop_at_rest;       ///< the same, hanging; edge friction may hold the worker higher
  AbsorberState state;
  Energy fall_energy;  ///< given up by the height lost
  Energy roof_friction_energy;
  Energy edge_friction_energy;
  Energy absorber_energy;
  Energy damping_energy;
  Energy line_energy;  ///< in the stretched line at the first standstill
  Energy residual;     ///< of the ledger: the error of the integration, to 1e-9 of the fall energy
  std::vector<BrokenAssumption> broken_assumptions;
};

/// Returns the arrest of a fall by integration in time, up to the first standstill.
///
/// Source: Newton's second law for a point mass. The line is a spring with a dashpot beside it that
/// cannot push; the absorber is rigid below its force, holds it while it tears, keeps its
/// elongation, and is rigid again at the maximum. The line over the edge follows the capstan
/// formula (L. Euler, 1769; from memory). Behind a slide the whole speed turns downwards at the
/// edge, which is the safe side. Validity: as far as a worker is a point mass and the line's force
/// is linear. After the first standstill the force does not rise above the peak any more (tested).
/// Accuracy: the energy ledger closes to 1e-6 of the fall energy; 1e-9 is usual.
/// Errors: OutOfDomain; Refusal naming `roof-friction` where the worker does not slide.
/// Checked: against the closed formulas for elastic line, absorber and both in series, damped and
/// friction cases with a known solution, and over random cases in
/// tests/engine/arrest_in_time_test.cpp.
ArrestInTime arrest_in_time(const ArrestInTimeCase& c);

/// A sampled course of the arrest, for plots. Values at the same place belong together.
struct ArrestHistory {
  std::vector<Time> time;  ///< from the onset, evenly spaced
  std::vector<Length>
      drop;  ///< of the D-ring below its start at the edge; negative before the edge
  std::vector<Speed> speed;  ///< downwards; on the roof down the slope
  std::vector<Force> force;  ///< on the worker
};

/// Returns the course from the onset over `duration` (up to 60 s, rebounds included) at `samples`
/// times, 2 to 10,000, both ends included. Errors: as arrest_in_time, and Refusal naming `duration`
/// or `samples`.
ArrestHistory arrest_history(const ArrestInTimeCase& c, Time duration, int samples);

const Calculation& arrest_in_time_calculation();

template <>
struct Bridge<std::vector<BrokenAssumption>> {
  static Value to_value(const std::vector<BrokenAssumption>& all);
};

}  // namespace footroom::engine
