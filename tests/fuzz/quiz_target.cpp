// quiz.json: read or refused with file and place. What is read is written and read again without
// change, is made into pages, and is graded.

#include <set>
#include <sstream>

#include "fuzz/pages.hpp"
#include "fuzz/target.hpp"
#include "grade/class_report.hpp"
#include "quiz/right_letters.hpp"
#include "render/feedback.hpp"
#include "render/qti.hpp"
#include "tasks/earlier_quiz.hpp"
#include "tasks/failure.hpp"

namespace footroom::fuzz {
namespace {

/// The right answer as a student writes it.
std::string right_answer(const quiz::Question& question) {
  if (question.answer) return question.answer->text;
  std::string letters;
  for (const auto& letter : quiz::right_letters(question)) letters += letter + " ";
  return letters;
}

void try_grading(const grade::Quiz& quiz) {
  std::vector<grade::Response> responses;
  for (const auto& sheet : quiz.sheets) {
    auto& response = responses.emplace_back();
    response.seat = sheet.seat;
    for (const auto& question : sheet.questions) response.answers.push_back(right_answer(question));
  }
  const auto results = grade::mark_class(quiz, responses, {}, "fuzz");
  const std::string text = grade::results_json(results);
  require(text == grade::results_json(grade::read_results(text, "results.json")),
          "results.json reads as it was written");
  for (const auto& seat : results.seats)
    require(seat.points <= seat.possible && seat.points >= grade::Points{},
            "points lie between none and all");
  const auto& sheet = quiz.sheets.front();
  if (!results.seats.empty() && results.seats.front().seat == sheet.seat)
    render::feedback_html_part(the_templates(), quiz::header_of(quiz.header, sheet), sheet,
                               results.seats.front());
}

void try_package(const grade::Quiz& quiz) {
  render::QtiPackage package(the_templates(), quiz.header);
  package.add(quiz.sheets.front());
  for (const auto& file : package.finish()) {
    if (!file.path.ends_with(".xml")) continue;
    const auto document = read_document(file.bytes);
    require(document.wrong.empty(), file.path + " is well-formed: " + document.wrong);
  }
}

/// The stream reader looks at less of the file, and tells the same of it.
void try_as_earlier(const grade::Quiz& quiz) {
  std::set<std::string> items;
  for (const auto& sheet : quiz.sheets)
    for (const auto& question : sheet.questions) items.insert(question.item);
  std::istringstream in(json_text(quiz));
  try {
    const auto earlier = tasks::read_earlier_quiz(in, "quiz.json");
    require(earlier.code == quiz.header.code && earlier.date == quiz.header.date,
            "both readers tell the same code and date");
    require(std::equal(earlier.items.begin(), earlier.items.end(), items.begin(), items.end()),
            "both readers tell the same items");
  } catch (const tasks::Failure& failure) {
    require(items.empty(), std::string("both readers take a quiz: ") + failure.what());
  }
}

/// Files that the reader of quizzes refuses as well.
void try_reading_as_earlier(std::string_view input) {
  std::istringstream in{std::string(input)};
  try {
    tasks::read_earlier_quiz(in, "quiz.json");
  } catch (const tasks::Failure& failure) {
    require(std::string_view(failure.what()).starts_with("quiz.json: "),
            "a refusal names the file");
  }
}

void try_making_again(const grade::Quiz& quiz) {
  auto header = quiz.header;
  header.bank_digest = the_bank().digest;
  try {
    const quiz::Maker maker(the_bank(), header, quiz.sheets, {});
    require(maker.header().code == header.code, "a quiz that is made again keeps its code");
  } catch (const quiz::CannotMakeAgain&) {
  } catch (const quiz::CannotMake&) {
  }
}

}  // namespace

void try_input(std::string_view input) {
  try_reading_as_earlier(input);
  grade::Quiz quiz;
  try {
    quiz = grade::read_quiz(input, "quiz.json");
  } catch (const grade::FaultyFile& fault) {
    require(std::string_view(fault.what()).starts_with("quiz.json:"), "a refusal names the file");
    return;
  }
  check_again(quiz);
  try_grading(quiz);
  check_pages(quiz);
  try_package(quiz);
  try_as_earlier(quiz);
  try_making_again(quiz);
}

}  // namespace footroom::fuzz
