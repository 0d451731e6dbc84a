// Dimensions by a second route: everything worked out in other base units.

#include "quiz/scaling.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "bank/read.hpp"
#include "quiz/fixture.hpp"

namespace footroom::quiz {
namespace {

using namespace tests;

engine::Quantity value(const std::string& formula, double length_si) {
  const auto lookup = [&](std::string_view) -> std::optional<notation::Result> {
    return engine::Quantity{engine::dimension::length, length_si};
  };
  return notation::Formula::parse(formula).quantity(lookup);
}

TEST(Rescaling, ChangesAValueByTheFactorOfItsDimension) {
  const notation::Rescaling by{4, 3};
  EXPECT_DOUBLE_EQ(by.factor(engine::dimension::length), 4);
  EXPECT_DOUBLE_EQ(by.factor(engine::dimension::mass), 3);
  EXPECT_DOUBLE_EQ(by.factor(engine::dimension::time), 2);
  EXPECT_DOUBLE_EQ(by.factor(engine::dimension::acceleration), 1);
  EXPECT_DOUBLE_EQ(by.factor(engine::dimension::force), 3);
  EXPECT_DOUBLE_EQ(by.factor(engine::dimension::angle), 1);
  const auto lookup = [&](std::string_view) -> std::optional<notation::Result> {
    return engine::Quantity{engine::dimension::length, 4 * 2.5};
  };
  for (const char* formula :
       {"a + 2 ft", "hypot(a, 3 m) * a", "sqrt(2 * g * a)", "80 kg * g * a / (1 ft)",
        "number-of(a, \"ft\") * 2", "if(a > 2 m, a, 3 m)", "sin(15 deg) * a", "7",
        "exp(a / (1 m)) * 1 s", "-a ^ 2", "round(number-of(a, \"in\")) * 1 in"}) {
    const engine::Quantity before = value(formula, 2.5);
    const engine::Quantity after = notation::Formula::parse(formula).rescaled(by).quantity(lookup);
    EXPECT_EQ(after.dimension, before.dimension) << formula;
    EXPECT_NEAR(after.si, before.si * by.factor(before.dimension), 1e-12 * std::abs(after.si))
        << formula;
  }
}

TEST(Rescaling, FindsAFormulaWhoseNumbersStayed) {
  const bank::Bank bank = small_bank();
  const bank::Item item =
      item_of(item_xml("number", draw_xml("one", 1, 50) + stem_xml("s") + answer_xml("one + 2 ft") +
                                     mistakes_and_source_xml()));
  const CompiledItem compiled(bank, item, settings_of());
  const Made made = compiled.make({1, 0, 0, 0});
  CompiledItem rescaled = compiled.rescaled(other_units);
  EXPECT_EQ(scaling_fault(compiled, rescaled, made.key), "");
  rescaled.answer = compiled.answer;  // 2 ft stay 2 ft, as a number without a unit would
  EXPECT_NE(scaling_fault(compiled, rescaled, made.key)
                .find("\"answer\" does not scale with the "
                      "base units: it is "),
            std::string::npos);
}

/// Every calculation of the catalogue that the bank calls is tried with it, over many draws.
TEST(Rescaling, HoldsForEveryItemOfTheBank) {
  const bank::ReadBank read =
      bank::read_bank(std::filesystem::path(FOOTROOM_SOURCE_DIR) / "questionbank");
  Settings settings = settings_of();
  settings.rules = "us-construction";
  for (const bank::Item& item : read.bank.items) {
    const CompiledItem compiled(read.bank, item, settings);
    const CompiledItem rescaled = compiled.rescaled(other_units);
    for (std::uint32_t i = 0; i < 20; ++i)
      EXPECT_EQ(scaling_fault(compiled, rescaled, compiled.make({5, i, 0, 0}).key), "") << item.id;
  }
}

}  // namespace
}  // namespace footroom::quiz
