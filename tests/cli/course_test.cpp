// Course plans and the choice of questions through the program.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "cli/program_run.hpp"
#include "cli/small_bank.hpp"

namespace footroom::cli {
namespace {

using testing::contents;
using testing::put;
using testing::Ran;
using testing::run_in;
using testing::Scratch;
using testing::small_bank;
using Words = std::vector<std::string>;

/// The small bank with a course of two weeks: two items of "roof", then two of the next topic.
void bank_with_course(const Scratch& scratch, const std::string& second_week =
                                                  "<week number=\"2\" "
                                                  "questions=\"3\">") {
  std::filesystem::copy(small_bank, scratch.path / "bank",
                        std::filesystem::copy_options::recursive);
  put(scratch.path / "bank" / "courses" / "short.xml",
      R"(<course xmlns="urn:footroom:bank" id="short" questions="2" minutes="15" new-percent="67">
<title><en>Short course</en><es>Curso breve</es></title>
<week number="1"><new topic="roof"/></week>
)" + second_week +
          R"(<new topic="slack-and-free-fall"/></week>
</course>)");
}

nlohmann::json quiz_json(const Scratch& scratch, const char* out) {
  return nlohmann::json::parse(contents(scratch.path / out / "quiz.json"));
}

std::set<std::string> items_of(const nlohmann::json& quiz) {
  std::set<std::string> items;
  for (const auto& question : quiz["sheets"][0]["questions"]) items.insert(question["item"]);
  return items;
}

void expect_refused(const Scratch& scratch, const Words& words, int code,
                    const std::string& message) {
  const Ran ran = run_in(scratch.path, words);
  EXPECT_EQ(ran.code, code);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, message + "\n");
}

TEST(Course, IsListedAndShownInBothLanguages) {
  const Scratch scratch;
  bank_with_course(scratch);
  EXPECT_EQ(run_in(scratch.path, {"course", "list", "--bank", "bank", "--language", "es"}).out,
            "  short  Curso breve\n");
  const Ran english = run_in(scratch.path, {"course", "show", "short", "--bank", "bank"});
  EXPECT_EQ(english.code, 0);
  EXPECT_EQ(english.out,
            "  week  new topics           returning topics  questions  minutes\n"
            "  1     The roof                               2          15\n"
            "  2     Slack and free fall  The roof          3          15\n");
  // "roof" has two items, and both were in week 1.
  EXPECT_EQ(
      english.err.substr(0, english.err.find(";")),
      "bank/courses/short.xml:4: note: the section \"roof\" asks for 1 of 2 questions that fit, "
      "and 2 of them were in the last quiz");
  EXPECT_EQ(
      run_in(scratch.path, {"course", "show", "short", "--bank", "bank", "--language", "es"}).out,
      "  semana  temas nuevos           temas que vuelven  preguntas  minutos\n"
      "  1       El techo                                  2          15\n"
      "  2       Holgura y caída libre  El techo           3          15\n");
}

TEST(Course, QuizOfAWeekRecordsCourseAndWeek) {
  const Scratch scratch;
  bank_with_course(scratch);
  const Ran ran = run_in(scratch.path, {"quiz", "--bank", "bank", "--course", "short", "--week",
                                        "2", "--seed", "5", "--out", "out"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  const auto quiz = quiz_json(scratch, "out");
  EXPECT_EQ(quiz["course-plan"], "short");
  EXPECT_EQ(quiz["week"], 2);
  EXPECT_EQ(quiz["blueprint"], "short-week-2");
  EXPECT_EQ(quiz["course"], "Short course");
  EXPECT_EQ(quiz["title"], "Week 2: Slack and free fall");
  EXPECT_EQ(quiz["sheets"][0]["questions"].size(), 3u);
}

TEST(Course, RefusesWhatTheCommandLineCannotMean) {
  const Scratch scratch;
  bank_with_course(scratch);
  const auto quiz = [](Words more) {
    Words words{"quiz", "--bank", "bank", "--out", "out"};
    words.insert(words.end(), more.begin(), more.end());
    return words;
  };
  expect_refused(scratch, quiz({"--week", "1"}), 2, "--week: needs --course NAME beside it");
  expect_refused(scratch, quiz({"--course", "short"}), 2, "--course: needs --week N beside it");
  expect_refused(scratch, quiz({"--course", "short", "--week", "1", "--blueprint", "weekly"}), 2,
                 "--blueprint: cannot stand beside --course, whose week has its own");
  expect_refused(scratch, quiz({"--course", "shrt", "--week", "1"}), 2,
                 "--course: the bank has no course named shrt; did you mean short?");
  expect_refused(scratch, quiz({"--course", "short", "--week", "3"}), 2,
                 "--week: the course has no quiz in week 3, expected 1 or 2");
  expect_refused(scratch, quiz({"--topics", "rof"}), 2,
                 "--topics: the blueprint weekly has no topic \"rof\"; did you mean roof?");
  expect_refused(scratch, quiz({"--topics", "roof,"}), 2,
                 "--topics: the blueprint weekly has no topic \"\", expected roof, "
                 "slack-and-free-fall or rules, with commas between");
  expect_refused(scratch, {"course", "show", "--bank", "bank"}, 2,
                 "COURSE: is missing; see footroom course list");
}

TEST(Course, AnImpossiblePlanIsNamedWithFileAndLine) {
  const Scratch scratch;
  bank_with_course(scratch, "<week number=\"2\" blueprint=\"weekly\">");
  expect_refused(scratch, {"course", "show", "short", "--bank", "bank"}, 1,
                 "bank/courses/short.xml:4: the blueprint \"weekly\" of week 2 asks the topic "
                 "\"rules\", which no week teaches");
}

TEST(QuizAfter, LetsTheQuestionsOfEarlierQuizzesStandBackAndRecordsWhich) {
  const Scratch scratch;
  bank_with_course(scratch);
  put(scratch.path / "bank" / "blueprints" / "one.xml",
      R"(<blueprint xmlns="urn:footroom:bank" id="one" minutes="10">
<title><en>One</en><es>Uno</es></title><course><en>a</en><es>b</es></course>
<section topic="roof" questions="1"/></blueprint>)");
  const auto quiz = [&](const char* seed, const char* date, const char* out, Words after) {
    Words words{"quiz", "--bank", "bank", "--blueprint", "one", "--seed",
                seed,   "--date", date,   "--out",       out};
    if (!after.empty()) words.push_back("--after");
    for (const auto& file : after) words.push_back(file + "/quiz.json");
    return run_in(scratch.path, words);
  };
  for (const char* seed : {"1", "2", "3", "4", "5", "6"}) {
    ASSERT_EQ(quiz(seed, "2026-03-02", "first", {}).code, 0);
    const Ran ran = quiz(seed, "2026-03-09", "second", {"first"});
    ASSERT_EQ(ran.code, 0);
    EXPECT_EQ(ran.err, "");
    EXPECT_NE(items_of(quiz_json(scratch, "first")), items_of(quiz_json(scratch, "second")));
    EXPECT_EQ(quiz_json(scratch, "second")["after"],
              nlohmann::json::array({quiz_json(scratch, "first")["code"]}));
    // The third avoids the second, whatever order the files are named in.
    ASSERT_EQ(quiz(seed, "2026-03-16", "third", {"second", "first"}).code, 0);
    EXPECT_EQ(items_of(quiz_json(scratch, "third")), items_of(quiz_json(scratch, "first")));
  }
}

TEST(QuizAfter, NamesAFileThatCannotBeUsed) {
  const Scratch scratch;
  const auto quiz = [](const std::string& file) {
    return Words{"quiz", "--bank", small_bank.string(), "--out", "out", "--after", file};
  };
  expect_refused(scratch, quiz("quiz.json"), 3,
                 "quiz.json: cannot read: No such file or directory");
  std::filesystem::create_directory(scratch.path / "week-1");
  expect_refused(scratch, quiz("week-1"), 3, "week-1: cannot read: Is a directory");
  put(scratch.path / "cut.json", "{\"format\": 1, \"sheets\": [{");
  expect_refused(scratch, quiz("cut.json"), 1,
                 "cut.json: not well-formed JSON at byte 27, expected a whole quiz.json");
}

TEST(QuizTopics, AreTheOnlyOnesAsked) {
  const Scratch scratch;
  ASSERT_EQ(run_in(scratch.path, {"quiz", "--bank", small_bank.string(), "--topics",
                                  "rules,slack-and-free-fall", "--out", "out"})
                .code,
            0);
  const auto quiz = quiz_json(scratch, "out");
  EXPECT_EQ(quiz["topics"], nlohmann::json::array({"rules", "slack-and-free-fall"}));
  for (const auto& question : quiz["sheets"][0]["questions"]) EXPECT_NE(question["topic"], "roof");
  EXPECT_EQ(quiz["sheets"][0]["questions"].size(), 3u);
  EXPECT_EQ(quiz["minutes"], 12);
}

}  // namespace
}  // namespace footroom::cli
