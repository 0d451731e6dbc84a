// A key shows the formulas of the catalogue's steps and the numbers of its functions. Here each
// formula is evaluated against the function, over the whole domain.

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "engine/drawn_values.hpp"
#include "notation/formula.hpp"

namespace footroom::engine {
namespace {

using notation::Formula;

constexpr int cases_wanted = 2000;

struct ReadStep {
  const Step* step;
  Formula formula;
  std::optional<Formula> when;
};

std::vector<ReadStep> read_steps(const Calculation& calculation) {
  std::vector<ReadStep> all;
  for (const Step& step : calculation.steps) {
    std::optional<Formula> when;
    if (!step.when.empty()) when = Formula::parse(step.when);
    all.push_back({&step, Formula::parse(step.formula), std::move(when)});
  }
  return all;
}

bool is_number(const Output& output) {
  return output.choices.empty();
}

/// Outputs that a search, a list or an integration in time gives: no formula of one line does.
bool has_no_formula(const Calculation& calculation, const Output& output) {
  static const std::set<std::string, std::less<>> without{"rafters.positions",
                                                          "ridge-layout.rafter-numbers",
                                                          "ridge-layout.positions",
                                                          "rope-passes.places",
                                                          "rope-passes.undoing",
                                                          "ridge-layout.smallest-gap",
                                                          "ridge-layout.farthest-sideways"};
  return calculation.id == "arrest-in-time" ||
         without.contains(std::string(calculation.id) + "." + std::string(output.id));
}

/// How far a formula may be off. Integration in time gives sums of large terms that cancel, and is
/// held to the largest quantity of its kind in the case.
double tolerance(const Calculation& calculation, const Values& outputs, const Quantity& expected) {
  double scale = std::abs(expected.si);
  if (calculation.id == "arrest-in-time")
    for (const auto& [name, value] : outputs)
      if (const auto* other = std::get_if<Quantity>(&value))
        if (other->dimension == expected.dimension) scale = std::max(scale, std::abs(other->si));
  return 1e-9 * scale;
}

/// One case: every formula that holds gives the output, from inputs and outputs shown before.
class Walk {
 public:
  Walk(const Calculation& calculation, const Values& inputs, const Values& outputs)
      : calculation_(calculation), inputs_(inputs), outputs_(outputs) {}

  void go(const std::vector<ReadStep>& steps) {
    for (const ReadStep& read : steps) {
      if (read.when && !read.when->truth(anything())) continue;
      const std::string output(read.step->output);
      EXPECT_TRUE(shown_.insert(output).second) << output << " has two steps that hold";
      const Quantity expected = std::get<Quantity>(outputs_.at(output));
      const Quantity got = read.formula.quantity(what_was_shown());
      EXPECT_EQ(got.dimension, expected.dimension) << output;
      EXPECT_NEAR(got.si, expected.si, tolerance(calculation_, outputs_, expected))
          << output << " = " << read.step->formula;
    }
  }

 private:
  std::optional<notation::Result> find(std::string_view name) const {
    for (const Values* values : {&outputs_, &inputs_}) {
      const auto found = values->find(name);
      if (found == values->end()) continue;
      if (const auto* quantity = std::get_if<Quantity>(&found->second)) return *quantity;
      if (const auto* word = std::get_if<Word>(&found->second)) return *word;
    }
    return std::nullopt;
  }
  notation::Lookup anything() const {
    return [this](std::string_view name) { return find(name); };
  }
  notation::Lookup what_was_shown() const {
    return [this](std::string_view name) -> std::optional<notation::Result> {
      const Output* output = calculation_.find_output(name);
      if (output && is_number(*output) && !has_no_formula(calculation_, *output) &&
          !shown_.contains(name))
        return std::nullopt;
      return find(name);
    };
  }

  const Calculation& calculation_;
  const Values& inputs_;
  const Values& outputs_;
  std::set<std::string, std::less<>> shown_;
};

class Steps : public testing::TestWithParam<const Calculation*> {};

TEST_P(Steps, GiveTheFunctionsOwnResult) {
  const Calculation& calculation = *GetParam();
  const std::vector<ReadStep> steps = read_steps(calculation);
  Draws draws(20261125);
  int accepted = 0;
  for (int tries = 0; accepted < cases_wanted && tries < 100 * cases_wanted; ++tries) {
    if (steps.empty()) return;
    Values inputs = draws.values_for(calculation);
    Values outputs;
    try {
      outputs = calculation.run(inputs);
    } catch (const Refusal&) {
      continue;
    }
    ++accepted;
    Walk(calculation, inputs, outputs).go(steps);
    ASSERT_FALSE(HasFailure()) << "for " << in_words(inputs) << "\ngives " << in_words(outputs);
  }
  EXPECT_EQ(accepted, cases_wanted) << "too few draws are accepted";
}

TEST_P(Steps, LeadToEveryOutput) {
  const Calculation& calculation = *GetParam();
  for (const Output& output : calculation.outputs) {
    if (!is_number(output) || has_no_formula(calculation, output)) continue;
    EXPECT_TRUE(std::any_of(calculation.steps.begin(), calculation.steps.end(),
                            [&](const Step& step) { return step.output == output.id; }))
        << output.id << " has no step";
  }
}

INSTANTIATE_TEST_SUITE_P(Catalogue, Steps, testing::ValuesIn(catalogue()), [](const auto& entry) {
  std::string name(entry.param->id);
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

}  // namespace
}  // namespace footroom::engine
