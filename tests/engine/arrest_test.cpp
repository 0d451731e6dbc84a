// Absorber, elastic line and both in series. The second route knows only the force at each place
// of the way down, and finds where the weight's work is used up.

#include <gtest/gtest.h>

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/tools/roots.hpp>
#include <cstdint>
#include <functional>
#include <vector>

#include "engine/absorber.hpp"
#include "engine/arrest_force.hpp"
#include "engine/drawn_values.hpp"
#include "engine/elastic_line.hpp"
#include "engine/line_then_absorber.hpp"
#include "engine/typed.hpp"

namespace footroom::engine {
namespace {

/// The force of the system at each distance below the place where the line is taut; it is smooth
/// between its kinks.
struct System {
  std::function<double(double)> force;
  std::vector<double> kinks;

  double work(double distance) const {
    double sum = 0;
    double from = 0;
    const auto add_up_to = [&](double to) {
      if (to > from)
        sum += boost::math::quadrature::gauss_kronrod<double, 15>::integrate(force, from, to, 5,
                                                                             1e-13);
      from = std::max(from, to);
    };
    for (const double kink : kinks) add_up_to(std::min(kink, distance));
    add_up_to(distance);
    return sum;
  }

  /// Where the work of the force has used up that of the weight.
  double stop(double weight, double free_fall) const {
    const auto left = [&](double distance) {
      return weight * (free_fall + distance) - work(distance);
    };
    double far = 1;
    while (left(far) > 0) far *= 2;
    // Right after the start the weight exceeds the force of a slack line; skip a root at zero.
    double near = far / 2;
    while (near > 1e-9 && left(near) <= 0) near /= 2;
    std::uintmax_t rounds = 200;
    const auto [a, b] = boost::math::tools::toms748_solve(
        left, near, far, boost::math::tools::eps_tolerance<double>(48), rounds);
    return (a + b) / 2;
  }

  /// The same by motion in small steps of time.
  double stop_in_time(double weight, double free_fall) const {
    const double mass = weight / gravity;
    double speed = std::sqrt(2 * gravity * free_fall);
    double distance = 0;
    constexpr double step = 1e-5;
    while (true) {
      const double half = speed + step / 2 * (gravity - force(distance) / mass);
      const double next = distance + step * half;
      speed = half + step / 2 * (gravity - force(next) / mass);
      if (speed <= 0) return distance;
      distance = next;
    }
  }
};

System tearing(double force) {
  return {[force](double) { return force; }, {}};
}

System spring(double stiffness) {
  return {[stiffness](double distance) { return stiffness * distance; }, {}};
}

System spring_then_absorber(double stiffness, double force, double maximum) {
  const double opens = force / stiffness;
  return {[=](double distance) {
            if (distance <= opens) return stiffness * distance;
            return std::max(force, force + stiffness * (distance - opens - maximum));
          },
          {opens, opens + maximum}};
}

// ---- Absorber ----------------------------------------------------------------------------------

AbsorberCase drawn_absorber(Draws& draws) {
  AbsorberCase c{};
  const double weight = draws.within(100, 5000);
  c.weight = newtons(weight);
  c.free_fall = metres(draws.within(0.01, 30));
  c.force = newtons(weight * draws.within(1.2, 20));
  c.maximum_elongation = metres(draws.within(0.2, 5));
  return c;
}

TEST(Absorber, StopsWhereTheWorkIsUsedUp) {
  Draws draws(41);
  for (int i = 0; i < 2000; ++i) {
    const AbsorberCase c = drawn_absorber(draws);
    const double stop = tearing(c.force.value()).stop(c.weight.value(), c.free_fall.value());
    EXPECT_NEAR(absorber(c).elongation.value(), stop, 1e-9 * stop);
  }
  const AbsorberCase c{newtons(1000), metres(1.8), newtons(4000)};
  EXPECT_NEAR(absorber(c).elongation.value(), tearing(4000).stop_in_time(1000, 1.8), 1e-3);
}

TEST(Absorber, ClosesTheEnergyBalance) {
  Draws draws(42);
  int bottomed_out = 0;
  for (int i = 0; i < 5000; ++i) {
    const AbsorberCase c = drawn_absorber(draws);
    const Absorber r = absorber(c);
    const double given_up = (c.weight * r.fall_distance).value();
    EXPECT_NEAR((r.energy + r.remaining_energy).value(), given_up, 1e-9 * given_up);
    EXPECT_EQ(r.state == AbsorberEnd::bottoms_out, r.elongation > c.maximum_elongation);
    EXPECT_EQ(r.state == AbsorberEnd::bottoms_out, r.remaining_energy.value() > 0);
    bottomed_out += r.state == AbsorberEnd::bottoms_out;
  }
  EXPECT_GT(bottomed_out, 500);
  EXPECT_LT(bottomed_out, 4500);
}

TEST(Absorber, WithoutFreeFallStaysClosed) {
  const Absorber r = absorber({newtons(1000), metres(0), newtons(4000)});
  EXPECT_EQ(r.elongation.value(), 0);
  EXPECT_EQ(r.energy.value(), 0);
}

TEST(Absorber, RefusesAForceThatDoesNotCarryTheWeight) {
  for (const double force : {900.0, 1000.0}) {
    try {
      absorber({newtons(1000), metres(2), newtons(force)});
      FAIL();
    } catch (const OutOfDomain& refusal) {
      EXPECT_EQ(refusal.quantity, "force");
      EXPECT_EQ(refusal.value.si, force);
      EXPECT_EQ(refusal.domain.lowest, 1000);
      EXPECT_FALSE(refusal.domain.includes_lowest);
    }
  }
  try {
    absorber({newtons(1000), metres(2), newtons(900)});
  } catch (const Refusal& refusal) {
    EXPECT_STREQ(refusal.what(),
                 "absorber: force: is 900, expected more than 1000 and at most 100000 (SI units)");
  }
  EXPECT_THROW(line_then_absorber({newtons(1000), metres(2), newtons_per_metre(1e4), newtons(900)}),
               OutOfDomain);
}

TEST(ArrestForce, IsTheForceOfTheAbsorberThatStopsThere) {
  Draws draws(43);
  for (int i = 0; i < 5000; ++i) {
    AbsorberCase c = drawn_absorber(draws);
    const double stop = draws.within(0.01, 5);
    const ArrestForce r = arrest_force({c.weight, c.free_fall, metres(stop)});
    if (!(r.average_force < newtons(1e5))) continue;
    c.force = r.average_force;
    EXPECT_NEAR(absorber(c).elongation.value(), stop, 1e-8 * stop);
  }
}

// ---- Elastic line ------------------------------------------------------------------------------

ElasticLineCase drawn_line(Draws& draws) {
  return {newtons(draws.within(100, 5000)), metres(draws.within(0, 30)),
          metres(draws.within(0.3, 100)), newtons(draws.within(100, 100000)),
          draws.within(0.001, 1)};
}

TEST(ElasticLine, StopsWhereTheWorkIsUsedUp) {
  Draws draws(44);
  for (int i = 0; i < 2000; ++i) {
    const ElasticLineCase c = drawn_line(draws);
    const ElasticLine r = elastic_line(c);
    const System line = spring(r.stiffness.value());
    const double stop = line.stop(c.weight.value(), c.free_fall.value());
    EXPECT_NEAR(r.stretch.value(), stop, 1e-8 * stop) << i;
    EXPECT_NEAR(r.peak_force.value(), line.force(stop), 1e-8 * r.peak_force.value()) << i;
  }
  const ElasticLine r = elastic_line({newtons(1000), metres(1.8), metres(10), newtons(5000), 0.1});
  EXPECT_NEAR(r.stretch.value(), spring(5000).stop_in_time(1000, 1.8), 1e-3);
}

TEST(ElasticLine, StretchesAsInTheTestAtTheTestForce) {
  Draws draws(45);
  for (int i = 0; i < 2000; ++i) {
    const ElasticLineCase c = drawn_line(draws);
    const ElasticLine r = elastic_line(c);
    EXPECT_NEAR((c.test_force / r.stiffness).value(), (c.test_elongation * c.line_length).value(),
                1e-9);
  }
}

TEST(ElasticLine, WithoutFreeFallPeaksAtTwiceTheWeight) {
  const ElasticLine r = elastic_line({newtons(900), metres(0), metres(10), newtons(5000), 0.1});
  EXPECT_NEAR(r.peak_force.value(), 1800, 1e-9);
}

TEST(ElasticLine, AveragesHalfItsPeak) {
  Draws draws(46);
  for (int i = 0; i < 2000; ++i) {
    const ElasticLineCase c = drawn_line(draws);
    const ElasticLine r = elastic_line(c);
    if (!(r.stretch.value() >= 0.01 && r.stretch.value() <= 15)) continue;
    const ArrestForce mean = arrest_force({c.weight, c.free_fall, r.stretch});
    EXPECT_NEAR(mean.average_force.value(), r.peak_force.value() / 2, 1e-8 * r.peak_force.value());
  }
}

// ---- Both in series ----------------------------------------------------------------------------

LineThenAbsorberCase drawn_series(Draws& draws) {
  LineThenAbsorberCase c{};
  const double weight = draws.within(300, 2000);
  c.weight = newtons(weight);
  c.free_fall = metres(draws.within(0, 6));
  c.stiffness = newtons_per_metre(std::exp(draws.within(std::log(1e3), std::log(1e6))));
  c.force = newtons(weight * draws.within(1.2, 15));
  c.maximum_elongation = metres(draws.within(0.1, 3));
  return c;
}

System system_of(const LineThenAbsorberCase& c) {
  return spring_then_absorber(c.stiffness.value(), c.force.value(), c.maximum_elongation.value());
}

TEST(LineThenAbsorber, StopsWhereTheWorkIsUsedUp) {
  Draws draws(47);
  int seen[3] = {};
  for (int i = 0; i < 3000; ++i) {
    const LineThenAbsorberCase c = drawn_series(draws);
    const LineThenAbsorber r = line_then_absorber(c);
    ++seen[static_cast<int>(r.deploys)];
    const System system = system_of(c);
    const double stop = system.stop(c.weight.value(), c.free_fall.value());
    EXPECT_NEAR(r.total_stopping.value(), stop, 1e-7 * stop) << i;
    EXPECT_NEAR(r.peak_force.value(), system.force(stop), 1e-6 * r.peak_force.value()) << i;
  }
  for (const int count : seen) EXPECT_GT(count, 200);
}

TEST(LineThenAbsorber, AgreesWithMotionInTime) {
  Draws draws(48);
  for (int i = 0; i < 60; ++i) {
    const LineThenAbsorberCase c = drawn_series(draws);
    const double stop = system_of(c).stop_in_time(c.weight.value(), c.free_fall.value());
    EXPECT_NEAR(line_then_absorber(c).total_stopping.value(), stop, 1e-3) << i;
  }
}

TEST(LineThenAbsorber, ClosesTheEnergyBalance) {
  Draws draws(49);
  for (int i = 0; i < 5000; ++i) {
    const LineThenAbsorberCase c = drawn_series(draws);
    const LineThenAbsorber r = line_then_absorber(c);
    const double given_up = (c.weight * (c.free_fall + r.total_stopping)).value();
    const double taken_up =
        0.5 * (c.stiffness * r.stretch * r.stretch).value() + (c.force * r.elongation).value();
    EXPECT_NEAR(taken_up, given_up, 1e-9 * given_up) << i;
  }
}

TEST(LineThenAbsorber, StaysClosedBelowTheAbsorbersForce) {
  LineThenAbsorberCase c{newtons(1000), metres(1), newtons_per_metre(5000), newtons(6000)};
  const LineThenAbsorber r = line_then_absorber(c);
  EXPECT_EQ(r.deploys, Deploys::stays_closed);
  EXPECT_EQ(r.elongation.value(), 0);
  EXPECT_EQ(r.peak_force, r.elastic_peak);
  c.force = r.elastic_peak;
  EXPECT_EQ(line_then_absorber(c).deploys, Deploys::stays_closed);
  c.force = r.elastic_peak * 0.999;
  EXPECT_EQ(line_then_absorber(c).deploys, Deploys::deploys);
}

TEST(LineThenAbsorber, OnAStiffLineIsTheAbsorberAlone) {
  const LineThenAbsorber series =
      line_then_absorber({newtons(1000), metres(2), newtons_per_metre(1e7), newtons(4000)});
  const Absorber alone = absorber({newtons(1000), metres(2), newtons(4000)});
  EXPECT_NEAR(series.elongation.value(), alone.elongation.value(), 1e-3);
}

}  // namespace
}  // namespace footroom::engine
