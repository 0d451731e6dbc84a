#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "bank/read.hpp"

namespace footroom::bank {
namespace {

using Texts = std::vector<std::string>;

/// A bank folder with topics "roof" and "swing", where one blueprint and one course are tried.
class Plans : public testing::Test {
 protected:
  Plans() {
    const auto* test = testing::UnitTest::GetInstance()->current_test_info();
    root_ = std::filesystem::path(testing::TempDir()) / (std::string("footroom-") + test->name());
    std::filesystem::remove_all(root_);
    put("topics.xml", R"(<topics xmlns="urn:footroom:bank">
<topic id="roof"><en>The roof</en><es>El techo</es></topic>
<topic id="swing"><en>Swing</en><es>Péndulo</es></topic></topics>)");
  }
  ~Plans() override { std::filesystem::remove_all(root_); }

  void put(const std::string& name, const std::string& text) {
    const auto file = root_ / "bank" / name;
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << text;
  }

  Texts defects() const {
    Texts all;
    for (const Defect& defect : read_bank(root_ / "bank").defects) all.push_back(defect.text());
    return all;
  }

  Bank bank() const { return read_bank(root_ / "bank").bank; }

  /// What is wrong with a blueprint: `attributes` in line 1, `parts` from line 3 on.
  Texts blueprint(const std::string& attributes, const std::string& parts) {
    put("blueprints/b.xml", "<blueprint xmlns=\"urn:footroom:bank\" id=\"b\" " + attributes +
                                ">\n<title><en>a</en><es>b</es></title>"
                                "<course><en>a</en><es>b</es></course>\n" +
                                parts + "</blueprint>");
    return defects();
  }

  /// The same of a course.
  Texts course(const std::string& attributes, const std::string& parts) {
    put("courses/c.xml", "<course xmlns=\"urn:footroom:bank\" id=\"c\" " + attributes +
                             ">\n<title><en>a</en><es>b</es></title>\n" + parts + "</course>");
    return defects();
  }

 private:
  std::filesystem::path root_;
};

TEST_F(Plans, BlueprintWithSharesLevelsPointsAndTime) {
  EXPECT_EQ(blueprint(R"(minutes="60" minutes-over="10" questions="20" points="50")",
                      R"(<level number="1" share="1"/>
<level number="3" share="2"/>
<section topic="roof" share="3" levels="1 3"/>
<section topic="swing" share="0" points="2"/>
)"),
            Texts{});
  const Blueprint read = bank().blueprints.at("b");
  EXPECT_EQ(read.questions, 20);
  EXPECT_EQ(read.points, 50);
  EXPECT_EQ(read.minutes_over, 10);
  ASSERT_EQ(read.levels.size(), 2u);
  EXPECT_EQ(read.levels[1].level, 3);
  EXPECT_EQ(read.levels[1].share, 2);
  EXPECT_EQ(read.levels[1].at.line, 4);
  ASSERT_EQ(read.sections.size(), 2u);
  EXPECT_EQ(read.sections[0].share, 3);
  EXPECT_EQ(read.sections[0].levels, (std::vector<int>{1, 3}));
  EXPECT_EQ(read.sections[1].share, 0);
  EXPECT_EQ(read.sections[1].points, 2);
}

TEST_F(Plans, SharesThatSumToNothingOrStandWithoutATotal) {
  EXPECT_EQ(
      blueprint(R"(minutes="60" questions="20")", "<section topic=\"roof\" share=\"0\"/>\n"),
      Texts{"bank/blueprints/b.xml:3: the shares of all sections sum to 0, expected one above "
            "0"});
  EXPECT_EQ(blueprint(R"(minutes="60")", "<section topic=\"roof\" share=\"1\"/>\n"),
            (Texts{"bank/blueprints/b.xml:3: unknown attribute \"share\" in <section>, expected "
                   "\"topic\", \"questions\", \"levels\" or \"points\"",
                   "bank/blueprints/b.xml:3: <section> lacks the attribute \"questions\""}));
  EXPECT_EQ(
      blueprint(R"(minutes="60" topic-at-most="3")", "<section topic=\"roof\" questions=\"1\"/>\n"),
      Texts{"bank/blueprints/b.xml:1: \"topic-at-most\" bounds shares of a total, expected "
            "\"questions\" beside it"});
  EXPECT_EQ(blueprint(R"(minutes="60" questions="4")",
                      "<level number=\"2\" share=\"0\"/>\n<section topic=\"roof\" share=\"1\"/>\n"),
            Texts{"bank/blueprints/b.xml:3: the shares of all levels sum to 0, expected one above "
                  "0"});
}

TEST_F(Plans, LevelsThatContradict) {
  const std::string section = "<section topic=\"roof\" questions=\"4\"/>\n";
  EXPECT_EQ(blueprint(R"(minutes="60")",
                      "<level number=\"1\" at-least=\"3\"/><level number=\"2\" at-least=\"2\"/>\n" +
                          section),
            Texts{"bank/blueprints/b.xml:3: the levels ask for at least 5 questions, but the quiz "
                  "has 4"});
  EXPECT_EQ(blueprint(R"(minutes="60")",
                      "<level number=\"1\" at-least=\"3\" at-most=\"2\"/>\n" + section),
            Texts{"bank/blueprints/b.xml:3: at-least=\"3\" is above at-most=\"2\""});
  EXPECT_EQ(blueprint(R"(minutes="60")", "<level number=\"1\"/>\n" + section),
            Texts{"bank/blueprints/b.xml:3: <level> has either a \"share\", or \"at-least\", "
                  "\"at-most\" or both"});
  EXPECT_EQ(blueprint(R"(minutes="60")",
                      "<level number=\"1\" share=\"1\"/>\n<level number=\"2\" at-most=\"1\"/>\n" +
                          section),
            Texts{"bank/blueprints/b.xml:4: one <level> has a \"share\" and another has none, "
                  "expected all or none"});
  EXPECT_EQ(blueprint(R"(minutes="60")",
                      "<level number=\"1\" at-most=\"1\"/>\n<level number=\"1\" at-most=\"2\"/>\n" +
                          section),
            Texts{"bank/blueprints/b.xml:4: level 1 stands twice, expected each level once"});
}

TEST_F(Plans, PointsAndNumbersOutOfRange) {
  const std::string section = "<section topic=\"roof\" questions=\"4\" levels=\"1,2\"/>\n";
  EXPECT_EQ(blueprint(R"(minutes="60" points="3")", section),
            (Texts{"bank/blueprints/b.xml:3: levels=\"1,2\", expected levels from 1 to 4 with a "
                   "space between: \"1 2\"",
                   "bank/blueprints/b.xml:1: points=\"3\" cannot give each of 4 questions a point, "
                   "expected at least 4"}));
  EXPECT_EQ(
      blueprint(R"(minutes="60" minutes-over="-1")", "<section topic=\"roof\" questions=\"4\"/>\n"),
      Texts{"bank/blueprints/b.xml:1: minutes-over=\"-1\", expected a whole number from 0 to "
            "100"});
}

TEST_F(Plans, CourseWithItsWeeks) {
  put("blueprints/b.xml", R"(<blueprint xmlns="urn:footroom:bank" id="b" minutes="10">
<title><en>a</en><es>b</es></title><course><en>a</en><es>b</es></course>
<section topic="roof" questions="1"/></blueprint>)");
  EXPECT_EQ(course(R"(questions="8" minutes="40" spacing="1 3 9" new-percent="50")",
                   R"(<level number="4" at-most="2"/>
<week number="1" questions="4" minutes="20"><new topic="roof"/></week>
<week number="3"><new topic="swing"/><section topic="roof" questions="2"/></week>
<week number="4" blueprint="b"/>
)"),
            Texts{});
  const Course read = bank().courses.at("c");
  EXPECT_EQ(read.spacing, (std::vector<int>{1, 3, 9}));
  EXPECT_EQ(read.new_percent, 50);
  EXPECT_EQ(read.levels.at(0).at_most, 2);
  ASSERT_EQ(read.weeks.size(), 3u);
  EXPECT_EQ(read.weeks[0].questions, 4);
  EXPECT_EQ(read.weeks[1].number, 3);
  EXPECT_EQ(read.weeks[1].topics.at(0).topic, "swing");
  EXPECT_EQ(read.weeks[1].sections.at(0).questions, 2);
  EXPECT_EQ(read.weeks[2].blueprint, "b");
}

TEST_F(Plans, CourseThatContradictsItself) {
  const std::string attributes = R"(questions="8" minutes="40")";
  EXPECT_EQ(course(attributes + " spacing=\"1 2 2\"", "<week number=\"1\"/>\n"),
            Texts{"bank/courses/c.xml:1: spacing=\"1 2 2\", expected numbers of weeks that grow, "
                  "with a space between: \"1 2 4 8\""});
  EXPECT_EQ(course(attributes, "<week number=\"2\"/>\n<week number=\"2\"/>\n"),
            Texts{"bank/courses/c.xml:4: week 2 stands behind week 2, expected the weeks in "
                  "ascending order"});
  EXPECT_EQ(course(attributes,
                   "<week number=\"1\"><new topic=\"roof\"/></week>\n"
                   "<week number=\"2\"><new topic=\"roof\"/></week>\n"),
            Texts{"bank/courses/c.xml:4: the topic \"roof\" is new in two weeks, expected it in "
                  "one"});
  EXPECT_EQ(course(attributes, "<week number=\"1\" blueprint=\"b\" minutes=\"9\"/>\n"),
            Texts{"bank/courses/c.xml:3: a week with a blueprint takes all from it, expected no "
                  "<section>, \"questions\" or \"minutes\" beside it"});
  EXPECT_EQ(course(attributes,
                   "<week number=\"1\" blueprint=\"b\"/>\n"
                   "<week number=\"2\"><new topic=\"rof\"/></week>\n"),
            (Texts{"bank/courses/c.xml:3: unknown blueprint \"b\", expected a file in blueprints/",
                   "bank/courses/c.xml:4: unknown topic \"rof\", expected one of topics.xml"}));
}

}  // namespace
}  // namespace footroom::bank
