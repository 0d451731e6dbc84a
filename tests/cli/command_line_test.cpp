// Help, spelling and exit codes, through the program itself.

#include <gtest/gtest.h>

#include "cli/command.hpp"
#include "cli/program_run.hpp"

namespace footroom::cli {
namespace {

using testing::Program;
using testing::Ran;
using testing::run_in;
using testing::Scratch;

void expect_refused(const std::vector<std::string>& arguments, const std::string& message) {
  const Scratch scratch;
  const Ran ran = run_in(scratch.path, arguments);
  EXPECT_EQ(ran.code, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, message + "\n");
  EXPECT_TRUE(std::filesystem::is_empty(scratch.path));
}

TEST(CommandLine, EveryCommandHasHelpThatNamesIt) {
  const Scratch scratch;
  const Ran whole = run_in(scratch.path, {"--help"});
  EXPECT_EQ(whole.code, 0);
  for (const CommandRow& row : all_commands()) {
    EXPECT_NE(whole.out.find("\n  " + std::string(row.name) + " "), std::string::npos);
    std::vector<std::string> words;
    const std::string name(row.name);
    words.push_back(name.substr(0, name.find(' ')));
    if (name.find(' ') != std::string::npos) words.push_back(name.substr(name.find(' ') + 1));
    words.push_back("--help");
    const Ran ran = run_in(scratch.path, words);
    EXPECT_EQ(ran.code, 0);
    EXPECT_EQ(ran.err, "");
    EXPECT_EQ(ran.out.find(std::string(row.summary) + "\n\nUse: footroom " + name), 0u) << ran.out;
  }
}

TEST(CommandLine, HelpOfCalc) {
  const Scratch scratch;
  EXPECT_EQ(
      run_in(scratch.path, {"calc", "--help"}).out,
      "Works out one calculation, with steps and sources.\n"
      "\n"
      "Use: footroom calc CALCULATION NAME=VALUE... [OPTION]...\n"
      "\n"
      "  CALCULATION                 a calculation; see --list\n"
      "  NAME=VALUE...               its inputs by name, with units\n"
      "\n"
      "Options:\n"
      "  --help                      this help\n"
      "  --list                      the calculations, or with CALCULATION its inputs and outputs\n"
      "  --json                      JSON instead of a page\n"
      "  --units us|si               units of everything shown (us)\n"
      "  --language en|es            English or Spanish (en)\n"
      "  --decimal-mark point|comma  1.5 or 1,5 (point)\n"
      "  --rules RULE-SET            rule set of limits that are not given "
      "(us-construction)\n"
      "  --bank DIR                  another question bank\n"
      "\n"
      "For instance:\n"
      "  footroom calc edge-fall slope-length=\"16 ft\" pitch=6:12 d-ring-height=\"5 ft\" "
      "slack=\"4 ft\"\n"
      "Values may be written 4 ft, 4' 6\", 4 ft 6 in, 1.4 m, 220 lbf, 8 kN, 6:12, 26.57 "
      "deg.\n");
}

TEST(CommandLine, TheHelpOfQuizWarnsOfSeedsThatCanBeGuessed) {
  const Scratch scratch;
  EXPECT_NE(run_in(scratch.path, {"quiz", "--help"})
                .out.find("Whoever knows or guesses the seed can make the keys"),
            std::string::npos);
}

TEST(CommandLine, NamesVersionAndBank) {
  const Scratch scratch;
  const Ran ran = run_in(scratch.path, {"--version"});
  EXPECT_EQ(ran.code, 0);
  EXPECT_EQ(ran.out.find("footroom 0.1.0\nbank "), 0u) << ran.out;
  EXPECT_EQ(ran.out.size(), std::string("footroom 0.1.0\nbank ").size() + 64 + 1);
}

TEST(CommandLine, SuggestsTheNearestCommandAndOption) {
  expect_refused({"quizz"}, "quizz: is no command of footroom; did you mean quiz?");
  expect_refused({"xylophone"}, "xylophone: is no command of footroom");
  expect_refused({"bank", "chekc"},
                 "bank chekc: is no command of footroom; did you mean bank check?");
  expect_refused({"quiz", "--shets", "3"},
                 "--shets: is no option of footroom quiz; did you mean --sheets?");
  expect_refused({"quiz", "--qqqqqqqq=1"}, "--qqqqqqqq: is no option of footroom quiz");
  expect_refused({"quiz", "now"}, "now: is one word too many; see footroom quiz --help");
}

TEST(CommandLine, ChecksWhatOptionsSay) {
  expect_refused({"quiz", "--seed"}, "--seed: needs a value, N");
  expect_refused({"calc", "--json=yes"}, "--json: takes no value");
  expect_refused({"quiz", "--seed", "12a"},
                 "--seed: is 12a, expected a whole number from 0 to 18446744073709551615");
  expect_refused({"quiz", "--seed", "18446744073709551616"},
                 "--seed: is 18446744073709551616, expected a whole number from 0 to "
                 "18446744073709551615");
  expect_refused({"quiz", "--sheets", "0"},
                 "--sheets: is 0, expected a whole number from 1 to 1000000");
  expect_refused({"quiz", "--units", "metric"}, "--units: is metric, expected us or si");
  expect_refused({"quiz", "--language", "fr"}, "--language: is fr, expected en or es");
  expect_refused({"quiz", "--paper", "a5"}, "--paper: is a5, expected letter or a4");
  expect_refused({"quiz", "--decimal-mark", ","}, "--decimal-mark: is ,, expected point or comma");
  for (const char* date : {"2026-02-29", "2026-13-01", "26-1-1", "2026-01-01x", "2026/01/01"})
    expect_refused({"quiz", "--date", date}, "--date: is " + std::string(date) +
                                                 ", expected a day of the calendar as YYYY-MM-DD");
  expect_refused({"quiz", "--blueprint", "weekley"},
                 "--blueprint: the bank has no blueprint named weekley; did you mean weekly?");
  expect_refused({"quiz", "--rules", "us-constructions"},
                 "--rules: the bank has no rule set named us-constructions; did you mean "
                 "us-construction?");
  expect_refused({"bank", "show"}, "ITEM: is missing; see footroom bank list");
  expect_refused({"bank", "show", "free-fall-over-the-eaves"},
                 "free-fall-over-the-eaves: is no item of the bank; did you mean "
                 "free-fall-over-the-eave?");
}

TEST(CommandLine, WithoutACommandItTellsHowToUseIt) {
  const Scratch scratch;
  const Ran ran = run_in(scratch.path, {});
  EXPECT_EQ(ran.code, 2);
  EXPECT_EQ(ran.err, run_in(scratch.path, {"--help"}).out);
  EXPECT_EQ(run_in(scratch.path, {"bank"}).code, 2);
}

TEST(CommandLine, ReportsAFullStandardOutput) {
  const Scratch scratch;
  Program program{scratch.path};
  program.standard_output = "/dev/full";
  const Ran ran = program.run({"calc", "--list"});
  EXPECT_EQ(ran.code, 3);
  EXPECT_EQ(ran.err, "standard output: cannot write: No space left on device\n");
}

TEST(CommandLine, ReportsABankOrTemplatesThatAreNotThere) {
  const Scratch scratch;
  Ran ran = run_in(scratch.path, {"quiz", "--bank", "nowhere"});
  EXPECT_EQ(ran.code, 3);
  EXPECT_EQ(ran.err, "--bank: nowhere is no folder that can be read\n");
  ran = run_in(scratch.path, {"quiz", "--templates", "nowhere"});
  EXPECT_EQ(ran.code, 3);
  EXPECT_EQ(ran.err, "--templates: nowhere is no folder that can be read\n");
}

}  // namespace
}  // namespace footroom::cli
