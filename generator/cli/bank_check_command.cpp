#include <algorithm>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/progress.hpp"
#include "quiz/check.hpp"
#include "tasks/failure.hpp"
#include "tasks/in_order.hpp"

namespace footroom::cli {
namespace {

constexpr std::uint64_t most_draws = 1'000'000;
constexpr std::uint64_t most_jobs = 256;

class BankCheckCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("ids", ids_, "only these items; see footroom bank list")->type_name("[ITEM...]");
    add_text_option(app, "--draws", draws_, "N", "questions tried in each unit system (2000)");
    add_text_option(app, "--seed", seed_, "N", "other draws (1)");
    add_text_option(app, "--rules", rules_, "RULE-SET", "rule set (us-construction)");
    add_text_option(app, "--jobs", jobs_, "N", "items checked at the same time (the processors)");
    app.add_flag("--quiet", quiet_, "does not tell how far it has come");
    folders_.declare_bank(app);
  }

  ExitCode run(Terminal& terminal) override {
    quiz::CheckSettings how;
    how.draws = static_cast<int>(whole_number("--draws", draws_, 1, most_draws));
    how.seed = choose_seed(seed_);
    const CheckedBank checked = read_bank_reporting(folders_.bank(), terminal.err);
    const bank::Bank& bank = checked.bank;
    how.rules = find_rules(bank, rules_).id;
    refuse_unknown_ids(bank);

    std::vector<const bank::Item*> items;
    for (const auto& item : bank.items)
      if (ids_.empty() || std::find(ids_.begin(), ids_.end(), item.id) != ids_.end())
        items.push_back(&item);
    const std::size_t jobs =
        jobs_.empty() ? processors() : whole_number("--jobs", jobs_, 1, most_jobs);

    std::vector<std::vector<bank::Defect>> found(items.size());
    std::size_t defects = 0;
    Terminal shown{terminal.out, terminal.err, terminal.watched && !quiet_};
    Progress progress(shown, engine::Language::english, {"items checked", "preguntas revisadas"},
                      items.size());
    work_in_order(
        items.size(), jobs,
        [&](std::size_t i) { found[i] = quiz::check_item(bank, *items[i], how).defects; },
        [&](std::size_t i) {
          if (!found[i].empty()) progress.clear();
          for (const auto& defect : found[i]) terminal.err << defect.text() << '\n';
          defects += found[i].size();
          progress.tell(i + 1);
        });
    progress.clear();
    terminal.out << "items checked: " << items.size() << ", defects found in draws: " << defects
                 << (checked.sound ? "" : "; files above could not be read") << '\n';
    return checked.sound && defects == 0 ? ExitCode::done : ExitCode::input_faulty;
  }

 private:
  void refuse_unknown_ids(const bank::Bank& bank) const {
    for (const auto& id : ids_) find_item(bank, id);
  }

  std::vector<std::string> ids_;
  std::string draws_ = "2000";
  std::string seed_ = "1";
  std::string rules_ = "us-construction";
  std::string jobs_;
  bool quiet_ = false;
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_bank_check_command() {
  return std::make_unique<BankCheckCommand>();
}

}  // namespace footroom::cli
