#include <array>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/text.hpp"

namespace footroom::cli {
namespace {

/// In the order of bank::Kind, as item files write it.
constexpr std::array<const char*, 5> kinds{"number", "one-of", "several-of", "order", "verdict"};

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
                          kinds.at(static_cast<std::size_t>(item.kind)),
                          in_language(item.title, language)});
    terminal.out << table(rows);
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
