#include "cli/command.hpp"
#include "cli/options.hpp"
#include "tasks/coverage.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/output_folder.hpp"

namespace footroom::cli {
namespace {

constexpr std::string_view begin_mark = "<!-- coverage: begin -->\n";
constexpr std::string_view end_mark = "<!-- coverage: end -->";

/// `text` with what stands between the marks replaced.
std::string replaced_between_marks(std::string text, const std::string& file,
                                   const std::string& by) {
  const auto begin = text.find(begin_mark);
  const auto end = begin == text.npos ? text.npos : text.find(end_mark, begin);
  if (end == text.npos)
    throw Failure(ExitCode::input_faulty, file +
                                              ": has no lines \"<!-- coverage: begin -->\" and "
                                              "\"<!-- coverage: end -->\" to write between");
  const auto from = begin + begin_mark.size();
  return text.replace(from, end - from, by);
}

class BankCoverageCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    add_text_option(app, "--into", into_, "FILE",
                    "rewrites the tables in this file, between its coverage marks");
    folders_.declare_bank(app);
  }

  ExitCode run(Terminal& terminal) override {
    const auto [bank, sound] = read_bank_reporting(folders_.bank(), terminal.err);
    const std::string tables = to_markdown(coverage_of(bank, engine::Language::english));
    if (into_.empty())
      terminal.out << tables;
    else
      write_whole_file(into_, replaced_between_marks(file_text(into_), into_, tables));
    return sound ? ExitCode::done : ExitCode::input_faulty;
  }

 private:
  std::string into_;
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_bank_coverage_command() {
  return std::make_unique<BankCoverageCommand>();
}

}  // namespace footroom::cli
