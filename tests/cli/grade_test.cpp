// Grading through the program: which files there are, what they hold, and what faulty forms do.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <regex>
#include <set>

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
using Json = nlohmann::json;
using Words = std::vector<std::string>;

/// A quiz of three seats in the folder "quiz", and the answers of its key.
class Grade : public ::testing::Test {
 protected:
  void make_quiz(const Words& more = {}) {
    put(scratch.path / "class.csv",
        "name\nAda Example\n\"O'Neil <script>alert(1)</script> | *b*\"\n"
        "=cmd()\n");
    Words words{"quiz",       "--bank",   small_bank.string(), "--seed", "5",   "--date",
                "2026-03-02", "--roster", "class.csv",         "--out",  "quiz"};
    words.insert(words.end(), more.begin(), more.end());
    const Ran ran = run_in(scratch.path, words);
    ASSERT_EQ(ran.code, 0) << ran.err;
    quiz = Json::parse(contents(scratch.path / "quiz" / "quiz.json"));
    const Json& all = quiz["sheets"][0]["questions"];
    questions = all.size();
    while (number < questions && all[number]["kind"] != "number") ++number;
    ASSERT_LT(number, questions);
  }

  std::string right(std::size_t sheet, std::size_t question) const {
    const Json& answer = quiz["sheets"][sheet]["questions"][question]["answer"];
    if (answer.contains("text")) return answer["text"];
    std::string letters;
    for (const auto& letter : answer["right"]) letters += letter.get<std::string>();
    return letters;
  }

  /// A row of the form, all right but what is changed (by question, from 1).
  std::string row(std::size_t sheet, const std::map<std::size_t, std::string>& changed = {}) const {
    const Json& one = quiz["sheets"][sheet];
    std::string text = one["seat"].get<std::string>() + ",," + one["code"].get<std::string>();
    for (std::size_t i = 0; i < questions; ++i) {
      const auto found = changed.find(i + 1);
      text += ",\"" + (found == changed.end() ? right(sheet, i) : found->second) + "\"";
    }
    return text + "\r\n";
  }
  std::string titles() const {
    std::string text = "seat,name,code";
    for (std::size_t i = 1; i <= questions; ++i) text += "," + std::to_string(i);
    return text + "\r\n";
  }

  Ran grade(const std::string& responses, const Words& more = {}) {
    put(scratch.path / "responses.csv", responses);
    Words words{"grade", "quiz/quiz.json", "responses.csv", "--out", "graded"};
    words.insert(words.end(), more.begin(), more.end());
    return run_in(scratch.path, words);
  }
  Json results() const { return Json::parse(contents(scratch.path / "graded" / "results.json")); }

  Scratch scratch;
  Json quiz;
  std::size_t questions = 0;
  std::size_t number = 0;  ///< place of the first question that asks for a number
};

TEST_F(Grade, WritesEveryFile) {
  make_quiz();
  const Ran ran = grade(titles() + row(0) + row(1));
  ASSERT_EQ(ran.code, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.out, "Quiz " + quiz["code"].get<std::string>() +
                         ", graded: 2, without answers: 1\nTo print: graded/all-feedback.html\n"
                         "Class report: graded/class-report.html\n");
  std::set<std::string> names;
  for (const auto& [name, bytes] : contents_below(scratch.path / "graded")) names.insert(name);
  EXPECT_EQ(names, (std::set<std::string>{"all-feedback.html", "class-report.html",
                                          "class-report.md", "class-scores.svg", "feedback-A.html",
                                          "feedback-A.md", "feedback-B.html", "feedback-B.md",
                                          "results.csv", "results.json"}));
  const Json all = results();
  EXPECT_EQ(all["absent"], Json::array({"C"}));
  EXPECT_EQ(all["seats"][0]["name"], "Ada Example");
  EXPECT_EQ(all["seats"][0]["points"], all["seats"][0]["possible"]);
  for (const Json& question : all["seats"][0]["questions"]) EXPECT_EQ(question["outcome"], "right");
}

TEST_F(Grade, TheSameInputGivesTheSameBytes) {
  make_quiz();
  ASSERT_EQ(grade(titles() + row(0, {{1, "4 ft"}})).code, 0);
  const auto first = contents_below(scratch.path / "graded");
  ASSERT_EQ(grade(titles() + row(0, {{1, "4 ft"}})).code, 0);
  EXPECT_EQ(contents_below(scratch.path / "graded"), first);
}

TEST_F(Grade, TakesTheFolderOfAQuizForItsFile) {
  make_quiz();
  ASSERT_EQ(grade(titles() + row(0)).code, 0);
  const auto by_file = contents_below(scratch.path / "graded");
  const Ran ran = run_in(scratch.path, {"grade", "quiz", "responses.csv", "--out", "graded"});
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_EQ(contents_below(scratch.path / "graded"), by_file);
}

TEST_F(Grade, ReplacesAnEarlierRunAndKeepsOtherFiles) {
  make_quiz();
  ASSERT_EQ(grade(titles() + row(0) + row(1)).code, 0);
  put(scratch.path / "graded" / "notes.txt", "mine");
  ASSERT_EQ(grade(titles() + row(1)).code, 0);
  EXPECT_FALSE(testing::fs::exists(scratch.path / "graded" / "feedback-A.md"));
  EXPECT_EQ(contents(scratch.path / "graded" / "notes.txt"), "mine");
}

TEST_F(Grade, NamesTheMistakeTeachesAndWorksTheNumbers) {
  make_quiz();
  const Json& question = quiz["sheets"][0]["questions"][number];
  const Json& mistake = question["mistakes"][0];
  ASSERT_EQ(grade(titles() + row(0, {{number + 1, mistake["text"]}})).code, 0);
  const std::string page = contents(scratch.path / "graded" / "feedback-A.md");
  EXPECT_NE(page.find(mistake["says"].get<std::string>()), std::string::npos) << page;
  for (const Json& step : question["steps"]) {
    if (!step.contains("result")) continue;
    EXPECT_NE(page.find("= " + step["result"].get<std::string>()), std::string::npos) << page;
  }
  const std::string report = contents(scratch.path / "graded" / "class-report.md");
  EXPECT_NE(report.find(mistake["says"].get<std::string>()), std::string::npos) << report;
  EXPECT_NE(contents(scratch.path / "graded" / "feedback-A.html").find("<math"), std::string::npos);
}

TEST_F(Grade, TakesWhatSpreadsheetsWrite) {
  make_quiz({"--decimal-mark", "comma"});
  std::string form = "\xef\xbb\xbf" + titles() + row(0) + row(1);
  // As a spreadsheet with a decimal comma saves it: semicolons, and empty fields behind.
  std::string semicolons;
  bool quoted = false;
  for (const char c : form) {
    if (c == '"') quoted = !quoted;
    semicolons += c == ',' && !quoted ? ';' : c;
  }
  for (auto at = semicolons.find("\r\n"); at != std::string::npos;
       at = semicolons.find("\r\n", at + 4))
    semicolons.insert(at, ";;");
  const Ran ran = grade(semicolons);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.code, 0);
  EXPECT_EQ(results()["seats"][1]["points"], results()["seats"][1]["possible"]);
}

TEST_F(Grade, TakesTheGuardOffWhatLooksLikeAFormula) {
  make_quiz();
  ASSERT_EQ(grade(titles() + row(0, {{1, "'-2 ft"}}) + row(1, {{1, "'=3 ft"}})).code, 0);
  EXPECT_EQ(results()["seats"][0]["questions"][0]["typed"], "-2 ft");
  EXPECT_EQ(results()["seats"][1]["questions"][0]["typed"], "=3 ft");
  const std::string csv = contents(scratch.path / "graded" / "results.csv");
  EXPECT_NE(csv.find(",'-2 ft,"), std::string::npos);
  EXPECT_EQ(csv.find(",-2 ft"), std::string::npos);
}

TEST_F(Grade, AFaultyRowDoesNotStopTheRest) {
  make_quiz();
  const std::string code = quiz["code"];
  std::string nul = row(2);
  nul.insert(nul.size() - 3, 1, '\0');
  const Ran ran = grade(titles() +                                             // line 1
                        "Z,,,1\r\n" +                                          // 2: too few fields
                        "Z,," + std::string(questions, ',') + "\r\n" +         // 3: no such seat
                        row(2, {{2, "\xe9"}}) +                                // 4: not UTF-8
                        nul +                                                  // 5
                        "C,,OTHER-C" + std::string(questions, ',') + "\r\n" +  // 6
                        "C,,a\"b\r\n" +                                        // 7: a stray quote
                        row(0) +                                               // 8
                        row(1, {{1, std::string(10'000'000, '7')}}));          // 9
  EXPECT_EQ(ran.code, 1);
  const std::string fields = std::to_string(questions + 3);
  EXPECT_EQ(
      ran.err,
      "responses.csv:2: has 4 fields, expected " + fields +
          "; the row is left out\n"
          "responses.csv:3: seat: is Z, expected a seat of the quiz, A to C; the row is left out\n"
          "responses.csv:4: 2: is not in UTF-8 (byte 1), expected a file saved as CSV UTF-8; the "
          "row "
          "is left out\n"
          "responses.csv:5: " +
          std::to_string(questions) + ": holds a control character (byte " +
          std::to_string(right(2, questions - 1).size() + 1) +
          "); the row is left out\n"
          "responses.csv:6: code: is OTHER-C, expected " +
          code +
          "-C for seat C; the row is left out\n"
          "responses.csv:7: a quotation mark stands inside a field, expected it around the whole "
          "field; the row is left out\n");
  const Json all = results();
  ASSERT_EQ(all["seats"].size(), 2U);
  EXPECT_EQ(all["seats"][0]["points"], all["seats"][0]["possible"]);
  EXPECT_EQ(all["seats"][1]["questions"][0]["outcome"], "unreadable");
  EXPECT_EQ(all["seats"][1]["questions"][0]["reason"], "it is longer than 200 characters");
  EXPECT_LT(contents(scratch.path / "graded" / "results.json").size(), 100'000U);
}

TEST_F(Grade, SeatsThatStandTwiceAreLeftOut) {
  make_quiz();
  const Ran ran = grade(titles() + row(0) + row(1) + row(0));
  EXPECT_EQ(ran.code, 1);
  EXPECT_EQ(ran.err,
            "responses.csv:4: seat: is A, which stands in line 2 too; both rows are left out\n");
  EXPECT_EQ(results()["seats"].size(), 1U);
  EXPECT_EQ(results()["absent"], Json::array({"A", "C"}));
}

TEST_F(Grade, AnAnswerToAQuestionThatIsNotThereIsNamed) {
  make_quiz();
  std::string form = titles();
  form.insert(form.size() - 2, ",99");
  std::string first = row(0);
  first.insert(first.size() - 2, ",12 ft");
  std::string second = row(1);
  second.insert(second.size() - 2, ",");
  const Ran ran = grade(form + first + second);
  EXPECT_EQ(ran.code, 1);
  EXPECT_EQ(ran.err,
            "responses.csv:2: 99: is 12 ft, but the sheet has no question 99; the rest of the row "
            "is graded\n");
  EXPECT_EQ(results()["seats"].size(), 2U);
}

TEST_F(Grade, FormsThatAreNoneAreRefused) {
  make_quiz();
  const auto before = contents_below(scratch.path / "quiz");
  const auto refused = [&](const std::string& form) {
    const Ran ran = grade(form);
    EXPECT_EQ(ran.code, 1);
    EXPECT_FALSE(testing::fs::exists(scratch.path / "graded"));
    return ran.err;
  };
  EXPECT_EQ(refused(""),
            "responses.csv:1: is empty, expected a first row that names the columns\n");
  EXPECT_EQ(refused("name,1\nAda,2\n"), "responses.csv:1: has no column called seat or puesto\n");
  EXPECT_EQ(refused("seat,name\nA,Ada\n"),
            "responses.csv:1: has no column called 1, expected one for each question\n");
  EXPECT_EQ(refused("seat,1,1\nA,2,2\n"), "responses.csv:1: has two columns called 1\n");
  EXPECT_EQ(refused("seat,Puesto,1\nA,A,2\n"), "responses.csv:1: has two columns called Puesto\n");
  EXPECT_EQ(refused(titles()), "responses.csv: holds no answer; nothing was written\n");
  EXPECT_EQ(contents_below(scratch.path / "quiz"), before);
}

TEST_F(Grade, QuizzesThatAreNoneAreRefused) {
  make_quiz();
  put(scratch.path / "responses.csv", titles() + row(0));
  const auto refused = [&](const std::string& text) {
    put(scratch.path / "bad.json", text);
    const Ran ran = run_in(scratch.path, {"grade", "bad.json", "responses.csv", "--out", "graded"});
    EXPECT_EQ(ran.code, 1);
    EXPECT_FALSE(testing::fs::exists(scratch.path / "graded"));
    return ran.err;
  };
  EXPECT_EQ(refused(""), "bad.json:1: is no JSON, expected a file that footroom wrote\n");
  EXPECT_EQ(refused("{}"), "bad.json: format: is missing\n");
  Json other = quiz;
  other["sheets"][1]["seat"] = "../../B";
  EXPECT_EQ(refused(other.dump()), "bad.json: sheets/1/seat: expected capital letters\n");
  other = quiz;
  other["code"] = "../x";
  EXPECT_EQ(refused(other.dump()), "bad.json: code: expected capital letters and digits\n");
  other = quiz;
  other["sheets"][1]["seat"] = "A";
  EXPECT_EQ(refused(other.dump()), "bad.json: sheets/1: has the seat of another sheet\n");
  other = quiz;
  other["sheets"][0]["questions"][number]["answer"]["unit"] = "cubit";
  EXPECT_EQ(refused(other.dump()), "bad.json: sheets/0/questions/" + std::to_string(number) +
                                       "/answer/unit: is \"cubit\", expected the name of a unit\n");
  Json deep = {{"identifier", "x"}};
  for (int i = 0; i < 100; ++i) deep = {{"root", Json::array({deep})}};
  other = quiz;
  for (Json& step : other["sheets"][0]["questions"][number]["steps"])
    if (step.contains("math")) step["math"]["symbols"] = deep;
  EXPECT_NE(refused(other.dump()).find("goes deeper than 64 boxes"), std::string::npos);
  EXPECT_EQ(run_in(scratch.path, {"grade", "none.json", "responses.csv"}).code, 3);
  EXPECT_EQ(run_in(scratch.path, {"grade", "quiz/quiz.json"}).err,
            "grade: needs QUIZ.json and RESPONSES.csv; see footroom grade --help\n");
  EXPECT_EQ(run_in(scratch.path, {"grade", "quiz/quiz.json"}).code, 2);
}

TEST_F(Grade, MarkupStaysText) {
  make_quiz();
  const std::string hostile = "</td><script>alert(1)</script> | **x** ![y](z) & '";
  ASSERT_EQ(grade(titles() + row(1, {{1, hostile}, {2, hostile}})).code, 0);
  for (const auto& [name, bytes] : contents_below(scratch.path / "graded")) {
    if (name.ends_with(".html")) {
      EXPECT_EQ(bytes.find("<script"), std::string::npos) << name;
    }
    if (name.ends_with(".md")) {
      EXPECT_EQ(bytes.find("<script"), bytes.find("\\<script") == std::string::npos
                                           ? std::string::npos
                                           : bytes.find("\\<script") + 1)
          << name;
      EXPECT_EQ(bytes.find("![y]"), std::string::npos) << name;
      EXPECT_EQ(std::regex_search(bytes, std::regex("[^\\\\]\\*\\*x\\*\\*")), false) << name;
    }
  }
  // The name of a form stands in for the quiz's, and is no formula.
  std::string named = row(2);
  named.insert(named.find(",,") + 1, "'=1+1");
  ASSERT_EQ(grade(titles() + named).code, 0);
  EXPECT_EQ(results()["seats"][0]["name"], "=1+1");
  EXPECT_NE(contents(scratch.path / "graded" / "results.csv").find(",'=1+1,"), std::string::npos);
}

TEST_F(Grade, SpeaksTheQuizLanguageAndReportsInTheOneAskedFor) {
  make_quiz({"--language", "es", "--units", "si", "--decimal-mark", "comma"});
  const Ran ran = grade(titles() + row(0, {{1, "1"}}), {"--language", "en"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  EXPECT_NE(contents(scratch.path / "graded" / "feedback-A.md").find("Sus respuestas"),
            std::string::npos);
  EXPECT_NE(contents(scratch.path / "graded" / "class-report.md").find("Class report"),
            std::string::npos);
  ASSERT_EQ(grade(titles() + row(0, {{1, "1"}})).code, 0);
  EXPECT_NE(contents(scratch.path / "graded" / "class-report.md").find("Informe del grupo"),
            std::string::npos);
}

TEST_F(Grade, CreditIsGivenByTheOptions) {
  make_quiz();
  const Json mistake = quiz["sheets"][0]["questions"][number]["mistakes"][0];
  const double points = quiz["sheets"][0]["questions"][number]["points"];
  ASSERT_EQ(grade(titles() + row(0, {{number + 1, mistake["text"]}}), {"--mistake", "25"}).code, 0);
  EXPECT_DOUBLE_EQ(results()["seats"][0]["questions"][number]["points"].get<double>(), points / 4);
  const Ran ran = grade(titles() + row(0), {"--mistake", "120"});
  EXPECT_EQ(ran.code, 2);
}

}  // namespace
}  // namespace footroom::cli
