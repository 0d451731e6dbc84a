#include <gtest/gtest.h>

#include "bank/read.hpp"
#include "program_run.hpp"
#include "tasks/examples.hpp"
#include "tasks/manual.hpp"

namespace footroom::cli::testing {

using namespace tasks;

namespace {

using engine::Language;
using notation::System;

const bank::Bank& project_bank() {
  static const bank::Bank bank =
      bank::read_bank(fs::path(FOOTROOM_SOURCE_DIR) / "questionbank").bank;
  return bank;
}

TEST(Manual, WorksOutAnExampleOfEveryCalculation) {
  const bank::RuleSet& rules = project_bank().rules.at("us-construction");
  for (const System system : {System::us, System::si})
    for (const Language language : {Language::english, Language::spanish}) {
      const auto manual = make_manual(rules, system, {language, '.'});
      ASSERT_EQ(manual.entries.size(), engine::catalogue().size());
      for (std::size_t i = 0; i < manual.entries.size(); ++i) {
        const auto& entry = manual.entries[i];
        const auto& calculation = *engine::catalogue()[i];
        EXPECT_EQ(entry.id, calculation.id);
        EXPECT_EQ(entry.inputs.size(), calculation.inputs.size());
        EXPECT_EQ(entry.steps.size(), calculation.steps.size());
        EXPECT_FALSE(entry.sources.empty()) << entry.id;
        // A calculation with steps shows some of them with numbers.
        EXPECT_EQ(entry.example_steps.empty(), calculation.steps.empty()) << entry.id;
        for (const auto& input : entry.inputs) {
          EXPECT_FALSE(input.example.empty()) << entry.id << ' ' << input.id;
          EXPECT_FALSE(input.accepts.empty()) << entry.id << ' ' << input.id;
        }
      }
    }
}

// Through the command that the manual prints: the numbers are those of `footroom calc`.
TEST(Manual, PrintsWhatCalcPrints) {
  const auto entries =
      make_manual(project_bank().rules.at("us-construction"), System::si, {}).entries;
  const Scratch scratch;
  for (const std::string id : {"edge-fall", "largest-slack", "anchor-strength"}) {
    std::vector<std::string> words{"calc", id, "--units", "si"};
    for (const auto& word : example_words(id, System::si)) words.push_back(word);
    const auto ran = run_in(scratch.path, words);
    EXPECT_EQ(ran.code, 0) << ran.err;
    for (const auto& entry : entries) {
      if (entry.id != id) continue;
      for (const auto& output : entry.outputs)
        EXPECT_NE(ran.out.find(output.example), std::string::npos) << output.example;
    }
  }
}

TEST(Manual, RefusesAnExampleThatIsMissing) {
  EXPECT_THROW(example_words("no-such", System::us), std::logic_error);
}

TEST(ManualCommand, WritesBothFormatsAndTheFigures) {
  const Scratch scratch;
  const auto ran = run_in(scratch.path, {"manual", "--out", "m", "--language", "es"});
  EXPECT_EQ(ran.code, 0) << ran.err;
  const auto files = contents_below(scratch.path / "m");
  const std::string& html = files.at("manual.html");
  const std::string& markdown = files.at("manual.md");
  for (const auto* calculation : engine::catalogue()) {
    const std::string id(calculation->id);
    EXPECT_NE(html.find("<article class=\"question\" id=\"" + id + "\">"), std::string::npos) << id;
    EXPECT_NE(markdown.find(std::string(calculation->title.spanish)), std::string::npos) << id;
  }
  EXPECT_NE(html.find("<math"), std::string::npos);
  EXPECT_NE(html.find("id=\"figure-edge-fall-title\""), std::string::npos);
  EXPECT_EQ(files.count("figures/rope-passes.svg"), 1u);
  EXPECT_EQ(html.find("{{"), std::string::npos);
}

TEST(ManualCommand, NeedsAFolder) {
  const Scratch scratch;
  const auto ran = run_in(scratch.path, {"manual"});
  EXPECT_EQ(ran.code, 2);
  EXPECT_EQ(ran.err, "--out: is missing, expected a folder to write\n");
}

}  // namespace
}  // namespace footroom::cli::testing
