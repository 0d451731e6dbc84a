// What an instructor reads of a class, worked out by hand from four seats.

#include "grade/class_report.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace footroom::grade {
namespace {

QuestionResult answer(int number, const std::string& item, Outcome outcome, Points points,
                      Points possible) {
  QuestionResult made;
  made.number = number;
  made.item = item;
  made.title = "Title of " + item;
  made.topic_title = "Topic of " + item;
  made.level = item == "gear" ? 1 : 3;
  made.outcome = outcome;
  made.points = points;
  made.possible = possible;
  made.typed = "typed";
  made.read = "read";
  made.right = "right";
  return made;
}

QuestionResult with_mistake(QuestionResult made, const std::string& mistake) {
  made.mistake = mistake;
  made.says = "Says of " + mistake;
  return made;
}

SeatResult seat(const std::string& letter, std::vector<QuestionResult> questions) {
  SeatResult made{letter, "Name " + letter, "7K3QX-" + letter, std::move(questions), {}, {}};
  for (const QuestionResult& question : made.questions) {
    made.points += question.points;
    made.possible += question.possible;
  }
  return made;
}

// Seat   gear (1)      fall (2)             in all
//   A    1 right       2 right              3.0 of 3   100 %
//   B    0 unreadable  0 slack-only         0.0 of 3     0 %
//   C    1 right       0.5 slack-only       1.5 of 3    50 %
//   D    1 right       0.2 both             1.2 of 3    40 %
Results four_seats() {
  const Points one = Points::whole(1);
  const Points two = Points::whole(2);
  QuestionResult unreadable = answer(1, "gear", Outcome::unreadable, {}, one);
  unreadable.typed = "the red one";
  unreadable.reason = "“RED” is no option, expected A to C";
  Results results;
  results.seats = {
      seat("A", {answer(1, "gear", Outcome::right, one, one),
                 answer(2, "fall", Outcome::right, two, two)}),
      seat("B", {unreadable,
                 with_mistake(answer(2, "fall", Outcome::named_mistake, {}, two), "slack-only")}),
      seat("C", {answer(1, "gear", Outcome::right_without_unit, one, one),
                 with_mistake(answer(2, "fall", Outcome::named_mistake, {50}, two), "slack-only")}),
      seat("D", {answer(1, "gear", Outcome::right_in_other_unit, one, one),
                 with_mistake(answer(2, "fall", Outcome::named_mistake, {20}, two), "both")}),
  };
  results.seats[1].questions[1].read = "4 ft";
  results.seats[1].questions[1].right = "9.5 ft";
  return results;
}

ClassReport report_of(const Results& results,
                      engine::Language language = engine::Language::english) {
  return class_report(results, Credit(), language);
}

TEST(ClassReport, HardestItemsComeFirst) {
  const Results results = four_seats();
  const ClassReport report = report_of(results);
  ASSERT_EQ(report.items.size(), 2u);
  const ItemLine& fall = report.items[0];
  EXPECT_EQ(fall.item, "fall");
  EXPECT_EQ(fall.title, "Title of fall");
  EXPECT_EQ(fall.topic_title, "Topic of fall");
  EXPECT_EQ(fall.level, 3);
  EXPECT_EQ(fall.asked, 4);
  EXPECT_EQ(fall.right, 1);
  EXPECT_EQ(fall.points, Points{270});
  EXPECT_EQ(fall.possible, Points{800});
  const ItemLine& gear = report.items[1];
  EXPECT_EQ(gear.item, "gear");
  EXPECT_EQ(gear.asked, 4);
  EXPECT_EQ(gear.right, 3);
  EXPECT_EQ(gear.points, Points{300});
  EXPECT_EQ(gear.possible, Points{400});
}

TEST(ClassReport, ItemsEquallyHardStayInTheOrderOfTheSheets) {
  Results results;
  const Points one = Points::whole(1);
  results.seats = {seat(
      "A", {answer(1, "z", Outcome::wrong, {}, one), answer(2, "a", Outcome::wrong, {}, one)})};
  const ClassReport report = report_of(results);
  EXPECT_EQ(report.items[0].item, "z");
  EXPECT_EQ(report.items[1].item, "a");
}

TEST(ClassReport, MostFrequentMistakesComeFirst) {
  const Results results = four_seats();
  const ClassReport report = report_of(results);
  ASSERT_EQ(report.mistakes.size(), 2u);
  const MistakeLine& slack = report.mistakes[0];
  EXPECT_EQ(slack.item, "fall");
  EXPECT_EQ(slack.title, "Title of fall");
  EXPECT_EQ(slack.mistake, "slack-only");
  EXPECT_EQ(slack.says, "Says of slack-only");
  EXPECT_EQ(slack.made, 2);
  EXPECT_EQ(slack.asked, 4);
  EXPECT_EQ(slack.lost, Points{350});  // 2 and 1.5
  EXPECT_EQ(slack.example_seat, "B");
  EXPECT_EQ(slack.example_read, "4 ft");
  EXPECT_EQ(slack.example_right, "9.5 ft");
  const MistakeLine& both = report.mistakes[1];
  EXPECT_EQ(both.mistake, "both");
  EXPECT_EQ(both.made, 1);
  EXPECT_EQ(both.lost, Points{180});
}

TEST(ClassReport, OfMistakesEquallyFrequentTheDearerComesFirst) {
  const Points one = Points::whole(1);
  Results results;
  results.seats = {seat(
      "A",
      {with_mistake(answer(1, "gear", Outcome::named_mistake, {}, one), "cheap"),
       with_mistake(answer(2, "fall", Outcome::named_mistake, {}, Points::whole(2)), "dear")})};
  // The same word means another mistake in another item, and one without words is told by nobody.
  results.seats.push_back(
      seat("B", {with_mistake(answer(1, "ropes", Outcome::named_mistake, {50}, one), "cheap"),
                 answer(2, "rules", Outcome::named_mistake, {}, one)}));
  results.seats[1].questions[1].mistake = "silent";
  const ClassReport report = report_of(results);
  ASSERT_EQ(report.mistakes.size(), 3u);
  EXPECT_EQ(report.mistakes[0].mistake, "dear");
  EXPECT_EQ(report.mistakes[1].item, "gear");
  EXPECT_EQ(report.mistakes[2].item, "ropes");
  EXPECT_EQ(report.mistakes[2].asked, 1);
}

TEST(ClassReport, AnswersThatSomebodyHasToLookAt) {
  const Results results = four_seats();
  const ClassReport report = report_of(results);
  ASSERT_EQ(report.to_check.size(), 1u);
  EXPECT_EQ(report.to_check[0].seat, "B");
  EXPECT_EQ(report.to_check[0].name, "Name B");
  EXPECT_EQ(report.to_check[0].number, 1);
  EXPECT_EQ(report.to_check[0].title, "Title of gear");
  EXPECT_EQ(report.to_check[0].typed, "the red one");
  EXPECT_EQ(report.to_check[0].reason, "“RED” is no option, expected A to C");
}

// 100, 0, 50 and 40: the mean is 47.5, and between 40 and 50 lies 45. Without B: 63.3 and 50.
TEST(ClassReport, ScoresInPercent) {
  Results results = four_seats();
  const ClassReport even = report_of(results);
  EXPECT_EQ(even.mean, "47.5%");
  EXPECT_EQ(even.median, "45.0%");
  EXPECT_EQ(even.lowest, "0%");
  EXPECT_EQ(even.highest, "100%");
  results.seats.erase(results.seats.begin() + 1);
  const ClassReport odd = report_of(results);
  EXPECT_EQ(odd.mean, "63.3%");
  EXPECT_EQ(odd.median, "50.0%");
  EXPECT_EQ(odd.lowest, "40.0%");
  results.style.decimal_mark = ',';
  EXPECT_EQ(report_of(results).mean, "63,3%");
}

TEST(ClassReport, OfNobodyHasNoScores) {
  const Results nobody;
  const ClassReport report = report_of(nobody);
  EXPECT_TRUE(report.items.empty() && report.mistakes.empty() && report.to_check.empty());
  EXPECT_EQ(report.mean + report.median + report.lowest + report.highest, "");
}

TEST(PercentText, ToATenth) {
  const notation::Style style;
  EXPECT_EQ(percent_text(Points{694}, Points{1000}, style), "69.4%");
  EXPECT_EQ(percent_text(Points{200}, Points{300}, style), "66.7%");
  EXPECT_EQ(percent_text(Points{}, Points{300}, style), "0%");
  EXPECT_EQ(percent_text(Points{300}, Points{300}, style), "100%");
  EXPECT_EQ(percent_text(Points{}, Points{}, style), "0%");
}

// ---- The drawing -------------------------------------------------------------------------------

/// Heights of the ten bars, the highest being 1.
std::vector<double> bars(const figure::Drawing& drawing) {
  for (const figure::Shape& shape : drawing.shapes) {
    const auto* path = std::get_if<figure::Path>(&shape);
    if (!path || path->points.size() != 40) continue;
    const double ground = path->points[0].y;
    double highest = 0;
    std::vector<double> heights;
    for (std::size_t bar = 0; bar < 10; ++bar) {
      heights.push_back(ground - path->points[4 * bar + 1].y);
      EXPECT_DOUBLE_EQ(ground - path->points[4 * bar + 2].y, heights.back());
      EXPECT_DOUBLE_EQ(path->points[4 * bar].y, ground);
      EXPECT_DOUBLE_EQ(path->points[4 * bar + 3].y, ground);
      // All equally wide, side by side.
      const double wide = path->points[3].x - path->points[0].x;
      EXPECT_NEAR(path->points[4 * bar].x, path->points[0].x + double(bar) * wide, 1e-9);
      EXPECT_NEAR(path->points[4 * bar + 3].x, path->points[4 * bar].x + wide, 1e-9);
      highest = std::max(highest, heights.back());
    }
    for (double& height : heights) height /= highest;
    return heights;
  }
  return {};
}

TEST(ClassReport, DrawsHowManyReachedWhichTenth) {
  Results results = four_seats();
  results.seats.push_back(results.seats[3]);  // a second one at 40 %
  const ClassReport report = report_of(results);
  const std::vector<double> expected{0.5, 0, 0, 0, 1, 0.5, 0, 0, 0, 0.5};
  const std::vector<double> drawn = bars(report.distribution);
  ASSERT_EQ(drawn.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) EXPECT_NEAR(drawn[i], expected[i], 1e-9) << i;
  EXPECT_EQ(report.distribution.title, "Scores of the class");
  EXPECT_EQ(report.distribution.description,
            "How many seats reached which score. 0-10%: 1, 40-50%: 2, 50-60%: 1, 90-100%: 1");
  const ClassReport spanish = report_of(results, engine::Language::spanish);
  EXPECT_EQ(spanish.distribution.title, "Puntajes del grupo");
  EXPECT_EQ(spanish.distribution.description,
            "Cuántos puestos alcanzaron cada puntaje. 0-10%: 1, 40-50%: 2, 50-60%: 1, 90-100%: 1");
}

}  // namespace
}  // namespace footroom::grade
