#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/surroundings.hpp"
#include "quiz/maker.hpp"
#include "render/render.hpp"
#include "tasks/failure.hpp"

namespace footroom::cli {
namespace {

class BankShowCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("id", id_, "an item; see footroom bank list")->type_name("ITEM");
    add_text_option(app, "--seed", seed_, "N", "shows the same numbers again");
    style_.declare(app);
    add_text_option(app, "--rules", rules_, "RULE-SET", "rule set (us-construction)");
    folders_.declare_bank(app);
    folders_.declare_templates(app);
  }

  ExitCode run(Terminal& terminal) override {
    if (id_.empty())
      throw Failure(ExitCode::wrong_command_line, "ITEM: is missing; see footroom bank list");
    quiz::Settings settings;
    settings.seed = choose_seed(seed_);
    settings.system = style_.system();
    settings.style = style_.style();
    settings.date = today();
    settings.program = program_name();
    auto [bank, sound] = read_bank_reporting(folders_.bank(), terminal.err);
    settings.rules = find_rules(bank, rules_).id;
    const bank::Item item = find_item(bank, id_);
    const bank::Blueprint only{
        item.id, item.title, {}, item.minutes, true, {{item.topic, 1, {}, item.at}}, item.at};
    bank.items = {item};
    const auto templates = read_templates(folders_.templates());
    const quiz::Maker maker(bank, only, settings);
    terminal.out << render::markdown(templates, maker.header(), maker.sheet(0), render::Face::key);
    return sound ? ExitCode::done : ExitCode::input_faulty;
  }

 private:
  std::string id_;
  std::string seed_;
  StyleOptions style_;
  std::string rules_ = "us-construction";
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_bank_show_command() {
  return std::make_unique<BankShowCommand>();
}

}  // namespace footroom::cli
