#include <optional>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "tasks/calc_case.hpp"
#include "tasks/calc_page.hpp"
#include "tasks/failure.hpp"

namespace footroom::cli {
namespace {

class CalcCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("id", id_, "a calculation; see --list")->type_name("CALCULATION");
    app.add_option("values", words_, "its inputs by name, with units")->type_name("NAME=VALUE...");
    app.add_flag("--list", list_, "the calculations, or with CALCULATION its inputs and outputs")
        ->disable_flag_override();
    app.add_flag("--json", json_, "JSON instead of a page")->disable_flag_override();
    style_.declare(app);
    add_text_option(app, "--rules", rules_, "RULE-SET",
                    "rule set of limits that are not given (us-construction)");
    folders_.declare_bank(app);
    app.footer(
        "For instance:\n"
        "  footroom calc edge-fall slope-length=\"16 ft\" pitch=6:12 d-ring-height=\"5 ft\" "
        "slack=\"4 ft\"\n"
        "Values may be written 4 ft, 4' 6\", 4 ft 6 in, 1.4 m, 220 lbf, 8 kN, 6:12, 26.57 deg.");
  }

  ExitCode run(Terminal& terminal) override {
    if (list_) return list(terminal);
    if (id_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "CALCULATION: is missing; see footroom calc --list");
    std::optional<bank::Bank> bank;
    const auto find = [&]() -> const bank::RuleSet& {
      if (!bank) bank = read_bank_reporting(folders_.bank(), terminal.err).bank;
      return find_rules(*bank, rules_);
    };
    const auto given = read_case(find_calculation(), words_, style_.system(), style_.style(), find);
    const auto outputs = run_case(given);
    if (json_)
      terminal.out << calc_json(given, outputs).dump(2) << '\n';
    else
      terminal.out << calc_page(given, outputs);
    return ExitCode::done;
  }

 private:
  const engine::Calculation& find_calculation() const {
    if (const auto* found = engine::find_calculation(id_)) return *found;
    std::vector<std::string> ids;
    for (const auto* calculation : engine::catalogue()) ids.emplace_back(calculation->id);
    throw Failure(ExitCode::wrong_command_line,
                  id_ + ": is no calculation" + did_you_mean(id_, ids));
  }

  ExitCode list(Terminal& terminal) const {
    const auto listed = id_.empty() ? engine::catalogue() : std::vector{&find_calculation()};
    if (json_)
      terminal.out << catalogue_json(listed, style_.system(), style_.style()).dump(2) << '\n';
    else if (id_.empty())
      terminal.out << catalogue_page(style_.style());
    else
      terminal.out << calculation_page(*listed.front(), style_.system(), style_.style());
    return ExitCode::done;
  }

  std::string id_;
  std::vector<std::string> words_;
  bool list_ = false;
  bool json_ = false;
  StyleOptions style_;
  std::string rules_ = "us-construction";
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_calc_command() {
  return std::make_unique<CalcCommand>();
}

}  // namespace footroom::cli
