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
