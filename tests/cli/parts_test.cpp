// A quiz in parts and on several threads: the bytes are those of a single run on one.

#include <gtest/gtest.h>

#include <regex>

#include "cli/program_run.hpp"
#include "cli/small_bank.hpp"

namespace footroom::cli {
namespace {

using testing::contents;
using testing::contents_below;
using testing::put;
using testing::Ran;
using testing::run_in;
using testing::Scratch;
using testing::small_bank;
using Words = std::vector<std::string>;

class PartsOfAQuiz : public ::testing::Test {
 protected:
  Scratch scratch;

  Words quiz(const Words& more) const {
    Words words{"quiz",   "--bank",     small_bank.string(), "--seed",   "5",
                "--date", "2026-03-02", "--roster",          "class.csv"};
    words.insert(words.end(), more.begin(), more.end());
    return words;
  }

  void SetUp() override {
    std::string roster = "name,language,large print,without figures,extra time\n";
    for (int i = 1; i <= 30; ++i)
      roster += "Sample " + std::to_string(i) + (i % 7 == 0 ? ",es" : ",") +
                (i % 5 == 0 ? ",yes" : ",") + (i % 11 == 0 ? ",yes" : ",") +
                (i % 3 == 0 ? ",25%" : ",") + "\n";
    put(scratch.path / "class.csv", roster);
  }

  Ran run(const Words& words) const { return run_in(scratch.path, words); }

  void expect_ok(const Words& words) const {
    const Ran ran = run(words);
    ASSERT_EQ(ran.code, 0) << ran.err;
  }

  std::map<std::string, std::string> files(const std::string& folder) const {
    return contents_below(scratch.path / folder);
  }

  void expect_refused(const Words& words, int code, const std::string& message) const {
    const auto before = contents_below(scratch.path);
    const Ran ran = run(words);
    EXPECT_EQ(ran.code, code);
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err, message + "\n");
    EXPECT_EQ(contents_below(scratch.path), before);
  }
};

TEST_F(PartsOfAQuiz, AnyNumberOfJobsWritesTheSameBytes) {
  expect_ok(quiz({"--jobs", "1", "--out", "one"}));
  const auto one = files("one");
  ASSERT_GT(one.size(), 120u);
  for (const char* jobs : {"2", "3", "7"}) {
    expect_ok(quiz({"--jobs", jobs, "--out", "several"}));
    EXPECT_EQ(files("several"), one) << jobs;
  }
}

TEST_F(PartsOfAQuiz, JoinToTheBytesOfASingleRun) {
  expect_ok(quiz({"--out", "whole"}));
  const Ran part = run(quiz({"--seats", "A..K", "--out", "parts/1"}));
  ASSERT_EQ(part.code, 0) << part.err;
  EXPECT_NE(part.out.find(", seats: A..K of 30\nPart: parts/1\n"), std::string::npos) << part.out;
  expect_ok(quiz({"--seats", "12..12", "--jobs", "3", "--out", "parts/2"}));
  expect_ok(quiz({"--seats", "M..AD", "--jobs", "2", "--out", "parts/3"}));
  const auto whole = files("whole");
  const auto second = files("parts/2");
  for (const auto& [name, bytes] : second)
    if (!name.starts_with("part-")) {
      EXPECT_EQ(whole.at(name), bytes) << name;
    }
  for (const char* name : {"sheet-L.html", "sheet-L.md", "key-L.html", "key-L.md"})
    EXPECT_EQ(second.count(name), 1u) << name;
  const Ran joined = run({"join", "parts/3", "parts/1", "parts/2", "--out", "joined"});
  ASSERT_EQ(joined.code, 0) << joined.err;
  EXPECT_NE(joined.out.find(", sheets: 30, parts: 3\n"), std::string::npos) << joined.out;
  EXPECT_EQ(files("joined"), whole);
}

TEST_F(PartsOfAQuiz, MayShareAFolderOneAfterTheOther) {
  expect_ok(quiz({"--out", "whole"}));
  expect_ok(quiz({"--seats", "1..15", "--out", "parts"}));
  expect_ok(quiz({"--seats", "16..30", "--out", "parts"}));
  expect_ok({"join", "parts", "--out", "joined"});
  EXPECT_EQ(files("joined"), files("whole"));
}

TEST_F(PartsOfAQuiz, ComeFromQuizJsonToo) {
  expect_ok(quiz({"--secret", "00112233445566778899aabbccddeeff", "--out", "whole"}));
  expect_ok({"quiz", "--bank", small_bank.string(), "--from", "whole", "--seats", "A..P", "--out",
             "parts/1"});
  expect_ok({"quiz", "--bank", small_bank.string(), "--from", "whole", "--seats", "Q..AD", "--out",
             "parts/2"});
  expect_ok({"join", "parts/1", "parts/2", "--out", "joined"});
  EXPECT_EQ(files("joined"), files("whole"));
}

TEST_F(PartsOfAQuiz, TellInSpanish) {
  const Ran part = run(quiz({"--language", "es", "--seats", "1..30", "--out", "parts"}));
  ASSERT_EQ(part.code, 0) << part.err;
  EXPECT_NE(part.out.find(", puestos: A..AD de 30\nParte: parts\n"), std::string::npos) << part.out;
  const Ran joined = run({"join", "parts", "--out", "joined"});
  EXPECT_NE(joined.out.find(", hojas: 30, partes: 1\nPara imprimir: joined/all-sheets.html\n"),
            std::string::npos)
      << joined.out;
}

TEST_F(PartsOfAQuiz, FaultyRangesAndJobsAreRefused) {
  const std::string expected = ", expected seats of A to AD, by name or by number from 1 to 30";
  expect_refused(quiz({"--seats", "D..B"}), 2, "--seats: D..B runs backwards, expected B..D");
  expect_refused(quiz({"--seats", "A..AE"}), 2, "--seats: the quiz has no seat AE" + expected);
  expect_refused(quiz({"--seats", "31..40"}), 2, "--seats: the quiz has no seat 40" + expected);
  expect_refused(quiz({"--seats", "a..b"}), 2,
                 "--seats: is a..b, expected FIRST..LAST with seats of A to AD, by name or by "
                 "number from 1 to 30");
  expect_refused(quiz({"--seats", "0..3"}), 2,
                 "--seats: is 0..3, expected FIRST..LAST with seats of A to AD, by name or by "
                 "number from 1 to 30");
  expect_refused(quiz({"--jobs", "0"}), 2, "--jobs: is 0, expected a whole number from 1 to 256");
  expect_refused({"quiz", "--seats", "A..B", "--sheets", "4"}, 2,
                 "--seats: needs --seed, and --secret for a class, or --from beside it: parts with "
                 "random numbers of their own would be of different quizzes");
}

TEST_F(PartsOfAQuiz, AllFaultsOfAJoinAreNamedAtOnce) {
  expect_ok(quiz({"--seats", "C..F", "--out", "a"}));
  expect_ok(quiz({"--seats", "F..H", "--out", "b"}));
  expect_ok(quiz({"--seats", "J..AC", "--out", "c"}));
  const Ran ran = run({"join", "a", "b", "c", "--out", "joined"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_TRUE(std::regex_match(
      ran.err, std::regex("seats A to B of the quiz [0-9A-Z]{5}: no part has them, expected all\n"
                          "b/part-F-H: has seat F a second time, expected each seat once\n"
                          "seat I of the quiz [0-9A-Z]{5}: no part has them, expected all\n"
                          "seat AD of the quiz [0-9A-Z]{5}: no part has them, expected all\n")))
      << ran.err;
  EXPECT_FALSE(testing::fs::exists(scratch.path / "joined"));
}

TEST_F(PartsOfAQuiz, APartOfAnotherClassOrQuizIsRefused) {
  expect_ok(quiz({"--seats", "1..15", "--out", "a"}));
  std::string roster = contents(scratch.path / "class.csv");
  roster.replace(roster.find("Sample 3,"), 8, "Changed!");
  put(scratch.path / "class.csv", roster);
  expect_ok(quiz({"--seats", "16..30", "--out", "b"}));
  Ran ran = run({"join", "a", "b", "--out", "joined"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_NE(ran.err.find("b/part-P-AD: is of the same quiz with other settings or another class "
                         "list, expected the quiz "),
            std::string::npos)
      << ran.err;
  expect_ok(quiz({"--seats", "16..30", "--units", "si", "--out", "c"}));
  ran = run({"join", "a", "c", "--out", "joined"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_NE(ran.err.find("c/part-P-AD: is of the quiz "), std::string::npos) << ran.err;
}

TEST_F(PartsOfAQuiz, AChangedFileIsFound) {
  expect_ok(quiz({"--seats", "1..30", "--out", "part"}));
  for (const std::string name :
       {"sheet-C.html", "figures/B-1.svg", "part-A-AD/quiz.json", "part-A-AD/digests.txt"}) {
    const auto file = scratch.path / "part" / name;
    if (!testing::fs::exists(file)) continue;
    const std::string bytes = contents(file);
    put(file, bytes + " ");
    const Ran ran = run({"join", "part", "--out", "joined"});
    EXPECT_EQ(ran.code, 1) << name;
    EXPECT_NE(ran.err.find("was changed since the part was written; make the part again"),
              std::string::npos)
        << ran.err;
    EXPECT_FALSE(testing::fs::exists(scratch.path / "joined"));
    put(file, bytes);
  }
  testing::fs::remove(scratch.path / "part" / "key-C.md");
  EXPECT_EQ(run({"join", "part", "--out", "joined"}).code, 3);
  EXPECT_EQ(run({"join", "class.csv"}).code, 3);
  EXPECT_EQ(run({"join"}).code, 2);
}

TEST_F(PartsOfAQuiz, AFilledInFormIsNotJoinedOver) {
  expect_ok(quiz({"--seats", "1..30", "--out", "part"}));
  expect_ok({"join", "part", "--out", "joined"});
  std::string form = contents(scratch.path / "joined" / "responses.csv");
  form.insert(form.find(",,") + 1, "12 ft");
  put(scratch.path / "joined" / "responses.csv", form);
  const Ran ran = run({"join", "part", "--out", "joined"});
  EXPECT_EQ(ran.code, 3);
  EXPECT_NE(ran.err.find("holds answers"), std::string::npos) << ran.err;
}

}  // namespace
}  // namespace footroom::cli
