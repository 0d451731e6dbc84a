#include "quiz/question_check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace footroom::quiz {
namespace {

class QuestionCheck {
 public:
  explicit QuestionCheck(const Question& question) : question_(question) {}

  std::vector<std::string> run() {
    check_texts();
    check_right_options();
    check_distances();
    const bool sourced =
        std::any_of(question_.sources.begin(), question_.sources.end(), [](const SourceLine& line) {
          return line.citation.find_first_not_of(' ') != std::string::npos;
        });
    if (!sourced) add("no source is named, expected a <source>, a <calculation> or a <limit>");
    return std::move(faults_);
  }

 private:
  void add(std::string fault) { faults_.push_back(std::move(fault)); }

  void check_text(const std::string& what, const std::string& text, bool may_be_empty = false) {
    if (text.empty() && !may_be_empty) add(fmt::format("the {} is empty", what));
    if (text.find_first_of("{}") != text.npos)
      add(fmt::format("the {} has a brace left: \"{}\"", what, text));
  }

  void check_texts() {
    check_text("title", question_.title);
    check_text("stem", question_.stem);
    for (const Option& option : question_.options) {
      check_text(fmt::format("option \"{}\"", option.id), option.text);
      check_text(fmt::format("comment on the option \"{}\"", option.id), option.says, true);
    }
    for (const Mistake& mistake : question_.mistakes)
      check_text(fmt::format("comment on the mistake \"{}\"", mistake.id), mistake.says);
    for (const WorkedStep& step : question_.steps) check_text("worked step", step.says, true);
  }

  void check_right_options() {
    const auto& options = question_.options;
    const auto right = std::count_if(options.begin(), options.end(),
                                     [](const Option& option) { return option.right; });
    const bool one_right = question_.kind == Kind::one_of || question_.kind == Kind::verdict;
    if (one_right && right != 1)
      add(fmt::format("{} options are right, expected exactly 1", right));
    if (question_.kind == Kind::several_of && right == 0)
      add("no option is right, expected 1 or more");
    if (question_.kind == Kind::order) {
      std::set<int> places;
      for (const Option& option : options) places.insert(option.place);
      const auto count = static_cast<int>(options.size());
      if (static_cast<int>(places.size()) != count || *places.begin() != 1 ||
          *places.rbegin() != count)
        add("the places of the order are not 1, 2, 3 ...");
    }
    for (std::size_t i = 0; i < options.size(); ++i)
      for (std::size_t before = 0; before < i; ++before)
        if (options[before].text == options[i].text)
          add(fmt::format("the options \"{}\" and \"{}\" read the same", options[before].id,
                          options[i].id));
  }

  void check_distances() {
    if (!question_.answer) return;
    const auto& mistakes = question_.mistakes;
    const double tolerance = question_.answer->tolerance;
    for (std::size_t i = 0; i < mistakes.size(); ++i) {
      if (!(std::abs(*mistakes[i].number - question_.answer->number) > tolerance))
        add(fmt::format("the mistake \"{}\" ({}) lies within the tolerance of the answer ({})",
                        mistakes[i].id, mistakes[i].text, question_.answer->text));
      for (std::size_t before = 0; before < i; ++before)
        if (!(std::abs(*mistakes[i].number - *mistakes[before].number) > tolerance))
          add(fmt::format(
              "the mistakes \"{}\" ({}) and \"{}\" ({}) lie within the tolerance of "
              "each other",
              mistakes[before].id, mistakes[before].text, mistakes[i].id, mistakes[i].text));
    }
  }

  const Question& question_;
  std::vector<std::string> faults_;
};

}  // namespace

std::vector<std::string> faults_of(const Question& question) {
  return QuestionCheck(question).run();
}

bool ask_the_same(const Question& one, const Question& other) {
  if (one.answer.has_value() != other.answer.has_value()) return false;
  if (one.answer && one.answer->number != other.answer->number) return false;
  return std::equal(one.mistakes.begin(), one.mistakes.end(), other.mistakes.begin(),
                    other.mistakes.end(),
                    [](const Mistake& a, const Mistake& b) {
                      return a.id == b.id && a.number == b.number;
                    }) &&
         std::equal(one.options.begin(), one.options.end(), other.options.begin(),
                    other.options.end(), [](const Option& a, const Option& b) {
                      return a.id == b.id && a.right == b.right && a.place == b.place;
                    });
}

}  // namespace footroom::quiz
