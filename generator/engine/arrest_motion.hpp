#pragma once
// The motion behind arrest_in_time: integrated from the moment the line is taut.

#include <array>
#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/controlled_runge_kutta.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

namespace footroom::engine {

/// Everything in SI units. The integrator's state is an array of plain numbers, so that the types
/// end here.
struct ArrestModel {
  double mass;
  double gravity;
  double stiffness;
  double damping;  ///< of the line, force over speed
  double absorber_force;
  double maximum_elongation;
  double edge_factor;  ///< force on the worker's side over the anchor's while the line pays out
};

class ArrestMotion {
 public:
  enum class Phase {
    slack,
    taut,     ///< the absorber holds
    tearing,  ///< the absorber lengthens at its force
    at_rest,  ///< hanging still, held by the line and the edge's friction
  };
  struct State {
    double stretch;
    double speed;  ///< downwards
    double elongation;
    double absorber_energy;
    double damping_energy;
    double edge_energy;
  };

  /// Starts at time 0 with a line just taut and this speed.
  ArrestMotion(const ArrestModel& model, double speed);

  void advance_to(double time);
  /// Returns after the first standstill.
  void advance_to_standstill();

  double time() const { return time_; }
  State state() const;
  /// Distance travelled since the line was taut first; negative in a rebound above that point.
  double travel() const;
  double force_on_worker() const;
  double peak_on_worker() const { return peak_on_worker_; }
  double peak_on_anchor() const { return peak_on_anchor_; }
  bool tore() const { return tore_; }

 private:
  using Numbers = std::array<double, 6>;
  enum class Event { none, slack, standstill, tear, tear_end, bottom };
  struct Forces {
    double anchor;
    double worker;
  };

  Forces forces(const Numbers& y) const;
  double line_speed(double time) const;
  void derivative(const Numbers& y, Numbers& rate, double time) const;
  Event event(const Numbers& y, double time) const;
  void count_step();
  void fly(double until);
  double time_until_taut() const;
  void step(double until);
  Numbers after(const Numbers& y, double time, double step) const;
  void note_peak(const Numbers& y);
  void note_peak_within(const Numbers& before, double from, double step);
  double force_rate(const Numbers& y, double time) const;
  void handle(Event event);
  void tighten();
  void begin_tearing();
  void stand_still();

  ArrestModel m_;
  double smallest_speed_;
  double largest_step_;
  Numbers y_{};
  double time_ = 0;
  double next_step_;
  Phase phase_ = Phase::slack;
  bool paying_out_ = true;  ///< the direction in which the line last slid over the edge
  double tear_time_ = 0;
  double tear_line_speed_ = 0;
  bool tore_ = false;
  long standstills_ = 0;
  long steps_left_;
  double peak_on_worker_ = 0;
  double peak_on_anchor_ = 0;

  using Stepper = boost::numeric::odeint::runge_kutta_dopri5<Numbers>;
  boost::numeric::odeint::result_of::make_controlled<Stepper>::type controlled_;
};

}  // namespace footroom::engine
