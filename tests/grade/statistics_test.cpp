#include "grade/statistics.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <tuple>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "grade/json_reader.hpp"

namespace footroom::grade {
namespace {

QuestionResult answer(const std::string& item, int points, int possible = 1) {
  QuestionResult result;
  result.number = 1;
  result.item = item;
  result.title = "Title of " + item;
  result.topic = "roof";
  result.topic_title = "Roof";
  result.level = 2;
  result.points = Points::whole(points);
  result.possible = Points::whole(possible);
  result.outcome = points == possible ? Outcome::right : Outcome::wrong;
  return result;
}

/// A class: a row a seat, "1" for a right answer; items a, b, c ...
Results results_of(const std::vector<std::string>& rows, const std::string& quiz = "7K3QX",
                   char first_item = 'a') {
  Results results;
  results.quiz = quiz;
  results.title = "Weekly quiz";
  results.date = "2026-01-05";
  for (std::size_t seat = 0; seat < rows.size(); ++seat) {
    SeatResult one;
    one.seat = std::string(1, static_cast<char>('A' + seat));
    for (std::size_t item = 0; item < rows[seat].size(); ++item) {
      one.questions.push_back(
          answer(std::string(1, static_cast<char>(first_item + item)), rows[seat][item] - '0'));
      one.points += one.questions.back().points;
      one.possible += one.questions.back().possible;
    }
    results.seats.push_back(one);
  }
  return results;
}

Statistics of(const std::vector<Results>& results, const KnownItems& known = {}) {
  std::vector<std::string> files;
  for (std::size_t i = 0; i < results.size(); ++i) files.push_back(std::to_string(i) + ".json");
  return statistics(results, files, known);
}

const ItemStatistics& item(const Statistics& statistics, const std::string& id) {
  return *std::find_if(statistics.items.begin(), statistics.items.end(),
                       [&](const ItemStatistics& one) { return one.item == id; });
}

double value(const std::optional<double>& defined) {
  EXPECT_TRUE(defined.has_value());
  return defined.value_or(0);
}

std::vector<std::string> concerns(const ItemStatistics& item) {
  std::vector<std::string> all;
  for (const Concern& concern : item.concerns)
    all.push_back(in_words(concern, engine::Language::english));
  return all;
}

/// Of `seats` answers to one item (and to an easy one beside it) the first `right` are right.
Results half_right(int seats, int right) {
  std::vector<std::string> rows;
  for (int seat = 0; seat < seats; ++seat) rows.push_back(seat < right ? "11" : "01");
  return results_of(rows);
}

// Worked by hand. Totals 3, 2, 1, 1. Shares right: a 3/4, b 2/4, c 2/4: sum pq = 0.6875. The
// variance of the totals with n is 0.6875: KR-20 = 3/2 (1 - 1) = 0. Halves: the upper two are A
// and B, the lower two C and D.
TEST(Statistics, OfAClassWorkedByHand) {
  const Statistics all = of({results_of({"111", "110", "001", "100"})});
  ASSERT_EQ(all.quizzes.size(), 1u);
  const QuizStatistics& quiz = all.quizzes[0];
  EXPECT_EQ(quiz.seats, 4);
  EXPECT_EQ(quiz.items, 3);
  EXPECT_TRUE(quiz.same_items);
  EXPECT_TRUE(quiz.all_or_nothing);
  EXPECT_NEAR(value(quiz.reliability), 0, 1e-12);
  EXPECT_NEAR(value(quiz.mean), 100 * 7.0 / 12, 1e-12);
  const double deviation = 100.0 / 3 * std::sqrt(0.6875 * 4 / 3);
  EXPECT_NEAR(value(quiz.standard_deviation), deviation, 1e-9);
  EXPECT_NEAR(value(quiz.standard_error), deviation, 1e-9);
  EXPECT_EQ(item(all, "a").difficulty, 0.75);
  EXPECT_EQ(item(all, "b").difficulty, 0.5);
  EXPECT_NEAR(value(item(all, "a").discrimination), 0.5, 1e-12);
  EXPECT_NEAR(value(item(all, "b").discrimination), 1, 1e-12);
  EXPECT_NEAR(value(item(all, "c").discrimination), 0, 1e-12);
  // b against a + c: 2, 1, 1, 1.
  EXPECT_NEAR(value(item(all, "b").item_rest), 1 / std::sqrt(3), 1e-12);
  // The hardest first, equal ones by id.
  EXPECT_EQ(all.items[0].item, "b");
  EXPECT_EQ(all.items[1].item, "c");
  EXPECT_EQ(all.items[2].item, "a");
}

TEST(Statistics, PartOfThePointsMakesItAlpha) {
  Results results = results_of({"11", "10", "01", "00"});
  results.seats[1].questions[1].points = {50};
  const Statistics all = of({results});
  EXPECT_FALSE(all.quizzes[0].all_or_nothing);
  EXPECT_TRUE(all.quizzes[0].reliability);
  EXPECT_EQ(item(all, "b").difficulty, 2.5 / 4);
}

TEST(Statistics, QuestionsOfDifferentWorthMakeItAlpha) {
  Results results = results_of({"11", "10", "01", "00"});
  for (SeatResult& seat : results.seats) {
    seat.questions[1].points = {2 * seat.questions[1].points.hundredths};
    seat.questions[1].possible = Points::whole(2);
  }
  const Statistics all = of({results});
  EXPECT_FALSE(all.quizzes[0].all_or_nothing);
  EXPECT_TRUE(all.quizzes[0].same_items);
}

TEST(Statistics, WhatIsNotDefinedIsEmptyAndNeverNaN) {
  EXPECT_TRUE(of({}).quizzes.empty());
  const Statistics nobody = of({results_of({})});
  EXPECT_EQ(nobody.quizzes[0].seats, 0);
  EXPECT_FALSE(nobody.quizzes[0].mean);
  EXPECT_FALSE(nobody.quizzes[0].reliability);
  const Statistics one = of({results_of({"101"})});
  EXPECT_NEAR(value(one.quizzes[0].mean), 200.0 / 3, 1e-12);
  EXPECT_FALSE(one.quizzes[0].standard_deviation);
  EXPECT_FALSE(one.quizzes[0].standard_error);
  EXPECT_FALSE(item(one, "a").difficulty_error);
  EXPECT_FALSE(item(one, "a").discrimination);
  EXPECT_FALSE(item(one, "a").item_rest);
  // Everybody right in a, wrong in b.
  const Statistics extremes = of({results_of({"1011", "1001", "1000", "1010"})});
  EXPECT_FALSE(item(extremes, "a").item_rest);
  EXPECT_FALSE(item(extremes, "b").item_rest);
  EXPECT_NEAR(value(item(extremes, "a").discrimination), 0, 1e-12);
  EXPECT_TRUE(item(extremes, "c").item_rest);
  EXPECT_FALSE(of({results_of({"11", "11"})}).quizzes[0].reliability);
  EXPECT_FALSE(of({results_of({"1", "0"})}).quizzes[0].reliability);
  EXPECT_FALSE(item(of({results_of({"1", "0"})}), "a").item_rest);
  for (const Statistics& all : {nobody, one, extremes})
    EXPECT_EQ(statistics_json(all).find("nan"), std::string::npos);
}

TEST(Statistics, SeatsWithDifferentItemsHaveNoReliability) {
  Results results = results_of({"11", "10", "01"});
  results.seats[2].questions[1].item = "z";
  const Statistics all = of({results});
  EXPECT_FALSE(all.quizzes[0].same_items);
  EXPECT_FALSE(all.quizzes[0].reliability);
  EXPECT_TRUE(all.quizzes[0].mean);
  EXPECT_EQ(item(all, "z").answers, 1);
  EXPECT_EQ(item(all, "b").answers, 2);
  EXPECT_FALSE(item(all, "b").item_rest);
  EXPECT_FALSE(item(all, "b").discrimination);
}

TEST(Statistics, AQuestionWorthMoreForSomeIsNotTheSame) {
  Results results = results_of({"11", "10", "01"});
  results.seats[2].questions[0].possible = Points::whole(2);
  EXPECT_FALSE(of({results}).quizzes[0].same_items);
}

TEST(Statistics, QuizzesArePutTogetherByFamily) {
  const Results first = results_of({"111", "110", "001", "100"}, "AAAAA");
  const Results again = results_of({"111", "110", "001", "100"}, "BBBBB");
  const Statistics alone = of({first});
  const Statistics both = of({first, again});
  ASSERT_EQ(both.quizzes.size(), 2u);
  for (const char* id : {"a", "b", "c"}) {
    EXPECT_EQ(item(both, id).answers, 8);
    EXPECT_EQ(item(both, id).difficulty, item(alone, id).difficulty);
    EXPECT_NEAR(value(item(both, id).item_rest), value(item(alone, id).item_rest), 1e-12);
    EXPECT_NEAR(value(item(both, id).discrimination), value(item(alone, id).discrimination), 1e-12);
  }
}

// A class that finds everything easy beside one that finds everything hard: put together without
// their own means, a would seem to go with the rest of the quiz.
TEST(Statistics, ADifferenceBetweenClassesIsNoDiscrimination) {
  const Statistics all = of({results_of({"1111", "1110", "1101", "0111"}, "AAAAA"),
                             results_of({"0001", "0010", "1000", "0000"}, "BBBBB")});
  EXPECT_LT(value(item(all, "a").item_rest), 0);
}

TEST(Statistics, AMistakeMoreCommonThanTheRightAnswerIsFlagged) {
  Results results = results_of({"11", "01", "01", "00"});
  for (const std::size_t seat : {1u, 3u}) {
    auto& question = results.seats[seat].questions[0];
    question.outcome = Outcome::named_mistake;
    question.mistake = "slack-only";
    question.says = "Slack alone is not it.";
  }
  results.seats[2].questions[0].outcome = Outcome::general_mistake;
  results.seats[2].questions[0].mistake = "sign";
  const Statistics all = of({results}, {{"a", {"Free fall", 3, {"slack-only", "height-only"}}}});
  const ItemStatistics& a = item(all, "a");
  EXPECT_EQ(a.title, "Free fall");
  EXPECT_EQ(a.level, 3);
  EXPECT_EQ(a.right, 1);
  ASSERT_EQ(a.uses.size(), 3u);
  EXPECT_EQ(a.uses[0].id, "slack-only");
  EXPECT_EQ(a.uses[0].given, 2);
  EXPECT_EQ(a.uses[0].says, "Slack alone is not it.");
  EXPECT_EQ(a.uses[1].id, "sign");
  EXPECT_EQ(a.uses[2].id, "height-only");
  EXPECT_EQ(a.uses[2].given, 0);
  // Too few answers to say that nobody gives "height-only".
  EXPECT_EQ(
      concerns(a),
      (std::vector<std::string>{"a mistake is more common than the right answer: slack-only"}));
}

TEST(Statistics, OptionsAreCountedAndRightOnesAreNoMistakes) {
  Results results = results_of({"1", "1", "0", "0"});
  const char* chosen[] = {"dry", "dry", "wet", "dry"};
  for (std::size_t seat = 0; seat < 4; ++seat) {
    auto& question = results.seats[seat].questions[0];
    question.kind = quiz::Kind::one_of;
    question.chosen = {chosen[seat]};
    if (question.outcome == Outcome::right) continue;
    question.outcome = Outcome::named_mistake;
    question.mistake = chosen[seat];
  }
  const ItemStatistics a = item(of({results}, {{"a", {"Gear", 1, {"dry", "frayed", "wet"}}}}), "a");
  ASSERT_EQ(a.uses.size(), 3u);
  EXPECT_EQ(a.uses[0].id, "dry");
  EXPECT_EQ(a.uses[0].given, 3);
  EXPECT_EQ(a.uses[0].right, 2);  // for the last seat it was wrong
  EXPECT_EQ(a.uses[1].id, "wet");
  EXPECT_EQ(a.uses[2].given, 0);
  EXPECT_TRUE(a.concerns.empty());
}

TEST(Statistics, ItemsThatNeedCareAreNamedInPlainWords) {
  Results results = half_right(40, 1);
  results.seats[7].questions[0].outcome = Outcome::unreadable;
  const Statistics all = of({results}, {{"a", {"A", 4, {"never"}}}, {"b", {"B", 2, {}}}});
  EXPECT_EQ(concerns(item(all, "a")),
            (std::vector<std::string>{"too hard: nearly nobody earns its points",
                                      "answers that nobody gave: never",
                                      "answers that could not be read and count as wrong: 1"}));
  EXPECT_EQ(concerns(item(all, "b")),
            (std::vector<std::string>{"too easy: nearly everyone earns all of its points",
                                      "the answers suggest level 1"}));
  const Statistics turned = of({results_of({"011", "011", "100", "100", "111", "000"})});
  EXPECT_EQ(concerns(item(turned, "a")),
            (std::vector<std::string>{"those who do well in the rest of the quiz do worse here: "
                                      "check the key and the wording"}));
  EXPECT_EQ(in_words(item(turned, "a").concerns[0], engine::Language::spanish),
            "quienes van bien en el resto del examen van peor aquí: revise la clave y la "
            "redacción");
}

// a and b exclude each other, and both totals are 1: there are no groups, and the rest tells.
TEST(Statistics, AnItemThatGoesAgainstTheRestIsNamedWithoutGroupsToo) {
  const Statistics all = of({results_of({"10", "01"})});
  EXPECT_FALSE(item(all, "a").discrimination);
  EXPECT_NEAR(value(item(all, "a").item_rest), -1, 1e-12);
  ASSERT_EQ(item(all, "a").concerns.size(), 1u);
  EXPECT_EQ(item(all, "a").concerns[0].kind, Concern::Kind::negative);
}

// By hand: of the upper two one has a right, of the lower two both; one who does by far best has it
// right, so that the correlation with the rest is positive.
TEST(Statistics, AnItemThatTheLowerGroupDoesBetterIsNamedWhateverTheCorrelation) {
  Results results = results_of({"11", "01", "11", "11", "11"});
  const int rest[] = {100, 10, 8, 1, 0};
  for (std::size_t seat = 0; seat < 5; ++seat) {
    results.seats[seat].questions[1].points = Points::whole(rest[seat]);
    results.seats[seat].questions[1].possible = Points::whole(100);
  }
  const Statistics all = of({results});
  EXPECT_NEAR(value(item(all, "a").discrimination), -0.5, 1e-12);
  EXPECT_GT(value(item(all, "a").item_rest), 0);
  ASSERT_EQ(item(all, "a").concerns.size(), 1u);
  EXPECT_EQ(item(all, "a").concerns[0].kind, Concern::Kind::negative);
}

// Too easy is above 95 of 100, too hard below 20.
TEST(Statistics, TooEasyAndTooHardBeginBeyondTheirShares) {
  const auto kinds = [](int hundredths) {
    Results results = results_of({"1", "1"});
    for (SeatResult& seat : results.seats) seat.questions[0].points = {hundredths};
    const Statistics made = of({results});
    std::string all;
    for (const Concern& concern : item(made, "a").concerns)
      all += std::string(name_of(concern.kind)) + " ";
    return all;
  };
  EXPECT_EQ(kinds(96), "too-easy ");
  EXPECT_EQ(kinds(95), "");
  EXPECT_EQ(kinds(20), "");
  EXPECT_EQ(kinds(19), "too-hard ");
}

TEST(Statistics, EveryConcernHasANameAndWordsInBothLanguages) {
  using Kind = Concern::Kind;
  const std::vector<std::tuple<Concern, std::string, std::string, std::string>> all{
      {{Kind::too_easy, {}},
       "too-easy",
       "too easy: nearly everyone earns all of its points",
       "demasiado fácil: casi todos ganan todos sus puntos"},
      {{Kind::too_hard, {}},
       "too-hard",
       "too hard: nearly nobody earns its points",
       "demasiado difícil: casi nadie gana sus puntos"},
      {{Kind::negative, {}},
       "negative-discrimination",
       "those who do well in the rest of the quiz do worse here: check the key and the wording",
       "quienes van bien en el resto del examen van peor aquí: revise la clave y la redacción"},
      {{Kind::mistake_leads, {"a", "b"}},
       "mistake-leads",
       "a mistake is more common than the right answer: a, b",
       "un error es más común que la respuesta correcta: a, b"},
      {{Kind::never_given, {"a"}},
       "never-given",
       "answers that nobody gave: a",
       "respuestas que nadie dio: a"},
      {{Kind::unreadable, {}, 3},
       "unreadable",
       "answers that could not be read and count as wrong: 3",
       "respuestas que no se pudieron leer y cuentan como incorrectas: 3"},
      {{Kind::other_level, {}, 2},
       "other-level",
       "the answers suggest level 2",
       "las respuestas sugieren el nivel 2"}};
  for (const auto& [concern, name, english, spanish] : all) {
    EXPECT_EQ(name_of(concern.kind), name);
    EXPECT_EQ(in_words(concern, engine::Language::english), english);
    EXPECT_EQ(in_words(concern, engine::Language::spanish), spanish);
  }
}

TEST(Statistics, AnswersToAnOrderAreNotCounted) {
  Results results = results_of({"1", "0"});
  for (SeatResult& seat : results.seats) {
    seat.questions[0].kind = quiz::Kind::order;
    seat.questions[0].chosen = {"x", "y"};
  }
  EXPECT_TRUE(item(of({results}), "a").uses.empty());
}

// Thirty answers, each option given: nothing is left over.
TEST(Statistics, OfAVerdictRightAnswersAreToldFromWrongOnes) {
  Results results = half_right(30, 20);
  for (std::size_t seat = 0; seat < 30; ++seat) {
    auto& question = results.seats[seat].questions[0];
    question.kind = quiz::Kind::verdict;
    question.chosen = {seat < 20 ? "yes" : "no"};
  }
  const Statistics all = of({results}, {{"a", {"A", 3, {"yes", "no"}}}});
  const ItemStatistics& a = item(all, "a");
  ASSERT_EQ(a.uses.size(), 2u);
  EXPECT_EQ(a.uses[0].id, "yes");
  EXPECT_EQ(a.uses[0].given, 20);
  EXPECT_EQ(a.uses[0].right, 20);
  EXPECT_EQ(a.uses[1].given, 10);
  EXPECT_EQ(a.uses[1].right, 0);
  EXPECT_TRUE(a.concerns.empty());
  const auto json = nlohmann::json::parse(statistics_json(all));
  EXPECT_EQ(json["items"][0]["uses"][0]["right"], 20);
}

// Of several options each counts by itself, a right one is no mistake that leads.
TEST(Statistics, OfSeveralOptionsNoneLeads) {
  Results results = results_of({"0", "0"});
  for (SeatResult& seat : results.seats) {
    seat.questions[0].kind = quiz::Kind::several_of;
    seat.questions[0].outcome = Outcome::partly_right;
    seat.questions[0].chosen = {"x", "y"};
  }
  const Statistics all = of({results});
  const ItemStatistics& a = item(all, "a");
  ASSERT_EQ(a.uses.size(), 2u);
  EXPECT_EQ(a.uses[0].given, 2);
  EXPECT_EQ(a.uses[0].right, 0);
  for (const Concern& concern : a.concerns) EXPECT_NE(concern.kind, Concern::Kind::mistake_leads);
  const auto json = nlohmann::json::parse(statistics_json(all));
  EXPECT_FALSE(json["items"][0]["uses"][0].contains("right"));
}

// A question worth nothing: everything about it is 0, and it moves nobody.
TEST(Statistics, QuestionsWorthNothingCountNothing) {
  Results results = results_of({"11", "10", "01"});
  for (SeatResult& seat : results.seats) {
    seat.questions[1].points = {};
    seat.questions[1].possible = {};
  }
  const Statistics all = of({results});
  EXPECT_EQ(item(all, "b").difficulty, 0);
  EXPECT_FALSE(item(all, "a").item_rest);
  Results nothing = results_of({"1", "1"});
  for (SeatResult& seat : nothing.seats) {
    seat.points = seat.possible = {};
    seat.questions[0].points = seat.questions[0].possible = {};
  }
  EXPECT_FALSE(of({nothing}).quizzes[0].all_or_nothing);
  EXPECT_EQ(of({nothing}).quizzes[0].mean, 0);
}

TEST(Statistics, LevelsAreSuggestedFromEnoughAnswersOnly) {
  EXPECT_EQ(level_of_difficulty(1), 1);
  EXPECT_EQ(level_of_difficulty(0.85), 1);
  EXPECT_EQ(level_of_difficulty(0.84), 2);
  EXPECT_EQ(level_of_difficulty(0.70), 2);
  EXPECT_EQ(level_of_difficulty(0.50), 3);
  EXPECT_EQ(level_of_difficulty(0.49), 4);
  EXPECT_EQ(level_of_difficulty(0), 4);
  EXPECT_EQ(level_of_difficulty(-0.01), 4);
  EXPECT_FALSE(item(of({half_right(29, 10)}), "a").suggested_level);
  EXPECT_EQ(item(of({half_right(30, 10)}), "a").suggested_level, 4);
  // 20 of 30 is level 3 by its band; level 2 is within a standard error, level 1 is not.
  const auto with_own = [](int level) {
    return item(of({half_right(30, 20)}, {{"a", {"A", level, {}}}}), "a").suggested_level;
  };
  EXPECT_EQ(with_own(2), 2);
  EXPECT_EQ(with_own(1), 3);
  EXPECT_EQ(with_own(4), 3);
}

std::string refusal(const std::vector<Results>& results) {
  try {
    of(results);
  } catch (const FaultyFile& fault) {
    return fault.what();
  }
  return "none";
}

TEST(Statistics, RefusesWhatWouldBeCountedTwice) {
  const Results results = results_of({"10", "01"});
  EXPECT_EQ(refusal({results, results}),
            "1.json: holds the same results as 0.json, expected each class once");
  Results twice = results;
  twice.seats[1].questions[1].item = "a";
  EXPECT_EQ(refusal({twice}), "0.json: seat B has the item \"a\" twice, expected it once");
}

// ---- Files -------------------------------------------------------------------------------------

std::string violations(const std::string& schema_file, const std::string& text) {
  std::ifstream in(FOOTROOM_SOURCE_DIR "/questionbank/" + schema_file);
  const auto schema_text = nlohmann::json::parse(in);
  valijson::Schema schema;
  valijson::SchemaParser().populateSchema(valijson::adapters::NlohmannJsonAdapter(schema_text),
                                          schema);
  const auto document = nlohmann::json::parse(text);
  valijson::ValidationResults found;
  valijson::Validator().validate(schema, valijson::adapters::NlohmannJsonAdapter(document), &found);
  std::string all;
  valijson::ValidationResults::Error error;
  while (found.popError(error)) all += error.description + "\n";
  return all;
}

TEST(StatisticsJson, FitsItsSchema) {
  const Statistics all = of({half_right(40, 20), results_of({"1"}, "BBBBB", 'x')});
  const std::string text = statistics_json(all);
  EXPECT_EQ(violations("statistics.schema.json", text), "");
  auto broken = nlohmann::json::parse(text);
  broken["items"][0]["kind"] = "guess";
  EXPECT_NE(violations("statistics.schema.json", broken.dump()), "");
  const auto json = nlohmann::json::parse(text);
  EXPECT_EQ(json["quizzes"][0]["coefficient"], "kr-20");
  EXPECT_EQ(json["items"][0]["difficulty"], 0.5);
  EXPECT_TRUE(json["quizzes"][1]["reliability"].is_null());
}

TEST(LevelsJson, IsReadBackAndFitsItsSchema) {
  const Statistics all = of({half_right(40, 20), results_of({"1"}, "BBBBB", 'x')});
  const std::string text = levels_json(all);
  EXPECT_EQ(violations("levels.schema.json", text), "");
  EXPECT_NE(violations("levels.schema.json", R"({"format": 1, "levels": {"a": 5}})"), "");
  const auto levels = read_levels(text, "levels.json");
  ASSERT_EQ(levels.size(), 2u);  // x has too few answers
  EXPECT_THROW(read_levels(R"({"format": 2, "levels": {}})", "levels.json"), FaultyFile);
  EXPECT_EQ(levels.at("a"), 3);
  EXPECT_EQ(levels.at("b"), 1);
  try {
    read_levels(R"({"format": 1, "levels": {"a": 5}})", "levels.json");
    ADD_FAILURE();
  } catch (const FaultyFile& fault) {
    EXPECT_EQ(std::string(fault.what()),
              "levels.json: levels/a: is 5, expected a whole number from 1 to 4");
  }
}

}  // namespace
}  // namespace footroom::grade
