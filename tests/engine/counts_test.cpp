#include <gtest/gtest.h>

#include <limits>

#include "engine/holes_to_patch.hpp"

namespace footroom::engine {
namespace {

Values given(double anchors, double missed) {
  return {{"anchors", Quantity{dimension::ratio, anchors}},
          {"nails-per-anchor", Quantity{dimension::ratio, 8}},
          {"missed-nails", Quantity{dimension::ratio, missed}}};
}

std::string refusal_of(const Values& values) {
  try {
    holes_to_patch_calculation().run(values);
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "no refusal";
}

TEST(Counts, WholeNumbersPass) {
  const Values result = holes_to_patch_calculation().run(given(2, 3));
  EXPECT_EQ(std::get<Quantity>(result.at("holes")).si, 19);
}

TEST(Counts, AreNotRoundedInSilence) {
  EXPECT_EQ(refusal_of(given(2.5, 0)), "holes-to-patch: anchors: is 2.5, expected a whole number");
}

TEST(Counts, WhatIsNoNumberIsNotTakenForZero) {
  const std::string expected = ", expected at least 0 and at most 10000 (SI units)";
  EXPECT_EQ(refusal_of(given(2, std::numeric_limits<double>::quiet_NaN())),
            "holes-to-patch: missed-nails: is nan" + expected);
  EXPECT_EQ(refusal_of(given(2, std::numeric_limits<double>::infinity())),
            "holes-to-patch: missed-nails: is inf" + expected);
  EXPECT_EQ(refusal_of(given(2, 4294967296.0)),
            "holes-to-patch: missed-nails: is 4.29497e+09" + expected);
}

}  // namespace
}  // namespace footroom::engine
