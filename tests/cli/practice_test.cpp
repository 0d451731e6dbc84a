// footroom practice, and what is done with the file that a practice saves.

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <sstream>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

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
using Json = nlohmann::json;
using Words = std::vector<std::string>;

class Practice : public ::testing::Test {
 protected:
  /// Practises in the terminal with these lines typed.
  std::string practise(const std::string& typed, const std::string& options = {}) {
    put(scratch.path / "typed", typed);
    const std::string command = "cd '" + scratch.path.string() +
                                "' && '" FOOTROOM_PROGRAM
                                "' practice --terminal --seed 5 --bank '" +
                                small_bank.string() + "' " + options + " <typed >out 2>err";
    code = std::system(command.c_str());
    return contents(scratch.path / "out");
  }

  Json save() {
    practise("\n\n12 ft\n\nA\n\n?\nB\nquit\n", "--name A-1 --out practice.json");
    return Json::parse(contents(scratch.path / "practice.json"));
  }

  Ran grade(const Json& practice, const Words& more = {}) {
    put(scratch.path / "practice.json", practice.dump(1));
    Words words{"grade", "practice.json", "--out", "graded", "--bank", small_bank.string()};
    words.insert(words.end(), more.begin(), more.end());
    return run_in(scratch.path, words);
  }
  Json results() const { return Json::parse(contents(scratch.path / "graded" / "results.json")); }

  Scratch scratch;
  int code = 0;
};

TEST_F(Practice, WantsAFileOrTheTerminal) {
  const Ran ran = run_in(scratch.path, {"practice"});
  EXPECT_EQ(ran.code, 2);
  EXPECT_EQ(ran.err, "--out: is missing, expected FILE.html (or practise here with --terminal)\n");
  EXPECT_EQ(run_in(scratch.path, {"practice", "--out", "p.html", "--seed", "1"}).err,
            "--seed: needs --terminal\n");
  EXPECT_EQ(run_in(scratch.path, {"practice", "--out", "p.html", "--topics", "swimming"}).code, 2);
}

TEST_F(Practice, WritesOneSmallFileThatNamesNoOther) {
  const Ran ran = run_in(scratch.path, {"practice", "--out", "practice.html"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  const std::string page = contents(scratch.path / "practice.html");
  EXPECT_LT(page.size(), 2'000'000u);
  for (const char* out : {"http://", "https://", "src=", "@import", "url("}) {
    // Names of XML namespaces and addresses in the core's own text are no requests: only markup is
    // looked at, up to the packed core.
    EXPECT_EQ(page.substr(0, page.find("id=\"footroom-core\"")).find(out), std::string::npos)
        << out;
  }
  ASSERT_EQ(run_in(scratch.path, {"practice", "--out", "again.html"}).code, 0);
  EXPECT_EQ(contents(scratch.path / "again.html"), page);
}

TEST_F(Practice, AsksInTheTerminalAndEndsAtQuit) {
  const std::string out = practise("\nquit\n");
  EXPECT_EQ(code, 0);
  EXPECT_NE(out.find("Question 1 · "), std::string::npos);
  EXPECT_NE(out.find("No answer."), std::string::npos);
  EXPECT_NE(out.find("Right answer: "), std::string::npos);
  EXPECT_NE(out.find("Questions: 1, right: 0\n"), std::string::npos);
  EXPECT_EQ(practise("\nquit\n"), out);
  EXPECT_NE(practise("\nsalir\n", "--language es --units si").find("Preguntas: 1, correctas: 0"),
            std::string::npos);
}

TEST_F(Practice, EndsWithItsInput) {
  EXPECT_NE(practise("").find("Questions: 0, right: 0\n"), std::string::npos);
  EXPECT_EQ(code, 0);
}

TEST_F(Practice, KeepsToEightyColumns) {
  for (const char* language : {"en", "es"}) {
    std::string typed;
    for (int i = 0; i < 20; ++i) typed += "?\n?\n?\n\n?\n\n";
    std::istringstream lines(practise(typed, std::string("--language ") + language));
    for (std::string line; std::getline(lines, line);)
      EXPECT_LE(
          std::count_if(line.begin(), line.end(),
                        [](char c) { return (static_cast<unsigned char>(c) & 0xc0) != 0x80; }),
          80)
          << line;
  }
}

TEST_F(Practice, GoesOnWhereItWas) {
  practise("\n\n", "--progress kept");
  const std::string kept = contents(scratch.path / "kept");
  EXPECT_NE(practise("quit\n", "--progress kept").find("Question 2 · "), std::string::npos);
  put(scratch.path / "kept", "{}");
  practise("quit\n", "--progress kept");
  EXPECT_NE(contents(scratch.path / "err").find("practice begins anew"), std::string::npos);
}

TEST_F(Practice, SavesWhatTheSchemaAllows) {
  const Json saved = save();
  Json text = Json::parse(contents(FOOTROOM_SOURCE_DIR "/questionbank/practice.schema.json"));
  valijson::Schema schema;
  valijson::SchemaParser().populateSchema(valijson::adapters::NlohmannJsonAdapter(text), schema);
  EXPECT_TRUE(valijson::Validator().validate(schema, valijson::adapters::NlohmannJsonAdapter(saved),
                                             nullptr));
  EXPECT_EQ(saved["name"], "A-1");
  EXPECT_GE(saved["questions"].size(), 2u);
}

TEST_F(Practice, IsMarkedAgainAndToldApartFromATest) {
  const Json saved = save();
  const Ran ran = grade(saved);
  ASSERT_EQ(ran.code, 0) << ran.err;
  EXPECT_EQ(ran.out.find("Practice "), 0u);
  const Json all = results();
  EXPECT_EQ(all["occasion"], "practice");
  EXPECT_EQ(all["seats"][0]["name"], "A-1");
  EXPECT_EQ(all["seats"][0]["questions"].size(), saved["questions"].size());
  EXPECT_NE(contents(scratch.path / "graded" / "feedback-A.html").find("practice, not a test"),
            std::string::npos);
  // The right answers, typed in the order asked, earn all points: the questions are the same ones.
  Json right = saved;
  for (std::size_t i = 0; i < right["questions"].size(); ++i) {
    right["questions"][i]["typed"] = all["seats"][0]["questions"][i]["right"];
    right["questions"][i].erase("steps");
  }
  ASSERT_EQ(grade(right).code, 0);
  EXPECT_EQ(results()["seats"][0]["points"], results()["seats"][0]["possible"]);
  // With steps on view they earn nothing.
  right["questions"][0]["steps"] = 1;
  ASSERT_EQ(grade(right).code, 0);
  EXPECT_EQ(results()["seats"][0]["questions"][0]["points"], 0);
}

TEST_F(Practice, ForgedOutcomesDoNotEnter) {
  Json forged = save();
  for (Json& question : forged["questions"]) {
    question["outcome"] = "right";
    question["points"] = 100;
    question["right"] = question["typed"];
  }
  forged["points"] = 100;
  ASSERT_EQ(grade(save()).code, 0);
  const Json honest = results()["seats"];
  ASSERT_EQ(grade(forged).code, 0);
  EXPECT_EQ(results()["seats"], honest);
}

TEST_F(Practice, RefusesFaultyFiles) {
  const Json saved = save();
  const auto refusal = [&](const std::string& path, const Json& value) {
    Json changed = saved;
    changed[Json::json_pointer(path)] = value;
    const Ran ran = grade(changed);
    EXPECT_EQ(ran.code, 1);
    return ran.err;
  };
  EXPECT_NE(refusal("/bank", std::string(64, '0')).find("another question bank"),
            std::string::npos);
  EXPECT_EQ(refusal("/rules", "none"),
            "practice.json: rules: the bank has no rule set of this name\n");
  EXPECT_EQ(refusal("/questions/0/item", "none"),
            "practice.json: questions/0/item: the bank has no such item\n");
  EXPECT_EQ(refusal("/date", "2026-02-30"),
            "practice.json: date: is no day, expected YYYY-MM-DD\n");
  EXPECT_EQ(refusal("/questions/0/position", 1e9),
            "practice.json: questions/0/position: is 1000000000.0, expected a whole number from 0 "
            "to 1000000\n");
  put(scratch.path / "broken.json", R"({"occasion": "practice", "questions": [)");
  EXPECT_EQ(run_in(scratch.path, {"grade", "broken.json"}).code, 2);
}

TEST_F(Practice, IsRecordedAsPracticeAndNeverAsATest) {
  ASSERT_EQ(grade(save()).code, 0);
  const auto record = [&](Words words) {
    words.insert(words.begin(), "record");
    words.insert(words.end(), {"--store", "crew.db"});
    return run_in(scratch.path, words);
  };
  ASSERT_EQ(record({"init"}).code, 0);
  ASSERT_EQ(record({"add-employer", "Invented Roofing", "--place", "Sampletown"}).code, 0);
  ASSERT_EQ(
      record({"add-person", "Ana Ejemplo", "--identity", "A-1", "--employer", "Invented Roofing"})
          .code,
      0);
  const Ran test = record({"add-results", "graded/results.json", "--occasion", "test"});
  EXPECT_EQ(test.code, 1);
  EXPECT_EQ(test.err,
            "graded/results.json: is practice, which never counts as a test; leave --occasion "
            "out\n");
  const Ran ran = record({"add-results", "graded/results.json"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  EXPECT_NE(record({"report", "A-1"}).out.find("practice"), std::string::npos);
  const Ran statistics = run_in(scratch.path, {"statistics", "graded/results.json"});
  EXPECT_EQ(statistics.code, 1);
  EXPECT_NE(statistics.err.find("is practice"), std::string::npos);
}

}  // namespace
}  // namespace footroom::cli
