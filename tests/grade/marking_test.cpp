// From what was typed to outcome and points, by rule.

#include "grade/marking.hpp"

#include <gtest/gtest.h>

namespace footroom::grade {
namespace {

/// Right is 12.5 ft within 0.1 ft.
quiz::Question length() {
  quiz::Question made;
  made.number = 1;
  made.item = "free-fall";
  made.points = 2;
  made.answer =
      quiz::NumberAnswer{{engine::dimension::length, 3.81}, "ft", 12.5, 0.1, "12.5 ft", "ft"};
  made.mistakes = {{"slack-only", 4.0, "4.0 ft", {}, "Slack alone is not the free fall."},
                   {"both", 4.15, "4.15 ft", {}, "Both."},
                   {"too-near", 12.55, "12.55 ft", {}, "Never."},
                   {"negative", -3.0, "-3 ft", {}, "Negative."}};
  return made;
}

quiz::Question in(const char* unit, engine::Dimension dimension, double value, double tolerance) {
  quiz::Question made = length();
  made.mistakes.clear();
  made.answer->unit = unit;
  made.answer->quantity = {dimension, value};
  made.answer->number = value;
  made.answer->tolerance = tolerance;
  return made;
}

std::string outcome(const quiz::Question& question, std::string_view typed,
                    const Credit& credit = {}) {
  const QuestionResult result = mark(question, typed, credit, {});
  return std::string(name_of(result.outcome)) + " " + result.points.text({}) +
         (result.mistake.empty() ? "" : " " + result.mistake);
}

TEST(MarkNumber, RightInWhateverUnit) {
  EXPECT_EQ(outcome(length(), "12.5 ft"), "right 2");
  EXPECT_EQ(outcome(length(), "12' 6\""), "right 2");
  EXPECT_EQ(outcome(length(), "12.5"), "right-without-unit 2");
  EXPECT_EQ(outcome(length(), "3.81 m"), "right-in-other-unit 2");
  EXPECT_EQ(outcome(length(), "150 in"), "right-in-other-unit 2");
  EXPECT_EQ(outcome(length(), "12.5 m"), "right-with-wrong-unit 1");
  EXPECT_EQ(outcome(length(), "12.5 lb"), "right-with-wrong-unit 1");
  EXPECT_EQ(outcome(length(), "13 lb"), "wrong 0");
  const auto force = in("lbf", engine::dimension::force, 1800, 20);
  EXPECT_EQ(outcome(force, "1,800 lb"), "right 2") << "a weight is a force in everyday speech";
  EXPECT_EQ(outcome(force, "1.8k"), "right-without-unit 2");
  EXPECT_EQ(outcome(in("pitch", engine::dimension::angle, 6, 0.1), "6"), "right 2");
  EXPECT_EQ(outcome(in("deg", engine::dimension::angle, 26.565, 0.1), "6:12"),
            "right-in-other-unit 2");
  EXPECT_EQ(outcome(in("", engine::dimension::ratio, 12, 0), "12 nails"), "right 2");
}

TEST(MarkNumber, WithinTheToleranceAndNoFurther) {
  for (const char* typed : {"12.4 ft", "12.6 ft", "12.45", "12.55"})
    EXPECT_EQ(outcome(length(), typed).substr(0, 5), "right") << typed;
  for (const char* typed : {"12.39 ft", "12.61 ft", "12.601", "12.399"})
    EXPECT_NE(outcome(length(), typed).substr(0, 5), "right") << typed;
  const auto exact = in("", engine::dimension::ratio, 3, 0);
  EXPECT_EQ(outcome(exact, "3"), "right 2");
  EXPECT_EQ(outcome(exact, "3.001"), "wrong 0");
  const auto zero = in("ft", engine::dimension::length, 0, 0.1);
  EXPECT_EQ(outcome(zero, "0"), "right-without-unit 2");
  EXPECT_EQ(outcome(zero, "-0.1 ft"), "right 2");
}

TEST(MarkNumber, AValueWithinToleranceIsRightWhateverMistakeIsNear) {
  EXPECT_EQ(outcome(length(), "12.55 ft"), "right 2");
}

TEST(MarkNumber, NamesTheNearestMistake) {
  EXPECT_EQ(outcome(length(), "4 ft"), "named-mistake 0 slack-only");
  EXPECT_EQ(outcome(length(), "4.0"), "named-mistake 0 slack-only");
  EXPECT_EQ(outcome(length(), "1.22 m"), "named-mistake 0 slack-only");
  EXPECT_EQ(outcome(length(), "4.07 ft"), "named-mistake 0 slack-only");
  EXPECT_EQ(outcome(length(), "4.08 ft"), "named-mistake 0 both");
  EXPECT_EQ(outcome(length(), "-3 ft"), "named-mistake 0 negative");
  const QuestionResult result = mark(length(), "4 ft", {}, {});
  EXPECT_EQ(result.says, "Slack alone is not the free fall.");
  auto tied = length();
  tied.mistakes[0].number = 4;
  tied.mistakes[1].number = 4.125;
  EXPECT_EQ(outcome(tied, "4.0625 ft"), "named-mistake 0 slack-only")
      << "of equally near ones the first";
}

TEST(MarkNumber, NamesMistakesThatAnyItemMayMeet) {
  EXPECT_EQ(outcome(length(), "-12.5 ft"), "general-mistake 0 sign");
  EXPECT_EQ(outcome(length(), "150"), "general-mistake 0 unit-in");
  EXPECT_EQ(outcome(length(), "150 ft"), "general-mistake 0 unit-in");
  EXPECT_EQ(outcome(length(), "3.81"), "general-mistake 0 unit-m");
  EXPECT_EQ(outcome(length(), "150 m"), "wrong 0");
  const auto force = in("N", engine::dimension::force, 980.665, 5);
  EXPECT_EQ(outcome(force, "100"), "general-mistake 0 unit-kg");
  EXPECT_EQ(outcome(force, "100 N"), "general-mistake 0 unit-kg");
  EXPECT_EQ(outcome(force, "0.98"), "general-mistake 0 unit-kN");
  EXPECT_EQ(outcome(in("deg", engine::dimension::angle, 26.565, 0.1), "0.4636"),
            "general-mistake 0 unit-rad");
  EXPECT_EQ(outcome(in("pitch", engine::dimension::angle, 6, 0.1), "26.6"),
            "general-mistake 0 unit-deg");
  EXPECT_EQ(mark(length(), "150", {}, {}).says,
            "150\u00a0in would be right: the number is in another unit than the one asked for.");
  EXPECT_EQ(outcome(length(), "99 ft"), "wrong 0");
}

TEST(MarkNumber, EarnsByTheCreditGiven) {
  Credit credit;
  credit.right_in_other_unit = 75;
  credit.right_without_unit = 50;
  credit.right_with_wrong_unit = 0;
  credit.mistake = 25;
  EXPECT_EQ(outcome(length(), "12.5 ft", credit), "right 2");
  EXPECT_EQ(outcome(length(), "3.81 m", credit), "right-in-other-unit 1.5");
  EXPECT_EQ(outcome(length(), "12.5", credit), "right-without-unit 1");
  EXPECT_EQ(outcome(length(), "12.5 m", credit), "right-with-wrong-unit 0");
  EXPECT_EQ(outcome(length(), "4 ft", credit), "named-mistake 0.5 slack-only");
  EXPECT_EQ(outcome(length(), "150", credit), "general-mistake 0.5 unit-in");
  EXPECT_EQ(outcome(length(), "99", credit), "wrong 0");
}

TEST(MarkNumber, EmptyAndUnreadableAreNotWrong) {
  EXPECT_EQ(outcome(length(), ""), "empty 0");
  EXPECT_EQ(outcome(length(), " - "), "empty 0");
  EXPECT_EQ(outcome(length(), "twelve"), "unreadable 0");
  EXPECT_EQ(mark(length(), "twelve", {}, {}).reason, "there is no number in it");
  EXPECT_EQ(mark(length(), "3.81 m", {}, {}).read, "3.81\u00a0m");
  EXPECT_LE(mark(length(), std::string(1000, 'x'), {}, {}).typed.size(), 200U);
}

quiz::Question choice(quiz::Kind kind, std::vector<bool> right) {
  quiz::Question made;
  made.number = 2;
  made.kind = kind;
  made.points = 1;
  for (std::size_t i = 0; i < right.size(); ++i) {
    quiz::Option option;
    option.letter = std::string(1, static_cast<char>('A' + i));
    option.id = "id-" + option.letter;
    option.text = "text " + option.letter;
    option.right = right[i];
    option.says = "says " + option.letter;
    made.options.push_back(option);
  }
  return made;
}

TEST(MarkChoice, OfOne) {
  const auto one = choice(quiz::Kind::one_of, {false, true, false});
  EXPECT_EQ(outcome(one, "b"), "right 1");
  EXPECT_EQ(outcome(one, "C"), "named-mistake 0 id-C");
  EXPECT_EQ(outcome(one, "A, B"), "unreadable 0");
  EXPECT_EQ(mark(one, "C", {}, {}).says, "says C");
  EXPECT_EQ(mark(one, "b", {}, {}).chosen, std::vector<std::string>{"id-B"});
  EXPECT_EQ(mark(one, "b", {}, {}).right, "B");
}

TEST(MarkChoice, OfSeveral) {
  const auto several = choice(quiz::Kind::several_of, {true, true, true, false, false});
  EXPECT_EQ(outcome(several, "A B C"), "right 1");
  EXPECT_EQ(outcome(several, "A B"), "partly-right 0.67");
  EXPECT_EQ(outcome(several, "A"), "partly-right 0.33");
  EXPECT_EQ(outcome(several, "A B C D"), "partly-right 0.67 id-D");
  EXPECT_EQ(outcome(several, "A B D"), "partly-right 0.33 id-D");
  EXPECT_EQ(outcome(several, "A D"), "named-mistake 0 id-D");
  EXPECT_EQ(outcome(several, "E D"), "named-mistake 0 id-E");
  EXPECT_EQ(outcome(several, "none"), "wrong 0");
  EXPECT_EQ(mark(several, "E D", {}, {}).says, "says E\n\nsays D");
  EXPECT_EQ(mark(several, "CA", {}, {}).read, "C, A");
}

TEST(MarkChoice, OfAnOrder) {
  auto order = choice(quiz::Kind::order, {false, false, false, false});
  const int places[] = {2, 1, 4, 3};
  for (std::size_t i = 0; i < 4; ++i) order.options[i].place = places[i];
  EXPECT_EQ(outcome(order, "B A D C"), "right 1");
  EXPECT_EQ(outcome(order, "A B D C"), "partly-right 0.67");  // 5 of 6 pairs, 1 against
  EXPECT_EQ(outcome(order, "A B C D"), "partly-right 0.33");
  EXPECT_EQ(outcome(order, "C D A B"), "wrong 0");
  EXPECT_EQ(mark(order, "badc", {}, {}).read, "B A D C");
  EXPECT_EQ(mark(order, "badc", {}, {}).right, "B A D C");
}

TEST(MarkChoice, AWrongOptionWithoutWordsHasThoseOfItsMistake) {
  auto one = choice(quiz::Kind::one_of, {false, true, false});
  one.options[0].says.clear();
  one.mistakes = {{"other", std::nullopt, "C", "C", "Other."},
                  {"flat", std::nullopt, "A", "A", "Says of the mistake."}};
  EXPECT_EQ(mark(one, "A", {}, {}).says, "Says of the mistake.");
  one.mistakes.pop_back();
  EXPECT_EQ(mark(one, "A", {}, {}).says, "");
  // Of several, words of one are not parted from nothing.
  auto several = choice(quiz::Kind::several_of, {true, false, false});
  several.options[1].says.clear();
  EXPECT_EQ(mark(several, "B C", {}, {}).says, "says C");
}

TEST(MarkChoice, SaysNoneInTheStylesLanguage) {
  const auto several = choice(quiz::Kind::several_of, {true, true, false});
  EXPECT_EQ(mark(several, "none", {}, {}).read, "none");
  EXPECT_EQ(mark(several, "none", {}, {engine::Language::spanish, '.'}).read, "ninguna");
  EXPECT_EQ(mark(several, "none", {}, {}).right, "A, B");
}

TEST(MarkNumber, AMassIsTheWeightInEverydaySpeechAndFeetAreFeetAndInches) {
  const auto pounds = in("lbf", engine::dimension::force, 200, 1);
  EXPECT_EQ(outcome(pounds, "200 lb"), "right 2");
  EXPECT_EQ(outcome(pounds, "200 lbf"), "right 2");
  EXPECT_EQ(outcome(pounds, "890 N"), "right-in-other-unit 2");
  const auto feet = in("ft-in", engine::dimension::length, 12.5, 0.1);
  EXPECT_EQ(outcome(feet, "12.5 ft"), "right 2");
  EXPECT_EQ(outcome(feet, "12 ft 6 in"), "right 2");
  EXPECT_EQ(outcome(feet, "12.5"), "right-without-unit 2");
  EXPECT_EQ(outcome(feet, "3.81 m"), "right-in-other-unit 2");
  EXPECT_EQ(outcome(pounds, "200 ft"), "right-with-wrong-unit 1");
}

TEST(MarkNumber, SaysWhatIsWrongWithAUnit) {
  const notation::Style spanish{engine::Language::spanish, '.'};
  EXPECT_EQ(mark(length(), "12.5 m", {}, {}).says,
            "The number is right, but 12.5\u00a0m is not 12.5 ft.");
  EXPECT_EQ(mark(length(), "12.5 m", {}, spanish).says,
            "El número es correcto, pero 12.5\u00a0m no es 12.5 ft.");
  EXPECT_EQ(mark(length(), "13 lb", {}, {}).says, "13\u00a0lb does not measure what is asked for.");
  EXPECT_EQ(mark(length(), "13 lb", {}, spanish).says, "13\u00a0lb no mide lo que se pide.");
  EXPECT_FALSE(mark(length(), "13 lb", {}, {}).value);
  EXPECT_EQ(mark(length(), "13 ft", {}, {}).value, 13);
  EXPECT_EQ(mark(length(), "-12.5", {}, {}).says, "The number is right, its sign is not.");
  EXPECT_EQ(mark(length(), "-12.5", {}, spanish).says, "El número es correcto, su signo no.");
  EXPECT_EQ(mark(length(), "99", {}, {}).says, "");
}

TEST(MarkNumber, AMistakeInWordsIsNobodysNumber) {
  auto question = length();
  question.mistakes = {{"in-words", std::nullopt, "x", {}, "In words."},
                       {"slack-only", 4.0, "4.0 ft", {}, "Slack."}};
  EXPECT_EQ(outcome(question, "4"), "named-mistake 0 slack-only");
  EXPECT_EQ(outcome(question, "0"), "wrong 0");
}

TEST(Mark, TellsOfWhichQuestionItIs) {
  auto question = length();
  question.number = 7;
  question.topic = "falls";
  question.topic_title = "Falls";
  question.level = 3;
  question.title = "Free fall";
  const QuestionResult result = mark(question, " 12.5 ft ", {}, {});
  EXPECT_EQ(result.number, 7);
  EXPECT_EQ(result.item, "free-fall");
  EXPECT_EQ(result.topic, "falls");
  EXPECT_EQ(result.topic_title, "Falls");
  EXPECT_EQ(result.level, 3);
  EXPECT_EQ(result.kind, quiz::Kind::number);
  EXPECT_EQ(result.title, "Free fall");
  EXPECT_EQ(result.typed, " 12.5 ft ");
  EXPECT_EQ(result.right, "12.5 ft");
  EXPECT_EQ(result.possible, Points::whole(2));
  EXPECT_EQ(mark(choice(quiz::Kind::one_of, {true, false}), "?!", {}, {}).reason,
            "expected letters from A to B");
}

// A sheet in Spanish in a class in English: the report has the class's words, the feedback the
// sheet's.
TEST(MarkClass, HasTheWordsOfTheClass) {
  quiz::Question number = length();
  number.title = "Caída libre";
  number.topic_title = "Caídas";
  number.answer->text = "12.5 pies";
  number.mistakes[0].says = "La holgura sola no es.";
  number.class_words =
      quiz::ClassWords{"Free fall", "Falls", "12.5 ft", {{"slack-only", "Slack alone is not it."}}};
  quiz::Question letters = choice(quiz::Kind::one_of, {false, true, false});
  letters.title = "Equipo";
  letters.class_words = quiz::ClassWords{"Gear", "Gear and care", "", {{"id-A", "Class says A"}}};
  quiz::Sheet sheet;
  sheet.seat = "A";
  sheet.name = "Name A";
  sheet.questions = {number, letters};
  Quiz quiz;
  quiz.header.code = "7K3QX";
  quiz.header.title = "Weekly quiz";
  quiz.header.course = "Rooftop work";
  quiz.header.date = "2026-01-05";
  quiz.header.blueprint = "weekly";
  quiz.header.bank_digest = "digest";
  quiz.header.rules = "us-construction";
  quiz.header.system = notation::System::si;
  quiz.header.style.decimal_mark = ',';
  quiz.sheets = {sheet};
  const Response response{"A", "", {"4 ft", "A"}};
  const Results results = mark_class(quiz, {response}, {}, "footroom test");
  EXPECT_EQ(results.quiz, "7K3QX");
  EXPECT_EQ(results.title, "Weekly quiz");
  EXPECT_EQ(results.course, "Rooftop work");
  EXPECT_EQ(results.date, "2026-01-05");
  EXPECT_EQ(results.blueprint, "weekly");
  EXPECT_EQ(results.bank, "digest");
  EXPECT_EQ(results.program, "footroom test");
  EXPECT_EQ(results.rules, "us-construction");
  EXPECT_EQ(results.system, notation::System::si);
  EXPECT_EQ(results.style.decimal_mark, ',');
  ASSERT_EQ(results.seats.size(), 1u);
  const auto& of_class = results.seats[0].questions;
  EXPECT_EQ(of_class[0].title, "Free fall");
  EXPECT_EQ(of_class[0].topic_title, "Falls");
  EXPECT_EQ(of_class[0].right, "12.5 ft");
  EXPECT_EQ(of_class[0].says, "Slack alone is not it.");
  EXPECT_EQ(of_class[1].title, "Gear");
  EXPECT_EQ(of_class[1].topic_title, "Gear and care");
  EXPECT_EQ(of_class[1].says, "Class says A");
  const SeatResult own = mark_sheet(sheet, response, {}, {engine::Language::spanish, '.'});
  EXPECT_EQ(own.questions[0].title, "Caída libre");
  EXPECT_EQ(own.questions[0].right, "12.5 pies");
  EXPECT_EQ(own.questions[0].says, "La holgura sola no es.");
  EXPECT_EQ(own.questions[1].says, "says A");
  EXPECT_EQ(own.name, "Name A");
  EXPECT_EQ(mark_sheet(sheet, {"A", "Of the form", {"", ""}}, {}, {}).name, "Of the form");
  // Options without other words keep their own.
  const Results other = mark_class(quiz, {{"A", "", {"", "C"}}}, {}, "test");
  EXPECT_EQ(other.seats[0].questions[1].says, "says C");
}

TEST(MarkClass, LeavesSeatsWithoutAnswersOut) {
  Quiz quiz;
  quiz.header.code = "7K3QX";
  for (const char* seat : {"A", "B", "C"}) {
    quiz::Sheet sheet;
    sheet.seat = seat;
    sheet.name = std::string("Name ") + seat;
    sheet.code = std::string("7K3QX-") + seat;
    sheet.questions = {length(), choice(quiz::Kind::one_of, {true, false})};
    quiz.sheets.push_back(sheet);
  }
  const auto results =
      mark_class(quiz, {{"C", "", {"12.5 ft", "B"}}, {"A", "", {"", " - "}}}, {}, "test");
  ASSERT_EQ(results.seats.size(), 1U);
  EXPECT_EQ(results.seats[0].name, "Name C");
  EXPECT_EQ(results.seats[0].points, Points::whole(2));
  EXPECT_EQ(results.seats[0].possible, Points::whole(3));
  EXPECT_EQ(results.absent, (std::vector<std::string>{"A", "B"}));
}

}  // namespace
}  // namespace footroom::grade
