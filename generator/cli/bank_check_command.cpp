#include <algorithm>

#include "cli/command.hpp"
#include "cli/failure.hpp"
#include "cli/options.hpp"
#include "quiz/check.hpp"

namespace footroom::cli {
namespace {

constexpr std::uint64_t most_draws = 1'000'000;

class BankCheckCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("ids", ids_, "only these items; see footroom bank list")->type_name("[ID...]");
    add_text_option(app, "--draws", draws_, "N", "questions tried in each unit system (1000)");
    add_text_option(app, "--seed", seed_, "N", "other draws (1)");
    add_text_option(app, "--rules", rules_, "NAME", "rule set (us-construction)");
    folders_.declare_bank(app);
  }

  ExitCode run(Terminal& terminal) override {
    quiz::CheckSettings how;
    how.draws = static_cast<int>(whole_number("--draws", draws_, 1, most_draws));
    how.seed = choose_seed(seed_);
    const auto [bank, sound] = read_bank_reporting(folders_.bank(), terminal.err);
    how.rules = find_rules(bank, rules_).id;
    refuse_unknown_ids(bank);

    std::size_t items = 0;
    std::size_t defects = 0;
    for (const auto& item : bank.items) {
      if (!ids_.empty() && std::find(ids_.begin(), ids_.end(), item.id) == ids_.end()) continue;
      ++items;
      for (const auto& defect : quiz::check_item(bank, item, how).defects) {
        ++defects;
        terminal.err << defect.text() << '\n';
      }
    }
    terminal.out << "items checked: " << items << ", defects found in draws: " << defects
                 << (sound ? "" : "; files above could not be read") << '\n';
    return sound && defects == 0 ? ExitCode::done : ExitCode::input_faulty;
  }

 private:
  void refuse_unknown_ids(const bank::Bank& bank) const {
    for (const auto& id : ids_) find_item(bank, id);
  }

  std::vector<std::string> ids_;
  std::string draws_ = "1000";
  std::string seed_ = "1";
  std::string rules_ = "us-construction";
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_bank_check_command() {
  return std::make_unique<BankCheckCommand>();
}

}  // namespace footroom::cli
