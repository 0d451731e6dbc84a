#include "grade/json_reader.hpp"

#include <gtest/gtest.h>

namespace footroom::grade {
namespace {

std::string refusal(const std::string& text) {
  const auto json = parse_json(text, "quiz.json");
  try {
    JsonReader(json, "quiz.json").member("seed").natural();
  } catch (const FaultyFile& fault) {
    return fault.what();
  }
  return "none";
}

TEST(JsonReader, TellsWhatIsNoNaturalNumber) {
  EXPECT_EQ(refusal(R"({"seed": 7})"), "none");
  EXPECT_EQ(refusal(R"({"seed": -7})"),
            "quiz.json: seed: is -7, expected a whole number, not negative");
  EXPECT_EQ(refusal(R"({"seed": "7"})"), "quiz.json: seed: is string, expected a number");
}

// Writing it out goes as deep as it is nested, and the stack would overflow.
TEST(JsonReader, DoesNotWriteOutWhatIsNestedWithoutEnd) {
  const int depth = 300'000;
  EXPECT_EQ(refusal("{\"seed\": " + std::string(depth, '[') + std::string(depth, ']') + "}"),
            "quiz.json: seed: is array, expected a number");
}

}  // namespace
}  // namespace footroom::grade
