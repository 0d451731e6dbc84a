#include "grade/scoring_rules.hpp"

#include <algorithm>
#include <cmath>

#include "grade/marking.hpp"
#include "quiz/right_letters.hpp"

namespace footroom::grade {
namespace {

NumberRange around(std::string mistake, double number, double tolerance) {
  const double reach = widened(tolerance, number);
  return {std::move(mistake), number - reach, number + reach};
}

}  // namespace

std::vector<NumberRange> number_ranges(const quiz::Question& question) {
  const quiz::NumberAnswer& answer = *question.answer;
  std::vector<NumberRange> ranges{around({}, answer.number, answer.tolerance)};
  for (const quiz::Mistake& mistake : question.mistakes) {
    if (!mistake.number) continue;
    NumberRange range = around(mistake.id, *mistake.number, answer.tolerance);
    // Between two mistakes the nearer one counts.
    for (const quiz::Mistake& other : question.mistakes) {
      if (!other.number || other.id == mistake.id) continue;
      const double middle = (*mistake.number + *other.number) / 2;
      if (*other.number > *mistake.number) range.to = std::min(range.to, middle);
      if (*other.number < *mistake.number) range.from = std::max(range.from, middle);
    }
    ranges.push_back(std::move(range));
  }
  return ranges;
}

std::vector<MarksStep> marks_steps(const quiz::Question& question) {
  const Points all = Points::whole(question.points);
  const bool order = question.kind == quiz::Kind::order;
  const int options = static_cast<int>(question.options.size());
  const int most =
      order ? options * (options - 1) / 2 : static_cast<int>(quiz::right_letters(question).size());
  std::vector<MarksStep> steps;
  for (int marks = most; marks > 0; --marks) {
    const int earned = order ? 2 * marks - most : marks;
    if (earned <= 0) break;
    steps.push_back({marks, all.share(earned, most)});
  }
  return steps;
}

}  // namespace footroom::grade
