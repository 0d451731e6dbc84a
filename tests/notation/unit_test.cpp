#include "notation/unit.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

namespace {

using namespace footroom;
using notation::all_units;
using notation::find_unit;
using notation::suggest;
using notation::suggest_unit;
using notation::Unit;

const Unit& unit(std::string_view name) {
  const Unit* found = find_unit(name);
  if (!found) throw std::invalid_argument(std::string(name));
  return *found;
}

struct Factor {
  std::string_view name;
  double si;
  double relative_tolerance;
};

// NIST SP 811 (2008), appendix B.8, from memory. Exact where the tolerance is 0; otherwise the
// table rounds to seven digits. (The energy stands there as foot pound-force, the stiffness and
// damping units are products of exact ones.)
const Factor table[] = {
    {"", 1, 0},
    {"percent", 0.01, 0},
    {"ft", 0.3048, 0},
    {"ft-in", 0.3048, 0},
    {"in", 0.0254, 0},
    {"m", 1, 0},
    {"cm", 0.01, 0},
    {"mm", 0.001, 0},
    {"ft2", 0.09290304, 1e-15},
    {"in2", 0.00064516, 1e-15},
    {"m2", 1, 0},
    {"deg", 0.01745329, 5e-7},
    {"rad", 1, 0},
    {"lb", 0.45359237, 0},
    {"kg", 1, 0},
    {"lbf", 4.4482216152605, 0},
    {"N", 1, 0},
    {"kN", 1000, 0},
    {"s", 1, 0},
    {"ft/s", 0.3048, 0},
    {"m/s", 1, 0},
    {"ft/s2", 0.3048, 0},
    {"m/s2", 1, 0},
    {"ft-lbf", 1.355818, 5e-7},
    {"J", 1, 0},
    {"kJ", 1000, 0},
    {"lbf/ft", 14.59390, 5e-7},
    {"lbf/in", 175.1268, 5e-7},
    {"N/m", 1, 0},
    {"kN/m", 1000, 0},
    {"psi", 6894.757, 5e-7},
    {"MPa", 1e6, 0},
    {"Pa", 1, 0},
    {"lbf-s/ft", 14.59390, 5e-7},
    {"N-s/m", 1, 0},
};

TEST(Units, HaveThePublishedFactors) {
  std::set<std::string_view> accounted = {"pitch"};
  for (const Factor& row : table) {
    EXPECT_NEAR(unit(row.name).to_si(1), row.si, row.relative_tolerance * row.si) << row.name;
    accounted.insert(row.name);
  }
  for (const Unit& one : all_units())
    EXPECT_TRUE(accounted.contains(one.name)) << one.name << " stands in no row of the table";
}

TEST(Units, PoundForceIsThePoundUnderStandardGravity) {
  EXPECT_NEAR(unit("lbf").to_si(1), unit("lb").to_si(1) * engine::standard_gravity.value(), 1e-15);
}

TEST(Units, PitchIsTheAngleOfARiseInTwelve) {
  EXPECT_DOUBLE_EQ(unit("pitch").to_si(12), std::numbers::pi / 4);
  EXPECT_EQ(unit("pitch").to_si(0), 0);
  // 26.57 degrees for 6:12, 18.43 for 4:12: common roofing tables, no single source
  EXPECT_NEAR(unit("deg").from_si(unit("pitch").to_si(6)), 26.57, 0.005);
  EXPECT_NEAR(unit("deg").from_si(unit("pitch").to_si(4)), 18.43, 0.005);
}

TEST(Units, ComeBackFromSi) {
  for (const Unit& one : all_units())
    for (const double number : {0.0, 0.125, 1.0, 7.0, 1800.0})
      EXPECT_NEAR(one.from_si(one.to_si(number)), number, 1e-11 * std::fmax(1, number)) << one.name;
}

TEST(Units, HaveEachSpellingOnce) {
  std::set<std::string_view> seen;
  for (const Unit& one : all_units()) {
    EXPECT_TRUE(seen.insert(one.name).second) << one.name;
    for (const auto spelling : one.also) EXPECT_TRUE(seen.insert(spelling).second) << spelling;
  }
}

TEST(Units, AreFoundByEachSpelling) {
  for (const Unit& one : all_units()) {
    EXPECT_EQ(find_unit(one.name), &one);
    for (const auto spelling : one.also) EXPECT_EQ(find_unit(spelling), &one) << spelling;
  }
  EXPECT_EQ(find_unit("parsec"), nullptr);
}

TEST(Units, DoNotMindTheCaseOfLettersUnlessItMatters) {
  EXPECT_EQ(find_unit("FT"), &unit("ft"));
  EXPECT_EQ(find_unit("Lbs"), &unit("lb"));
  EXPECT_EQ(find_unit("kn"), &unit("kN"));
  EXPECT_EQ(find_unit("Meters"), &unit("m"));
  EXPECT_EQ(find_unit("mPa"), nullptr);  // millipascal
  EXPECT_EQ(find_unit("Mm"), nullptr);   // megametre
  EXPECT_EQ(find_unit("n"), nullptr);
  EXPECT_EQ(find_unit("M"), nullptr);
}

TEST(Units, ArePrintedWithTheSameSymbolsInBothLanguages) {
  for (const Unit& one : all_units()) EXPECT_EQ(one.printed.english, one.printed.spanish);
}

TEST(Suggestion, IsTheNearestName) {
  const std::vector<std::string> names = {"slope", "slack", "d-ring-height", "offset"};
  EXPECT_EQ(suggest("slop", names), "slope");
  EXPECT_EQ(suggest("slakc", names), "slack");  // two neighbours swapped
  EXPECT_EQ(suggest("d-ring-hight", names), "d-ring-height");
  EXPECT_EQ(suggest("Slope", names), "slope");
  EXPECT_EQ(suggest("", names), std::nullopt);
  EXPECT_EQ(suggest("weight", names), std::nullopt);
  EXPECT_EQ(suggest("slope", {}), std::nullopt);
}

TEST(Suggestion, IsNotGivenForAShortWordThatSharesNothing) {
  EXPECT_EQ(suggest("q", {"m", "s"}), std::nullopt);
  EXPECT_EQ(suggest("abc", {"lbf"}), std::nullopt);
}

TEST(Suggestion, OfTwoEquallyNearIsTheFirst) {
  EXPECT_EQ(suggest("slaps", {"slabs", "slips"}), "slabs");
}

TEST(Suggestion, OfAUnitIsItsName) {
  EXPECT_EQ(suggest_unit("feets"), "ft");
  EXPECT_EQ(suggest_unit("ponds"), "lb");
  EXPECT_EQ(suggest_unit("degres"), "deg");
  EXPECT_EQ(suggest_unit("mPa"), "MPa");
  EXPECT_EQ(suggest_unit("furlong"), std::nullopt);
}

}  // namespace
