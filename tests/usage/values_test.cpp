#include "usage/values.hpp"

#include <gtest/gtest.h>

#include "cli/program_run.hpp"
#include "usage/usage.hpp"

namespace footroom::usage {
namespace {

using cli::testing::run_in;
using cli::testing::Scratch;
using Kind = Values::Kind;

TEST(Values, ReadsPlaceholders) {
  EXPECT_EQ(values_of("us|si").words, (std::vector<std::string>{"us", "si"}));
  EXPECT_EQ(values_of("QUIZ.json...").kind, Kind::files);
  EXPECT_EQ(values_of("QUIZ.json...").suffix, ".json");
  EXPECT_EQ(values_of("FILE|postgresql://...").kind, Kind::files);
  EXPECT_EQ(values_of("[ITEM...]").list, "items");
  EXPECT_TRUE(values_of("TOPIC,...").with_commas);
  EXPECT_EQ(values_of("YYYY-MM-DD,...").kind, Kind::any);
  EXPECT_FALSE(known_values_of("SOMETHING").has_value());
}

TEST(Values, EveryPlaceholderOfTheProgramIsKnown) {
  for (const auto& command : all_usages()) {
    std::vector<Argument> all = command.words;
    all.insert(all.end(), command.options.begin(), command.options.end());
    for (const auto& argument : all) {
      if (argument.placeholder.empty()) continue;
      EXPECT_TRUE(known_values_of(argument.placeholder).has_value())
          << command.name << " " << argument.name << ": usage/values.cpp needs a row for "
          << argument.placeholder;
    }
  }
}

TEST(Values, WhatIsFixedIsWhatTheProgramAccepts) {
  const Scratch scratch;
  for (const auto& word : values_of("PLOT").words) {
    const auto ran = run_in(scratch.path, {"plot", word, "--out", "plot.svg"});
    EXPECT_EQ(ran.err.find("is no plot"), std::string::npos) << ran.err;
  }
  for (const auto& word : values_of("WHAT").words) {
    const auto ran = run_in(scratch.path, {"record", "export", word});
    EXPECT_EQ(ran.err.find("WHAT"), std::string::npos) << ran.err;
  }
  for (const auto& word : values_of("REASON").words) {
    const auto ran =
        run_in(scratch.path, {"record", "retrain", "A-1", "--reason", word, "--store", "none.db"});
    EXPECT_EQ(ran.err.find("--reason"), std::string::npos) << ran.err;
  }
}

}  // namespace
}  // namespace footroom::usage
