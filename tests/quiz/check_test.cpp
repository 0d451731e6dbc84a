#include "quiz/check.hpp"

#include <gtest/gtest.h>

#include "quiz/fixture.hpp"
#include "quiz/item_demands.hpp"

namespace footroom::quiz {
namespace {

using namespace tests;

std::vector<std::string> defects_of(const std::string& xml, int draws = 50) {
  const bank::Bank bank = small_bank();
  const bank::Item item = item_of(xml);
  CheckSettings how;
  how.rules = "test";
  how.seed = 3;
  how.draws = draws;
  std::vector<std::string> texts;
  for (const bank::Defect& defect : check_item(bank, item, how).defects)
    texts.push_back(defect.text());
  return texts;
}

using Texts = std::vector<std::string>;

TEST(CheckItem, FindsNothingInASoundItem) {
  EXPECT_EQ(defects_of(item_xml("number", draw_xml("one", 1, 50) + draw_xml("two", 1, 50, "b") +
                                              stem_xml("so long: {one} {two}") +
                                              answer_xml("one + two") + mistakes_and_source_xml())),
            Texts{});
}

TEST(CheckItem, CountsPossibleQuestionsAndReasons) {
  const bank::Bank bank = small_bank();
  const bank::Item item =
      item_of(item_xml("number", draw_xml("one", 1, 50) + draw_xml("two", 1, 50, "b") +
                                     "<keep if=\"one > 25.5 ft\"/>\n" + stem_xml("s") +
                                     answer_xml("one") + mistakes_and_source_xml()));
  CheckSettings how;
  how.rules = "test";
  how.draws = 500;
  const ItemReport report = check_item(bank, item, how);
  // 50 times 50 pairs; in feet 25 of 50 are kept, in metres (25.5 ft are 7.8 m) 43 of 50.
  EXPECT_NEAR(report.possible, 1250, 150);
  EXPECT_EQ(report.draws, 1000);
  EXPECT_EQ(report.thrown_away.reasons.size(), 1u);
}

TEST(CheckItem, ReportsTooFewQuestions) {
  EXPECT_EQ(defects_of(item_xml("number", draw_xml("one", 1, 50) + stem_xml("s") +
                                              answer_xml("one * 2") + mistakes_and_source_xml())),
            Texts{"item.xml:1: about 50 different questions, expected 1000 or more (US units, "
                  "seed 3, 50 draws)"});
}

TEST(CheckItem, ReportsAnItemThatCannotBeMadeWithDrawAndSeed) {
  const std::string xml =
      item_xml("number", draw_xml("one", 1, 50) + "<keep if=\"one > 99 m\"/>\n" + stem_xml("s") +
                             answer_xml("one") + mistakes_and_source_xml());
  EXPECT_EQ(defects_of(xml),
            Texts{"item.xml:4: none of 1000 draws can be asked; 1000 were thrown away because the "
                  "condition \"one > 99 m\" does not hold (US units, seed 3, draw 0)"});
}

TEST(CheckItem, ReportsOptionsNeverOfferedAndAVerdictThatIsAlwaysTheSame) {
  EXPECT_EQ(
      defects_of(
          item_xml("verdict",
                   draw_xml("one", 1, 300) + stem_xml("so long: {one}") + "<options>\n" +
                       option_xml("yes", "right=\"true\"") + option_xml("no", "right=\"false\"") +
                       option_xml("maybe", "right=\"false\"") +
                       option_xml("far", "right=\"false\" when=\"one > 400 m\"") + "</options>\n" +
                       "<source citation=\"invented\" status=\"computed\"/>\n"),
          1000),
      (Texts{"item.xml:9: the option \"far\" is never offered (US units, seed 3, 1000 draws)",
             "item.xml:1: the verdict is always \"yes\" (US units, seed 3, 1000 draws)"}));
}

TEST(CheckItem, ReportsStepsThatDoNotArrive) {
  const std::string xml = item_xml(
      "number",
      draw_xml("one", 1, 50) + draw_xml("two", 1, 50, "b") +
          R"(<let name="sum" symbol="c" value="one + two"><meaning><en>a</en><es>b</es></meaning>
<us unit="ft" places="0"/><si unit="m" places="0"/></let>
)" + stem_xml("s") +
          answer_xml("sum") + mistakes_and_source_xml());
  EXPECT_EQ(defects_of(xml), Texts{"item.xml:1: no worked step arrives at the answer (US units, "
                                   "seed 3, draw 0)"});
}

TEST(CheckItem, CountsDifferentQuestionsInWords) {
  const auto item = [](const std::string& stem) {
    return item_xml("one-of",
                    draw_xml("one", 1, 50) + stem_xml(stem) + "<options>\n" +
                        option_xml("right", "right=\"true\"") + option_xml("a", "right=\"false\"") +
                        option_xml("b", "right=\"false\"") + option_xml("c", "right=\"false\"") +
                        "</options>\n" + "<source citation=\"invented\" status=\"computed\"/>\n");
  };
  EXPECT_EQ(defects_of(item("so long: {one}"), 100), Texts{});
  EXPECT_EQ(defects_of(item("s"), 100),
            Texts{"item.xml:1: different questions: 1, expected 25 or more (US units, seed 3, 100 "
                  "draws)"});
  EXPECT_EQ(defects_of(item("so long: {one}"), 1000),
            Texts{"item.xml:1: different questions: 50, expected 100 or more (US units, seed 3, "
                  "1000 draws)"});
}

TEST(CheckItem, AsksForATrainingTopicAndThreeWrongAnswers) {
  bank::Item item =
      item_of(item_xml("number", draw_xml("one", 1, 1000) + draw_xml("two", 1, 50) + stem_xml("s") +
                                     answer_xml("one") + mistake_xml("far", "value=\"2002 ft\"")));
  item.training.clear();
  const auto texts = [](const std::vector<bank::Defect>& defects) {
    Texts all;
    for (const bank::Defect& defect : defects) all.push_back(defect.text());
    return all;
  };
  EXPECT_EQ(texts(unmet_demands(item)),
            (Texts{"item.xml:1: no training topic, expected training=\"i\" ... \"viii\", of 29 CFR "
                   "1926.503(a)(2)",
                   "item.xml:1: 1 <mistake>, expected 3 or more"}));
  const std::string three = option_xml("a", "right=\"true\"") + option_xml("b", "right=\"true\"") +
                            option_xml("c", "right=\"1 > 2\"") + option_xml("d", "right=\"false\"");
  EXPECT_EQ(texts(unmet_demands(item_of(
                item_xml("one-of", stem_xml("s") + "<options>\n" + three + "</options>\n")))),
            (Texts{"item.xml:1: 2 <option> that can be wrong, expected 3 or more"}));
}

TEST(CheckItem, NamesTheLineOfAFormulaThatIsTooDeepOrTooLong) {
  const auto defect = [](const std::string& formula) {
    return defects_of(item_xml("number", draw_xml("one", 1, 50) + stem_xml("s") +
                                             answer_xml(formula) + mistakes_and_source_xml()))
        .at(0);
  };
  const std::string deep = defect(std::string(100, '(') + "one" + std::string(100, ')'));
  EXPECT_EQ(deep.find("item.xml:5: \""), 0u) << deep;
  EXPECT_NE(deep.find("nested"), std::string::npos) << deep;
  std::string chain = "one";
  for (int i = 0; i < 65; ++i) chain += " + one";
  const std::string row = defect(chain);
  EXPECT_EQ(row.find("item.xml:5: \""), 0u) << row;
  EXPECT_NE(row.find("64"), std::string::npos) << row;
}

TEST(CheckItem, ReportsAFigureThatCannotBeDrawn) {
  const std::string xml =
      item_xml("number", draw_xml("one", 1, 60) + draw_xml("two", 1, 60, "b") +
                             R"(<calculation of="number-of-no-drawing" name="none"/>
)" + stem_xml("s") + answer_xml("one + two") +
                             mistakes_and_source_xml() + "<figure of=\"none\"/>\n");
  EXPECT_EQ(defects_of(xml).front(),
            "item.xml:1: the calculation \"number-of-no-drawing\" has no drawing, expected no "
            "<figure>");
}

}  // namespace
}  // namespace footroom::quiz
