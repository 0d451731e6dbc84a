#include "grade/results.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "grade/json_reader.hpp"

namespace footroom::grade {
namespace {

Results sample() {
  Results results;
  results.quiz = "7K3QX";
  results.title = "Weekly quiz";
  results.course = "Rooftop work";
  results.date = "2026-01-05";
  results.blueprint = "weekly";
  results.bank = std::string(64, 'a');
  results.program = "footroom 0.1.0";
  results.rules = "us-construction";
  results.style.decimal_mark = ',';
  results.style.language = engine::Language::spanish;
  QuestionResult number;
  number.number = 1;
  number.item = "free-fall-over-the-eave";
  number.topic = "slack-and-free-fall";
  number.level = 3;
  number.outcome = Outcome::named_mistake;
  number.mistake = "slack-only";
  number.says = "Slack alone is *not* it.";
  number.typed = "4 ft";
  number.read = "4 ft";
  number.value = 4;
  number.right = "7.5 ft";
  number.possible = Points::whole(2);
  QuestionResult several;
  several.number = 2;
  several.item = "gear";
  several.kind = quiz::Kind::several_of;
  several.outcome = Outcome::partly_right;
  several.chosen = {"frayed", "dry"};
  several.points = Points::whole(1).share(2, 3);
  several.possible = Points::whole(1);
  QuestionResult unreadable = several;
  unreadable.outcome = Outcome::unreadable;
  unreadable.reason = "<no number>";
  unreadable.chosen.clear();
  results.seats = {{"A",
                    "O'Neil <script>",
                    "7K3QX-A",
                    {number, several, unreadable},
                    Points{67},
                    Points::whole(4)}};
  results.absent = {"B"};
  return results;
}

std::string violations(const nlohmann::json& document) {
  std::ifstream in(FOOTROOM_SOURCE_DIR "/questionbank/results.schema.json");
  const auto text = nlohmann::json::parse(in);
  valijson::Schema schema;
  valijson::SchemaParser().populateSchema(valijson::adapters::NlohmannJsonAdapter(text), schema);
  valijson::ValidationResults found;
  valijson::Validator().validate(schema, valijson::adapters::NlohmannJsonAdapter(document), &found);
  std::string all;
  valijson::ValidationResults::Error error;
  while (found.popError(error)) all += error.description + "\n";
  return all;
}

std::string refusal(const std::string& text) {
  try {
    read_results(text, "results.json");
  } catch (const FaultyFile& fault) {
    return fault.what();
  }
  return "none";
}

TEST(Results, FitTheirSchema) {
  auto json = nlohmann::json::parse(results_json(sample()));
  EXPECT_EQ(violations(json), "");
  json["seats"][0]["questions"][0]["outcome"] = "lucky";
  EXPECT_NE(violations(json), "");
}

TEST(Results, AreReadBackAsTheyWere) {
  const std::string text = results_json(sample());
  const Results back = read_results(text, "results.json");
  EXPECT_EQ(results_json(back), text);
  EXPECT_EQ(back.style.decimal_mark, ',');
  EXPECT_EQ(back.seats[0].name, "O'Neil <script>");
  EXPECT_EQ(back.seats[0].questions[1].points.hundredths, 67);
  EXPECT_EQ(back.seats[0].questions[0].value, 4);
  EXPECT_FALSE(back.seats[0].questions[1].value.has_value());
}

TEST(Results, FaultyFilesAreRefusedWithTheirPlace) {
  const std::string text = results_json(sample());
  const auto with = [&](auto change) {
    auto json = nlohmann::json::parse(text);
    change(json);
    return refusal(json.dump());
  };
  using Json = nlohmann::json;
  EXPECT_EQ(refusal("{\n\"format\": 1,\n"),
            "results.json:3: is no JSON, expected a file that footroom wrote");
  EXPECT_EQ(refusal("[]"), "results.json: the whole: is array, expected an object");
  EXPECT_EQ(refusal("{\"format\": 1e999}"), "results.json: holds a number that is too large");
  EXPECT_EQ(with([](Json& json) { json["format"] = 2; }),
            "results.json: format: is 2, expected a whole number from 1 to 1");
  EXPECT_EQ(with([](Json& json) { json["seats"][0].erase("points"); }),
            "results.json: seats/0/points: is missing");
  EXPECT_EQ(with([](Json& json) { json["seats"][0]["questions"][1]["kind"] = "guess"; }),
            "results.json: seats/0/questions/1/kind: is \"guess\", expected number, one-of, "
            "several-of, order or verdict");
  EXPECT_EQ(with([](Json& json) { json["seats"][0]["name"] = 7; }),
            "results.json: seats/0/name: is number, expected a text");
}

TEST(Results, OfAPracticeInTheOtherUnitsAreReadBackToo) {
  Results results = sample();
  results.practice = true;
  results.system = notation::System::si;
  results.style = {engine::Language::english, '.'};
  const std::string text = results_json(results);
  EXPECT_EQ(violations(nlohmann::json::parse(text)), "");
  const Results back = read_results(text, "results.json");
  EXPECT_TRUE(back.practice);
  EXPECT_EQ(back.system, notation::System::si);
  EXPECT_EQ(back.style.language, engine::Language::english);
  EXPECT_EQ(back.style.decimal_mark, '.');
  EXPECT_EQ(results_json(back), text);
  auto json = nlohmann::json::parse(text);
  EXPECT_EQ(json["occasion"], "practice");
  json["occasion"] = "test";
  EXPECT_FALSE(read_results(json.dump(), "results.json").practice);
  json.erase("occasion");
  EXPECT_FALSE(read_results(json.dump(), "results.json").practice);
}

TEST(Results, OfATestHoldWhatWasGradedFieldByField) {
  const Results written = sample();
  const Results back = read_results(results_json(written), "results.json");
  EXPECT_FALSE(back.practice);
  EXPECT_EQ(back.quiz, "7K3QX");
  EXPECT_EQ(back.title, "Weekly quiz");
  EXPECT_EQ(back.course, "Rooftop work");
  EXPECT_EQ(back.date, "2026-01-05");
  EXPECT_EQ(back.blueprint, "weekly");
  EXPECT_EQ(back.bank, std::string(64, 'a'));
  EXPECT_EQ(back.program, "footroom 0.1.0");
  EXPECT_EQ(back.rules, "us-construction");
  EXPECT_EQ(back.system, notation::System::us);
  EXPECT_EQ(back.style.language, engine::Language::spanish);
  EXPECT_EQ(back.absent, std::vector<std::string>{"B"});
  ASSERT_EQ(back.seats.size(), 1u);
  EXPECT_EQ(back.seats[0].seat, "A");
  EXPECT_EQ(back.seats[0].code, "7K3QX-A");
  EXPECT_EQ(back.seats[0].points, Points{67});
  EXPECT_EQ(back.seats[0].possible, Points{400});
  ASSERT_EQ(back.seats[0].questions.size(), 3u);
  for (std::size_t i = 0; i < 3; ++i) {
    const QuestionResult& was = written.seats[0].questions[i];
    const QuestionResult& is = back.seats[0].questions[i];
    EXPECT_EQ(is.number, was.number);
    EXPECT_EQ(is.item, was.item);
    EXPECT_EQ(is.topic, was.topic);
    EXPECT_EQ(is.topic_title, was.topic_title);
    EXPECT_EQ(is.level, was.level);
    EXPECT_EQ(is.kind, was.kind);
    EXPECT_EQ(is.title, was.title);
    EXPECT_EQ(is.outcome, was.outcome);
    EXPECT_EQ(is.mistake, was.mistake);
    EXPECT_EQ(is.says, was.says);
    EXPECT_EQ(is.typed, was.typed);
    EXPECT_EQ(is.read, was.read);
    EXPECT_EQ(is.reason, was.reason);
    EXPECT_EQ(is.value, was.value);
    EXPECT_EQ(is.chosen, was.chosen);
    EXPECT_EQ(is.right, was.right);
    EXPECT_EQ(is.points, was.points);
    EXPECT_EQ(is.possible, was.possible);
  }
}

TEST(Results, BoundsAreThoseOfTheSchema) {
  const std::string text = results_json(sample());
  const auto refusal_of = [&](const std::string& place, double value) {
    auto json = nlohmann::json::parse(text);
    json[nlohmann::json::json_pointer(place)] = value;
    return refusal(json.dump());
  };
  const std::string points = "/seats/0/questions/0/points";
  EXPECT_EQ(refusal_of(points, 0), "none");
  EXPECT_EQ(refusal_of(points, 1'000'000), "none");
  for (const double beyond : {-0.01, 1'000'000.01})
    EXPECT_EQ(refusal_of(points, beyond),
              "results.json: seats/0/questions/0/points: expected points from 0 to 1000000");
  for (const double level : {1, 4})
    EXPECT_EQ(refusal_of("/seats/0/questions/0/level", level), "none");
  for (const double level : {0, 5})
    EXPECT_NE(refusal_of("/seats/0/questions/0/level", level), "none");
  for (const double number : {1, 1'000'000})
    EXPECT_EQ(refusal_of("/seats/0/questions/0/number", number), "none");
  for (const double number : {0, 1'000'001})
    EXPECT_NE(refusal_of("/seats/0/questions/0/number", number), "none");
  EXPECT_NE(refusal_of("/format", 0), "none");
}

TEST(Results, OnlyOutcomesOfARightAnswerAreRight) {
  const std::vector<Outcome> right{Outcome::right, Outcome::right_in_other_unit,
                                   Outcome::right_without_unit};
  for (int i = 0; i <= static_cast<int>(Outcome::unreadable); ++i) {
    const auto outcome = static_cast<Outcome>(i);
    EXPECT_EQ(is_right(outcome), std::find(right.begin(), right.end(), outcome) != right.end())
        << name_of(outcome);
  }
}

TEST(Results, EveryOutcomeHasAName) {
  for (int i = 0; i <= static_cast<int>(Outcome::unreadable); ++i) {
    const auto outcome = static_cast<Outcome>(i);
    EXPECT_EQ(find_outcome(name_of(outcome)), outcome);
  }
  EXPECT_EQ(find_outcome("lucky"), std::nullopt);
}

TEST(Points, AreExact) {
  notation::Style style;
  EXPECT_EQ(Points::whole(1).share(1, 2).text(style), "0.5");
  EXPECT_EQ(Points::whole(2).share(1, 3).text(style), "0.67");
  EXPECT_EQ(Points::whole(1).share(1, 8).text(style), "0.13");  // halves go up
  EXPECT_EQ(Points::whole(3).share(1, 1).text(style), "3");
  EXPECT_EQ(Points{200} - Points{33}, Points{167});
  EXPECT_EQ(Points{}.text(style), "0");
  Points sum;
  for (int i = 0; i < 10; ++i) sum += Points{10};
  EXPECT_EQ(sum, Points::whole(1));
  style.decimal_mark = ',';
  EXPECT_EQ(Points{1234550}.text(style), "12\u00a0345,5");
}

}  // namespace
}  // namespace footroom::grade
