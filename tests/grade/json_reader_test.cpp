#include "grade/json_reader.hpp"

#include <gtest/gtest.h>

#include <limits>

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

// Every kind of value where another is expected, each with its place in the file.
TEST(JsonReader, TellsWhatWasExpectedWhere) {
  const auto said = [](const char* text, auto use) -> std::string {
    const auto json = parse_json(text, "quiz.json");
    try {
      use(JsonReader(json, "quiz.json"));
    } catch (const FaultyFile& fault) {
      return fault.what();
    }
    return "none";
  };
  const auto truth = [](const JsonReader& at) { at.member("a").truth(); };
  EXPECT_EQ(said(R"({"a": 1})", truth), "quiz.json: a: is number, expected true or false");
  EXPECT_EQ(said(R"({"a": true})", truth), "none");
  const auto elements = [](const JsonReader& at) { at.elements(); };
  EXPECT_EQ(said("7", elements), "quiz.json: the whole: is number, expected a list");
  EXPECT_EQ(said("[7]", elements), "none");
  const auto members = [](const JsonReader& at) { at.members(); };
  EXPECT_EQ(said("[]", members), "quiz.json: the whole: is array, expected an object");
  EXPECT_EQ(said("{}", members), "none");
  const auto deep = [](const JsonReader& at) {
    at.member("a").elements().at(1).member("b").text();
  };
  EXPECT_EQ(said(R"({"a": [0, {}]})", deep), "quiz.json: a/1/b: is missing");
  EXPECT_EQ(said(R"({"a": [0, 1]})", deep), "quiz.json: a/1: is number, expected an object");
  EXPECT_EQ(said(R"({"a": [0, {"b": null}]})", deep), "quiz.json: a/1/b: is null, expected a text");
  const auto whole = [](const JsonReader& at) { at.whole(-2, 3); };
  for (const char* inside : {"-2", "0", "3", "3.0"}) EXPECT_EQ(said(inside, whole), "none");
  for (const char* outside : {"-3", "4", "0.5"})
    EXPECT_EQ(said(outside, whole), std::string("quiz.json: the whole: is ") + outside +
                                        ", expected a whole number from -2 to 3");
  const auto choice = [](std::vector<std::string> words) {
    return [words](const JsonReader& at) { at.choice("a", words); };
  };
  EXPECT_EQ(said(R"({"a": "d"})", choice({"b"})), "quiz.json: a: is \"d\", expected b");
  EXPECT_EQ(said(R"({"a": "d"})", choice({"b", "c"})), "quiz.json: a: is \"d\", expected b or c");
  EXPECT_EQ(said(R"({"a": "d"})", choice({"b", "c", "e"})),
            "quiz.json: a: is \"d\", expected b, c or e");
}

TEST(JsonReader, GivesWhatStandsThere) {
  const auto json = parse_json(R"({"text": "t", "list": [1.5, 2], "b": "y"})", "quiz.json");
  const JsonReader at(json, "quiz.json");
  EXPECT_TRUE(at.has("text"));
  EXPECT_FALSE(at.has("other"));
  EXPECT_FALSE(at.member("text").has("text"));
  EXPECT_EQ(at.text_or("text", "none"), "t");
  EXPECT_EQ(at.text_or("other", "none"), "none");
  EXPECT_EQ(at.choice("b", {"x", "y"}), 1u);
  EXPECT_EQ(at.choice("text", {"t", "y"}), 0u);
  EXPECT_EQ(at.member("list").elements().at(0).number(), 1.5);
  const auto members = at.members();
  ASSERT_EQ(members.size(), 3u);
  EXPECT_EQ(members[1].first, "list");
  EXPECT_EQ(members[1].second.elements().size(), 2u);
}

TEST(JsonReader, RefusesNumbersThatAreNotFinite) {
  const nlohmann::json json(std::numeric_limits<double>::infinity());
  EXPECT_THROW(JsonReader(json, "quiz.json").number(), FaultyFile);
}

TEST(JsonReader, TellsTheLineWhereTheTextEndsToBeJson) {
  const auto line = [](const char* text) -> std::string {
    try {
      parse_json(text, "f");
    } catch (const FaultyFile& fault) {
      return fault.what();
    }
    return "none";
  };
  EXPECT_EQ(line(""), "f:1: is no JSON, expected a file that footroom wrote");
  EXPECT_EQ(line("{\n\n  x}"), "f:3: is no JSON, expected a file that footroom wrote");
  EXPECT_EQ(line("{x\n\n}"), "f:1: is no JSON, expected a file that footroom wrote");
  EXPECT_EQ(line("[1e999]"), "f: holds a number that is too large");
}

}  // namespace
}  // namespace footroom::grade
