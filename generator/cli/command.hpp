#pragma once
#include <CLI/CLI.hpp>
#include <memory>
#include <ostream>
#include <string_view>
#include <vector>

#include "tasks/exit_codes.hpp"

namespace footroom::cli {

using namespace tasks;  // a command asks for tasks

struct Terminal {
  std::ostream& out;
  std::ostream& err;
  bool watched = false;  ///< somebody sees `err` on a screen
};

class Command {
 public:
  virtual ~Command() = default;
  /// Binds options and positional words to members. Options take text; what it means is checked
  /// in run(), with our own words.
  virtual void declare(CLI::App& app) = 0;
  /// Throws Failure.
  virtual ExitCode run(Terminal& terminal) = 0;
};

/// The one table that dispatch, help and spelling read.
struct CommandRow {
  std::string_view name;  ///< one word, or two: "bank check"
  std::string_view summary;
  std::unique_ptr<Command> (*make)();
};
const std::vector<CommandRow>& all_commands();

std::unique_ptr<Command> make_quiz_command();
std::unique_ptr<Command> make_join_command();
std::unique_ptr<Command> make_practice_command();
std::unique_ptr<Command> make_grade_command();
std::unique_ptr<Command> make_statistics_command();
std::unique_ptr<Command> make_export_qti_command();
std::unique_ptr<Command> make_export_csv_command();
std::unique_ptr<Command> make_desk_command();
std::unique_ptr<Command> make_calc_command();
std::unique_ptr<Command> make_plot_command();
std::unique_ptr<Command> make_manual_command();
std::unique_ptr<Command> make_bank_check_command();
std::unique_ptr<Command> make_bank_coverage_command();
std::unique_ptr<Command> make_bank_list_command();
std::unique_ptr<Command> make_bank_show_command();
std::unique_ptr<Command> make_course_list_command();
std::unique_ptr<Command> make_course_show_command();

}  // namespace footroom::cli
