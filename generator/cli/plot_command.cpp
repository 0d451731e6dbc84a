#include <filesystem>
#include <optional>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "figure/plot.hpp"
#include "render/render.hpp"
#include "tasks/calc_case.hpp"
#include "tasks/calc_page.hpp"
#include "tasks/failure.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/text.hpp"

namespace footroom::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view arrest_id = "arrest-in-time";
constexpr std::string_view clearance_id = "clearance-against-slack";

const engine::Calculation& calculation(std::string_view id) {
  return *engine::find_calculation(id);
}

engine::Values values_of(const CalcCase& given) {
  engine::Values values;
  for (const auto& [name, shown] : given.inputs) values.emplace(name, shown.value);
  return values;
}

engine::ArrestInTimeCase arrest_case(const CalcCase& given) {
  const auto put = [&](auto& field, std::string_view name) {
    const auto& value = given.inputs.find(name)->second.value;
    field =
        std::remove_reference_t<decltype(field)>::from_value(std::get<engine::Quantity>(value).si);
  };
  engine::ArrestInTimeCase c{};
  put(c.mass, "mass");
  put(c.free_fall, "free-fall");
  put(c.stiffness, "stiffness");
  put(c.absorber_force, "absorber-force");
  put(c.maximum_elongation, "maximum-elongation");
  put(c.damping_ratio, "damping-ratio");
  put(c.slide_distance, "slide-distance");
  put(c.pitch, "pitch");
  put(c.roof_friction, "roof-friction");
  put(c.edge_friction, "edge-friction");
  put(c.edge_angle, "edge-angle");
  return c;
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

  /// The limit of the rule set with its citation, if it has one in these units.
  std::vector<figure::PlotLimit> limits(const bank::RuleSet& rules, std::string_view id,
                                        engine::Dimension dimension) const {
    const auto found = rules.limits.find(id);
    if (found == rules.limits.end()) return {};
    const bank::Limit& limit = found->second;
    const std::string& text = style_.system() == notation::System::us ? limit.us : limit.si;
    const auto read = notation::read_quantity(text, dimension);
    const auto* quantity = std::get_if<notation::ReadQuantity>(&read);
    if (!quantity) return {};
    const auto language = style_.style().language;
    std::string name = in_language(limit.name, language) + " (" + limit.citation;
    if (limit.status != "read") name += ", " + std::string(status_text(limit.status).in(language));
    return {{name + ")", quantity->quantity.si}};
  }

  figure::Plot arrest(const bank::RuleSet& rules) const {
    const CalcCase given = read(arrest_id, words_, rules);
    run_case(given);  // refuses in the units that were typed
    return figure::arrest_plot(arrest_case(given),
                               limits(rules, "arrest-force", engine::dimension::force),
                               style_.system(), style_.style());
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
    run_case(given_fall);
    run_case(given_room);
    figure::ClearanceAgainstSlack c;
    c.edge_fall = values_of(given_fall);
    c.clearance = values_of(given_room);
    c.largest_slack = std::get<engine::Quantity>(c.edge_fall.at("slack")).si;
    if (!(c.largest_slack > 0))
      throw Failure(ExitCode::input_faulty,
                    "slack: is the largest one drawn, expected more than 0");
    c.free_fall_limits = limits(rules, "free-fall", engine::dimension::length);
    try {
      return figure::clearance_plot(c, style_.system(), style_.style());
    } catch (const engine::Refusal& refusal) {
      throw Failure(ExitCode::input_faulty, refusal.quantity + ": " + refusal.reason);
    }
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
