// Property over the real bank: what a key prints as the answer grades as right, and what it prints
// for a mistake grades as that mistake, in both languages, unit systems and decimal marks.

#include <gtest/gtest.h>

#include "bank/read.hpp"
#include "grade/marking.hpp"
#include "notation/unit.hpp"
#include "quiz/compiled_item.hpp"
#include "quiz/right_letters.hpp"

namespace footroom::grade {
namespace {

constexpr std::uint32_t draws = 3;

std::string joined(const std::vector<std::string>& letters, const std::string& between) {
  std::string all;
  for (const auto& letter : letters) all += (all.empty() ? "" : between) + letter;
  return all;
}

class Checker {
 public:
  Checker(const quiz::Question& question, notation::Style style)
      : question_(question), style_(style) {}

  void check() const {
    if (question_.kind == quiz::Kind::number)
      check_number();
    else
      check_letters();
  }

 private:
  QuestionResult marked(const std::string& typed) const {
    return mark(question_, typed, Credit(), style_);
  }
  void expect(const std::string& typed, Outcome outcome, const std::string& mistake = {}) const {
    const QuestionResult result = marked(typed);
    EXPECT_EQ(name_of(result.outcome), name_of(outcome))
        << "typed " << typed << ", read " << result.read << result.reason << ", right "
        << result.right;
    EXPECT_EQ(result.mistake, mistake) << "typed " << typed;
  }

  void check_number() const {
    const auto& answer = *question_.answer;
    expect(answer.text, Outcome::right);
    EXPECT_EQ(marked(answer.text).points, Points::whole(question_.points));
    for (const quiz::Mistake& mistake : question_.mistakes)
      expect(mistake.text, Outcome::named_mistake, mistake.id);
    // The same with plain characters, as a keyboard has them.
    std::string plain = answer.text;
    for (const auto& [from, to] : {std::pair{"\u00a0", " "}, std::pair{"\u2212", "-"},
                                   std::pair{"°", " deg"}, std::pair{"·", "-"}})
      for (auto at = plain.find(from); at != std::string::npos; at = plain.find(from))
        plain.replace(at, std::string(from).size(), to);
    expect(plain, Outcome::right);
  }

  void check_letters() const {
    const auto right = quiz::right_letters(question_);
    const bool order = question_.kind == quiz::Kind::order;
    for (const char* between : {", ", " ", "\u2002", ""})
      expect(joined(right, between), Outcome::right);
    if (order) return;
    for (const quiz::Mistake& mistake : question_.mistakes)
      expect(mistake.text, Outcome::named_mistake, mistake.id);
  }

  const quiz::Question& question_;
  notation::Style style_;
};

TEST(AnswersOfTheBank, GradeAsWhatTheyAre) {
  const auto read = bank::read_bank(FOOTROOM_SOURCE_DIR "/questionbank");
  ASSERT_TRUE(read.defects.empty());
  int questions = 0;
  std::set<std::string> asked;
  for (const auto system : {notation::System::us, notation::System::si})
    for (const auto language : {engine::Language::english, engine::Language::spanish})
      for (const char mark : {'.', ','})
        for (const auto& [rules, ignored] : read.bank.rules)
          for (const bank::Item& item : read.bank.items) {
            quiz::Settings settings;
            settings.seed = 20260105;
            settings.system = system;
            settings.style = {language, mark};
            settings.rules = rules;
            std::optional<quiz::CompiledItem> compiled;
            try {
              compiled.emplace(read.bank, item, settings);
            } catch (const quiz::CannotMake&) {
              continue;  // the rule set lacks a limit
            }
            // Under other rules the same questions come with other limits: one of each is enough.
            const std::uint32_t wanted = rules == "us-construction" ? draws : 1;
            for (std::uint32_t sheet = 0; sheet < wanted; ++sheet) {
              const auto made =
                  compiled->make({settings.seed, sheet, 0, 0}, nullptr, quiz::Figures::left_out);
              SCOPED_TRACE(item.id + ", sheet " + std::to_string(sheet) + ", " + rules +
                           (system == notation::System::us ? ", us" : ", si") +
                           (language == engine::Language::english ? ", en, " : ", es, ") + mark);
              Checker(made.question, settings.style).check();
              asked.insert(item.id);
              ++questions;
            }
          }
  EXPECT_EQ(asked.size(), read.bank.items.size());
  EXPECT_GT(questions, 2000);
}

}  // namespace
}  // namespace footroom::grade
