#include "tasks/quiz_again.hpp"

#include <algorithm>

#include "grade/json_reader.hpp"
#include "render/render.hpp"
#include "tasks/choices.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/record.hpp"

namespace footroom::tasks {
namespace {

std::string capitals(std::string text) {
  for (char& c : text)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return text;
}

/// Printed codes have no I, L and O; whoever reads them may.
std::string as_printed(std::string code) {
  code = capitals(std::move(code));
  for (char& c : code) {
    if (c == 'O') c = '0';
    if (c == 'I' || c == 'L') c = '1';
  }
  return code;
}

}  // namespace

QuizAgain::QuizAgain(const std::filesystem::path& place)
    : file_((std::filesystem::is_directory(place) ? place / "quiz.json" : place).string()) {
  try {
    const std::string text = file_text(std::filesystem::path(file_));
    quiz_ = grade::read_quiz(text, file_);
    json_ = grade::parse_json(text, file_);
  } catch (const grade::FaultyFile& fault) {
    throw Failure(ExitCode::input_faulty, fault.what());
  }
}

int QuizAgain::sheet_named(const std::string& code) const {
  const auto refuse = [](const std::string& what) {
    return Failure(ExitCode::wrong_command_line, "--code: " + what);
  };
  const std::string& of_quiz = quiz_.header.code;
  const std::string first = of_quiz + "-" + quiz_.sheets.front().seat;
  const std::size_t hyphen = code.rfind('-');
  const std::string quiz_part = as_printed(code.substr(0, hyphen));
  if (quiz_part != as_printed(of_quiz))
    throw refuse("is " + for_terminal(code) + ", expected a sheet of the quiz " + of_quiz + " in " +
                 file_ + ", such as " + first);
  if (hyphen == std::string::npos)
    throw refuse("is " + for_terminal(code) + " and names no seat, expected it as on the sheet, " +
                 first);
  const std::string seat = capitals(code.substr(hyphen + 1));
  std::vector<std::string> seats;
  for (const quiz::Sheet& sheet : quiz_.sheets) {
    if (sheet.seat == seat) return static_cast<int>(seats.size());
    seats.push_back(sheet.seat);
  }
  throw refuse("the quiz " + of_quiz + " has no seat " + for_terminal(seat) + ", expected " +
               seats.front() + (seats.size() > 1 ? " to " + seats.back() : "") +
               did_you_mean(seat, seats));
}

quiz::Maker QuizAgain::maker(const bank::Bank& bank, const std::vector<quiz::Swap>& swaps) const {
  try {
    return quiz::Maker(bank, quiz_.header, quiz_.sheets, swaps);
  } catch (const quiz::CannotMakeAgain& refusal) {
    throw Failure(ExitCode::input_faulty,
                  file_ + ": " + engine::wording_of(refusal) +
                      engine::Wording{"; name the bank it was made from with --bank",
                                      "; indique con --bank el banco con el que se hizo"});
  }
}

void QuizAgain::check(const quiz::Sheet& sheet, int index, const std::string& program) const {
  const auto& recorded = json_.at("sheets").at(static_cast<std::size_t>(index));
  if (nlohmann::json::parse(render::json_sheet(sheet, true)) == recorded) return;
  const std::string& made_by = quiz_.header.program;
  throw Failure(ExitCode::input_faulty,
                file_ + ": seat " + sheet.seat + ": another sheet comes out than the file says; " +
                    (made_by == program ? "the file was changed, or the program since then"
                                        : "it was made by " + for_terminal(made_by) + ", this is " +
                                              program + "; make it again with that version"));
}

}  // namespace footroom::tasks
