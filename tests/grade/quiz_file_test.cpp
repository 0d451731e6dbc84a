#include "grade/quiz_file.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "grade/json_reader.hpp"
#include "grade/marking.hpp"

namespace footroom::grade {
namespace {

nlohmann::json golden() {
  std::ifstream in(FOOTROOM_SOURCE_DIR "/tests/golden/us-english/quiz.json");
  return nlohmann::json::parse(in);
}

std::string refusal(const nlohmann::json& json) {
  try {
    read_quiz(json.dump(), "quiz.json");
  } catch (const FaultyFile& fault) {
    return fault.what();
  }
  return "none";
}

// Codes become names in a QTI package.
TEST(QuizFile, RefusesCodesThatAreNone) {
  auto json = golden();
  json["sheets"][0]["code"] = "T3NJE\"A";
  EXPECT_EQ(refusal(json), "quiz.json: sheets/0/code: expected capital letters and digits");
  json = golden();
  json["code"] = "";
  EXPECT_EQ(refusal(json), "quiz.json: code: expected capital letters and digits");
}

// results.json holds no more, and so could be written and not read.
TEST(QuizFile, RefusesMorePointsThanResultsHold) {
  auto json = golden();
  auto& questions = json["sheets"][0]["questions"];
  questions[0]["points"] = 1'000'000 - 4;
  for (std::size_t i = 1; i < questions.size(); ++i) questions[i]["points"] = 1;
  EXPECT_EQ(refusal(json), "none");
  const auto quiz = read_quiz(json.dump(), "quiz.json");
  const std::vector<std::string> answers(questions.size(), "1");
  const auto results = mark_class(quiz, {{"A", "", answers}}, {}, "test");
  EXPECT_NO_THROW(read_results(results_json(results), "results.json"));
  questions[0]["points"] = 1'000'000 - 3;
  EXPECT_EQ(refusal(json),
            "quiz.json: sheets/0/questions/4/points: makes more than 1000000 in all");
}

}  // namespace
}  // namespace footroom::grade
