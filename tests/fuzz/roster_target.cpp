// The class list: each row gives a seat or is named as left out; a name goes through the form, the
// quiz.json and the sheet without change.

#include "fuzz/pages.hpp"
#include "fuzz/target.hpp"
#include "grade/characters.hpp"
#include "tasks/csv_rows.hpp"
#include "tasks/failure.hpp"
#include "tasks/responses.hpp"
#include "tasks/roster.hpp"

namespace footroom::fuzz {
namespace {

/// With single blanks, as a page shows it.
std::string words_of(const std::string& text) {
  std::istringstream in(text);
  std::string words;
  for (std::string word; in >> word;) words += (words.empty() ? "" : " ") + word;
  return words;
}

void check_name(const std::string& name, const quiz::Accommodations& accommodations) {
  require(!name.empty() && !tasks::fault_of(name), "a name is a text");
  require(accommodations.extra_percent >= 0 && accommodations.extra_percent <= 1000 &&
              accommodations.extra_minutes >= 0 && accommodations.extra_minutes <= 1000,
          "extra time is bounded");
  auto quiz = the_quiz();
  quiz.sheets.resize(1);
  auto& sheet = quiz.sheets.front();
  sheet.questions.resize(1);
  sheet.name = name;
  sheet.accommodations.large_print = accommodations.large_print;
  sheet.accommodations.without_figures = accommodations.without_figures;
  check_again(quiz);
  require(grade::read_quiz(json_text(quiz), "quiz.json").sheets.front().name == name,
          "quiz.json keeps the name");
  const auto form = tasks::read_responses(
      render::responses_header(sheet) + render::responses_row(sheet), "responses.csv", quiz);
  require(form.defects.empty() && form.responses.size() == 1 &&
              form.responses.front().name == grade::plain_typing(name),
          "the form keeps the name");
  require(words_of(check_pages(quiz)).find(words_of(name)) != std::string::npos,
          "the sheet says the name");
}

}  // namespace

void try_input(std::string_view input) {
  try {
    const auto roster = tasks::read_roster(input, "class.csv");
    for (const auto& defect : roster.defects)
      require(defect.text(engine::Language::spanish).starts_with("class.csv:"),
              "a defect names file and line");
    require(roster.names.size() == roster.accommodations.size(), "each name has its needs");
    require(roster.names.size() + roster.defects.size() + 1 == tasks::read_csv(input).size(),
            "each row below the first is a name, or left out with a reason");
    for (std::size_t i = 0; i < std::min<std::size_t>(roster.names.size(), 3); ++i)
      check_name(roster.names[i], roster.accommodations[i]);
  } catch (const tasks::Failure& failure) {
    require(std::string_view(failure.what()).starts_with("class.csv:"),
            "a refusal names file and line");
  }
}

}  // namespace footroom::fuzz
