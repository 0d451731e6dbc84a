// The filled-in form: each row is taken for a seat or named as left out; what was read is written
// and read again without change; and it is graded.

#include "fuzz/pages.hpp"
#include "fuzz/target.hpp"
#include "render/feedback.hpp"
#include "tasks/csv_rows.hpp"
#include "tasks/failure.hpp"
#include "tasks/responses.hpp"

namespace footroom::fuzz {
namespace {

void check(const tasks::ReadResponses& read) {
  for (const auto& defect : read.defects)
    require(defect.text(engine::Language::english).starts_with("responses.csv:"),
            "a defect names file and line");
  for (const auto& response : read.responses) {
    const auto& sheets = the_quiz().sheets;
    const auto sheet = std::find_if(sheets.begin(), sheets.end(), [&](const quiz::Sheet& one) {
      return one.seat == response.seat;
    });
    require(sheet != sheets.end(), "a response is of a seat of the quiz");
    require(response.answers.size() == sheet->questions.size(), "a question has an answer");
    require(!tasks::fault_of(response.name), "names are text");
    for (const auto& answer : response.answers)
      require(!tasks::fault_of(answer), "answers are text");
  }
}

void try_writing(const std::vector<grade::Response>& responses) {
  const std::string text = tasks::responses_text(the_quiz(), responses);
  const auto again = tasks::read_responses(text, "responses.csv", the_quiz());
  require(again.defects.empty(), "what was written has no defects");
  for (const auto& response : responses) {
    const auto same =
        std::find_if(again.responses.begin(), again.responses.end(),
                     [&](const grade::Response& one) { return one.seat == response.seat; });
    require(same != again.responses.end() && same->answers == response.answers,
            "what was written reads again");
    require(response.name.empty() || same->name == response.name, "names read again");
  }
}

void try_grading(const std::vector<grade::Response>& responses) {
  const auto& quiz = the_quiz();
  const auto results = grade::mark_class(quiz, responses, {}, "fuzz");
  require(results.seats.size() + results.absent.size() == quiz.sheets.size(),
          "each seat is graded or absent");
  const std::string text = grade::results_json(results);
  require(text == grade::results_json(grade::read_results(text, "results.json")),
          "results.json reads as it was written");
  const auto header = tasks::read_csv(render::results_csv_header()).front().fields.size();
  for (const auto& seat : results.seats)
    for (const auto& row : tasks::read_csv(render::results_csv_rows(results, seat)))
      require(row.wrong.empty() && row.fields.size() == header, "results.csv has whole rows");
  for (const auto& seat : results.seats) {
    if (seat.seat != quiz.sheets.front().seat) continue;
    check_harmless(
        render::feedback_html_part(the_templates(), quiz.header, quiz.sheets.front(), seat));
  }
}

}  // namespace

void try_input(std::string_view input) {
  tasks::ReadResponses read;
  try {
    read = tasks::read_responses(input, "responses.csv", the_quiz());
  } catch (const tasks::Failure& failure) {
    require(std::string_view(failure.what()).starts_with("responses.csv:"),
            "a refusal names file and line");
    return;
  }
  check(read);
  try_writing(read.responses);
  try_grading(read.responses);
}

}  // namespace footroom::fuzz
