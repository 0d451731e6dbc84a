#include "cli/practice_grading.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cli/options.hpp"
#include "cli/surroundings.hpp"
#include "grade/json_reader.hpp"
#include "practice/sitting.hpp"
#include "quiz/reference_box.hpp"
#include "quiz/short_code.hpp"
#include "records/date.hpp"
#include "tasks/failure.hpp"

namespace footroom::cli {
namespace {

constexpr engine::Text practice_title{"Fall-protection practice, not a test",
                                      "Práctica de protección contra caídas, no es un examen"};
constexpr engine::Text steps_seen{
    "Worked steps were on view before the answer: in a practice it then earns nothing.",
    "Se vieron pasos de la solución antes de responder: en una práctica así no vale puntos."};

practice::ResultFile read_file(const std::string& text, const std::string& file) {
  try {
    return practice::read_result(text, file);
  } catch (const grade::FaultyFile& fault) {
    throw Failure(ExitCode::input_faulty, fault.what());
  }
}

void refuse_other_bank(const practice::ResultFile& practice, const std::string& file,
                       const bank::Bank& bank) {
  if (practice.progress.bank != bank.digest)
    throw Failure(
        ExitCode::input_faulty,
        fmt::format("{}: was saved from another question bank, whose digest is not {}...; "
                    "name that bank with --bank",
                    file, bank.digest.substr(0, 12)));
  if (!bank.rules.contains(practice.progress.rules))
    throw Failure(ExitCode::input_faulty, file + ": rules: the bank has no rule set of this name");
  for (std::size_t i = 0; i < practice.progress.sitting.size(); ++i) {
    const std::string& item = practice.progress.sitting[i].item;
    const bool known = std::any_of(bank.items.begin(), bank.items.end(),
                                   [&](const bank::Item& one) { return one.id == item; });
    if (!known)
      throw Failure(ExitCode::input_faulty,
                    fmt::format("{}: questions/{}/item: the bank has no such item", file, i));
  }
}

quiz::Header header_of(const practice::ResultFile& practice, const bank::Bank& bank) {
  const practice::Face& face = practice.progress.sitting.back().face;
  quiz::Header header;
  practice::ResultFile whatever_the_version = practice;
  whatever_the_version.program.clear();
  header.code = quiz::short_code(practice::result_json(whatever_the_version));
  header.program = program_name();
  header.bank_digest = bank.digest;
  header.blueprint = "practice";
  header.title = practice_title.in(face.style.language);
  header.seed = practice.progress.seed;
  header.date = practice.date;
  header.system = face.system;
  header.style = face.style;
  header.rules = practice.progress.rules;
  const bank::Text& title = bank.rules.at(header.rules).title;
  header.rules_title =
      face.style.language == engine::Language::english ? title.english : title.spanish;
  header.paper = quiz::Paper::letter;
  header.sheets = 1;
  return header;
}

}  // namespace

GradedPractice grade_practice(const std::string& text, const std::string& file,
                              const bank::Bank& bank, const grade::Credit& credit) {
  const practice::ResultFile practice = read_file(text, file);
  if (!records::read_date(practice.date))
    throw Failure(ExitCode::input_faulty, file + ": date: is no day, expected YYYY-MM-DD");
  refuse_other_bank(practice, file, bank);
  GradedPractice graded;
  graded.quiz.header = header_of(practice, bank);
  const quiz::Header& header = graded.quiz.header;
  quiz::Sheet sheet;
  sheet.seat = "A";
  sheet.name = practice.name;
  sheet.code = header.code + "-" + sheet.seat;
  grade::SeatResult seat{sheet.seat, sheet.name, sheet.code, {}, {}, {}};
  for (const practice::Asked& asked : practice.progress.sitting) {
    quiz::Made made;
    try {
      made = practice::make_again(bank, practice.progress.rules, practice.progress.seed, asked,
                                  asked.face.style, quiz::Figures::drawn);
    } catch (const quiz::CannotMake&) {
      throw Failure(ExitCode::input_faulty,
                    fmt::format("{}: questions/{}: cannot be asked under these rules and units",
                                file, sheet.questions.size()));
    }
    made.question.number = static_cast<int>(sheet.questions.size()) + 1;
    grade::QuestionResult result =
        grade::mark(made.question, asked.typed, credit, asked.face.style);
    if (asked.steps > 0) {
      result.points = {};
      result.says = steps_seen.in(asked.face.style.language);
    }
    seat.points += result.points;
    seat.possible += result.possible;
    seat.questions.push_back(std::move(result));
    sheet.points += made.question.points;
    sheet.minutes += made.question.minutes;
    sheet.questions.push_back(std::move(made.question));
  }
  grade::Results& results = graded.results;
  results.practice = true;
  results.quiz = header.code;
  results.title = header.title;
  results.date = header.date;
  results.blueprint = header.blueprint;
  results.bank = header.bank_digest;
  results.program = header.program;
  results.rules = header.rules;
  results.system = header.system;
  results.style = header.style;
  results.seats.push_back(std::move(seat));
  graded.quiz.sheets.push_back(std::move(sheet));
  return graded;
}

}  // namespace footroom::cli
