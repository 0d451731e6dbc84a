#include "practice/result_file.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "grade/json_reader.hpp"

namespace footroom::practice {
namespace {

ResultFile sample() {
  ResultFile file;
  file.name = "Ana Ejemplo";
  file.date = "2026-03-02";
  file.program = "footroom 0.1.0";
  file.progress.bank = std::string(64, 'a');
  file.progress.rules = "us-construction";
  file.progress.seed = greatest_seed;
  file.progress.sitting = {
      {"slack-per-swing", 0, {}, "12 ft 6 in", 0},
      {"other", 4, {notation::System::si, {engine::Language::spanish, ','}}, "", 2}};
  return file;
}

TEST(ResultFile, ReadsWhatItWrote) {
  const std::string text = result_json(sample());
  EXPECT_TRUE(is_result(text));
  EXPECT_EQ(result_json(read_result(text, "practice.json")), text);
}

TEST(ResultFile, HoldsNoOutcome) {
  const auto json = nlohmann::json::parse(result_json(sample()));
  for (const auto& question : json.at("questions"))
    for (const char* outcome : {"outcome", "points", "right", "read"})
      EXPECT_FALSE(question.contains(outcome));
}

TEST(ResultFile, IsToldFromOtherFiles) {
  for (const char* other : {"", "{}", "[]", "7", "{\"occasion\": \"practice\"}",
                            "{\"format\": 1, \"sheets\": []}", "{\"occasion\": \"test\"}"})
    EXPECT_FALSE(is_result(other)) << other;
}

TEST(ResultFile, IsToldFromWhatIsNestedWithoutEnd) {
  const int depth = 300'000;
  EXPECT_FALSE(is_result("{\"questions\": [], \"occasion\": " + std::string(depth, '[') +
                         std::string(depth, ']') + "}"));
}

std::string refusal(const std::string& path, const nlohmann::json& value) {
  auto json = nlohmann::json::parse(result_json(sample()));
  json[nlohmann::json::json_pointer(path)] = value;
  try {
    read_result(json.dump(), "practice.json");
  } catch (const grade::FaultyFile& fault) {
    return fault.what();
  }
  return {};
}

TEST(ResultFile, RefusesWhatCannotBe) {
  EXPECT_EQ(refusal("/name", "Eva"), "");
  EXPECT_EQ(refusal("/format", 2),
            "practice.json: format: is 2, expected a whole number from 1 to 1");
  EXPECT_EQ(refusal("/occasion", "test"),
            "practice.json: occasion: is \"test\", expected practice");
  EXPECT_EQ(refusal("/name", std::string(201, 'x')),
            "practice.json: name: is longer than 200 bytes");
  EXPECT_EQ(refusal("/date", "yesterday"), "practice.json: date: expected a day as YYYY-MM-DD");
  EXPECT_EQ(refusal("/seed", -1),
            "practice.json: seed: is -1, expected a whole number, not negative");
  EXPECT_EQ(refusal("/seed", greatest_seed + 1),
            "practice.json: seed: expected at most 9007199254740991");
  EXPECT_EQ(refusal("/questions", nlohmann::json::array()),
            "practice.json: questions: is empty: nothing was answered");
  EXPECT_EQ(refusal("/questions/1/position", 0),
            "practice.json: questions/1/position: expected more than the one before");
  EXPECT_EQ(refusal("/questions/0/typed", std::string(201, 'x')),
            "practice.json: questions/0/typed: is longer than 200 bytes");
  EXPECT_EQ(refusal("/questions/0/units", "cubits"),
            "practice.json: questions/0/units: is \"cubits\", expected us or si");
  EXPECT_EQ(refusal("/questions/0", 5),
            "practice.json: questions/0: is number, expected an object");
}

TEST(ResultFile, RefusesEveryCutOfItself) {
  const std::string text = result_json(sample());
  for (std::size_t size = 0; size + 2 < text.size(); ++size)
    EXPECT_THROW(read_result(text.substr(0, size), "practice.json"), grade::FaultyFile);
}

}  // namespace
}  // namespace footroom::practice
