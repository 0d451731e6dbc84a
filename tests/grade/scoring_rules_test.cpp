// The rules for other programs say what mark() does: over the real bank, and where mistakes lie
// near each other.

#include "grade/scoring_rules.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "bank/read.hpp"
#include "grade/marking.hpp"
#include "quiz/compiled_item.hpp"
#include "quiz/right_letters.hpp"

namespace footroom::grade {
namespace {

/// "right", the id of a mistake, or "wrong".
std::string by_rules(const std::vector<NumberRange>& ranges, double number) {
  for (const NumberRange& range : ranges)
    if (number >= range.from && number <= range.to)
      return range.mistake.empty() ? "right" : range.mistake;
  return "wrong";
}

std::string by_marking(const quiz::Question& question, const std::string& typed) {
  const QuestionResult result = mark(question, typed, Credit(), {});
  if (is_right(result.outcome)) return "right";
  return result.outcome == Outcome::named_mistake ? result.mistake : "wrong";
}

void expect_same(const quiz::Question& question, double number) {
  const std::string typed = fmt::format("{:.12g}", number);
  EXPECT_EQ(by_rules(number_ranges(question), std::stod(typed)), by_marking(question, typed))
      << question.item << ": " << typed << ", right " << question.answer->number;
}

quiz::Question length(std::vector<double> mistakes) {
  quiz::Question made;
  made.item = "length";
  made.answer =
      quiz::NumberAnswer{{engine::dimension::length, 3.81}, "ft", 12.5, 0.1, "12.5 ft", "ft"};
  for (const double mistake : mistakes)
    made.mistakes.push_back(
        {"mistake-" + std::to_string(made.mistakes.size()), mistake, "x", {}, "says"});
  return made;
}

TEST(NumberRanges, OfMistakesNearEachOtherTheNearerCounts) {
  const quiz::Question question = length({4.15, 4.0, 12.55, 4.21, -3.0});
  for (int hundredths = -400; hundredths <= 1400; ++hundredths)
    expect_same(question, hundredths / 100.0 + 0.0031);
  for (const double number : {12.4, 12.6, 12.39, 12.61, 3.9, 4.31, -3.1, -2.9})
    expect_same(question, number);
  // Of two mistakes with one number the first counts, over the whole of its tolerance.
  const quiz::Question twins = length({4.0, 4.0});
  for (const double number : {3.89, 3.91, 3.95, 4.0, 4.05, 4.09, 4.11}) expect_same(twins, number);
}

TEST(NumberRanges, AreTheAnswerThenEachMistakeThatHasANumber) {
  quiz::Question question = length({4.15, 4.0});
  question.mistakes.push_back({"in-words", std::nullopt, "x", {}, "says"});
  const auto ranges = number_ranges(question);
  ASSERT_EQ(ranges.size(), 3u);
  EXPECT_EQ(ranges[0].mistake, "");
  EXPECT_NEAR(ranges[0].from, 12.4, 1e-6);
  EXPECT_NEAR(ranges[0].to, 12.6, 1e-6);
  // 4.15 and 4.0 part at 4.075.
  EXPECT_EQ(ranges[1].mistake, "mistake-0");
  EXPECT_NEAR(ranges[1].from, 4.075, 1e-12);
  EXPECT_NEAR(ranges[1].to, 4.25, 1e-6);
  EXPECT_EQ(ranges[2].mistake, "mistake-1");
  EXPECT_NEAR(ranges[2].from, 3.9, 1e-6);
  EXPECT_NEAR(ranges[2].to, 4.075, 1e-12);
}

// A mistake in words has no number, and so parts nothing: not at 0 either.
TEST(NumberRanges, AMistakeInWordsPartsNothing) {
  quiz::Question question = length({0.15});
  question.mistakes.push_back({"in-words", std::nullopt, "x", {}, "says"});
  EXPECT_NEAR(number_ranges(question).at(1).from, 0.05, 1e-6);
}

TEST(NumberRanges, OverTheBankSayWhatMarkingDoes) {
  const auto read = bank::read_bank(FOOTROOM_SOURCE_DIR "/questionbank");
  int numbers = 0;
  for (const auto system : {notation::System::us, notation::System::si})
    for (const bank::Item& item : read.bank.items) {
      if (item.kind != bank::Kind::number) continue;
      quiz::Settings settings;
      settings.seed = 20261124;
      settings.system = system;
      for (std::uint32_t sheet = 0; sheet < 3; ++sheet) {
        quiz::Question question;
        try {
          question = quiz::make_question(read.bank, item, settings, {settings.seed, sheet, 0, 0});
        } catch (const quiz::CannotMake&) {
          break;  // a limit that the rule set does not give
        }
        std::vector<double> centres{question.answer->number};
        for (const quiz::Mistake& mistake : question.mistakes) centres.push_back(*mistake.number);
        for (const double centre : centres)
          for (const double steps : {-1.05, -1.0, -0.95, 0.0, 0.95, 1.0, 1.05}) {
            expect_same(question, centre + steps * question.answer->tolerance);
            ++numbers;
          }
      }
    }
  EXPECT_GT(numbers, 5000);
}

/// Options A, B ... of which the first `right` are right; in order, A is first.
quiz::Question letters(quiz::Kind kind, int options, int right, int points) {
  quiz::Question made;
  made.item = "letters";
  made.kind = kind;
  made.points = points;
  for (int i = 0; i < options; ++i) {
    const std::string letter(1, static_cast<char>('A' + i));
    made.options.push_back({letter, letter, letter, i < right, i + 1, {}});
  }
  return made;
}

Points by_steps(const std::vector<MarksStep>& steps, int marks) {
  for (const MarksStep& step : steps)
    if (marks >= step.marks) return step.points;
  return {};
}

TEST(MarksSteps, OfSeveralOptionsSayWhatMarkingDoes) {
  for (const int points : {1, 2, 3, 7})
    for (int right = 1; right <= 4; ++right) {
      const quiz::Question question = letters(quiz::Kind::several_of, 5, right, points);
      for (unsigned chosen = 1; chosen < 32; ++chosen) {
        std::string typed;
        int marks = 0;
        for (int i = 0; i < 5; ++i)
          if (chosen >> i & 1u) {
            typed += static_cast<char>('A' + i);
            marks += i < right ? 1 : -1;
          }
        EXPECT_EQ(by_steps(marks_steps(question), marks),
                  mark(question, typed, Credit(), {}).points)
            << typed << " of " << right;
      }
    }
}

TEST(MarksSteps, OfOrdersSayWhatMarkingDoes) {
  for (int options = 2; options <= 5; ++options)
    for (const int points : {1, 4, 5}) {
      const quiz::Question question = letters(quiz::Kind::order, options, 0, points);
      std::string typed;
      for (int i = 0; i < options; ++i) typed += static_cast<char>('A' + i);
      do {
        int pairs = 0;
        for (std::size_t i = 0; i < typed.size(); ++i)
          for (std::size_t j = i + 1; j < typed.size(); ++j) pairs += typed[i] < typed[j] ? 1 : 0;
        EXPECT_EQ(by_steps(marks_steps(question), pairs),
                  mark(question, typed, Credit(), {}).points)
            << typed;
      } while (std::next_permutation(typed.begin(), typed.end()));
    }
}

}  // namespace
}  // namespace footroom::grade
