#include "quiz/question_check.hpp"

#include <gtest/gtest.h>

#include "quiz/fixture.hpp"

namespace footroom::quiz {
namespace {

using namespace tests;
using Texts = std::vector<std::string>;

const std::string source = "<source citation=\"invented\" status=\"computed\"/>\n";

Question number() {
  return ask(small_bank(), item_xml("number", draw_xml("one", 1, 50) + stem_xml("so long: {one}") +
                                                  answer_xml("one") + mistakes_and_source_xml()));
}

Question in_words(const std::string& kind) {
  const std::string way = kind == "order" ? "rank=\"1\"" : "right=\"true\"";
  const std::string other = kind == "order" ? "rank=\"2\"" : "right=\"false\"";
  const std::string third = kind == "order" ? "rank=\"3\"" : "right=\"false\"";
  return ask(small_bank(), item_xml(kind, stem_xml("s") + "<options>\n" + option_xml("a", way) +
                                              option_xml("b", other) + option_xml("c", third) +
                                              "</options>\n" + source));
}

TEST(QuestionCheck, FindsNothingInSoundQuestions) {
  EXPECT_EQ(faults_of(number()), Texts{});
  for (const char* kind : {"one-of", "several-of", "order", "verdict"})
    EXPECT_EQ(faults_of(in_words(kind)), Texts{}) << kind;
}

TEST(QuestionCheck, WantsExactlyOneRightOption) {
  for (const char* kind : {"one-of", "verdict"}) {
    Question question = in_words(kind);
    for (Option& option : question.options) option.right = true;
    EXPECT_EQ(faults_of(question), Texts{"3 options are right, expected exactly 1"});
    for (Option& option : question.options) option.right = false;
    EXPECT_EQ(faults_of(question), Texts{"0 options are right, expected exactly 1"});
  }
  Question several = in_words("several-of");
  for (Option& option : several.options) option.right = false;
  EXPECT_EQ(faults_of(several), Texts{"no option is right, expected 1 or more"});
}

TEST(QuestionCheck, WantsPlacesFromOneOn) {
  Question question = in_words("order");
  question.options[0].place = question.options[1].place;
  EXPECT_EQ(faults_of(question), Texts{"the places of the order are not 1, 2, 3 ..."});
  question = in_words("order");
  for (Option& option : question.options) option.place *= 2;
  EXPECT_EQ(faults_of(question), Texts{"the places of the order are not 1, 2, 3 ..."});
  question = in_words("order");
  for (Option& option : question.options)
    if (option.place == 3) option.place = 4;
  EXPECT_EQ(faults_of(question), Texts{"the places of the order are not 1, 2, 3 ..."});
}

TEST(QuestionCheck, RefusesOptionsThatReadTheSame) {
  Question question = in_words("one-of");
  question.options[2].text = question.options[1].text;
  EXPECT_EQ(faults_of(question), Texts{"the options \"" + question.options[1].id + "\" and \"" +
                                       question.options[2].id + "\" read the same"});
}

TEST(QuestionCheck, MeasuresMistakesAgainstTheTolerance) {
  Question question = number();
  question.answer->number = 10;
  question.answer->text = "10 ft";
  question.answer->tolerance = 0.5;
  question.mistakes[0].number = 10.5;
  question.mistakes[0].text = "10.5 ft";
  EXPECT_EQ(faults_of(question), Texts{"the mistake \"far\" (10.5 ft) lies within the tolerance of "
                                       "the answer (10 ft)"});
  question.mistakes[0].number = 10.51;
  EXPECT_EQ(faults_of(question), Texts{});
  question.mistakes[1].number = 11;
  question.mistakes[1].text = "11 ft";
  EXPECT_EQ(faults_of(question), Texts{"the mistakes \"far\" (10.5 ft) and \"farther\" (11 ft) lie "
                                       "within the tolerance of each other"});
}

TEST(QuestionCheck, RefusesMissingTextsBracesAndSources) {
  Question question = number();
  question.title.clear();
  question.stem = "How long is {x}?";
  question.mistakes[2].says.clear();
  question.sources = {{" ", "", "read"}};
  EXPECT_EQ(faults_of(question),
            (Texts{"the title is empty", "the stem has a brace left: \"How long is {x}?\"",
                   "the comment on the mistake \"farthest\" is empty",
                   "no source is named, expected a <source>, a <calculation> or a <limit>"}));
}

TEST(AskTheSame, ComparesAnswersMistakesAndOptions) {
  EXPECT_TRUE(ask_the_same(number(), number()));
  Question other = number();
  other.answer->number += 1;
  EXPECT_FALSE(ask_the_same(number(), other));
  other = number();
  other.mistakes.pop_back();
  EXPECT_FALSE(ask_the_same(number(), other));
  other = number();
  other.answer.reset();
  EXPECT_FALSE(ask_the_same(number(), other));
  EXPECT_TRUE(ask_the_same(in_words("verdict"), in_words("verdict")));
  other = in_words("verdict");
  std::swap(other.options[0], other.options[1]);
  EXPECT_FALSE(ask_the_same(in_words("verdict"), other));
  other = in_words("verdict");
  other.options[0].right = !other.options[0].right;
  EXPECT_FALSE(ask_the_same(in_words("verdict"), other));
}

}  // namespace
}  // namespace footroom::quiz
