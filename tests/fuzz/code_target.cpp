// Short texts that people type or copy: the code on a sheet, days, points, the head of a store.
// Each is refused, or understood as what it reads as when it is printed again.

#include "fuzz/bank_files.hpp"
#include "fuzz/target.hpp"
#include "quiz/short_code.hpp"
#include "records/date.hpp"
#include "records/store.hpp"
#include "tasks/failure.hpp"
#include "tasks/quiz_again.hpp"
#include "tasks/record.hpp"

namespace footroom::fuzz {
namespace {

void try_sheet_code(const std::string& typed) {
  static const tasks::QuizAgain again(project() / "tests/golden/us-english");
  try {
    const int index = again.sheet_named(typed);
    const auto& code = again.quiz().sheets.at(static_cast<std::size_t>(index)).code;
    require(typed.size() == code.size(), "a code is one as long as it is printed");
    require(again.sheet_named(code) == index, "the printed code names the same sheet");
  } catch (const tasks::Failure& failure) {
    const std::string_view message = failure.what();
    require(message.starts_with("--code: "), "a refusal names the option");
    for (const char c : message) require(c == '\t' || c < 0 || c >= ' ', "a message is one line");
  }
}

void try_day(const std::string& typed) {
  const auto day = records::read_date(typed);
  if (!day) return;
  require(records::date_text(*day) == typed, "a day is written as it was read");
  const auto later = records::months_later(*day, 600);
  require(later.ok() && later > *day, "a day has one some months later");
}

void try_points(const std::string& typed) {
  const auto points = tasks::read_points(typed);
  if (!points) return;
  require(tasks::read_points(tasks::points_text(*points)) == points,
          "points read again as they are written");
}

void try_head(const std::string& typed) {
  const auto head = records::read_head(typed);
  if (head) require(records::read_head(head->text()) == head, "a head reads as it is written");
}

}  // namespace

void try_input(std::string_view input) {
  const std::string typed(input);
  try_sheet_code(typed);
  try_day(typed);
  try_points(typed);
  try_head(typed);
  const std::string code = quiz::short_code(typed);
  require(code.size() == 5 && code == quiz::short_code(typed), "a code has five digits");
}

}  // namespace footroom::fuzz
