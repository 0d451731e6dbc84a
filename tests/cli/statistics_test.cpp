#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "grade/results.hpp"
#include "program_run.hpp"
#include "small_bank.hpp"

namespace footroom::cli::testing {
namespace {

/// An invented class: `seats` seats, items of the small bank; who sits further back knows less.
grade::Results invented(const std::string& quiz, int seats) {
  grade::Results results;
  results.quiz = quiz;
  results.title = "Invented | quiz";
  results.date = "2026-01-05";
  for (int seat = 0; seat < seats; ++seat) {
    grade::SeatResult one;
    one.seat = seat < 26 ? std::string(1, static_cast<char>('A' + seat))
                         : "A" + std::string(1, static_cast<char>('A' + seat - 26));
    for (int item = 0; item < 3; ++item) {
      grade::QuestionResult question;
      question.number = item + 1;
      question.item = item == 2 ? "retired" : item == 0 ? "free-fall" : "gear";
      question.topic = "slack-and-free-fall";
      question.topic_title = "Slack and free fall";
      question.title = "<Invented> " + question.item;
      question.level = 2;
      question.possible = grade::Points::whole(1);
      if ((seat + item) * (item + 1) < 2 * seats) {
        question.outcome = grade::Outcome::right;
        question.points = question.possible;
      } else {
        question.outcome = grade::Outcome::named_mistake;
        question.mistake = "slack-only";
        question.says = "Slack *alone* is not it.";
      }
      one.points += question.points;
      one.possible += question.possible;
      one.questions.push_back(question);
    }
    results.seats.push_back(one);
  }
  return results;
}

Ran run_statistics(const Scratch& scratch, std::vector<std::string> words) {
  words.insert(words.begin(), {"statistics", "--bank", small_bank.string()});
  return run_in(scratch.path, words);
}

TEST(StatisticsCommand, PrintsTables) {
  const Scratch scratch;
  put(scratch.path / "a.json", grade::results_json(invented("AAAAA", 32)));
  put(scratch.path / "b.json", grade::results_json(invented("BBBBB", 8)));
  const auto ran = run_statistics(scratch, {"a.json", "b.json"});
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  EXPECT_NE(ran.out.find("  AAAAA  2026-01-05  32     3"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("  BBBBB  2026-01-05  8*     3"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("undefined"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("* fewer than 30: take the numbers with care"), std::string::npos);
  EXPECT_NE(ran.out.find("Items that need care\n"), std::string::npos) << ran.out;
  const auto spanish = run_statistics(scratch, {"a.json", "--language", "es"});
  EXPECT_NE(spanish.out.find("Preguntas que piden atención\n"), std::string::npos) << spanish.out;
  EXPECT_EQ(spanish.out.find('*'), std::string::npos);
  EXPECT_EQ(contents_below(scratch.path).size(), 2u);
}

TEST(StatisticsCommand, WritesPagesAndLevelsAndReplacesOnlyItsFiles) {
  const Scratch scratch;
  put(scratch.path / "a.json", grade::results_json(invented("AAAAA", 32)));
  put(scratch.path / "out" / "mine.txt", "kept");
  put(scratch.path / "out" / "items-7.svg", "old");
  const auto ran = run_statistics(
      scratch, {"a.json", "--out", "out", "--levels", "levels.json", "--language", "es"});
  EXPECT_EQ(ran.code, 0) << ran.err;
  const auto files = contents_below(scratch.path / "out");
  ASSERT_EQ(files.size(), 5u);
  EXPECT_EQ(files.at("mine.txt"), "kept");
  EXPECT_NE(files.at("items-1.svg").find("correlación con el resto"), std::string::npos);
  const std::string& html = files.at("statistics.html");
  EXPECT_NE(html.find("Cómo resultaron las preguntas"), std::string::npos);
  EXPECT_NE(html.find("&lt;Invented&gt; retired"), std::string::npos);
  EXPECT_NE(html.find("Slack <em>alone</em> is not it."), std::string::npos);
  EXPECT_NE(html.find("<svg"), std::string::npos);
  const std::string& markdown = files.at("statistics.md");
  EXPECT_NE(markdown.find("Invented \\| quiz"), std::string::npos);
  EXPECT_NE(markdown.find("(items-1.svg)"), std::string::npos);
  EXPECT_EQ(nlohmann::json::parse(files.at("statistics.json")).at("items").size(), 3u);
  const auto levels = nlohmann::json::parse(contents(scratch.path / "levels.json")).at("levels");
  EXPECT_EQ(levels.at("retired"), 2);  // 20 of 32: its own level is within a standard error
  const auto json = run_statistics(scratch, {"a.json", "--json"});
  EXPECT_EQ(json.out, files.at("statistics.json"));
}

TEST(StatisticsCommand, SaysSoWhereNoQuestionHasALevelYet) {
  const Scratch scratch;
  put(scratch.path / "a.json", grade::results_json(invented("AAAAA", 2)));
  const auto ran = run_statistics(scratch, {"a.json", "--levels", "l.json"});
  EXPECT_EQ(ran.code, 0);
  EXPECT_EQ(ran.err, "l.json: note: names no level; a question needs 30 answers for one\n");
  EXPECT_TRUE(nlohmann::json::parse(contents(scratch.path / "l.json")).at("levels").empty());
}

TEST(StatisticsCommand, SaysWhatIsWrong) {
  const Scratch scratch;
  const std::string text = grade::results_json(invented("AAAAA", 2));
  put(scratch.path / "a.json", text);
  put(scratch.path / "again.json", text);
  put(scratch.path / "broken.json", "{\n");
  const auto expect = [&](const std::vector<std::string>& words, int code,
                          const std::string& message) {
    const auto ran = run_statistics(scratch, words);
    EXPECT_EQ(ran.code, code);
    EXPECT_EQ(ran.err, message + "\n");
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(contents_below(scratch.path).size(), 3u);
  };
  expect({}, 2, "RESULTS.json: is missing, expected what footroom grade wrote");
  expect({"none.json"}, 3, "none.json: cannot read: No such file or directory");
  expect({"broken.json", "--out", "out"}, 1,
         "broken.json:2: is no JSON, expected a file that footroom wrote");
  expect({"a.json", "again.json", "--levels", "l.json"}, 1,
         "again.json: holds the same results as a.json, expected each class once");
  expect({"a.json", "--out", "out", "--json"}, 2,
         "--json: cannot stand beside --out, which writes statistics.json");
}

// ---- The levels in a quiz ----------------------------------------------------------------------

std::vector<std::string> quiz_with(const std::string& levels) {
  return {"quiz",  "--bank", small_bank.string(), "--seed", "7", "--date", "2026-01-05",
          "--out", "out",    "--levels",          levels};
}

TEST(QuizCommand, FillsLevelsFromAFileAndRecordsThem) {
  const Scratch scratch;
  put(scratch.path / "levels.json", R"({"format": 1, "levels": {"verdict": 1, "numbr": 2}})");
  const auto ran = run_in(scratch.path, quiz_with("levels.json"));
  EXPECT_EQ(ran.code, 0);
  EXPECT_EQ(ran.err,
            "levels.json: note: the bank has no item \"numbr\", so its level is left out; did you "
            "mean number?\n");
  const auto quiz = nlohmann::json::parse(contents(scratch.path / "out" / "quiz.json"));
  EXPECT_EQ(quiz.at("levels"), (nlohmann::json{{"verdict", 1}}));
  std::vector<std::string> items;
  for (const auto& question : quiz.at("sheets").at(0).at("questions"))
    items.push_back(question.at("item"));
  // Within its topic the verdict stands first now.
  const auto place = [&](const char* id) {
    return std::find(items.begin(), items.end(), id) - items.begin();
  };
  EXPECT_LT(place("verdict"), place("number"));
}

TEST(QuizCommand, RefusesAFaultyFileOfLevels) {
  const Scratch scratch;
  put(scratch.path / "levels.json", R"({"format": 1, "levels": {"verdict": 9}})");
  const auto ran = run_in(scratch.path, quiz_with("levels.json"));
  EXPECT_EQ(ran.code, 1);
  EXPECT_EQ(ran.err, "levels.json: levels/verdict: is 9, expected a whole number from 1 to 4\n");
  EXPECT_FALSE(fs::exists(scratch.path / "out"));
}

}  // namespace
}  // namespace footroom::cli::testing
