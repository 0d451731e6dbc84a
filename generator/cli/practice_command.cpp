#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <stdexcept>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/practice_terminal.hpp"
#include "cli/surroundings.hpp"
#include "page/page_data.hpp"
#include "practice/result_file.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/practice_page.hpp"

namespace footroom::cli {
namespace {

namespace fs = std::filesystem;

class PracticeCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    add_text_option(app, "--out", out_, "FILE",
                    "the page to write; with --terminal, the practice to save as JSON");
    app.add_flag("--terminal", terminal_, "practises here, line by line");
    add_text_option(app, "--levels", levels_, "N,...", "terminal: only these levels");
    add_text_option(app, "--seed", seed_, "N", "terminal: asks the same questions again");
    add_text_option(app, "--name", name_, "NAME", "terminal: name or identity to save with");
    add_text_option(app, "--progress", progress_, "FILE",
                    "terminal: goes on from there, and keeps there what is to return");
    add_text_option(app, "--course", course_, "COURSE",
                    "asks what this course plan teaches, by week");
    add_text_option(app, "--topics", topics_, "TOPIC,...", "only these topics of the bank");
    style_.declare(app);
    add_text_option(app, "--rules", rules_, "NAME", "rule set (us-construction)");
    folders_.declare_bank(app);
    folders_.declare_templates(app);
    app.footer(
        "Writes one file that works on a phone without a network: questions without end, marked\n"
        "at once, with worked steps, and a bench to try falls on. --units and --language are "
        "those\n"
        "it begins with; the student can change both. It keeps progress in the browser, and saves "
        "a\n"
        "practice as a file that footroom grade takes. With --terminal it asks the same questions\n"
        "here.");
  }

  ExitCode run(Terminal& terminal) override {
    if (!terminal_) refuse_terminal_options();
    if (!terminal_ && out_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "--out: is missing, expected FILE.html (or practise here with --terminal)");
    if (!out_.empty() && fs::path(out_).filename().empty())
      throw Failure(ExitCode::wrong_command_line, "--out: names no file");
    page::PageSettings settings;
    settings.face = {style_.system(), style_.style()};
    settings.program = program_name();
    const bank::Bank bank = read_sound_bank(folders_.bank(), terminal.err);
    settings.rules = find_rules(bank, rules_).id;
    if (!topics_.empty()) settings.topics = checked_topics(bank);
    if (!course_.empty()) add_course(bank, settings);
    if (terminal_) return practise_here(bank, settings, terminal);
    write_whole_file(out_,
                     practice_page(bank, folders_.templates(), practice_core_folder(), settings));
    return ExitCode::done;
  }

 private:
  void refuse_terminal_options() const {
    for (const auto& [option, text] :
         {std::pair{"--levels", &levels_}, std::pair{"--seed", &seed_}, std::pair{"--name", &name_},
          std::pair{"--progress", &progress_}})
      if (!text->empty())
        throw Failure(ExitCode::wrong_command_line, std::string(option) + ": needs --terminal");
  }

  ExitCode practise_here(const bank::Bank& bank, const page::PageSettings& settings,
                         Terminal& terminal) const {
    const std::uint64_t seed =
        seed_.empty() ? random_seed() : whole_number("--seed", seed_, 0, practice::greatest_seed);
    practice::Choice choice{settings.topics, {}};
    if (!levels_.empty())
      for (const std::string& level : split_at_commas(levels_))
        choice.levels.push_back(static_cast<int>(whole_number("--levels", level, 1, 4)));
    const practice::Sitting sitting(bank, settings.rules);
    practice::Progress progress = kept_progress(sitting, terminal);
    if (progress.open && progress.open->answered) sitting.begin_anew(progress);
    try {
      practise_in_terminal(sitting, progress, choice, settings.face, seed, std::cin, terminal.out,
                           ::isatty(STDIN_FILENO) == 0);
    } catch (const practice::CannotAsk& cannot) {
      throw Failure(ExitCode::input_faulty, cannot.what());
    }
    if (!progress_.empty()) write_whole_file(progress_, practice::text_of(progress) + "\n");
    if (!out_.empty() && !progress.sitting.empty())
      write_whole_file(out_, practice::result_json({progress, name_, today(), program_name()}));
    return ExitCode::done;
  }

  practice::Progress kept_progress(const practice::Sitting& sitting, Terminal& terminal) const {
    std::error_code ignored;
    if (progress_.empty() || !fs::exists(progress_, ignored)) return sitting.begin();
    if (auto kept = practice::read_progress(file_text(progress_), sitting.bank(), sitting.rules()))
      return *kept;
    terminal.err << progress_
                 << ": belongs to another question bank or rule set, or is no progress; practice "
                    "begins anew\n";
    return sitting.begin();
  }

  std::vector<std::string> checked_topics(const bank::Bank& bank) const {
    std::vector<std::string> known;
    for (const bank::Topic& topic : bank.topics) known.push_back(topic.id);
    const auto topics = split_at_commas(topics_);
    for (const std::string& topic : topics)
      if (std::find(known.begin(), known.end(), topic) == known.end())
        throw Failure(ExitCode::wrong_command_line, "--topics: the bank has no topic \"" + topic +
                                                        "\"" + did_you_mean(topic, known));
    return topics;
  }

  void add_course(const bank::Bank& bank, page::PageSettings& settings) const {
    const bank::Course& course = find_course(bank, "--course", course_);
    if (!tasks::add_course(course, settings))
      throw Failure(ExitCode::wrong_command_line,
                    "--topics: the course plan " + course.id + " teaches none of them");
  }

  std::string out_;
  bool terminal_ = false;
  std::string levels_;
  std::string seed_;
  std::string name_;
  std::string progress_;
  std::string course_;
  std::string topics_;
  std::string rules_ = "us-construction";
  StyleOptions style_;
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_practice_command() {
  return std::make_unique<PracticeCommand>();
}

}  // namespace footroom::cli
