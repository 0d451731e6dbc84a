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
#include "page/page_file.hpp"
#include "practice/result_file.hpp"
#include "render/practice_view.hpp"
#include "render/templates.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/output_folder.hpp"

namespace footroom::cli {
namespace {

namespace fs = std::filesystem;

/// Where core.js and core.wasm are: installed, or else, unless it is built for a package, where
/// they were built.
fs::path core_folder() {
  std::error_code ignored;
  const fs::path installed = installed_data_folder() / "page";
  if (fs::is_directory(installed, ignored)) return installed;
  const fs::path built = FOOTROOM_PAGE_FOLDER;
  if (!built.empty() && fs::exists(built / "core.wasm", ignored)) return built;
  throw Failure(ExitCode::cannot_read_or_write,
                ((built.empty() ? installed : built) / "core.wasm").string() +
                    ": is not there; build it with: cmake --build BUILD --target practice-page");
}

/// The words of the page: its own, and those that the core says.
render::Labels practice_labels(const fs::path& templates) {
  try {
    const render::Labels shared =
        render::read_labels(templates / "labels.xml", render::labels_of_practice());
    render::Labels labels = render::read_labels(templates / "practice" / "labels.xml", {});
    for (const std::string& id : render::labels_of_practice())
      if (!labels.add(id, shared.at(id, engine::Language::english),
                      shared.at(id, engine::Language::spanish)))
        throw std::runtime_error((templates / "practice" / "labels.xml").string() + ": label \"" +
                                 id + "\" stands in labels.xml too");
    return labels;
  } catch (const std::runtime_error& fault) {
    throw Failure(ExitCode::cannot_read_or_write, fault.what());
  }
}

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
    const fs::path templates = folders_.templates();
    const fs::path core = core_folder();
    const fs::path own = templates / "practice";
    const std::string data = page::page_data(bank, practice_labels(templates), settings);
    try {
      write_whole_file(
          out_,
          page::page_file({file_text(own / "page.html"), file_text(own / "page.css"),
                           file_text(own / "page.js"), file_text(core / "core.js"),
                           file_text(core / "core.wasm"), file_text(core / "notices.txt"), data}));
    } catch (const std::runtime_error& fault) {
      if (dynamic_cast<const Failure*>(&fault)) throw;
      throw Failure(ExitCode::cannot_read_or_write, own.string() + ": " + fault.what());
    }
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

  /// Each week offers what was taught up to it; topics that the plan never teaches stay out.
  void add_course(const bank::Bank& bank, page::PageSettings& settings) const {
    const bank::Course& course = find_course(bank, "--course", course_);
    settings.course = course.title;
    std::vector<std::string> taught;
    for (const bank::Week& week : course.weeks) {
      for (const bank::NewTopic& topic : week.topics)
        if (settings.topics.empty() || std::find(settings.topics.begin(), settings.topics.end(),
                                                 topic.topic) != settings.topics.end())
          taught.push_back(topic.topic);
      if (!taught.empty()) settings.weeks.push_back({week.number, taught});
    }
    if (taught.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "--topics: the course plan " + course.id + " teaches none of them");
    settings.topics = taught;
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
