// What the catalogue takes from whoever names values: the command line, items and pages.

#include "engine/catalogue.hpp"

#include <gtest/gtest.h>

#include <set>

namespace footroom::engine {
namespace {

Quantity length(double metres) {
  return {dimension::length, metres};
}
Quantity count(double number) {
  return {dimension::ratio, number};
}

std::string refusal(const char* calculation, const Values& given) {
  try {
    find_calculation(calculation)->run(given);
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "none";
}

TEST(Catalogue, FindsByIdOnly) {
  const Calculation* clearance = find_calculation("clearance");
  ASSERT_NE(clearance, nullptr);
  EXPECT_EQ(clearance->id, "clearance");
  EXPECT_EQ(find_calculation("clear"), nullptr);
  EXPECT_EQ(find_calculation(""), nullptr);
  EXPECT_NE(clearance->find_input("free-fall"), nullptr);
  EXPECT_EQ(clearance->find_input("needed"), nullptr);
  EXPECT_NE(clearance->find_output("needed"), nullptr);
  EXPECT_EQ(clearance->find_output("free-fall"), nullptr);
}

TEST(Catalogue, NamesEachCalculationInputAndOutputOnce) {
  std::set<std::string_view> ids;
  for (const Calculation* calculation : catalogue()) {
    EXPECT_TRUE(ids.insert(calculation->id).second) << calculation->id;
    EXPECT_EQ(find_calculation(calculation->id), calculation);
    std::set<std::string_view> names;
    for (const Input& input : calculation->inputs)
      EXPECT_TRUE(names.insert(input.id).second) << calculation->id << ' ' << input.id;
    for (const Output& output : calculation->outputs)
      EXPECT_TRUE(names.insert(output.id).second) << calculation->id << ' ' << output.id;
  }
  EXPECT_EQ(ids.size(), catalogue().size());
}

TEST(Catalogue, RefusesWhatDoesNotFitTheInput) {
  const Values sound{{"lanyard-length", length(1.8)}, {"anchor-above-d-ring", length(0.3)}};
  EXPECT_EQ(refusal("free-fall-rule", sound), "none");
  const auto with = [&](const char* name, const Value& value) {
    Values given = sound;
    given.insert_or_assign(name, value);
    return refusal("free-fall-rule", given);
  };
  EXPECT_EQ(with("slack", length(1)), "free-fall-rule: slack: is not an input");
  EXPECT_EQ(with("lanyard-length", count(1.8)),
            "free-fall-rule: lanyard-length: has another dimension than this input");
  EXPECT_EQ(with("lanyard-length", Word{"long"}),
            "free-fall-rule: lanyard-length: has another dimension than this input");
  EXPECT_EQ(with("lanyard-length", length(15.1)),
            "free-fall-rule: lanyard-length: is 15.1, expected at least 0.3 and at most 15 (SI "
            "units)");
  Values missing = sound;
  missing.erase("anchor-above-d-ring");
  EXPECT_EQ(refusal("free-fall-rule", missing), "free-fall-rule: anchor-above-d-ring: is missing");
}

TEST(Catalogue, TakesOneOfTheWordsOffered) {
  Values given{{"clearance", length(5)},
               {"from", Word{"below-anchor"}},
               {"to", Word{"below-d-ring"}},
               {"d-ring-height", length(1.5)},
               {"anchor-above-d-ring", length(0)}};
  EXPECT_EQ(refusal("change-datum", given), "none");
  given.insert_or_assign("to", Word{"below-roof"});
  EXPECT_EQ(refusal("change-datum", given),
            "change-datum: to: expected one of below-anchor below-d-ring below-standing-surface");
  given.insert_or_assign("to", length(1));
  EXPECT_EQ(refusal("change-datum", given),
            "change-datum: to: expected one of below-anchor below-d-ring below-standing-surface");
}

TEST(Catalogue, TakesListsOfWords) {
  Values given{{"workers", count(3)}, {"passes", Words{{"1-over"}}}};
  EXPECT_EQ(refusal("rope-passes", given), "none");
  given.insert_or_assign("passes", Word{"1-over"});
  EXPECT_TRUE(
      refusal("rope-passes", given).starts_with("rope-passes: passes: expected words like "));
  // Open words are read by the calculation; of a closed list each has to be in it.
  const Calculation& gear = *find_calculation("gear-check");
  const auto refuses = [&](const Value& findings) {
    try {
      gear.run({{"findings", findings}});
    } catch (const Refusal& refusal) {
      return std::string(refusal.what());
    }
    return std::string("none");
  };
  EXPECT_EQ(refuses(Words{{"cut"}, {"torn"}}), "gear-check: findings: expected words like cut");
  EXPECT_EQ(refuses(Word{"cut"}), "gear-check: findings: expected words like cut");
  EXPECT_NE(refuses(Words{{"cut"}, {"burn"}}), "gear-check: findings: expected words like cut");
}

TEST(Catalogue, CountsAreWholeNumbers) {
  const Values given{{"anchors", count(2.5)}, {"nails-per-anchor", count(6)}};
  EXPECT_EQ(refusal("holes-to-patch", given),
            "holes-to-patch: anchors: is 2.5, expected a whole number");
}

TEST(Catalogue, TakesTheFallbackWhereNothingIsGiven) {
  const Values given{{"anchors", count(2)}, {"nails-per-anchor", count(6)}};
  Values with_none_missed = given;
  with_none_missed.emplace("missed-nails", count(0));
  Values with_three_missed = given;
  with_three_missed.emplace("missed-nails", count(3));
  const Calculation& holes = *find_calculation("holes-to-patch");
  EXPECT_EQ(holes.run(given), holes.run(with_none_missed));
  EXPECT_NE(holes.run(given), holes.run(with_three_missed));
}

}  // namespace
}  // namespace footroom::engine
