#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/progress.hpp"
#include "cli/surroundings.hpp"
#include "render/qti.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/quiz_again.hpp"
#include "tasks/zip_file.hpp"

namespace footroom::cli {
namespace {

/// QUIZ.json, --seat and --out.
class ExportOptions {
 public:
  void declare(CLI::App& app, const std::string& file) {
    app.add_option("quiz", quiz_, "what footroom quiz wrote, or its folder")
        ->type_name("QUIZ.json");
    add_text_option(app, "--seat", seat_, "SEAT", "only the sheet of this seat (all)");
    add_text_option(app, "--out", out_, "FILE", "where to write (output/CODE-" + file + ")");
    file_ = file;
  }

  QuizAgain read(std::string_view command) const {
    if (quiz_.empty())
      throw Failure(ExitCode::wrong_command_line, std::string(command) +
                                                      ": needs QUIZ.json; see footroom " +
                                                      std::string(command) + " --help");
    return QuizAgain(quiz_);
  }

  /// The indices of the sheets that are wanted.
  std::vector<int> sheets(const grade::Quiz& quiz) const {
    std::vector<int> all;
    std::vector<std::string> seats;
    for (const quiz::Sheet& sheet : quiz.sheets) {
      if (seat_.empty() || sheet.seat == seat_) all.push_back(static_cast<int>(seats.size()));
      seats.push_back(sheet.seat);
    }
    if (all.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "--seat: the quiz " + quiz.header.code + " has no seat " + seat_ +
                        ", expected " + seats.front() +
                        (seats.size() > 1 ? " to " + seats.back() : "") +
                        did_you_mean(seat_, seats));
    return all;
  }

  void write(const quiz::Header& header, std::string_view bytes, Terminal& terminal) const {
    const std::string out = out_.empty() ? "output/" + header.code + "-" + file_ : out_;
    write_whole_file(out, bytes);
    const bool spanish = header.style.language == engine::Language::spanish;
    terminal.out << (spanish ? "Examen " : "Quiz ") << header.code << ": " << out << '\n';
  }

 private:
  std::string quiz_;
  std::string seat_;
  std::string out_;
  std::string file_;
};

class ExportQtiCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    options_.declare(app, "qti.zip");
    folders_.declare_bank(app);
    folders_.declare_templates(app);
    app.footer(
        "Writes a content package of the open standard QTI 3.0 (1EdTech, once IMS), which "
        "learning\n"
        "platforms import: a test for each sheet, with numbers to type, one or several choices, "
        "and\n"
        "orders. Numbers are right within the tolerance of the key; what a known mistake gives is\n"
        "answered with what went wrong. A number is typed without its unit and with a decimal "
        "point.\n"
        "The package holds the answers: give it to the platform, not to students.");
  }

  ExitCode run(Terminal& terminal) override {
    const QuizAgain again = options_.read("export qti");
    const std::vector<int> wanted = options_.sheets(again.quiz());
    const auto bank = read_sound_bank(folders_.bank(), terminal.err);
    const render::Templates templates = read_templates(folders_.templates());
    const quiz::Maker maker = again.maker(bank);
    render::QtiPackage package(templates, maker.header());
    Progress progress(terminal, maker.header().style.language,
                      {"sheets packed", "hojas empaquetadas"}, wanted.size());
    std::size_t done = 0;
    for (const int index : wanted) {
      const quiz::Sheet sheet = maker.sheet(index);
      again.check(sheet, index, program_name());
      package.add(sheet);
      progress.tell(++done);
    }
    progress.clear();
    options_.write(maker.header(), zip_of(package.finish()), terminal);
    return ExitCode::done;
  }

 private:
  ExportOptions options_;
  FolderOptions folders_;
};

class ExportCsvCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    options_.declare(app, "questions.csv");
    app.footer(
        "Writes a table (CSV by RFC 4180, UTF-8): a row for each question of each seat, with its\n"
        "text as CommonMark, options, right answer, tolerance and mistakes. Texts that a "
        "spreadsheet\n"
        "would take for a formula get an apostrophe in front; numbers stay numbers. The table "
        "holds\n"
        "the answers: keep it from students.");
  }

  ExitCode run(Terminal& terminal) override {
    const QuizAgain again = options_.read("export csv");
    const grade::Quiz& quiz = again.quiz();
    std::string table = render::questions_csv_header();
    for (const int index : options_.sheets(quiz))
      table +=
          render::questions_csv_rows(quiz.header, quiz.sheets.at(static_cast<std::size_t>(index)));
    options_.write(quiz.header, table, terminal);
    return ExitCode::done;
  }

 private:
  ExportOptions options_;
};

}  // namespace

std::unique_ptr<Command> make_export_qti_command() {
  return std::make_unique<ExportQtiCommand>();
}

std::unique_ptr<Command> make_export_csv_command() {
  return std::make_unique<ExportCsvCommand>();
}

}  // namespace footroom::cli
