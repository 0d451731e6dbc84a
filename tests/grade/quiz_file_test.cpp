#include "grade/quiz_file.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <nlohmann/json.hpp>

#include "grade/json_reader.hpp"
#include "grade/marking.hpp"
#include "notation/unit_text.hpp"

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

// ---- What is read ------------------------------------------------------------------------------

Quiz read(const nlohmann::json& json) {
  return read_quiz(json.dump(), "quiz.json");
}

TEST(QuizFile, HeaderIsReadAsItStands) {
  const auto json = golden();
  const quiz::Header plain = read(json).header;
  EXPECT_EQ(plain.code, "T3NJE");
  EXPECT_EQ(plain.program, json["program"]);
  EXPECT_EQ(plain.bank_digest, json["bank"]);
  EXPECT_EQ(plain.blueprint, "weekly");
  EXPECT_EQ(plain.title, "Weekly quiz");
  EXPECT_EQ(plain.course, "Rooftop work: fall protection");
  EXPECT_EQ(plain.seed, 20260301u);
  EXPECT_EQ(plain.date, "2026-03-02");
  EXPECT_EQ(plain.system, notation::System::us);
  EXPECT_EQ(plain.style.language, engine::Language::english);
  EXPECT_EQ(plain.style.decimal_mark, '.');
  EXPECT_EQ(plain.rules, "us-construction");
  EXPECT_EQ(plain.rules_title, "US construction, 29 CFR 1926 Subpart M");
  EXPECT_EQ(plain.paper, quiz::Paper::letter);
  EXPECT_EQ(plain.minutes, 20);
  EXPECT_EQ(plain.sheets, static_cast<int>(json["sheets"].size()));
  EXPECT_EQ(plain.secret, "");
  EXPECT_EQ(plain.course_plan, "");
  EXPECT_EQ(plain.week, 0);
  EXPECT_TRUE(plain.topics.empty() && plain.after.empty() && plain.levels.empty());
  EXPECT_TRUE(plain.swaps.empty());
  ASSERT_EQ(plain.accommodations->size(), json["sheets"].size());
  EXPECT_EQ(plain.accommodations->at(0), quiz::Accommodations());
}

TEST(QuizFile, HeaderWithAllThatMayStandInIt) {
  auto json = golden();
  json["units"] = "si";
  json["language"] = "es";
  json["decimal-mark"] = "comma";
  json["paper"] = "a4";
  json["secret"] = "0123456789abcdef";
  json["course-plan"] = "ten-weeks";
  json["week"] = 3;
  json["topics"] = {"roof", "ropes"};
  json["after"] = {"7K3QX"};
  json["levels"] = {{"free-fall", 4}};
  json["swaps"] = nlohmann::json::parse(
      R"([{"question": 2, "item": "other", "draw": 5}, {"question": 4, "draw": 0}])");
  json.erase("rules-title");
  const quiz::Header full = read(json).header;
  EXPECT_EQ(full.system, notation::System::si);
  EXPECT_EQ(full.style.language, engine::Language::spanish);
  EXPECT_EQ(full.style.decimal_mark, ',');
  EXPECT_EQ(full.paper, quiz::Paper::a4);
  EXPECT_EQ(full.secret, "0123456789abcdef");
  EXPECT_EQ(full.course_plan, "ten-weeks");
  EXPECT_EQ(full.week, 3);
  EXPECT_EQ(full.topics, (std::vector<std::string>{"roof", "ropes"}));
  EXPECT_EQ(full.after, std::vector<std::string>{"7K3QX"});
  EXPECT_EQ(full.levels.at("free-fall"), 4);
  ASSERT_EQ(full.swaps.size(), 2u);
  EXPECT_EQ(full.swaps.at(2).item, "other");
  EXPECT_EQ(full.swaps.at(2).draw, 5u);
  EXPECT_EQ(full.swaps.at(4).item, "");
  EXPECT_EQ(full.rules_title, "us-construction");
  json.erase("decimal-mark");
  EXPECT_EQ(read(json).header.style.decimal_mark, '.');
}

TEST(QuizFile, QuestionsAreReadAsTheyStand) {
  const auto json = golden();
  const quiz::Sheet sheet = read(json).sheets.at(0);
  EXPECT_EQ(sheet.seat, "A");
  EXPECT_EQ(sheet.code, "T3NJE-A");
  EXPECT_EQ(sheet.points, 6);
  EXPECT_EQ(sheet.minutes, 17);
  ASSERT_EQ(sheet.questions.size(), 5u);
  using quiz::Kind;
  const Kind kinds[] = {Kind::one_of, Kind::order, Kind::number, Kind::verdict, Kind::several_of};
  for (std::size_t i = 0; i < 5; ++i) {
    const auto& told = json["sheets"][0]["questions"][i];
    const quiz::Question& question = sheet.questions[i];
    EXPECT_EQ(question.number, static_cast<int>(i + 1));
    EXPECT_EQ(question.kind, kinds[i]);
    EXPECT_EQ(question.item, told["item"]);
    EXPECT_EQ(question.topic, told["topic"]);
    EXPECT_EQ(question.topic_title, told["topic-title"]);
    EXPECT_EQ(question.level, told["level"]);
    EXPECT_EQ(question.title, told["title"]);
    EXPECT_EQ(question.stem, told["stem"]);
    EXPECT_EQ(question.points, told["points"]);
    EXPECT_EQ(question.minutes, told["minutes"]);
    EXPECT_EQ(question.options.size(), i == 2 ? 0 : told["answer"]["options"].size());
    EXPECT_EQ(question.answer.has_value(), i == 2);
    EXPECT_EQ(question.mistakes.size(), told["mistakes"].size());
    EXPECT_EQ(question.cautions.size(), told["cautions"].size());
    EXPECT_EQ(question.limits.size(), told["limits"].size());
    ASSERT_EQ(question.sources.size(), told["sources"].size());
    EXPECT_EQ(question.sources[0].status, told["sources"][0]["status"]);
    EXPECT_FALSE(question.class_words);
  }
  const quiz::NumberAnswer& answer = *sheet.questions[2].answer;
  EXPECT_EQ(answer.unit, "ft");
  EXPECT_EQ(answer.unit_text, "ft");
  EXPECT_EQ(answer.quantity.dimension, engine::dimension::length);
  EXPECT_NEAR(answer.quantity.si, 2.892, 0.001);
  EXPECT_NEAR(answer.number, 9.490, 0.001);
  EXPECT_EQ(answer.tolerance, 0.1);
  EXPECT_EQ(answer.text, "9.5\u00a0ft");
  const quiz::Mistake& slack = sheet.questions[2].mistakes.at(0);
  EXPECT_EQ(slack.id, "slack-only");
  EXPECT_EQ(slack.number, 5.5);
  EXPECT_FALSE(slack.letter);
  const quiz::Mistake& within = sheet.questions[3].mistakes.at(0);
  EXPECT_EQ(within.letter, "A");
  EXPECT_FALSE(within.number);
  const quiz::Option& first = sheet.questions[1].options.at(0);
  EXPECT_EQ(first.letter, "A");
  EXPECT_EQ(first.id, "degrees");
  EXPECT_EQ(first.place, 1);
  EXPECT_EQ(first.says, "");
  EXPECT_TRUE(sheet.questions[3].options.at(1).right);
  EXPECT_FALSE(sheet.questions[3].options.at(0).right);
  const quiz::LimitLine& limit = sheet.questions[3].limits.at(0);
  EXPECT_EQ(limit.text, "6\u00a0ft");
  EXPECT_EQ(limit.status, "read");
  // Steps: words alone, then r / cos theta as a fraction.
  const auto& steps = sheet.questions[0].steps;
  EXPECT_EQ(steps.at(0).says, "Divide the run by the cosine of the roof angle.");
  EXPECT_FALSE(steps[0].line);
  const auto& line = *steps.at(1).line;
  EXPECT_EQ(line.name, "answer");
  EXPECT_EQ(line.result, "23.4\u00a0ft");
  EXPECT_EQ(line.symbols.kind, notation::Math::Kind::fraction);
  ASSERT_EQ(line.symbols.parts.size(), 2u);
  EXPECT_EQ(line.symbols.parts[0].kind, notation::Math::Kind::identifier);
  EXPECT_EQ(line.symbols.parts[0].text, "r");
  EXPECT_EQ(line.symbols.parts[1].kind, notation::Math::Kind::row);
}

TEST(QuizFile, MathematicsOfEveryBox) {
  auto json = golden();
  auto& step = json["sheets"][0]["questions"][0]["steps"][1];
  const auto symbols = [&](const char* text) {
    step["math"]["symbols"] = nlohmann::json::parse(text);
    return read(json).sheets[0].questions[0].steps[1].line->symbols;
  };
  using Kind = notation::Math::Kind;
  EXPECT_EQ(symbols(R"({"root": [{"number": "2"}]})").kind, Kind::root);
  EXPECT_EQ(symbols(R"({"power": [{"number": "2"}, {"number": "3"}]})").kind, Kind::power);
  EXPECT_EQ(symbols(R"({"subscript": [{"number": "2"}, {"number": "3"}]})").kind, Kind::subscript);
  const auto fence = symbols(R"({"fence": [{"sign": "-"}, {"number": "3"}, {"number": "4"}]})");
  EXPECT_EQ(fence.kind, Kind::fence);
  EXPECT_EQ(fence.text, "");
  EXPECT_EQ(fence.parts.size(), 3u);
  EXPECT_EQ(fence.parts[0].kind, Kind::sign);
  EXPECT_EQ(fence.parts[1].kind, Kind::number);
  const auto absolute = symbols(R"({"absolute": [{"identifier": "a"}]})");
  EXPECT_EQ(absolute.kind, Kind::fence);
  EXPECT_EQ(absolute.text, "|");
  // A file without mathematics has the formula as it reads.
  step.erase("math");
  const auto line = *read(json).sheets[0].questions[0].steps[1].line;
  EXPECT_EQ(line.symbols.kind, Kind::identifier);
  EXPECT_EQ(line.symbols.text, "r / cos θ");
  EXPECT_EQ(line.numbers.kind, Kind::number);
}

TEST(QuizFile, SheetsInAnotherLanguageHaveTheClassesWordsToo) {
  auto json = golden();
  auto& sheet = json["sheets"][0];
  sheet["language"] = "es";
  sheet["title"] = "Examen semanal";
  sheet["course"] = "Trabajo en techos";
  sheet["rules-title"] = "Construcción";
  sheet["large-print"] = true;
  sheet["without-figures"] = true;
  sheet["extra-minutes"] = 10;
  sheet["questions"][2]["class-words"] = nlohmann::json::parse(
      R"({"title": "Free fall", "topic-title": "Falls", "answer": "9.5 ft",
          "says": {"slack-only": "Slack alone."}})");
  const Quiz quiz = read(json);
  const quiz::Sheet& made = quiz.sheets[0];
  EXPECT_EQ(made.accommodations.language, engine::Language::spanish);
  EXPECT_TRUE(made.accommodations.large_print);
  EXPECT_TRUE(made.accommodations.without_figures);
  EXPECT_EQ(made.accommodations.extra_minutes, 10);
  ASSERT_TRUE(made.words);
  EXPECT_EQ(made.words->title, "Examen semanal");
  EXPECT_EQ(made.words->course, "Trabajo en techos");
  EXPECT_EQ(made.words->rules_title, "Construcción");
  EXPECT_EQ(quiz.header.accommodations->at(0), made.accommodations);
  const quiz::ClassWords& words = *made.questions[2].class_words;
  EXPECT_EQ(words.title, "Free fall");
  EXPECT_EQ(words.topic_title, "Falls");
  EXPECT_EQ(words.answer, "9.5 ft");
  EXPECT_EQ(words.says.at("slack-only"), "Slack alone.");
  // The unit behind the line is in the language of the sheet: "ft" in English, pies in Spanish.
  EXPECT_EQ(made.questions[2].answer->unit_text,
            notation::unit_alone(*notation::find_unit("ft"), engine::Language::spanish));
  sheet["large-print"] = false;
  sheet["without-figures"] = false;
  EXPECT_FALSE(read(json).sheets[0].accommodations.large_print);
  EXPECT_FALSE(read(json).sheets[0].accommodations.without_figures);
}

// ---- What is refused ---------------------------------------------------------------------------

/// The golden quiz with the value at `place` (a JSON pointer) replaced, or erased where there is
/// none.
std::string refusal_at(const std::string& place, const std::string& value) {
  auto json = golden();
  const nlohmann::json::json_pointer pointer(place);
  if (value.empty())
    json[pointer.parent_pointer()].erase(pointer.back());
  else
    json[pointer] = nlohmann::json::parse(value);
  const std::string said = refusal(json);
  const std::string head = "quiz.json: ";
  return said.starts_with(head) ? said.substr(head.size()) : said;
}

TEST(QuizFile, WhatItCannotBeIsRefusedWithItsPlace) {
  struct Row {
    const char* place;
    const char* value;
    const char* refusal;
  };
  const Row rows[] = {
      {"/format", "2", "format: is 2, expected a whole number from 1 to 1"},
      {"/code", "\"\"", "code: expected capital letters and digits"},
      {"/code", "\"../x\"", "code: expected capital letters and digits"},
      {"/code", "\"Ax\"", "code: expected capital letters and digits"},
      {"/secret", "\"ABC\"", "secret: expected hexadecimal digits in lower case"},
      {"/units", "\"metric\"", "units: is \"metric\", expected us or si"},
      {"/language", "\"fr\"", "language: is \"fr\", expected en or es"},
      {"/decimal-mark", "\"dot\"", "decimal-mark: is \"dot\", expected point or comma"},
      {"/paper", "\"a5\"", "paper: is \"a5\", expected letter or a4"},
      {"/minutes", "-1", "minutes: is -1, expected a whole number from 0 to 1000000"},
      {"/minutes", "1000001", "minutes: is 1000001, expected a whole number from 0 to 1000000"},
      {"/week", "0", "week: is 0, expected a whole number from 1 to 1000000"},
      {"/seed", "1.5", "seed: is 1.5, expected a whole number, not negative"},
      {"/levels", "{\"a\": 0}", "levels/a: is 0, expected a whole number from 1 to 4"},
      {"/levels", "{\"a\": 5}", "levels/a: is 5, expected a whole number from 1 to 4"},
      {"/levels", "[]", "levels: is array, expected an object"},
      {"/swaps", R"([{"question": 0, "draw": 1}])",
       "swaps/0/question: is 0, expected a whole number from 1 to 1000000"},
      {"/swaps", R"([{"question": 1, "draw": -1}])",
       "swaps/0/draw: is -1, expected a whole number from 0 to 1000000"},
      {"/sheets", "[]", "sheets: is empty, expected a sheet"},
      {"/sheets", "{}", "sheets: is object, expected a list"},
      {"/sheets/1/seat", "\"A\"", "sheets/1: has the seat of another sheet"},
      {"/sheets/0/seat", "\"a\"", "sheets/0/seat: expected capital letters"},
      {"/sheets/0/large-print", "1", "sheets/0/large-print: is number, expected true or false"},
      {"/sheets/0/extra-minutes", "-5",
       "sheets/0/extra-minutes: is -5, expected a whole number from 0 to 1000000"},
      {"/sheets/0/language", "\"es\"", "sheets/0/title: is missing"},
      {"/sheets/0/points", "0.5",
       "sheets/0/points: is 0.5, expected a whole number from 0 to 1000000"},
      {"/sheets/0/questions/1/number", "1",
       "sheets/0/questions/1: has the number of another question"},
      {"/sheets/0/questions/0/number", "0",
       "sheets/0/questions/0/number: is 0, expected a whole number from 1 to 1000000"},
      {"/sheets/0/questions/0/level", "0",
       "sheets/0/questions/0/level: is 0, expected a whole number from 1 to 4"},
      {"/sheets/0/questions/0/level", "5",
       "sheets/0/questions/0/level: is 5, expected a whole number from 1 to 4"},
      {"/sheets/0/questions/0/stem", "", "sheets/0/questions/0/stem: is missing"},
      {"/sheets/0/questions/0/sources/0/status", "\"sure\"",
       "sheets/0/questions/0/sources/0/status: is \"sure\", expected read, second-hand, "
       "from-memory, computed or common-practice"},
      {"/sheets/0/questions/2/answer/unit", "\"furlong\"",
       "sheets/0/questions/2/answer/unit: is \"furlong\", expected the name of a unit"},
      // "feet" is read where people write it, but is no name.
      {"/sheets/0/questions/2/answer/unit", "\"feet\"",
       "sheets/0/questions/2/answer/unit: is \"feet\", expected the name of a unit"},
      {"/sheets/0/questions/2/answer/tolerance", "-0.1",
       "sheets/0/questions/2/answer/tolerance: expected 0 or more"},
      {"/sheets/0/questions/2/answer/value", "\"9\"",
       "sheets/0/questions/2/answer/value: is string, expected a number"},
      {"/sheets/0/questions/0/answer/options", "[]",
       "sheets/0/questions/0/answer/options: expected two options or more"},
      {"/sheets/0/questions/0/answer/options/1/letter", "\"A\"",
       "sheets/0/questions/0/answer/options/1: has the letter of another option"},
      {"/sheets/0/questions/0/answer/options/0/letter", "\"?\"",
       "sheets/0/questions/0/answer/options/0/letter: expected capital letters"},
      {"/sheets/0/questions/0/answer/options/0/right", "true",
       "sheets/0/questions/0/answer/options: 2 are right, expected one"},
      {"/sheets/0/questions/3/answer/options/1/right", "false",
       "sheets/0/questions/3/answer/options: 0 are right, expected one"},
      {"/sheets/0/questions/4/answer/options/2/right", "false",
       "sheets/0/questions/4/answer/options: none is right, expected one or more"},
      {"/sheets/0/questions/1/answer/options/1/place", "1",
       "sheets/0/questions/1/answer/options/1: has the place of another option"},
      {"/sheets/0/questions/1/answer/options/0/place", "0",
       "sheets/0/questions/1/answer/options/0/place: is 0, expected a whole number from 1 to 3"},
      {"/sheets/0/questions/0/steps/1/math/symbols", "{\"circle\": []}",
       "sheets/0/questions/0/steps/1/math/symbols: expected one box of mathematics"},
      {"/sheets/0/questions/0/steps/1/math/symbols", R"({"row": [], "sign": "+"})",
       "sheets/0/questions/0/steps/1/math/symbols: expected one box of mathematics"},
      {"/sheets/0/questions/0/steps/1/math/symbols", R"({"fraction": [{"number": "1"}]})",
       "sheets/0/questions/0/steps/1/math/symbols/fraction: expected 2 parts"},
      {"/sheets/0/questions/0/steps/1/math/symbols",
       R"({"root": [{"number": "1"}, {"number": "1"}]})",
       "sheets/0/questions/0/steps/1/math/symbols/root: expected 1 parts"},
  };
  for (const Row& row : rows)
    EXPECT_EQ(refusal_at(row.place, row.value), row.refusal) << row.place << " = " << row.value;
}

TEST(QuizFile, WhatIsJustAllowedIsTaken) {
  const std::pair<const char*, const char*> rows[] = {
      {"/sheets/0/questions/2/answer/tolerance", "0"},
      {"/minutes", "0"},
      {"/minutes", "1000000"},
      {"/week", "1"},
      {"/levels", R"({"a": 1, "b": 4})"},
      {"/swaps", R"([{"question": 1, "draw": 0}])"},
      {"/sheets/0/extra-minutes", "0"},
      {"/sheets/0/questions/0/level", "4"},
      {"/sheets/0/questions/0/points", "0"},
      {"/code", "\"Z-9\""},
  };
  for (const auto& [place, value] : rows) EXPECT_EQ(refusal_at(place, value), "none") << place;
}

TEST(QuizFile, ATextOfSixtyFourCharactersIsTheLongestCode) {
  EXPECT_EQ(refusal_at("/code", "\"" + std::string(64, 'A') + "\""), "none");
  EXPECT_EQ(refusal_at("/code", "\"" + std::string(65, 'A') + "\""),
            "code: expected capital letters and digits");
}

// The reader goes as deep as the mathematics, and the stack must not be the file's to fill.
TEST(QuizFile, MathematicsDeeperThanSixtyFourBoxesIsRefused) {
  const auto nested = [](int boxes) {
    std::string text = R"({"number": "1"})";
    for (int i = 0; i < boxes; ++i) text = R"({"row": [)" + text + "]}";
    return refusal_at("/sheets/0/questions/0/steps/1/math/symbols", text);
  };
  EXPECT_EQ(nested(64), "none");
  EXPECT_NE(nested(65).find("goes deeper than 64 boxes"), std::string::npos) << nested(65);
}

}  // namespace
}  // namespace footroom::grade
