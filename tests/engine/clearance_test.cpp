#include "engine/clearance.hpp"

#include <gtest/gtest.h>

#include <array>

#include "engine/change_datum.hpp"
#include "engine/clearance_check.hpp"
#include "engine/drawn_values.hpp"
#include "engine/typed.hpp"

namespace footroom::engine {
namespace {

// ---- What must not compile: depths below different data do not mix ------------------------------

template <class A, class B>
concept Added = requires(A a, B b) {
  a + b;
};
template <class A, class B>
concept Subtracted = requires(A a, B b) {
  a - b;
};
template <class A, class B>
concept Checked = requires(A a, B b) {
  clearance_check(a, b);
};

static_assert(Subtracted<Clearance<BelowAnchor>, Clearance<BelowAnchor>>);
static_assert(!Subtracted<Clearance<BelowAnchor>, Clearance<BelowDRing>>);
static_assert(!Added<Clearance<BelowAnchor>, Clearance<BelowDRing>>);
static_assert(!Added<Clearance<BelowDRing>, Clearance<BelowStandingSurface>>);
static_assert(Added<Clearance<BelowDRing>, Length>);
static_assert(Checked<Clearance<BelowDRing>, Clearance<BelowDRing>>);
static_assert(!Checked<Clearance<BelowDRing>, Clearance<BelowStandingSurface>>);

// ---- The terms ---------------------------------------------------------------------------------

constexpr std::array<Length ClearanceCase::*, 7> terms = {
    &ClearanceCase::free_fall,    &ClearanceCase::arrester_lock,   &ClearanceCase::deceleration,
    &ClearanceCase::line_stretch, &ClearanceCase::harness_stretch, &ClearanceCase::body_below,
    &ClearanceCase::safety_margin};

constexpr std::array<Datum, 3> data = {Datum::below_anchor, Datum::below_d_ring,
                                       Datum::below_standing_surface};

ClearanceCase drawn_case(Draws& draws) {
  ClearanceCase c{};
  c.datum = data[draws.below(3)];
  for (const auto term : terms) c.*term = metres(draws.within(0, 0.9));
  c.anchor_above_d_ring = metres(draws.within(-2, 5));
  c.d_ring_height = metres(draws.within(0.5, 2));
  return c;
}

TEST(Clearance, CountsEveryTermOnce) {
  Draws draws(51);
  for (int i = 0; i < 3000; ++i) {
    const ClearanceCase c = drawn_case(draws);
    const double before = clearance(c).needed.value();
    for (const auto term : terms) {
      ClearanceCase more = c;
      more.*term += metres(0.1);
      EXPECT_NEAR(clearance(more).needed.value() - before, 0.1, 1e-12);
    }
  }
}

TEST(Clearance, WithNothingIsWhereTheDRingWas) {
  ClearanceCase c{};
  c.anchor_above_d_ring = metres(2);
  c.d_ring_height = metres(1.5);
  c.datum = Datum::below_d_ring;
  EXPECT_EQ(clearance(c).needed.value(), 0);
  c.datum = Datum::below_anchor;
  EXPECT_EQ(clearance(c).needed.value(), 2);
  c.datum = Datum::below_standing_surface;
  EXPECT_EQ(clearance(c).needed.value(), -1.5);
}

TEST(Clearance, BelowOneDatumIsTheOthersChanged) {
  Draws draws(52);
  for (int i = 0; i < 3000; ++i) {
    ClearanceCase c = drawn_case(draws);
    const Datum from = c.datum;
    const Length needed = clearance(c).needed;
    for (const Datum to : data) {
      c.datum = to;
      const ChangedDatum changed =
          change_datum({needed, from, to, c.d_ring_height, c.anchor_above_d_ring});
      EXPECT_NEAR(clearance(c).needed.value(), changed.changed.value(), 1e-12);
    }
  }
}

TEST(Clearance, BelowTheSurfaceNeedsTheDRingsHeight) {
  ClearanceCase c{};
  c.datum = Datum::below_standing_surface;
  try {
    clearance(c);
    FAIL();
  } catch (const Refusal& refusal) {
    EXPECT_STREQ(refusal.what(),
                 "clearance: d-ring-height: is 0, expected at least 0.5 and at most 2 (SI units)");
  }
  c.datum = Datum::below_d_ring;
  EXPECT_NO_THROW(clearance(c));
}

// ---- Data --------------------------------------------------------------------------------------

TEST(ChangeDatum, ThereAndBackIsTheSame) {
  Draws draws(53);
  for (int i = 0; i < 3000; ++i) {
    const Length h = metres(draws.within(0.5, 2));
    const Length a = metres(draws.within(-10, 10));
    const Length depth = metres(draws.within(0, 30));
    const auto change = [&](Length of, Datum from, Datum to) {
      return change_datum({of, from, to, h, a}).changed;
    };
    for (const Datum one : data)
      for (const Datum other : data) {
        const Length there = change(depth, one, other);
        EXPECT_NEAR(change(there, other, one).value(), depth.value(), 1e-12);
        for (const Datum third : data)
          EXPECT_NEAR(change(there, other, third).value(), change(depth, one, third).value(),
                      1e-12);
      }
  }
}

TEST(ChangeDatum, MeasuresTheSameLevel) {
  // Heights over the ground: surface 6 m, D-ring 1.5 m over it, anchor 2 m over that.
  const auto from_anchor = [](Datum to) {
    return change_datum({metres(9.5), Datum::below_anchor, to, metres(1.5), metres(2)})
        .changed.value();
  };
  EXPECT_NEAR(from_anchor(Datum::below_anchor), 9.5, 1e-12);
  EXPECT_NEAR(from_anchor(Datum::below_d_ring), 7.5, 1e-12);
  EXPECT_NEAR(from_anchor(Datum::below_standing_surface), 6, 1e-12);
}

// ---- The verdict -------------------------------------------------------------------------------

TEST(ClearanceCheck, NothingToSpareIsEnough) {
  EXPECT_EQ(clearance_check({metres(5), metres(5)}).verdict, Verdict::enough);
  EXPECT_EQ(clearance_check({metres(5), metres(4.999)}).verdict, Verdict::too_little);
  EXPECT_NEAR(clearance_check({metres(5), metres(3)}).spare.value(), -2, 1e-12);
}

TEST(ClearanceCheck, TakesClearancesBelowOneDatum) {
  const Clearance<BelowDRing> needed(metres(5));
  const ClearanceCheck r = clearance_check(needed, needed + metres(1));
  EXPECT_NEAR(r.spare.value(), 1, 1e-12);
  EXPECT_EQ(r.verdict, Verdict::enough);
}

}  // namespace
}  // namespace footroom::engine
