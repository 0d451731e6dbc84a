#include "quiz/course_plan.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <numeric>
#include <set>

#include "quiz/blueprint.hpp"
#include "quiz/families.hpp"
#include "quiz/fixture.hpp"

namespace footroom::quiz {
namespace {

using namespace tests;
using Names = std::vector<std::string>;

/// Topics "a" to "f" with twelve bare items each, three of every level.
bank::Bank bank_of_topics() {
  bank::Bank bank = small_bank();
  bank.topics.clear();
  for (const char* id : {"a", "b", "c", "d", "e", "f"}) {
    bank.topics.push_back({id, {std::string("Topic ") + id, std::string("Tema ") + id, {}}});
    for (int i = 0; i < 12; ++i) {
      bank::Item item;
      item.id = std::string(id) + "-" + std::to_string(i);
      item.topic = id;
      item.level = 1 + i % 4;
      bank.items.push_back(std::move(item));
    }
  }
  return bank;
}

bank::Week week(int number, const Names& topics = {}) {
  bank::Week made;
  made.number = number;
  made.at = {"course.xml", number + 10};
  for (const auto& topic : topics) made.topics.push_back({topic, made.at});
  return made;
}

bank::Week week_with(int number, const std::string& blueprint) {
  bank::Week made = week(number);
  made.blueprint = blueprint;
  return made;
}

bank::Course course_of(std::vector<bank::Week> weeks) {
  bank::Course course;
  course.id = "course";
  course.title = {"Course", "Curso", {}};
  course.questions = 10;
  course.minutes = 60;
  course.spacing = {1, 2, 4, 8};
  course.weeks = std::move(weeks);
  course.at = {"course.xml", 2};
  return course;
}

void add_blueprint(bank::Bank& bank, const std::string& id, const Names& topics) {
  bank::Blueprint blueprint;
  blueprint.id = id;
  blueprint.title = {"Test", "Prueba", {}};
  blueprint.minutes = 60;
  blueprint.at = {id + ".xml", 1};
  for (const auto& topic : topics) blueprint.sections.push_back({topic, 2, {}, {id + ".xml", 3}});
  bank.blueprints[id] = blueprint;
}

std::string refusal_of(const bank::Bank& bank, const bank::Course& course) {
  try {
    plan_course(bank, course);
  } catch (const CannotMake& refusal) {
    return refusal.what();
  }
  return "none";
}

TEST(CoursePlan, BringsEachTopicBackAtIntervalsThatGrow) {
  std::vector<bank::Week> weeks;
  for (int number = 1; number <= 40; ++number)
    weeks.push_back(week(number, {"topic-" + std::to_string(number)}));
  bank::Course course = course_of(weeks);
  course.questions = 50;
  std::map<std::string, std::vector<int>> returns;
  for (const PlannedWeek& one : plan_course(small_bank(), course))
    for (const std::string& topic : one.returning) returns[topic].push_back(one.number);
  // After 1, 2, 4 and 8 weeks, then doubled to 16; the last week asks all.
  EXPECT_EQ(returns["topic-1"], (std::vector<int>{2, 4, 8, 16, 32, 40}));
  EXPECT_EQ(returns["topic-5"], (std::vector<int>{6, 8, 12, 20, 36, 40}));
  EXPECT_EQ(returns["topic-39"], std::vector<int>{40});
}

TEST(CoursePlan, LetsATopicThatIsDueWhereNoQuizIsReturnInTheNext) {
  const auto planned = plan_course(
      bank_of_topics(),
      course_of({week(1, {"a"}), week(3, {"b"}), week(4, {"c"}), week(5, {"d"}), week(6, {"e"})}));
  EXPECT_EQ(planned[1].returning, Names{"a"});  // due in week 2
  EXPECT_EQ(planned[2].returning, Names{"b"});
  EXPECT_EQ(planned[3].returning, (Names{"a", "c"}));  // two weeks after week 3
}

TEST(CoursePlan, DividesAWeekBetweenNewAndReturningTopics) {
  const bank::Bank bank = bank_of_topics();
  const auto planned =
      plan_course(bank, course_of({week(1, {"a"}), week(2, {"b", "c"}), week(3, {"d"}), week(4)}));
  EXPECT_EQ(planned[0].new_topics, Names{"a"});
  EXPECT_EQ(planned[0].returning, Names{});
  EXPECT_EQ(questions_by_section(planned[0].blueprint), std::vector<int>{10});
  EXPECT_EQ(planned[1].returning, Names{"a"});
  EXPECT_EQ(questions_by_section(planned[1].blueprint), (std::vector<int>{3, 3, 4}));
  EXPECT_EQ(planned[2].returning, (Names{"b", "c"}));
  EXPECT_EQ(questions_by_section(planned[2].blueprint), (std::vector<int>{6, 2, 2}));
  EXPECT_EQ(planned[3].returning, (Names{"a", "b", "c", "d"}));
  EXPECT_EQ(questions_by_section(planned[3].blueprint), (std::vector<int>{3, 3, 2, 2}));
  EXPECT_EQ(planned[1].blueprint.id, "course-week-2");
  EXPECT_EQ(planned[1].blueprint.minutes, 60);
  EXPECT_EQ(planned[1].blueprint.title.english, "Week 2: Topic b; Topic c");
  EXPECT_EQ(planned[1].blueprint.title.spanish, "Semana 2: Tema b; Tema c");
  EXPECT_EQ(planned[3].blueprint.title.spanish, "Semana 4: Repaso");
  EXPECT_EQ(planned[3].blueprint.course.spanish, "Curso");
}

TEST(CoursePlan, GivesEachTopicAQuestionEvenWhereNewOnesTakeAll) {
  bank::Course course = course_of({week(1, {"a"}), week(2, {"b"}), week(3)});
  course.new_percent = 100;
  const auto planned = plan_course(bank_of_topics(), course);
  EXPECT_EQ(questions_by_section(planned[1].blueprint), (std::vector<int>{9, 1}));
}

TEST(CoursePlan, CountsAWeeksOwnBlueprintOrSectionsAsAsked) {
  bank::Bank bank = bank_of_topics();
  add_blueprint(bank, "both", {"a", "b"});
  bank::Week own = week(3);
  own.sections = {{"b", 5, {}, {"course.xml", 30}}};
  const auto planned = plan_course(bank, course_of({week(1, {"a", "b"}), week_with(2, "both"), own,
                                                    week(4), week_with(5, "both")}));
  EXPECT_EQ(planned[1].returning, (Names{"a", "b"}));
  EXPECT_EQ(planned[1].blueprint.title.english, "Week 2: Test");
  EXPECT_EQ(planned[2].returning, Names{"b"});
  EXPECT_EQ(planned[3].returning, Names{"a"});  // two weeks after week 2
  EXPECT_EQ(planned[4].blueprint.id, "both");
}

TEST(CoursePlan, RefusesWhatCannotBe) {
  bank::Bank bank = bank_of_topics();
  add_blueprint(bank, "test", {"a", "b"});
  EXPECT_EQ(refusal_of(bank, course_of({week(1, {"a"}), week_with(2, "test"), week(3, {"b"})})),
            "course.xml:12: the blueprint \"test\" of week 2 asks the topic \"b\", which is new in "
            "week 3");
  EXPECT_EQ(refusal_of(bank, course_of({week(1, {"a"}), week_with(2, "test")})),
            "course.xml:12: the blueprint \"test\" of week 2 asks the topic \"b\", which no week "
            "teaches");
  bank::Week own = week(1, {"a"});
  own.sections = {{"a", 5, {}, {"course.xml", 30}}, {"c", 5, {}, {"course.xml", 31}}};
  EXPECT_EQ(refusal_of(bank, course_of({own, week(2, {"c"})})),
            "course.xml:31: week 1 asks the topic \"c\", which is new in week 2");
  EXPECT_EQ(refusal_of(bank, course_of({week(1, {"a"}), week(2), week(3), week(4)})),
            "course.xml:13: week 3 has nothing to ask: no topic is new and none is due to return; "
            "name a blueprint or sections");
  bank::Course course = course_of({week(1, {"a", "b", "c"}), week(2)});
  course.questions = 2;
  EXPECT_EQ(refusal_of(bank, course),
            "course.xml:11: week 1 asks 3 topics, but has 2 questions, expected at least one "
            "question a topic");
  EXPECT_EQ(
      refusal_of(bank, course_of({week(1, {"a", "b", "c"}), week_with(2, "test")})),
      "course.xml:12: the last week asks nothing of \"c\", which week 1 teaches, expected all "
      "topics of the course in \"test\"");
  course = course_of({week(1, {"a"}), week(2)});
  course.levels = {{3, std::nullopt, 6, std::nullopt, {"course.xml", 4}}};
  course.weeks[0].questions = 4;
  EXPECT_EQ(refusal_of(bank, course),
            "course.xml:11: the levels of the course ask for at least 6 questions, but this week "
            "has 4");
}

TEST(CoursePlan, TryingRefusesWhatTheBankCannotFill) {
  const bank::Bank bank = bank_of_topics();
  const auto tried = [&](const bank::Course& course) -> std::string {
    try {
      const auto remarks = try_course(bank, plan_course(bank, course), settings_of());
      return remarks.empty() ? "fine" : remarks.front();
    } catch (const CannotMake& refusal) {
      return refusal.what();
    }
  };
  bank::Course course = course_of({week(1, {"a"}), week(2)});
  EXPECT_EQ(
      tried(course).substr(0, tried(course).find(";")),
      "course.xml:12: note: the section \"a\" asks for 10 of 12 questions that fit, and 10 of "
      "them were in the last quiz");
  course.weeks[0].questions = 13;
  EXPECT_EQ(tried(course),
            "course.xml:11: the section \"a\" asks for 13 questions, but the bank has 12 that fit");
  course.weeks[0].questions = 4;
  course.weeks[1].questions = 4;
  EXPECT_EQ(tried(course), "fine");
  course.levels = {{4, std::nullopt, 4, std::nullopt, {"course.xml", 4}}};
  EXPECT_EQ(tried(course),
            "course.xml:4: the level mix asks for 4 questions of level 4, but beside those of the "
            "other levels the sections have room for 3");
  course.levels.clear();
  course.minutes = 10;
  course.minutes_over = 0;
  EXPECT_EQ(tried(course),
            "course.xml:11: the questions take 12 minutes in the shortest of 100 choices, but "
            "minutes=\"10\" and 0 percent over it allow 10");
}

// ---- The bank's own ----------------------------------------------------------------------------

class OwnBank : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    bank_ = bank::read_bank(std::filesystem::path(FOOTROOM_SOURCE_DIR) / "questionbank").bank;
  }
  static Settings settings(std::uint64_t seed) {
    Settings made = settings_of();
    made.seed = seed;
    made.rules = "us-construction";
    return made;
  }
  inline static bank::Bank bank_;
};

TEST_F(OwnBank, BlueprintsCanBeFilledInBothUnitSystemsAndKeepWithinTheirTime) {
  ASSERT_GE(bank_.blueprints.size(), 4u);
  for (const auto& [id, blueprint] : bank_.blueprints)
    for (std::uint64_t seed = 0; seed < 40; ++seed) {
      Settings with = settings(seed);
      with.system = seed % 2 == 0 ? notation::System::us : notation::System::si;
      const auto chosen = choose_families(bank_, blueprint, with, {seed, 0, 0, 0});
      EXPECT_EQ(remarks_on(chosen, bank_, blueprint, with), std::vector<std::string>{}) << id;
    }
}

TEST_F(OwnBank, OneBlueprintMakesAQuizUnderEveryRuleSetInBothUnitSystems) {
  const auto& blueprint = bank_.blueprints.at("any-rules");
  ASSERT_GE(bank_.rules.size(), 4u);
  for (const auto& [rules, set] : bank_.rules)
    for (const auto system : {notation::System::us, notation::System::si}) {
      Settings with = settings(1);
      with.rules = rules;
      with.system = system;
      for (std::uint64_t seed = 0; seed < 40; ++seed) {
        const auto chosen = choose_families(bank_, blueprint, with, {seed, 0, 0, 0});
        EXPECT_EQ(remarks_on(chosen, bank_, blueprint, with), std::vector<std::string>{}) << rules;
      }
      EXPECT_EQ(Maker(bank_, blueprint, with).sheet(0).questions.size(), 12u) << rules;
    }
}

TEST_F(OwnBank, RefresherCanBeRestrictedToEachTopic) {
  const auto& refresher = bank_.blueprints.at("refresher");
  for (const bank::Topic& topic : bank_.topics)
    for (std::uint64_t seed = 0; seed < 20; ++seed) {
      const auto only = restricted_to(refresher, {topic.id});
      const auto chosen = choose_families(bank_, only, settings(seed), {seed, 0, 0, 0});
      EXPECT_EQ(chosen.size(), 5u) << topic.id;
      for (const auto& one : chosen) EXPECT_EQ(one.item->topic, topic.id);
    }
}

TEST_F(OwnBank, CoursesTeachEveryTopicAndNothingOfTheLastQuizReappears) {
  ASSERT_GE(bank_.courses.size(), 1u);
  for (const auto& [id, course] : bank_.courses) {
    const auto weeks = plan_course(bank_, course);
    std::set<std::string> taught;
    for (const auto& one : weeks) taught.insert(one.new_topics.begin(), one.new_topics.end());
    EXPECT_EQ(taught.size(), bank_.topics.size()) << id;
    for (std::uint64_t seed = 0; seed < 15; ++seed) {
      Settings with = settings(seed);
      for (const auto& one : weeks) {
        const auto chosen = choose_families(bank_, one.blueprint, with,
                                            {seed, static_cast<std::uint32_t>(one.number), 0, 0});
        EarlierQuiz quiz;
        for (const auto& family : chosen) {
          quiz.items.insert(family.item->id);
          if (!with.before.empty()) {
            EXPECT_FALSE(with.before.front().items.contains(family.item->id))
                << id << ", week " << one.number << ", seed " << seed;
          }
        }
        with.before.insert(with.before.begin(), std::move(quiz));
      }
    }
  }
}

}  // namespace
}  // namespace footroom::quiz
