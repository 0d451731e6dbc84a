#include <regex>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/progress.hpp"
#include "engine/catalogue.hpp"
#include "tasks/failure.hpp"
#include "tasks/manual.hpp"
#include "tasks/output_folder.hpp"

namespace footroom::cli {
namespace {

bool is_manual_file(const std::string& path) {
  static const std::regex ours("manual\\.(md|html)|figures/[a-z-]+\\.svg");
  return std::regex_match(path, ours);
}

class ManualCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    add_text_option(app, "--out", out_, "DIR", "the folder to write");
    style_.declare(app);
    add_text_option(app, "--rules", rules_, "RULE-SET", "rule set of the limits (us-construction)");
    folders_.declare_bank(app);
    folders_.declare_templates(app);
  }

  ExitCode run(Terminal& terminal) override {
    if (out_.empty())
      throw Failure(ExitCode::wrong_command_line, "--out: is missing, expected a folder to write");
    const auto bank = read_bank_reporting(folders_.bank(), terminal.err).bank;
    const auto templates = read_templates(folders_.templates());
    Progress progress(terminal, style_.style().language,
                      {"calculations worked out", "cálculos resueltos"},
                      engine::catalogue().size());
    const auto manual = make_manual(find_rules(bank, rules_), style_.system(), style_.style(),
                                    [&](std::size_t done) { progress.tell(done); });
    progress.clear();
    OutputFolder out(out_, is_manual_file);
    out.folder("figures");
    out.write("manual.md", render::manual_markdown(templates, manual));
    out.write("manual.html", render::manual_html(templates, manual));
    for (const auto& entry : manual.entries)
      if (entry.drawing)
        out.write("figures/" + entry.id + ".svg", render::svg_file(*entry.drawing));
    out.publish();
    return ExitCode::done;
  }

 private:
  std::string out_;
  StyleOptions style_;
  std::string rules_ = "us-construction";
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_manual_command() {
  return std::make_unique<ManualCommand>();
}

}  // namespace footroom::cli
