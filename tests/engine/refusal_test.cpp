// Whatever numbers arrive: a calculation either names the input that it declines, or gives finite
// results.

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>
#include <locale>

#include "engine/drawn_values.hpp"
#include "engine/nail.hpp"

namespace footroom::engine {
namespace {

using Limits = std::numeric_limits<double>;

double strange_number(Draws& draws, const Domain& domain) {
  const double ends[] = {domain.lowest, domain.highest};
  const double end = ends[draws.below(2)];
  const double sign = draws.below(2) == 0 ? 1 : -1;
  switch (draws.below(10)) {
    case 0:
      return Limits::quiet_NaN();
    case 1:
      return sign * Limits::infinity();
    case 2:
      return sign * Limits::max();
    case 3:
      return sign * Limits::denorm_min();
    case 4:
      return sign * 0.0;
    case 5:
      return end;
    case 6:
      return std::nextafter(end, sign * Limits::infinity());
    case 7:
      return sign * 4294967297.0;  // 1 in the lower 32 bits
    case 8:
      return sign * std::exp(draws.within(-700, 700));
    default:
      return draws.within(domain.lowest, domain.highest);
  }
}

void expect_finite(const Values& outputs) {
  for (const auto& [name, value] : outputs) {
    if (const auto* quantity = std::get_if<Quantity>(&value)) {
      EXPECT_TRUE(std::isfinite(quantity->si)) << name << " is " << quantity->si;
    } else if (const auto* list = std::get_if<Quantities>(&value)) {
      for (const Quantity& one : *list) EXPECT_TRUE(std::isfinite(one.si)) << name;
    }
  }
}

class Refusals : public testing::TestWithParam<const Calculation*> {};

TEST_P(Refusals, OrFiniteResultsForStrangeNumbers) {
  const Calculation& calculation = *GetParam();
  Draws draws(1926);
  for (int i = 0; i < 5000; ++i) {
    Values inputs = draws.values_for(calculation);
    // Few strange numbers at once, so that a refusal of one does not hide all others.
    for (const Input& input : calculation.inputs)
      if (input.choices.empty() && input.word_example.empty() &&
          draws.below(calculation.inputs.size()) == 0)
        inputs[std::string(input.id)] =
            Quantity{input.dimension, strange_number(draws, input.domain)};
    try {
      expect_finite(calculation.run(inputs));
    } catch (const Refusal& refusal) {
      EXPECT_EQ(refusal.calculation, calculation.id);
      EXPECT_NE(calculation.find_input(refusal.quantity), nullptr) << refusal.what();
    }
    ASSERT_FALSE(HasFailure()) << "for " << in_words(inputs);
  }
}

TEST_P(Refusals, NameTheInputThatIsNoNumber) {
  const Calculation& calculation = *GetParam();
  Draws draws(502);
  for (const Input& input : calculation.inputs) {
    if (!input.choices.empty() || !input.word_example.empty()) continue;
    for (const double strange : {Limits::quiet_NaN(), Limits::infinity(), -Limits::infinity()}) {
      Values inputs = draws.values_for(calculation);
      inputs[std::string(input.id)] = Quantity{input.dimension, strange};
      try {
        calculation.run(inputs);
        ADD_FAILURE() << input.id << " = " << strange << " is accepted";
      } catch (const Refusal& refusal) {
        EXPECT_EQ(refusal.quantity, input.id) << refusal.what();
      }
    }
  }
}

// Numbers in messages are read by programs, too: the program's surroundings must not change them.
TEST(Refusal, WritesNumbersAlikeInEveryLocale) {
  struct Comma : std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
  };
  const std::locale before = std::locale::global(std::locale(std::locale(), new Comma));
  const std::string of_domain =
      OutOfDomain("capstan", "force", {dimension::force, -0.5}, {0, 1.5}).reason;
  std::string of_count;
  try {
    find_calculation("holes-to-patch")
        ->run({{"anchors", Quantity{dimension::ratio, 2.5}},
               {"nails-per-anchor", Quantity{dimension::ratio, 6}}});
  } catch (const Refusal& refusal) {
    of_count = refusal.reason;
  }
  std::string of_duration;
  try {
    refuse_impact_duration("nail-lateral", 1.7);
  } catch (const Refusal& refusal) {
    of_duration = refusal.reason;
  }
  std::locale::global(before);
  EXPECT_EQ(of_domain, "is -0.5, expected at least 0 and at most 1.5 (SI units)");
  EXPECT_EQ(of_count, "is 2.5, expected a whole number");
  EXPECT_TRUE(of_duration.starts_with("is 1.7, ")) << of_duration;
}

INSTANTIATE_TEST_SUITE_P(Catalogue, Refusals, testing::ValuesIn(catalogue()),
                         [](const auto& entry) {
                           std::string name(entry.param->id);
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

}  // namespace
}  // namespace footroom::engine
