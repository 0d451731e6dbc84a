#include "engine/arrest_in_time.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <random>
#include <string>

#include "engine/arrest_motion.hpp"

namespace footroom::engine {
namespace {

constexpr double g = 9.80665;

ArrestInTimeCase hundred_kilograms() {
  ArrestInTimeCase c{};
  c.mass = 100.0 * si::kilogram;
  c.free_fall = 1.8 * si::metre;
  c.stiffness = 20e3 * si::newton / si::metre;
  c.absorber_force = 4e3 * si::newton;
  c.maximum_elongation = 1.2 * si::metre;
  return c;
}

ArrestInTimeCase line_only() {
  ArrestInTimeCase c = hundred_kilograms();
  c.maximum_elongation = 0.0 * si::metre;
  return c;
}

bool has(const ArrestInTime& r, BrokenAssumption one) {
  return std::find(r.broken_assumptions.begin(), r.broken_assumptions.end(), one) !=
         r.broken_assumptions.end();
}

// ---- Closed forms ------------------------------------------------------------------------------

TEST(ArrestInTime, AgreesWithTheElasticLine) {
  // Energy: F = W + sqrt(W^2 + 2 W k FF)
  for (const double fall : {0.0, 0.3, 1.8, 6.0, 30.0}) {
    for (const double stiffness : {1e3, 5e3, 60e3, 1e7}) {
      ArrestInTimeCase c = line_only();
      c.free_fall = fall * si::metre;
      c.stiffness = stiffness * si::newton / si::metre;
      const ArrestInTime r = arrest_in_time(c);
      const double weight = 100 * g;
      const double peak = weight + std::sqrt(weight * weight + 2 * weight * stiffness * fall);
      EXPECT_NEAR(r.peak_force.value() / peak, 1, 1e-7);
      EXPECT_NEAR(r.stopping_distance.value() / (peak / stiffness), 1, 1e-7);
      EXPECT_EQ(r.elongation.value(), 0);
      EXPECT_EQ(r.state, AbsorberState::stays_closed);
      EXPECT_TRUE(r.broken_assumptions.empty());
    }
  }
}

TEST(ArrestInTime, TakesTheTimeOfTheHarmonicMotion) {
  const ArrestInTimeCase c = line_only();
  const ArrestInTime r = arrest_in_time(c);
  // u = W/k (1 - cos wt) + v0/w sin wt, at rest where tan wt = -v0 w / g
  const double w = std::sqrt(20e3 / 100);
  const double v0 = std::sqrt(2 * g * 1.8);
  const double stop = (M_PI - std::atan(v0 * w / g)) / w;
  EXPECT_NEAR(r.time_to_taut.value(), v0 / g, 1e-12);
  EXPECT_NEAR(r.time_to_arrest.value(), v0 / g + stop, 1e-8);
}

TEST(ArrestInTime, AgreesWithTheLineAndAbsorberInSeries) {
  // Energy: e = F/k, X = (W (FF + e) - k e^2 / 2) / (F - W)
  for (const double fall : {0.6, 1.8, 4.0}) {
    for (const double stiffness : {20e3, 100e3, 1e7}) {
      ArrestInTimeCase c = hundred_kilograms();
      c.maximum_elongation = 5.0 * si::metre;
      c.free_fall = fall * si::metre;
      c.stiffness = stiffness * si::newton / si::metre;
      const ArrestInTime r = arrest_in_time(c);
      const double stretch = 4e3 / stiffness;
      const double elongation =
          (100 * g * (fall + stretch) - stiffness * stretch * stretch / 2) / (4e3 - 100 * g);
      EXPECT_EQ(r.state, AbsorberState::tears);
      EXPECT_NEAR(r.elongation.value(), elongation, 1e-7);
      EXPECT_NEAR(r.stopping_distance.value(), elongation + stretch, 1e-7);
      EXPECT_NEAR(r.peak_force.value() / 4e3, 1, 1e-9);
      EXPECT_TRUE(r.broken_assumptions.empty());
    }
  }
}

TEST(ArrestInTime, AgreesWithTheAbsorberOnAStiffLine) {
  // 100 kg, 4 m, 4 kN: 1.30 m (computed)
  ArrestInTimeCase c = hundred_kilograms();
  c.free_fall = 4.0 * si::metre;
  c.maximum_elongation = 2.0 * si::metre;
  c.stiffness = 1e7 * si::newton / si::metre;
  EXPECT_NEAR(arrest_in_time(c).elongation.value(), 1.30, 0.005);
}

TEST(ArrestInTime, AShortFallLeavesTheAbsorberClosed) {
  ArrestInTimeCase c = hundred_kilograms();
  c.free_fall = 0.2 * si::metre;
  const ArrestInTime r = arrest_in_time(c);
  EXPECT_EQ(r.state, AbsorberState::stays_closed);
  EXPECT_EQ(r.elongation.value(), 0);
  EXPECT_LT(r.peak_force, c.absorber_force);
}

// ---- Beyond the closed forms -------------------------------------------------------------------

TEST(ArrestInTime, BottomsOutAndThenStopsHard) {
  // After the absorber's energy is spent, the line alone: the stretch u solves
  // W (FF + X + u) = F X + k u^2 / 2.
  ArrestInTimeCase c = hundred_kilograms();
  c.maximum_elongation = 0.2 * si::metre;
  const ArrestInTime r = arrest_in_time(c);
  const double weight = 100 * g;
  const double taken = 4e3 * 0.2;
  const double k = 20e3;
  const double stretch = (weight + std::sqrt(weight * weight + 2 * k * (weight * 2.0 - taken))) / k;
  EXPECT_EQ(r.state, AbsorberState::bottoms_out);
  EXPECT_TRUE(has(r, BrokenAssumption::bottoms_out));
  EXPECT_EQ(r.elongation, c.maximum_elongation);
  EXPECT_NEAR(r.peak_force.value() / (k * stretch), 1, 1e-7);
  EXPECT_GT(r.peak_force, c.absorber_force);
}

TEST(ArrestInTime, AnAbsorberWeakerThanTheWeightTearsToItsEnd) {
  ArrestInTimeCase c = hundred_kilograms();
  c.absorber_force = 500.0 * si::newton;
  const ArrestInTime r = arrest_in_time(c);
  EXPECT_EQ(r.state, AbsorberState::bottoms_out);
  EXPECT_TRUE(has(r, BrokenAssumption::tears_under_weight));
}

TEST(ArrestInTime, DampsAsTheKnownSolutionSays) {
  // Taut from rest (no fall): u = W/k (1 - e^-at (cos bt + a/b sin bt)); first standstill at pi /
  // b.
  ArrestInTimeCase c = line_only();
  c.free_fall = 0.0 * si::metre;
  c.damping_ratio = 0.2;
  const ArrestInTime r = arrest_in_time(c);
  const double w = std::sqrt(20e3 / 100);
  const double a = 0.2 * w;
  const double b = w * std::sqrt(1 - 0.04);
  EXPECT_NEAR(r.time_to_arrest.value(), M_PI / b, 1e-7);
  EXPECT_NEAR(r.stopping_distance.value(), 100 * g / 20e3 * (1 + std::exp(-a * M_PI / b)), 1e-8);
  EXPECT_TRUE(has(r, BrokenAssumption::line_damping));
  // The greatest force k u + c v lies before the standstill; sampled from the same solution.
  double peak = 0;
  for (int i = 0; i <= 100'000; ++i) {
    const double t = M_PI / b * i / 100'000;
    const double decay = std::exp(-a * t);
    const double u = 100 * g / 20e3 * (1 - decay * (std::cos(b * t) + a / b * std::sin(b * t)));
    const double v = 100 * g / 20e3 * decay * (a * a / b + b) * std::sin(b * t);
    peak = std::max(peak, 20e3 * u + 2 * a * 100 * v);
  }
  EXPECT_NEAR(r.peak_force.value() / peak, 1, 1e-8);
}

TEST(ArrestInTime, EdgeFrictionStiffensTheLineForTheWorkerOnly) {
  // Paying out, the worker feels f k u: an elastic line of stiffness f k.
  ArrestInTimeCase c = line_only();
  c.edge_friction = 0.3;
  const ArrestInTime r = arrest_in_time(c);
  const double factor = std::exp(0.3 * M_PI / 2);
  const double weight = 100 * g;
  const double peak = weight + std::sqrt(weight * weight + 2 * weight * factor * 20e3 * 1.8);
  EXPECT_NEAR(r.edge_factor, factor, 1e-12);
  EXPECT_NEAR(r.peak_force.value() / peak, 1, 1e-7);
  EXPECT_NEAR(r.peak_anchor_force.value() / (peak / factor), 1, 1e-7);
  EXPECT_GT(r.edge_friction_energy.value(), 0);
  EXPECT_TRUE(has(r, BrokenAssumption::edge_friction));
}

TEST(ArrestInTime, ASlideAddsItsSpeed) {
  ArrestInTimeCase c = line_only();
  c.slide_distance = 5.0 * si::metre;
  c.pitch = std::atan(0.5) * si::radian;
  c.roof_friction = 0.2;
  const ArrestInTime r = arrest_in_time(c);
  const double head = 5 * (std::sin(std::atan(0.5)) - 0.2 * std::cos(std::atan(0.5)));
  ArrestInTimeCase same_speed = line_only();
  same_speed.free_fall = (1.8 + head) * si::metre;
  EXPECT_NEAR(r.peak_force / arrest_in_time(same_speed).peak_force, 1, 1e-9);
  EXPECT_TRUE(has(r, BrokenAssumption::roof_slide));
  EXPECT_GT(r.time_to_taut, arrest_in_time(same_speed).time_to_taut);
}

TEST(ArrestInTime, RefusesASlideThatDoesNotStart) {
  ArrestInTimeCase c = line_only();
  c.slide_distance = 5.0 * si::metre;
  c.pitch = 0.4 * si::radian;
  c.roof_friction = 0.5;
  try {
    arrest_in_time(c);
    FAIL();
  } catch (const Refusal& refusal) {
    EXPECT_STREQ(refusal.what(),
                 "arrest-in-time: roof-friction: holds the worker on this slope, expected less "
                 "than the tangent of its angle where there is a slide");
  }
}

// ---- The course --------------------------------------------------------------------------------

TEST(ArrestHistory, FallsSlidesAndBouncesOnTheExactCourse) {
  ArrestInTimeCase c = line_only();
  const ArrestHistory h = arrest_history(c, 10.0 * si::second, 2001);
  ASSERT_EQ(h.time.size(), 2001u);
  ASSERT_EQ(h.force.size(), 2001u);
  EXPECT_EQ(h.time.front().value(), 0);
  EXPECT_NEAR(h.time.back().value(), 10, 1e-12);
  // Without damping the energy stays, through every rebound.
  const double start = 100 * g * 1.8;
  for (std::size_t i = 0; i < h.time.size(); ++i) {
    const double below_taut = h.drop[i].value() - 1.8;
    const double stretch = std::max(0.0, below_taut);
    const double v = h.speed[i].value();
    const double energy = 50 * v * v - 100 * g * below_taut + 20e3 * stretch * stretch / 2;
    ASSERT_NEAR(energy / start, 1, 1e-6) << h.time[i].value();
    ASSERT_NEAR(h.force[i].value(), 20e3 * stretch, 1e-6);
  }
  // Freely falling until the line is taut: downwards, by g in each second.
  std::size_t falling = 0;
  for (; h.drop[falling].value() < 1.8; ++falling)
    EXPECT_NEAR(h.speed[falling].value(), g * h.time[falling].value(), 1e-9);
  EXPECT_NEAR(h.time[falling].value(), std::sqrt(2 * 1.8 / g), 0.005);
  // It comes back to where it started, again and again.
  const double highest = std::min_element(h.drop.begin() + 1000, h.drop.end())->value();
  EXPECT_NEAR(highest, 0, 1e-3);
}

TEST(ArrestHistory, ComesToRestWhereTheResultSays) {
  ArrestInTimeCase c = hundred_kilograms();
  c.damping_ratio = 0.3;
  const ArrestInTime r = arrest_in_time(c);
  const ArrestHistory h = arrest_history(c, 30.0 * si::second, 301);
  EXPECT_NEAR(h.drop.back().value(), r.drop_at_rest.value(), 1e-6);
  EXPECT_NEAR(h.force.back().value(), 100 * g, 1e-3);
  EXPECT_NEAR(h.speed.back().value(), 0, 1e-6);
}

// A line pulls and never pushes, also where damping slows its way back.
TEST(ArrestHistory, ARopeNeverPushes) {
  ArrestInTimeCase c = line_only();
  for (const double damping : {0.05, 0.2, 0.5}) {
    c.damping_ratio = damping;
    const ArrestHistory h = arrest_history(c, 6.0 * si::second, 6001);
    bool slack_again = false;
    for (std::size_t i = 0; i < h.time.size(); ++i) {
      ASSERT_GE(h.force[i].value(), 0) << damping << ", after " << h.time[i].value() << " s";
      slack_again = slack_again || (i > 1500 && h.force[i].value() == 0);
    }
    EXPECT_TRUE(slack_again || damping > 0.1);
  }
}

// The same law by the plainest of methods: so many short steps that none has to be cut anywhere.
TEST(ArrestHistory, TakesTheCourseThatShortStepsTake) {
  constexpr double duration = 4;
  constexpr int samples = 4001;
  constexpr int steps_per_sample = 200;
  constexpr double step = duration / (samples - 1) / steps_per_sample;
  int slow_flights = 0;
  for (const double free_fall : {0.3, 1.8}) {
    for (const double damping_ratio : {0.02, 0.1, 0.25, 0.5}) {
      ArrestInTimeCase c = line_only();
      c.free_fall = free_fall * si::metre;
      c.damping_ratio = damping_ratio;
      const ArrestHistory h = arrest_history(c, duration * si::second, samples);
      const double k = 20e3;
      const double damping = 2 * damping_ratio * std::sqrt(k * 100);
      const auto force_at = [&](double stretch, double speed) {
        return stretch < 0 ? 0 : std::max(0.0, k * stretch + damping * speed);
      };
      double stretch = -free_fall;
      double speed = 0;
      bool pulled = false;
      for (int i = 0; i < samples; ++i) {
        const std::string where =
            fmt::format("{} m, {}, after {} s", free_fall, damping_ratio, h.time[i].value());
        ASSERT_NEAR(h.drop[i].value(), free_fall + stretch, 5e-5) << where;
        ASSERT_NEAR(h.speed[i].value(), speed, 1e-3) << where;
        // A dashpot takes load at once, at an instant that short steps meet inexactly.
        if (std::abs(stretch) > 1e-4) {
          ASSERT_NEAR(h.force[i].value(), force_at(stretch, speed), 4) << where;
        }
        for (int j = 0; j < steps_per_sample; ++j) {
          const double force = force_at(stretch, speed);
          if (pulled && force == 0 && speed * speed < 2 * g * stretch) ++slow_flights;
          pulled = force > 0;
          const double half_stretch = stretch + speed * step / 2;
          const double half_speed = speed + (g - force / 100) * step / 2;
          stretch += half_speed * step;
          speed += (g - force_at(half_stretch, half_speed) / 100) * step;
        }
      }
    }
  }
  EXPECT_GT(slow_flights, 0) << "a line that is taut again before it hung loose";
}

TEST(ArrestMotion, KeepsItsLedgerThroughRebounds) {
  for (const double damping : {0.0, 50.0, 300.0, 1000.0}) {
    for (const double edge_factor : {1.0, 1.3}) {
      const ArrestModel model{100, g, 20e3, damping, 4e3, 0.2, edge_factor};
      const double start = 50 * 6.0 * 6.0;
      ArrestMotion motion(model, 6.0);
      bool loose = false;
      for (int i = 1; i <= 500; ++i) {
        motion.advance_to(0.01 * i);
        const ArrestMotion::State s = motion.state();
        const double stretch = std::max(0.0, s.stretch);
        loose = loose || motion.force_on_worker() == 0;
        ASSERT_NEAR(
            (50 * s.speed * s.speed - 100 * g * motion.travel() + 20e3 * stretch * stretch / 2 +
             s.absorber_energy + s.damping_energy + s.edge_energy) /
                start,
            1, 1e-6)
            << damping << ' ' << edge_factor << ' ' << motion.time();
      }
      EXPECT_TRUE(loose || damping > 500);
    }
  }
}

TEST(ArrestHistory, FrictionAtTheEdgeHoldsTheLineStill) {
  ArrestInTimeCase c = line_only();
  c.free_fall = 0.5 * si::metre;
  c.edge_friction = 0.8;
  const ArrestInTime r = arrest_in_time(c);
  const ArrestHistory h = arrest_history(c, 30.0 * si::second, 301);
  EXPECT_EQ(h.speed.back().value(), 0);
  EXPECT_EQ(h.drop.back(), h.drop[280]);
  EXPECT_LE(h.drop.back(), r.drop_at_rest);
  // Somewhere between what the friction can hold up and hold down.
  const double stretch = h.drop.back().value() - 0.5;
  EXPECT_GE(stretch, 100 * g / 20e3 / r.edge_factor * (1 - 1e-6));
  EXPECT_LE(stretch, 100 * g / 20e3 * r.edge_factor * (1 + 1e-6));
}

TEST(ArrestHistory, RestsOnlyWhereTheEdgeCanHoldTheLine) {
  for (const double free_fall : {0.0, 0.05, 0.5}) {
    for (const double friction : {0.02, 0.1, 0.3, 1.5}) {
      for (const double damping_ratio : {0.0, 0.1, 0.5}) {
        ArrestInTimeCase c = line_only();
        c.free_fall = free_fall * si::metre;
        c.edge_friction = friction;
        c.damping_ratio = damping_ratio;
        const double factor = std::exp(friction * M_PI / 2);
        const ArrestHistory h = arrest_history(c, 60.0 * si::second, 61);
        ASSERT_EQ(h.speed.back().value(), 0);
        const double stretch = h.drop.back().value() - free_fall;
        EXPECT_GE(stretch, 100 * g / 20e3 / factor * (1 - 1e-6))
            << free_fall << ' ' << friction << ' ' << damping_ratio;
        EXPECT_LE(stretch, 100 * g / 20e3 * factor * (1 + 1e-6))
            << free_fall << ' ' << friction << ' ' << damping_ratio;
      }
    }
  }
}

TEST(ArrestHistory, StartsOnTheRoof) {
  ArrestInTimeCase c = line_only();
  c.slide_distance = 4.0 * si::metre;
  c.pitch = 0.6 * si::radian;
  const ArrestHistory h = arrest_history(c, 3.0 * si::second, 601);
  EXPECT_NEAR(h.drop.front().value(), -4 * std::sin(0.6), 1e-12);
  EXPECT_EQ(h.speed.front().value(), 0);
  for (std::size_t i = 1; i < h.time.size() && h.drop[i].value() < 0; ++i) {
    EXPECT_GT(h.drop[i], h.drop[i - 1]);
    EXPECT_NEAR(h.speed[i].value(), g * std::sin(0.6) * h.time[i].value(), 1e-9);
  }
  // Over the edge it gains g in each second, and the drop is that of the speeds on the way.
  int past_edge = 0;
  for (std::size_t i = 1; i < h.time.size() && h.drop[i].value() < 1.8; ++i) {
    if (!(h.drop[i - 1].value() > 0)) continue;
    const double step = h.time[i].value() - h.time[i - 1].value();
    EXPECT_NEAR(h.speed[i].value() - h.speed[i - 1].value(), g * step, 1e-9);
    EXPECT_NEAR(h.drop[i].value() - h.drop[i - 1].value(),
                step * (h.speed[i].value() + h.speed[i - 1].value()) / 2, 1e-9);
    ++past_edge;
  }
  EXPECT_GT(past_edge, 20);
}

TEST(ArrestHistory, RefusesADurationOrCountOutsideItsRange) {
  const ArrestInTimeCase c = line_only();
  EXPECT_THROW(arrest_history(c, 0.0 * si::second, 10), Refusal);
  EXPECT_THROW(arrest_history(c, NAN * si::second, 10), Refusal);
  EXPECT_THROW(arrest_history(c, 61.0 * si::second, 10), Refusal);
  EXPECT_THROW(arrest_history(c, 1.0 * si::second, 1), Refusal);
  EXPECT_THROW(arrest_history(c, 1.0 * si::second, 10'001), Refusal);
  EXPECT_EQ(arrest_history(c, 60.0 * si::second, 2).time.back(), 60.0 * si::second);
  EXPECT_EQ(arrest_history(c, 1.0 * si::second, 10'000).time.size(), 10'000u);
}

// ---- Over the whole domain ---------------------------------------------------------------------

class AnyCase {
 public:
  explicit AnyCase(std::uint64_t seed) : bits_(seed) {}

  /// Often one of the two ends, else spread evenly over the magnitudes where `low` is positive.
  double within(double low, double high) {
    const std::uint64_t kind = bits_() % 8;
    if (kind == 0) return low;
    if (kind == 1) return high;
    const double part = static_cast<double>(bits_() >> 11) * 0x1p-53;
    return low > 0 ? low * std::pow(high / low, part) : low + (high - low) * part;
  }
  bool often() { return bits_() % 2 == 0; }

  ArrestInTimeCase draw() {
    ArrestInTimeCase c{};
    c.mass = within(10, 300) * si::kilogram;
    c.free_fall = within(0, 30) * si::metre;
    c.stiffness = within(1e3, 1e7) * si::newton / si::metre;
    c.absorber_force = within(100, 1e5) * si::newton;
    c.maximum_elongation = within(0, 10) * si::metre;
    if (often()) c.damping_ratio = within(0, 0.5);
    if (often()) c.damping_ratio = c.damping_ratio.value() * within(1e-15, 1);
    if (often()) c.edge_friction = within(0, 2);
    c.edge_angle = within(0, M_PI) * si::radian;
    if (often()) {
      c.slide_distance = within(0, 60) * si::metre;
      c.pitch = within(0, 80 * M_PI / 180) * si::radian;
      c.roof_friction = within(0, 2);
    }
    return c;
  }

 private:
  std::mt19937_64 bits_;
};

std::string described(const ArrestInTimeCase& c) {
  std::string all;
  for (const double value :
       {c.mass.value(), c.free_fall.value(), c.stiffness.value(), c.absorber_force.value(),
        c.maximum_elongation.value(), c.damping_ratio.value(), c.slide_distance.value(),
        c.pitch.value(), c.roof_friction.value(), c.edge_friction.value(), c.edge_angle.value()}) {
    char text[32];
    std::snprintf(text, sizeof text, "%.17g ", value);
    all += text;
  }
  return all;
}

// Rounding differs between processors: where nothing is lost, not even that may be left.
TEST(ArrestInTime, LosesExactlyNothingWithoutDampingAndFriction) {
  AnyCase any(20261);
  for (int i = 0; i < 200; ++i) {
    ArrestInTimeCase c = any.draw();
    c.damping_ratio = 0;
    c.edge_friction = 0;
    c.slide_distance = 0.0 * si::metre;
    c.maximum_elongation = 0.0 * si::metre;
    const ArrestInTime r = arrest_in_time(c);
    EXPECT_EQ(r.damping_energy.value(), 0) << described(c);
    EXPECT_EQ(r.edge_friction_energy.value(), 0) << described(c);
    EXPECT_EQ(r.absorber_energy.value(), 0) << described(c);
    const double grains = r.residual / (1e-9 * r.fall_energy);
    EXPECT_NEAR(grains, std::round(grains), 1e-6) << described(c);
  }
}

TEST(ArrestInTime, EndsWithAClosedLedgerForAnyCase) {
  AnyCase any(20260);
  int ran = 0;
  for (int i = 0; i < 3000; ++i) {
    const ArrestInTimeCase c = any.draw();
    ArrestInTime r{};
    try {
      r = arrest_in_time(c);
    } catch (const Refusal& refusal) {
      ASSERT_EQ(refusal.quantity, "roof-friction") << refusal.what() << " " << described(c);
      continue;
    }
    ++ran;
    const Energy given = r.fall_energy - r.roof_friction_energy;
    ASSERT_NEAR(r.residual / given, 0, 1e-6) << described(c);
    for (const double value :
         {r.peak_force.value(), r.peak_anchor_force.value(), r.elongation.value(),
          r.stopping_distance.value(), r.lowest_drop.value(), r.drop_at_rest.value(),
          r.time_to_arrest.value(), r.edge_friction_energy.value(), r.absorber_energy.value(),
          r.damping_energy.value(), r.line_energy.value()}) {
      ASSERT_TRUE(std::isfinite(value)) << described(c);
      ASSERT_GE(value, 0) << described(c);
    }
    ASSERT_LE(r.elongation, c.maximum_elongation) << described(c);
    ASSERT_LE(r.peak_anchor_force.value(), r.peak_force.value() * (1 + 1e-9)) << described(c);
    ASSERT_GE(r.peak_force.value(), c.mass.value() * g * (1 - 1e-6)) << described(c);
    if (r.state == AbsorberState::stays_closed) {
      ASSERT_EQ(r.elongation.value(), 0) << described(c);
    }
    if (r.state == AbsorberState::tears) {
      ASSERT_GE(r.peak_force.value(), c.absorber_force.value() * (1 - 1e-9)) << described(c);
    }
  }
  EXPECT_GT(ran, 1500);
}

TEST(ArrestInTime, NothingAfterTheFirstStandstillIsWorse) {
  AnyCase any(77);
  int ran = 0;
  for (int i = 0; i < 200; ++i) {
    ArrestInTimeCase c = any.draw();
    c.slide_distance = 0.0 * si::metre;
    c.stiffness = std::min(c.stiffness.value(), 1e5) * si::newton / si::metre;
    const ArrestInTime r = arrest_in_time(c);
    const Time duration = std::min(r.time_to_arrest.value() + 5, 60.0) * si::second;
    const ArrestHistory h = arrest_history(c, duration, 2000);
    for (std::size_t k = 0; k < h.time.size(); ++k) {
      ASSERT_TRUE(std::isfinite(h.force[k].value())) << described(c);
      ASSERT_TRUE(std::isfinite(h.speed[k].value())) << described(c);
      ASSERT_LE(h.force[k].value(), r.peak_force.value() * (1 + 1e-6)) << described(c);
      ASSERT_LE(h.drop[k].value(), r.lowest_drop.value() + 1e-6) << described(c);
    }
    ++ran;
  }
  EXPECT_EQ(ran, 200);
}

TEST(ArrestInTime, RefusesWhatIsNoNumber) {
  for (const double bad : {double(NAN), double(INFINITY), -1.0}) {
    ArrestInTimeCase c = hundred_kilograms();
    c.free_fall = bad * si::metre;
    EXPECT_THROW(arrest_in_time(c), OutOfDomain);
    c = hundred_kilograms();
    c.stiffness = bad * si::newton / si::metre;
    EXPECT_THROW(arrest_in_time(c), OutOfDomain);
    c = hundred_kilograms();
    c.damping_ratio = bad;
    EXPECT_THROW(arrest_in_time(c), OutOfDomain);
  }
}

}  // namespace
}  // namespace footroom::engine
