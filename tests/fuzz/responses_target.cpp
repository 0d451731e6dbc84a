// The filled-in form: each row is taken for a seat or named as left out; what was read is written
// and read again without change; and it is graded.

#include "fuzz/pages.hpp"
#include "fuzz/target.hpp"
#include "grade/characters.hpp"
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

/// No row is lost: each that says something is a response, or a defect names its line.
void check_rows(std::string_view input, const tasks::ReadResponses& read) {
  std::string defects;
  for (const auto& defect : read.defects) {
    defects += "line " + std::to_string(defect.line) + " too\n";
    defects += defect.text(engine::Language::english) + "\n";  // may name another: "line 2 too"
  }
  const auto rows = tasks::read_csv(input);
  const auto sound = std::count_if(std::next(rows.begin()), rows.end(), [&](const auto& row) {
    const bool blank =
        row.wrong.empty() && std::all_of(row.fields.begin(), row.fields.end(), grade::is_blank);
    const bool named =
        defects.find("line " + std::to_string(row.line) + " too\n") != std::string::npos ||
        defects.find("line " + std::to_string(row.line) + " too;") != std::string::npos;
    return !blank && !named;
  });
  require(read.responses.size() >= static_cast<std::size_t>(sound),
          "each row is a response, or left out with a reason");
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

/// The markup of feedback, as far as answers do not matter.
const Markup& known_feedback() {
  static const Markup known = [] {
    Markup all = known_markup();
    const auto& quiz = the_quiz();
    for (const char* answer : {"1", "0 ft", "A", "B", "A B C", "no number"}) {
      const auto& sheet = quiz.sheets.front();
      const grade::Response response{sheet.seat, "Ana Ejemplo",
                                     std::vector<std::string>(sheet.questions.size(), answer)};
      const auto results = grade::mark_class(quiz, {response}, {}, "fuzz");
      all.add(read_markup(
          render::feedback_html_part(the_templates(), quiz.header, sheet, results.seats.front())));
    }
    require(all.wrong.empty(), "feedback is well-formed: " + all.wrong);
    return all;
  }();
  return known;
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
        render::feedback_html_part(the_templates(), quiz.header, quiz.sheets.front(), seat),
        known_feedback());
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
  check_rows(input, read);
  try_writing(read.responses);
  try_grading(read.responses);
}

}  // namespace footroom::fuzz
