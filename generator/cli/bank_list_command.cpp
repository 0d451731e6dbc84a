#include "cli/command.hpp"
#include "cli/options.hpp"
#include "tasks/coverage.hpp"
#include "tasks/text.hpp"

namespace footroom::cli {
namespace {

class BankListCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    add_text_option(app, "--language", language_, "en|es", "English or Spanish (en)");
    folders_.declare_bank(app);
  }

  ExitCode run(Terminal& terminal) override {
    const auto language = choose_language(language_);
    const auto [bank, sound] = read_bank_reporting(folders_.bank(), terminal.err);
    std::vector<std::vector<std::string>> rows;
    for (const auto& topic : bank.topics)
      for (const auto& item : bank.items)
        if (item.topic == topic.id)
          rows.push_back({topic.id, item.id, std::to_string(item.level),
                          std::string(kind_name(item.kind)), in_language(item.title, language)});
    const Coverage coverage = coverage_of(bank, language);
    terminal.out << table(rows) << '\n'
                 << table(coverage.by_topic) << '\n'
                 << table(coverage.by_training);
    return sound ? ExitCode::done : ExitCode::input_faulty;
  }

 private:
  std::string language_ = "en";
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_bank_list_command() {
  return std::make_unique<BankListCommand>();
}

}  // namespace footroom::cli
