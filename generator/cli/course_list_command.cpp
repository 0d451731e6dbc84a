#include "cli/command.hpp"
#include "cli/options.hpp"
#include "tasks/text.hpp"

namespace footroom::cli {
namespace {

class CourseListCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    add_text_option(app, "--language", language_, "en|es", "English or Spanish (en)");
    folders_.declare_bank(app);
  }

  ExitCode run(Terminal& terminal) override {
    const auto language = choose_language(language_);
    const auto [bank, sound] = read_bank_reporting(folders_.bank(), terminal.err);
    std::vector<std::vector<std::string>> rows;
    for (const auto& [id, course] : bank.courses)
      rows.push_back({id, in_language(course.title, language)});
    terminal.out << table(rows);
    return sound ? ExitCode::done : ExitCode::input_faulty;
  }

 private:
  std::string language_ = "en";
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_course_list_command() {
  return std::make_unique<CourseListCommand>();
}

}  // namespace footroom::cli
