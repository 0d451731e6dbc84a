#include "engine/arrest_motion.hpp"

#include <algorithm>
#include <cmath>

#include "engine/refusal.hpp"
#include "engine/told_refusal.hpp"

// Notation
//   m, W    mass and weight
//   k, c    stiffness and damping of the line
//   F_d     force at which the absorber tears
//   X, X_m  elongation of the absorber, and its maximum
//   f       edge factor, exp(mu beta): F_w = f F_a paying out, F_w = F_a / f coming back
//   u       stretch of the line, counted from where it was taut first; below 0 it hangs slack
//   v       speed of the worker, downwards
//   F_a     line force at the anchor, max(0, k u + c u')
//   F_w     line force at the worker

namespace footroom::engine {
namespace {

enum Place : std::size_t { u, v, X, in_absorber, in_damping, at_edge };

constexpr double absolute_tolerance = 1e-12;
constexpr double relative_tolerance = 1e-10;
constexpr long most_steps = 20'000'000;

}  // namespace

ArrestMotion::ArrestMotion(const ArrestModel& model, double speed)
    : m_(model), steps_left_(most_steps) {
  const double quick = std::sqrt(m_.edge_factor * m_.stiffness / m_.mass);
  smallest_speed_ = 1e-9 * (speed + m_.gravity / std::sqrt(m_.stiffness / m_.mass));
  largest_step_ = 0.2 / quick;
  next_step_ = 0.01 * largest_step_;
  controlled_ =
      boost::numeric::odeint::make_controlled<Stepper>(absolute_tolerance, relative_tolerance);
  y_[v] = speed;
  tighten();
}

ArrestMotion::State ArrestMotion::state() const {
  return {y_[u], y_[v], y_[X], y_[in_absorber], y_[in_damping], y_[at_edge]};
}

double ArrestMotion::travel() const {
  return y_[u] + y_[X];
}

double ArrestMotion::force_on_worker() const {
  // At rest the edge carries whatever the line does not.
  return phase_ == Phase::at_rest ? m_.mass * m_.gravity : forces(y_).worker;
}

void ArrestMotion::advance_to(double time) {
  while (time_ < time && phase_ != Phase::at_rest) {
    if (phase_ == Phase::slack)
      fly(time);
    else
      step(time);
  }
}

void ArrestMotion::advance_to_standstill() {
  while (standstills_ == 0) step(INFINITY);
}

ArrestMotion::Forces ArrestMotion::forces(const Numbers& y) const {
  const double f = m_.edge_factor;
  switch (phase_) {
    case Phase::slack:
      return {0, 0};
    case Phase::tearing:
      return {m_.absorber_force / f, m_.absorber_force};
    case Phase::taut:
    case Phase::at_rest:
      break;
  }
  const double anchor = std::max(0.0, m_.stiffness * y[u] + m_.damping * y[v]);
  return {anchor, paying_out_ ? anchor * f : anchor / f};  // capstan
}

/// u' while the absorber tears: the line's force is constant, so that its stretch creeps to the
/// spring's share. Taken in closed form, because it may be much faster than the fall.
double ArrestMotion::line_speed(double time) const {
  if (!(m_.damping > 0)) return 0;
  return tear_line_speed_ * std::exp(-(time - tear_time_) * m_.stiffness / m_.damping);
}

void ArrestMotion::derivative(const Numbers& y, Numbers& rate, double time) const {
  const Forces force = forces(y);
  rate[u] = phase_ == Phase::tearing ? line_speed(time) : y[v];
  rate[v] = m_.gravity - force.worker / m_.mass;  // Newton's second law
  rate[X] = y[v] - rate[u];
  rate[in_absorber] = force.worker * rate[X];
  // The dashpot's force is c v, or, where it would push, what undoes the spring's. As the
  // difference F_a - k u it would not be zero without damping on a processor that multiplies and
  // adds at once.
  rate[in_damping] = phase_ == Phase::tearing
                         ? m_.damping * rate[u] * rate[u]
                         : std::max(m_.damping * y[v], -m_.stiffness * y[u]) * rate[u];
  rate[at_edge] = (force.worker - force.anchor) * rate[u];
}

ArrestMotion::Event ArrestMotion::event(const Numbers& y, double time) const {
  if (phase_ == Phase::tearing) {
    if (y[X] >= m_.maximum_elongation) return Event::bottom;
    return y[v] < line_speed(time) ? Event::tear_end : Event::none;
  }
  if (y[v] < 0 && m_.stiffness * y[u] + m_.damping * y[v] < 0) return Event::slack;
  // A strongly damped line creeps towards rest without ever standing still.
  const double onward = paying_out_ ? y[v] : -y[v];
  const double acceleration = m_.gravity - forces(y).worker / m_.mass;
  const bool slows = (paying_out_ ? acceleration : -acceleration) <= 0;
  if (onward < 0 || (onward < smallest_speed_ && slows)) return Event::standstill;
  if (paying_out_ && y[v] > 0 && y[X] < m_.maximum_elongation &&
      forces(y).worker > m_.absorber_force * (1 + 1e-12))
    return Event::tear;
  return Event::none;
}

void ArrestMotion::count_step() {
  if (--steps_left_ < 0)
    throw ToldRefusal("arrest-in-time", "stiffness", "takes too many steps",
                      "requiere demasiados pasos de cálculo");
}

/// Free flight in closed form. What the spring still gives off goes into its dashpot.
void ArrestMotion::fly(double until) {
  const double to_taut = time_until_taut();
  const bool lands = time_ + to_taut <= until;
  const double t = lands ? to_taut : until - time_;
  const double stretched = std::max(0.0, y_[u]);
  y_[u] += y_[v] * t + m_.gravity * t * t / 2;
  y_[v] += m_.gravity * t;
  const double left = std::max(0.0, y_[u]);
  y_[in_damping] += m_.stiffness * (stretched * stretched - left * left) / 2;
  time_ = lands ? time_ + t : until;
  count_step();
  if (lands) tighten();
}

/// The line is taut again when u >= 0 and k u + c v >= 0. Flight begins with k u + c v = 0 on the
/// way up. Where u passes through 0 in flight, the second time decides; else the force does.
double ArrestMotion::time_until_taut() const {
  const double g = m_.gravity;
  const double from_speed = y_[v] * y_[v] - 2 * g * y_[u];
  if (from_speed >= 0) return std::max(0.0, (-y_[v] + std::sqrt(from_speed)) / g);
  // k (u + v t + g t^2 / 2) + c (v + g t) = 0
  const double a = m_.stiffness * g / 2;
  const double b = m_.stiffness * y_[v] + m_.damping * g;
  const double d = m_.stiffness * y_[u] + m_.damping * y_[v];
  return std::max(0.0, (-b + std::sqrt(std::max(0.0, b * b - 4 * a * d))) / (2 * a));
}

/// One step of the integrator, cut at the first event in it.
void ArrestMotion::step(double until) {
  const auto system = [this](const Numbers& y, Numbers& rate, double time) {
    derivative(y, rate, time);
  };
  const Numbers before = y_;
  const double from = time_;
  const double cap = phase_ == Phase::tearing ? 100 * largest_step_ : largest_step_;
  double trial = std::min(next_step_, cap);
  const bool shortened = until - from <= trial;
  if (shortened) trial = until - from;
  controlled_.reset();
  double reached = from;
  bool refined = false;
  while (controlled_.try_step(system, y_, reached, trial) == boost::numeric::odeint::fail) {
    count_step();
    refined = true;
  }
  count_step();
  if (!shortened || trial < next_step_) next_step_ = trial;  // what the integrator proposes

  double length = reached - from;
  Event met = event(y_, reached);
  if (met != Event::none) {
    double low = 0;
    double high = length;
    for (int i = 0; i < 60 && low < high; ++i) {
      const double middle = low + (high - low) / 2;
      if (!(middle > low && middle < high)) break;
      (event(after(before, from, middle), from + middle) == Event::none ? low : high) = middle;
    }
    length = high;
    y_ = after(before, from, length);
    met = event(y_, from + length);
  }
  note_peak_within(before, from, length);
  note_peak(y_);
  const bool arrived = shortened && !refined && met == Event::none;
  time_ = arrived ? until : from + length;
  if (met != Event::none) handle(met);
}

ArrestMotion::Numbers ArrestMotion::after(const Numbers& y, double time, double step) const {
  Stepper stepper;
  Numbers result{};
  stepper.do_step([this](const Numbers& at, Numbers& rate, double t) { derivative(at, rate, t); },
                  y, time, result, step);
  return result;
}

void ArrestMotion::note_peak(const Numbers& y) {
  const Forces force = forces(y);
  peak_on_worker_ = std::max(peak_on_worker_, force.worker);
  peak_on_anchor_ = std::max(peak_on_anchor_, force.anchor);
}

/// d/dt (k u + c v)
double ArrestMotion::force_rate(const Numbers& y, double time) const {
  Numbers rate{};
  derivative(y, rate, time);
  return m_.stiffness * rate[u] + m_.damping * rate[v];
}

/// With damping the greatest force comes before the standstill, so that it may lie inside a step.
void ArrestMotion::note_peak_within(const Numbers& before, double from, double step) {
  if (phase_ != Phase::taut || !(m_.damping > 0)) return;
  if (!(force_rate(before, from) > 0 && force_rate(y_, from + step) < 0)) return;
  double low = 0;
  double high = step;
  for (int i = 0; i < 60; ++i) {
    const double middle = low + (high - low) / 2;
    (force_rate(after(before, from, middle), from + middle) > 0 ? low : high) = middle;
  }
  note_peak(after(before, from, low));
}

void ArrestMotion::handle(Event event) {
  next_step_ = std::min(next_step_, 0.01 * largest_step_);
  switch (event) {
    case Event::none:
      return;
    case Event::slack:
      phase_ = Phase::slack;
      return;
    case Event::standstill:
      stand_still();
      return;
    case Event::tear:
      begin_tearing();
      return;
    case Event::bottom:
      y_[X] = m_.maximum_elongation;
      phase_ = Phase::taut;
      note_peak(y_);
      return;
    case Event::tear_end:
      phase_ = Phase::taut;
      if (y_[v] <= 0) stand_still();
      return;
  }
}

void ArrestMotion::tighten() {
  phase_ = Phase::taut;
  paying_out_ = y_[v] >= 0;
  next_step_ = 0.01 * largest_step_;
  const bool tears = y_[v] > 0 && y_[X] < m_.maximum_elongation &&
                     forces(y_).worker >= m_.absorber_force;  // a dashpot takes load at once
  if (tears) begin_tearing();
  note_peak(y_);
}

void ArrestMotion::begin_tearing() {
  phase_ = Phase::tearing;
  tore_ = true;
  tear_time_ = time_;
  tear_line_speed_ = m_.damping > 0 ? (forces(y_).anchor - m_.stiffness * y_[u]) / m_.damping : 0.0;
}

/// The line over the edge holds still where its friction can balance weight and line.
void ArrestMotion::stand_still() {
  ++standstills_;
  y_[v] = 0;
  const double weight = m_.mass * m_.gravity;
  const double anchor = std::max(0.0, m_.stiffness * y_[u]);
  if (paying_out_ && anchor / m_.edge_factor > weight * (1 + 1e-9))
    paying_out_ = false;
  else if (!paying_out_ && anchor * m_.edge_factor < weight * (1 - 1e-9))
    paying_out_ = true;
  else
    phase_ = Phase::at_rest;
}

}  // namespace footroom::engine
