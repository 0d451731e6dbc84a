#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "render/render.hpp"
#include "sample.hpp"

namespace footroom::render {
namespace {

using nlohmann::json;

json quiz() {
  const auto header = sample::header();
  return json::parse(json_start(header) + json_sheet(sample::sheet("A"), true) +
                     json_sheet(sample::sheet("B", ""), false) + json_end());
}

/// Empty where the quiz fits the schema, else what the validator says.
std::string violations(const json& document) {
  std::ifstream in(FOOTROOM_SOURCE_DIR "/questionbank/quiz.schema.json");
  const json text = json::parse(in);
  valijson::Schema schema;
  valijson::SchemaParser().populateSchema(valijson::adapters::NlohmannJsonAdapter(text), schema);
  valijson::ValidationResults results;
  valijson::Validator().validate(schema, valijson::adapters::NlohmannJsonAdapter(document),
                                 &results);
  std::string all;
  valijson::ValidationResults::Error error;
  while (results.popError(error)) all += error.description + "\n";
  return all;
}

TEST(QuizJson, FitsItsSchema) {
  EXPECT_EQ(violations(quiz()), "");
}

TEST(QuizJson, SchemaRefusesWhatDoesNotBelong) {
  const auto refuses = [](auto change) {
    json document = quiz();
    change(document, document["sheets"][0]["questions"]);
    return !violations(document).empty();
  };
  EXPECT_TRUE(refuses([](json& whole, json&) { whole["format"] = 2; }));
  EXPECT_TRUE(refuses([](json& whole, json&) { whole.erase("seed"); }));
  EXPECT_TRUE(refuses([](json&, json& all) { all[0]["answer"].erase("tolerance"); }));
  EXPECT_TRUE(refuses([](json&, json& all) { all[0]["answer"] = all[2]["answer"]; }));
  EXPECT_TRUE(refuses([](json&, json& all) { all[0]["givens"]["slack"].erase("value"); }));
  EXPECT_TRUE(refuses([](json&, json& all) { all[0]["sources"][0]["status"] = "trust me"; }));
  EXPECT_TRUE(refuses([](json&, json& all) { all[2]["answer"]["options"][0]["place"] = 1; }));
  EXPECT_TRUE(refuses([](json&, json& all) { all[0]["figure"] = "<svg/>"; }));
}

TEST(QuizJson, SaysHowToMakeTheQuizAgain) {
  const json whole = quiz();
  EXPECT_EQ(whole["program"], "0.1.0");
  EXPECT_EQ(whole["bank"], std::string(64, 'a'));
  EXPECT_EQ(whole["blueprint"], "weekly");
  EXPECT_EQ(whole["units"], "us");
  EXPECT_EQ(whole["language"], "en");
  EXPECT_EQ(whole["rules"], "us-construction");
  EXPECT_EQ(whole["sheets"].size(), 2U);
  EXPECT_EQ(whole["sheets"][0]["name"], sample::hostile_name);
}

TEST(QuizJson, NamesCourseWeekTopicsAndEarlierQuizzesOnlyWhereThereAreAny) {
  for (const char* key : {"course-plan", "week", "topics", "after", "levels"})
    EXPECT_FALSE(quiz().contains(key)) << key;
  auto header = sample::header();
  header.course_plan = "twelve-weeks";
  header.week = 3;
  header.topics = {"swing"};
  header.after = {"7K3QX", "R8WD3"};
  header.levels = {{"edge-fall", 3}};
  json whole = json::parse(json_start(header) + json_sheet(sample::sheet("A"), true) + json_end());
  EXPECT_EQ(violations(whole), "");
  EXPECT_EQ(whole["course-plan"], "twelve-weeks");
  EXPECT_EQ(whole["week"], 3);
  EXPECT_EQ(whole["topics"], json::array({"swing"}));
  EXPECT_EQ(whole["after"], json::array({"7K3QX", "R8WD3"}));
  EXPECT_EQ(whole["levels"], (json{{"edge-fall", 3}}));
  whole.erase("week");
  EXPECT_NE(violations(whole), "");
}

TEST(QuizJson, TellsSecretAndSwapsOnlyWhereThereAreAny) {
  for (const char* key : {"secret", "swaps"}) EXPECT_FALSE(quiz().contains(key)) << key;
  auto header = sample::header();
  header.secret = "0123456789abcdef0123456789abcdef";
  header.swaps = {{2, {"", 3}}, {5, {"edge-fall", 0}}};
  json whole = json::parse(json_start(header) + json_sheet(sample::sheet("A"), true) + json_end());
  EXPECT_EQ(violations(whole), "");
  EXPECT_EQ(whole["secret"], header.secret);
  EXPECT_EQ(whole["swaps"], json::parse(R"([{"question": 2, "draw": 3},
                                            {"question": 5, "item": "edge-fall", "draw": 0}])"));
  whole["secret"] = "short";
  EXPECT_NE(violations(whole), "");
}

TEST(QuizJson, TellsWhatASeatHasOtherwise) {
  auto sheet = sample::sheet("A");
  sheet.accommodations = {engine::Language::spanish, true, true, 0, 15};
  sheet.words = {"Examen", "Curso", "Reglas"};
  sheet.questions[0].class_words = {"Title", "Topic", "7.5 ft", {{"slack-only", "Slack alone."}}};
  json whole = json::parse(json_start(sample::header()) + json_sheet(sheet, true) + json_end());
  EXPECT_EQ(violations(whole), "");
  json& made = whole["sheets"][0];
  EXPECT_EQ(made["language"], "es");
  EXPECT_EQ(made["course"], "Curso");
  EXPECT_EQ(made["large-print"], true);
  EXPECT_EQ(made["without-figures"], true);
  EXPECT_EQ(made["extra-minutes"], 15);
  EXPECT_EQ(made["questions"][0]["class-words"]["says"]["slack-only"], "Slack alone.");
  EXPECT_FALSE(made["questions"][1].contains("class-words"));
  made.erase("title");
  EXPECT_NE(violations(whole), "");
}

TEST(QuizJson, KeepsAllBitsOfTheSeed) {
  auto header = sample::header();
  header.seed = 18446744073709551615ULL;
  const json whole = json::parse(json_start(header) + json_end());
  EXPECT_EQ(whole["seed"].get<std::uint64_t>(), header.seed);
}

TEST(QuizJson, GivesValuesInSiAndAsShown) {
  const json question = quiz()["sheets"][0]["questions"][0];
  EXPECT_EQ(question["givens"]["slack"],
            (json{{"si", 1.2192}, {"unit", "ft"}, {"value", 4.0}, {"text", "4 ft"}}));
  EXPECT_EQ(question["givens"]["worker"], (json{{"word", "rosa"}, {"text", "Rosa"}}));
  EXPECT_EQ(question["calculations"][0]["inputs"]["slope-length"],
            (json{{"si", 4.8768}, {"unit", "m"}, {"text", "16 ft"}}));
  EXPECT_EQ(question["answer"], (json{{"value", 7.4547},
                                      {"unit", "ft"},
                                      {"tolerance", 0.1},
                                      {"text", "7.5 ft"},
                                      {"si", 2.27219256}}));
  EXPECT_EQ(question["mistakes"][0]["value"], 4.0);
  EXPECT_EQ(question["steps"][2]["symbols"], "FF = h + b");
  EXPECT_EQ(question["steps"][2]["result"], "7.5 ft");
}

TEST(QuizJson, NamesTheRightLetters) {
  const json questions = quiz()["sheets"][0]["questions"];
  EXPECT_EQ(questions[2]["answer"]["right"], json({"B"}));
  EXPECT_EQ(questions[3]["answer"]["right"], json({"B", "D"}));
  EXPECT_EQ(questions[4]["answer"]["right"], json({"B", "D", "A", "C"}));
  EXPECT_EQ(questions[2]["mistakes"][0]["option"], "C");
}

TEST(QuizJson, SurvivesANameThatIsNotUtf8) {
  const std::string text =
      json_start(sample::header()) + json_sheet(sample::sheet("A", "Bj\xF6rn"), true) + json_end();
  EXPECT_EQ(json::parse(text)["sheets"][0]["name"], "Bj\uFFFDrn");
}

TEST(Responses, HasARowASeatAndAColumnAQuestion) {
  EXPECT_EQ(responses_header(sample::sheet()), "seat,name,code,1,2,3,4,5,6,7,8,9,10,11,12\r\n");
  EXPECT_EQ(responses_row(sample::sheet("B", "Lee, \"Mei\"")),
            "B,\"Lee, \"\"Mei\"\"\",7K3QX-B,,,,,,,,,,,,\r\n");
  EXPECT_EQ(responses_row(sample::sheet("AA", "=1+1")), "AA,'=1+1,7K3QX-AA,,,,,,,,,,,,\r\n");
}

}  // namespace
}  // namespace footroom::render
