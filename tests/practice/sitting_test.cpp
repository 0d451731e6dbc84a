#include "practice/sitting.hpp"

#include <gtest/gtest.h>

#include <set>

#include "practice/the_bank.hpp"

namespace footroom::practice {
namespace {

const Sitting& sitting() {
  static const Sitting made(the_bank(), "us-construction");
  return made;
}

std::string right_answer(Progress progress, notation::Style style) {
  return sitting().mark(progress, "", style).result.right;
}

/// Puts the next question and answers it.
std::string practise(Progress& progress, bool right, const Choice& choice = {},
                     const Face& face = {}) {
  sitting().next(progress, choice, face, 11);
  const auto marked =
      sitting().mark(progress, right ? right_answer(progress, face.style) : "", face.style);
  EXPECT_TRUE(marked.counted);
  EXPECT_EQ(grade::is_right(marked.result.outcome), right) << marked.result.item;
  return progress.open->asked.item;
}

TEST(Sitting, AsksEveryFamilyBeforeAnyReturns) {
  Progress progress = sitting().begin();
  std::set<std::string> asked;
  for (std::size_t i = 0; i < the_bank().items.size(); ++i) asked.insert(practise(progress, true));
  EXPECT_EQ(asked.size(), the_bank().items.size());
  EXPECT_EQ(progress.right, static_cast<int>(the_bank().items.size()));
}

TEST(Sitting, LeavesOutWhatBelongsToOtherRules) {
  const Sitting european(the_bank(), "european");
  std::set<std::string> foreign;
  for (const bank::Item& item : the_bank().items)
    if (item.rules == std::vector<std::string>{"us-construction"}) foreign.insert(item.id);
  ASSERT_GE(foreign.size(), 5u);
  Progress progress = european.begin();
  for (int i = 0; i < 60; ++i) {
    european.next(progress, {{"rules", "anchors-and-ladder"}, {}}, {}, 11);
    EXPECT_FALSE(foreign.contains(progress.open->asked.item)) << progress.open->asked.item;
  }
}

TEST(Sitting, FollowsFromSeedAndHistoryAlone) {
  Progress one = sitting().begin();
  Progress other = sitting().begin();
  for (int i = 0; i < 20; ++i) EXPECT_EQ(practise(one, i % 3 > 0), practise(other, i % 3 > 0));
  EXPECT_EQ(text_of(one), text_of(other));
}

TEST(Sitting, BringsBackWhatWasMissedAtGrowingIntervals) {
  Progress progress = sitting().begin();
  const std::string missed = practise(progress, false);
  std::vector<int> places{1};
  for (int number = 2; number <= 100; ++number)
    if (practise(progress, true) == missed) places.push_back(number);
  // After 3, 8 and 20 others, and then it rests until all were asked as often.
  EXPECT_EQ(places, (std::vector<int>{1, 5, 14, 35}));
}

TEST(Sitting, BeginsAnewWhereItIsMissedAgain) {
  Progress progress = sitting().begin();
  const std::string missed = practise(progress, false);
  std::vector<int> places;
  for (int number = 2; number <= 30; ++number)
    if (practise(progress, number != 5) == missed) places.push_back(number);
  EXPECT_EQ(places, (std::vector<int>{5, 9, 18}));
}

TEST(Sitting, StillAsksNewOnesWhereAllIsMissed) {
  Progress progress = sitting().begin();
  std::set<std::string> asked;
  for (int i = 0; i < 40; ++i) asked.insert(practise(progress, false));
  EXPECT_GE(asked.size(), 20u);
}

TEST(Sitting, CountsAnAnswerWithStepsOnViewAsMissed) {
  Progress progress = sitting().begin();
  sitting().next(progress, {}, {}, 1);
  const auto question = sitting().open_question(progress, {}).question;
  EXPECT_EQ(sitting().show_step(progress, question, {}), 0u);
  const auto marked = sitting().mark(progress, right_answer(progress, {}), {});
  EXPECT_TRUE(grade::is_right(marked.result.outcome));
  EXPECT_EQ(marked.returns, 3);
  EXPECT_EQ(progress.right, 0);
  EXPECT_EQ(progress.sitting.back().steps, 1);
}

TEST(Sitting, LetsTryAgainWhatCouldNotBeRead) {
  Progress progress = sitting().begin();
  sitting().next(progress, {}, {}, 1);
  EXPECT_FALSE(sitting().mark(progress, "@@", {}).counted);
  EXPECT_TRUE(progress.sitting.empty());
  EXPECT_TRUE(sitting().mark(progress, "", {}).counted);
  EXPECT_FALSE(sitting().mark(progress, "", {}).counted);
  EXPECT_EQ(progress.sitting.size(), 1u);
}

TEST(Sitting, CountsWhatIsLeftWithoutAnAnswer) {
  Progress progress = sitting().begin();
  sitting().next(progress, {}, {}, 1);
  const std::string left = progress.open->asked.item;
  sitting().next(progress, {}, {}, 1);
  ASSERT_EQ(progress.sitting.size(), 1u);
  EXPECT_EQ(progress.sitting[0].item, left);
  EXPECT_TRUE(progress.families.at(left).due.has_value());
}

TEST(Sitting, KeepsToTheChosenTopicsAndLevels) {
  const Choice choice{{"swing", "clearance"}, {1, 2}};
  Progress progress = sitting().begin();
  for (int i = 0; i < 30; ++i) {
    sitting().next(progress, choice, {notation::System::si, {}}, 5);
    const auto question = sitting().open_question(progress, {}, quiz::Figures::left_out).question;
    EXPECT_TRUE(question.topic == "swing" || question.topic == "clearance");
    EXPECT_LE(question.level, 2);
  }
  EXPECT_THROW(sitting().next(progress, {{"no-such-topic"}, {}}, {}, 1), CannotAsk);
}

TEST(Sitting, AsksOnlyWhatTheRulesGive) {
  const Sitting canada(the_bank(), "canada");
  Progress progress = canada.begin();
  for (int i = 0; i < 50; ++i) {
    canada.next(progress, {}, {}, 5);
    EXPECT_NO_THROW(canada.open_question(progress, {}, quiz::Figures::left_out));
  }
}

TEST(Progress, ReadsWhatItWrote) {
  Progress progress = sitting().begin();
  for (int i = 0; i < 10; ++i) practise(progress, i % 2 == 0);
  sitting().next(progress, {}, {notation::System::si, {engine::Language::spanish, ','}}, 1);
  const std::string text = text_of(progress);
  const auto again = read_progress(text, the_bank(), "us-construction");
  ASSERT_TRUE(again.has_value());
  EXPECT_EQ(text_of(*again), text);
}

TEST(Progress, DropsWhatIsNotItsOwn) {
  Progress progress = sitting().begin();
  practise(progress, false);
  const std::string text = text_of(progress);
  EXPECT_FALSE(read_progress(text, the_bank(), "european"));
  bank::Bank other = the_bank();
  other.digest = std::string(64, '0');
  EXPECT_FALSE(read_progress(text, other, "us-construction"));
  for (const char* hostile :
       {"", "{", "[]", "null", "{\"format\":2}", "\"\\ud800\"", "{\"format\":1,\"bank\":7}"})
    EXPECT_FALSE(read_progress(hostile, the_bank(), "us-construction")) << hostile;
  std::string unknown = text;
  const std::string item = progress.open->asked.item;
  for (auto at = unknown.find(item); at != std::string::npos; at = unknown.find(item, at))
    unknown.replace(at, item.size(), "no-such-item");
  EXPECT_FALSE(read_progress(unknown, the_bank(), "us-construction"));
  // Cut anywhere, it is refused and breaks nothing.
  for (std::size_t size = 0; size < text.size(); ++size)
    EXPECT_FALSE(read_progress(text.substr(0, size), the_bank(), "us-construction"));
}

}  // namespace
}  // namespace footroom::practice
