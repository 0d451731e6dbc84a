#include <filesystem>
#include <optional>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "figure/plot.hpp"
#include "render/render.hpp"
#include "tasks/calc_case.hpp"
#include "tasks/calc_plot.hpp"
#include "tasks/failure.hpp"
#include "tasks/output_folder.hpp"

namespace footroom::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view arrest_id = "arrest-in-time";
constexpr std::string_view clearance_id = "clearance-against-slack";

const engine::Calculation& calculation(std::string_view id) {
  return *engine::find_calculation(id);
}

class PlotCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("plot", plot_, "arrest-in-time or clearance-against-slack")->type_name("PLOT");
    app.add_option("values", words_, "its inputs by name, with units")->type_name("NAME=VALUE...");
    add_text_option(app, "--out", out_, "FILE.svg", "the file to write");
    style_.declare(app);
    add_text_option(app, "--rules", rules_, "RULE-SET", "rule set of the limits (us-construction)");
    folders_.declare_bank(app);
    app.footer(
        "arrest-in-time takes what footroom calc arrest-in-time takes.\n"
        "clearance-against-slack takes what edge-fall and clearance take, but free-fall, which "
        "follows;\nits slack is the largest one drawn.\n\nFor instance:\n"
        "  footroom plot clearance-against-slack slope-length=\"16 ft\" pitch=6:12 "
        "d-ring-height=\"5 ft\" \\\n    slack=\"8 ft\" datum=below-d-ring body-below=\"5 ft\" "
        "--out "
        "slack.svg");
  }

  ExitCode run(Terminal& terminal) override {
    if (plot_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "PLOT: is missing, expected arrest-in-time or clearance-against-slack");
    if (plot_ != arrest_id && plot_ != clearance_id)
      throw Failure(ExitCode::wrong_command_line,
                    plot_ + ": is no plot" +
                        did_you_mean(plot_, {std::string(arrest_id), std::string(clearance_id)}));
    if (fs::path(out_).filename().empty())
      throw Failure(ExitCode::wrong_command_line, "--out: names no file, expected FILE.svg");
    const bank::Bank bank = read_bank_reporting(folders_.bank(), terminal.err).bank;
    const bank::RuleSet& rules = find_rules(bank, rules_);
    const auto plot = plot_ == arrest_id ? arrest(rules) : clearance(rules);
    write_whole_file(out_, render::svg_file(figure::draw_plot(plot)));
    return ExitCode::done;
  }

 private:
  CalcCase read(std::string_view id, const std::vector<std::string>& words,
                const bank::RuleSet& rules) const {
    return read_case(calculation(id), words, style_.system(), style_.style(),
                     [&]() -> const bank::RuleSet& { return rules; });
  }

  CalcSetting setting(const bank::RuleSet& rules) const {
    return {style_.system(), style_.style(), rules};
  }

  figure::Plot arrest(const bank::RuleSet& rules) const {
    const CalcCase given = read(arrest_id, words_, rules);
    run_case(given);  // refuses in the units that were typed
    return plot_over_time(given, setting(rules), Names::whole);
  }

  figure::Plot clearance(const bank::RuleSet& rules) const {
    const auto& fall = calculation("edge-fall");
    const auto& room = calculation("clearance");
    std::vector<std::string> of_fall;
    std::vector<std::string> of_room{"free-fall=0 m"};
    for (const std::string& word : words_) {
      const std::string name = word.substr(0, word.find('='));
      if (name == "free-fall")
        throw Failure(ExitCode::wrong_command_line,
                      "free-fall: follows from the slack, and is not given");
      const bool falls = fall.find_input(name) != nullptr;
      if (falls) of_fall.push_back(word);
      if (!falls || room.find_input(name)) of_room.push_back(word);
    }
    const CalcCase given_fall = read("edge-fall", of_fall, rules);
    const CalcCase given_room = read("clearance", of_room, rules);
    auto plot = plot_against_slack(given_fall, given_room, setting(rules), Names::whole,
                                   {engine::Language::english, style_.style().decimal_mark});
    if (const auto* declined = std::get_if<Declined>(&plot))
      throw Failure(ExitCode::input_faulty, declined->input + ": " + declined->reason);
    return std::get<figure::Plot>(std::move(plot));
  }

  std::string plot_;
  std::vector<std::string> words_;
  std::string out_;
  std::string rules_ = "us-construction";
  StyleOptions style_;
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_plot_command() {
  return std::make_unique<PlotCommand>();
}

}  // namespace footroom::cli
