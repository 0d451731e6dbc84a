#include "engine/ridge_layout.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace footroom::engine {
namespace {

const Length foot = 0.3048 * si::metre;

RidgeLayoutCase ranch_house(int workers) {
  RidgeLayoutCase c{};
  c.ridge_length = 40.0 * foot;
  c.spacing = 2.0 * foot;
  c.first_rafter = 0.0 * foot;
  c.workers = workers;
  return c;
}

TEST(RidgeLayout, SetsOneAnchorInTheMiddle) {
  const RidgeLayout r = ridge_layout(ranch_house(1));
  EXPECT_EQ(r.rafter_count, 21);
  ASSERT_EQ(r.positions.size(), 1u);
  EXPECT_NEAR(r.positions[0] / foot, 20, 1e-12);
  EXPECT_EQ(r.rafter_numbers[0], 11.0);
  EXPECT_EQ(r.smallest_gap.value(), 0);
  EXPECT_NEAR(r.farthest_sideways / foot, 20, 1e-12);
}

TEST(RidgeLayout, SpreadsACrewOverTheRidge) {
  // Middles of four equal shares: 5, 15, 25, 35 ft. Rafters stand at even feet; of two equally near
  // the one nearer to the start is taken.
  const RidgeLayout r = ridge_layout(ranch_house(4));
  ASSERT_EQ(r.positions.size(), 4u);
  for (int i = 0; i < 4; ++i) EXPECT_NEAR(r.positions[i] / foot, 4 + 10 * i, 1e-12);
  EXPECT_NEAR(r.smallest_gap / foot, 10, 1e-12);
  EXPECT_NEAR(r.farthest_sideways / foot, 6, 1e-12);
}

TEST(RidgeLayout, EveryAnchorHasARafterOfItsOwnAndKeepsFromTheEnds) {
  for (int tenths = 30; tenths <= 300; tenths += 7) {
    for (const double spacing : {0.3, 0.4064, 0.6096, 1.2}) {
      for (const double first : {0.0, 0.019, 0.3}) {
        for (const double end : {0.0, 0.9}) {
          for (int workers = 1; workers <= 20; ++workers) {
            RidgeLayoutCase c{};
            c.ridge_length = tenths / 10.0 * si::metre;
            c.spacing = spacing * si::metre;
            c.first_rafter = first * si::metre;
            c.end_distance = end * si::metre;
            c.workers = workers;
            RidgeLayout r{};
            try {
              r = ridge_layout(c);
            } catch (const Refusal& refusal) {
              EXPECT_EQ(refusal.quantity, "workers");
              continue;
            }
            ASSERT_EQ(r.positions.size(), std::size_t(workers));
            for (std::size_t i = 0; i < r.positions.size(); ++i) {
              const double number = r.rafter_numbers[i];
              EXPECT_EQ(number, std::round(number));
              EXPECT_GE(number, 1);
              EXPECT_LE(number, r.rafter_count);
              if (i > 0) {
                EXPECT_GE(number, r.rafter_numbers[i - 1].value() + 1);
              }
              EXPECT_NEAR(r.positions[i].value(), first + (number - 1) * spacing, 1e-9);
              EXPECT_GE(r.positions[i].value(), end - 1e-6);
              EXPECT_LE(r.positions[i].value(), c.ridge_length.value() - end + 1e-6);
            }
          }
        }
      }
    }
  }
}

/// The least possible greatest distance from the middles of the shares, over every choice.
double least_deviation(const RidgeLayoutCase& c, int from, int rafters, int worker) {
  if (worker == c.workers) return 0;
  double least = INFINITY;
  for (int rafter = from; rafter < rafters; ++rafter) {
    const double position = c.first_rafter.value() + rafter * c.spacing.value();
    const double middle = (worker + 0.5) / c.workers * c.ridge_length.value();
    least = std::min(least, std::max(std::abs(position - middle),
                                     least_deviation(c, rafter + 1, rafters, worker + 1)));
  }
  return least;
}

/// Ridges of these lengths with 1 to 6 workers and rafters that begin in three places.
template <class Visit>
void for_each_layout(std::initializer_list<double> ridges, Visit visit) {
  for (const double ridge : ridges)
    for (const double first : {0.0, 0.25, 0.6})
      for (int workers = 1; workers <= 6; ++workers) {
        RidgeLayoutCase c{};
        c.ridge_length = ridge * si::metre;
        c.spacing = 0.61 * si::metre;
        c.first_rafter = first * si::metre;
        c.workers = workers;
        SCOPED_TRACE(testing::Message() << ridge << ' ' << first << ' ' << workers);
        visit(c, ridge_layout(c));
      }
}

TEST(RidgeLayout, NoOtherChoiceOfRaftersIsNearerToTheShares) {
  for_each_layout({4.0, 5.1, 6.3}, [&](const RidgeLayoutCase& c, const RidgeLayout& r) {
    const double ridge = c.ridge_length.value();
    double deviation = 0;
    for (int i = 0; i < c.workers; ++i)
      deviation =
          std::max(deviation, std::abs(r.positions[i].value() - (i + 0.5) / c.workers * ridge));
    EXPECT_NEAR(deviation, least_deviation(c, 0, r.rafter_count, 0), 1e-9);
  });
}

// Every millimetre of the ridge and the anchor nearest to it.
TEST(RidgeLayout, FarthestSidewaysIsThatOfThePointFarthestFromAnyAnchor) {
  bool between_two = false;
  for_each_layout({4.0, 5.1, 9.3}, [&](const RidgeLayoutCase& c, const RidgeLayout& r) {
    const double ridge = c.ridge_length.value();
    double farthest = 0;
    for (double point = 0; point <= ridge + 1e-9; point += 0.001) {
      double nearest = ridge;
      for (const Length& anchor : r.positions)
        nearest = std::min(nearest, std::abs(anchor.value() - point));
      farthest = std::max(farthest, nearest);
    }
    EXPECT_NEAR(r.farthest_sideways.value(), farthest, 0.001);
    const double of_ends =
        std::max(r.positions.front().value(), ridge - r.positions.back().value());
    between_two = between_two || farthest > of_ends + 0.01;
    double gap = c.workers > 1 ? ridge : 0;
    for (std::size_t i = 1; i < r.positions.size(); ++i)
      gap = std::min(gap, r.positions[i].value() - r.positions[i - 1].value());
    EXPECT_NEAR(r.smallest_gap.value(), gap, 1e-9);
  });
  EXPECT_TRUE(between_two);
}

TEST(RidgeLayout, RefusesMoreWorkersThanRafters) {
  RidgeLayoutCase c = ranch_house(5);
  c.ridge_length = 6.0 * foot;
  try {
    ridge_layout(c);
    FAIL();
  } catch (const Refusal& refusal) {
    EXPECT_STREQ(refusal.what(),
                 "ridge-layout: workers: is 5, expected at most 4: every anchor needs a rafter of "
                 "its own");
  }
}

}  // namespace
}  // namespace footroom::engine
