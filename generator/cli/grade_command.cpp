#include <fmt/format.h>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/practice_grading.hpp"
#include "cli/progress.hpp"
#include "cli/surroundings.hpp"
#include "grade/marking.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/graded_files.hpp"
#include "tasks/responses.hpp"

namespace footroom::cli {
namespace {

class GradeCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("quiz", quiz_, "what footroom quiz wrote, or what a practice saved")
        ->type_name("QUIZ.json");
    app.add_option("responses", responses_, "its form, filled in; none for a practice")
        ->type_name("RESPONSES.csv");
    add_text_option(app, "--out", out_, "DIR", "where to write (output/CODE-graded)");
    add_text_option(app, "--language", language_, "en|es",
                    "language of the class report (the quiz's)");
    add_text_option(app, "--other-unit", other_unit_, "PERCENT",
                    "what a right value in another unit earns (100)");
    add_text_option(app, "--no-unit", no_unit_, "PERCENT",
                    "what a right number without a unit earns (100)");
    add_text_option(app, "--wrong-unit", wrong_unit_, "PERCENT",
                    "what a right number with a wrong unit earns (50)");
    add_text_option(app, "--mistake", mistake_, "PERCENT", "what a known mistake earns (0)");
    folders_.declare_bank(app);
    folders_.declare_templates(app);
    app.footer(
        "Writes feedback for each seat that answered (feedback-A.html, all-feedback.html to\n"
        "print), class-report.html, results.json and results.csv. Feedback is in the sheet's\n"
        "language. Every answer is shown as it was understood; one that cannot be read by rule\n"
        "earns nothing and is listed in the report. A row that cannot be taken for one seat is\n"
        "named and left out, the others are graded, and the exit code is 1.\n\n"
        "A file that a practice saved holds only what was asked and typed. Each question is made\n"
        "again from the question bank and marked here; with worked steps on view an answer earns\n"
        "nothing. The results say that they are practice, which never counts as a test.");
  }

  ExitCode run(Terminal& terminal) override {
    if (!quiz_.empty() && responses_.empty()) {
      const std::string text = file_text(quiz_);
      if (practice::is_result(text)) return run_practice(text, terminal);
    }
    if (quiz_.empty() || responses_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "grade: needs QUIZ.json and RESPONSES.csv; see footroom grade --help");
    const grade::Credit credit = chosen_credit();
    if (!language_.empty()) choose_language(language_);

    const grade::Quiz quiz = read_quiz_file(quiz_);
    const ReadResponses read = read_responses(std::filesystem::path(responses_), quiz);
    for (const auto& defect : read.defects) terminal.err << defect.text() << '\n';
    const auto results = grade::mark_class(quiz, read.responses, credit, program_name());
    if (results.seats.empty())
      throw Failure(ExitCode::input_faulty, responses_ + ": holds no answer; nothing was written");

    const render::Templates templates = read_templates(folders_.templates());
    quiz::Header report_header = quiz.header;
    if (!language_.empty()) report_header.style.language = choose_language(language_);
    const auto report = grade::class_report(results, credit, report_header.style.language);
    const std::filesystem::path folder =
        out_.empty() ? "output/" + quiz.header.code + "-graded" : out_;
    Progress progress(terminal, report_header.style.language, {"seats written", "puestos escritos"},
                      results.seats.size());
    write_graded(quiz, read.responses, credit, results, report, report_header, templates, folder,
                 [&](std::size_t done) { progress.tell(done); });
    progress.clear();
    terminal.out << tell(report_header.style.language, results, folder);
    return read.defects.empty() ? ExitCode::done : ExitCode::input_faulty;
  }

 private:
  grade::Credit chosen_credit() const {
    grade::Credit credit;
    credit.right_in_other_unit = percent("--other-unit", other_unit_);
    credit.right_without_unit = percent("--no-unit", no_unit_);
    credit.right_with_wrong_unit = percent("--wrong-unit", wrong_unit_);
    credit.mistake = percent("--mistake", mistake_);
    return credit;
  }

  ExitCode run_practice(const std::string& text, Terminal& terminal) const {
    const grade::Credit credit = chosen_credit();
    const bank::Bank bank = read_sound_bank(folders_.bank(), terminal.err);
    const render::Templates templates = read_templates(folders_.templates());
    const GradedPractice graded = grade_practice(text, quiz_, bank, credit);
    const std::filesystem::path folder =
        out_.empty() ? "output/" + graded.quiz.header.code + "-graded" : out_;
    write_graded_practice(graded.quiz, graded.results, credit, templates, folder);
    const auto& seat = graded.results.seats.front();
    const auto style = graded.results.style;
    const engine::Text told{"Practice {}, questions: {}, points: {} of {}\nFeedback: {}\n",
                            "Práctica {}, preguntas: {}, puntos: {} de {}\nComentarios: {}\n"};
    terminal.out << fmt::format(fmt::runtime(told.in(style.language)), graded.results.quiz,
                                seat.questions.size(), seat.points.text(style),
                                seat.possible.text(style), (folder / "all-feedback.html").string());
    return ExitCode::done;
  }

  static int percent(std::string_view option, const std::string& text) {
    return static_cast<int>(whole_number(option, text, 0, 100));
  }

  static std::string tell(engine::Language language, const grade::Results& results,
                          const std::filesystem::path& out) {
    const std::string graded = std::to_string(results.seats.size());
    const std::string absent = std::to_string(results.absent.size());
    const std::string feedback = (out / "all-feedback.html").string();
    const std::string report = (out / "class-report.html").string();
    if (language == engine::Language::spanish)
      return "Examen " + results.quiz + ", calificados: " + graded + ", sin respuestas: " + absent +
             "\nPara imprimir: " + feedback + "\nInforme del grupo: " + report + "\n";
    return "Quiz " + results.quiz + ", graded: " + graded + ", without answers: " + absent +
           "\nTo print: " + feedback + "\nClass report: " + report + "\n";
  }

  std::string quiz_;
  std::string responses_;
  std::string out_;
  std::string language_;
  std::string other_unit_ = "100";
  std::string no_unit_ = "100";
  std::string wrong_unit_ = "50";
  std::string mistake_ = "0";
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_grade_command() {
  return std::make_unique<GradeCommand>();
}

}  // namespace footroom::cli
