#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/progress.hpp"
#include "tasks/failure.hpp"
#include "tasks/quiz_parts.hpp"

namespace footroom::cli {
namespace {

namespace fs = std::filesystem;

class JoinCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("parts", parts_, "what footroom quiz --seats wrote")->type_name("DIR...");
    add_text_option(app, "--out", out_, "DIR", "where to write (output/CODE)");
    app.footer(
        "Puts the parts of a quiz together that several machines or runs made with --seats: the\n"
        "folder has the same bytes as one that a single run writes. Before anything is written,\n"
        "missing seats, seats that are there twice and parts of another quiz are named, all at "
        "once;\n"
        "then every file is checked against the digests that its part wrote. The parts stay.");
  }

  ExitCode run(Terminal& terminal) override {
    if (parts_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "join: needs the folders with the parts; see footroom join --help");
    const Parts parts({parts_.begin(), parts_.end()});
    const fs::path out = out_.empty() ? "output/" + parts.code() : out_;
    Progress progress(terminal, parts.language(), {"parts joined", "partes unidas"}, parts.count());
    parts.join(out, [&](std::size_t done) { progress.tell(done); });
    progress.clear();
    const bool spanish = parts.language() == engine::Language::spanish;
    terminal.out << (spanish ? "Examen " : "Quiz ") << parts.code()
                 << (spanish ? ", hojas: " : ", sheets: ") << parts.sheets()
                 << (spanish ? ", partes: " : ", parts: ") << parts.count()
                 << (spanish ? "\nPara imprimir: " : "\nTo print: ")
                 << (out / "all-sheets.html").string()
                 << (spanish ? "\nClaves de respuestas: " : "\nAnswer keys: ")
                 << (out / "all-keys.html").string() << '\n';
    return ExitCode::done;
  }

 private:
  std::vector<std::string> parts_;
  std::string out_;
};

}  // namespace

std::unique_ptr<Command> make_join_command() {
  return std::make_unique<JoinCommand>();
}

}  // namespace footroom::cli
