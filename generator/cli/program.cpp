#include "cli/program.hpp"

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <system_error>

#include "bank/read.hpp"
#include "cli/names.hpp"
#include "cli/options.hpp"
#include "cli/record.hpp"
#include "cli/surroundings.hpp"
#include "quiz/maker.hpp"
#include "tasks/failure.hpp"
#include "tasks/text.hpp"
#include "tasks/unfinished.hpp"

namespace footroom::cli {
namespace {

/// A command's help, from what it declared.
class Help : public CLI::FormatterBase {
 public:
  std::string make_help(const CLI::App* app, std::string, CLI::AppFormatMode) const override {
    std::string use = "Use: " + app->get_name();
    std::string words;
    std::string options;
    for (const CLI::Option* option : app->get_options()) {
      const bool positional = option->get_positional();
      if (positional) use += " " + option->get_type_name();
      const std::string left = positional ? option->get_type_name() : left_side(*option);
      (positional ? words : options) +=
          "  " + padded(left, 26) + "  " + option->get_description() + "\n";
    }
    use += " [OPTION]...\n\n";
    if (!words.empty()) words += "\n";
    const std::string footer = app->get_footer();
    return app->get_description() + "\n\n" + use + words + "Options:\n" + options +
           (footer.empty() ? "" : "\n" + footer + "\n");
  }

 private:
  static std::string left_side(const CLI::Option& option) {
    const bool flag = option.get_expected_max() == 0;
    return "--" + option.get_lnames().front() + (flag ? "" : " " + option.get_type_name());
  }
};

std::vector<std::string> command_names() {
  std::vector<std::string> names;
  for (const auto& row : all_commands()) names.emplace_back(row.name);
  return names;
}

std::string program_help() {
  std::string all =
      "Footroom writes fall-protection quizzes: a different sheet for each seat, and its worked "
      "key.\n\nUse: footroom COMMAND [OPTION]...\n\nCommands:\n";
  for (const auto& row : all_commands())
    all += "  " + padded(std::string(row.name), 19) + "  " + std::string(row.summary) + "\n";
  return all +
         "\nfootroom COMMAND --help tells more about a command.\n"
         "footroom --version tells the version and the digest of the question bank.\n\n"
         "Exit codes: 0 done, 1 input faulty, 2 wrong command line, 3 cannot read or write,\n"
         "70 fault of ours.\n";
}

/// What CLI11 found wrong, in our words. Options take text and the last one counts, so a value that
/// is missing and a flag with a value are all that can be wrong here.
Failure worded(const CLI::App& app, const CLI::ParseError& error) {
  const std::string what = error.what();
  std::string name = what.substr(0, what.find_first_of(": "));
  if (!name.starts_with("--")) name.insert(0, "--");  // CLI11 names flags without
  const auto* option = app.get_option_no_throw(name);
  if (!option) return {ExitCode::wrong_command_line, what};
  if (option->get_expected_max() == 0)
    return {ExitCode::wrong_command_line, name + ": takes no value"};
  return {ExitCode::wrong_command_line, name + ": needs a value, " + option->get_type_name()};
}

Failure unexpected(const CLI::App& app, const std::string& word) {
  const std::string option = word.substr(0, word.find('='));
  if (!word.starts_with('-'))
    return {ExitCode::wrong_command_line,
            word + ": is one word too many; see " + app.get_name() + " --help"};
  std::vector<std::string> names;
  for (const auto* known : app.get_options())
    if (known->nonpositional()) names.push_back("--" + known->get_lnames().front());
  return {ExitCode::wrong_command_line,
          option + ": is no option of " + app.get_name() + did_you_mean(option, names)};
}

ExitCode run_command(const CommandRow& row, std::vector<std::string> words, Terminal& terminal) {
  CLI::App app(std::string(row.summary), "footroom " + std::string(row.name));
  app.formatter(std::make_shared<Help>());
  app.set_help_flag("--help", "this help");
  app.allow_extras();
  const auto command = row.make();
  command->declare(app);
  try {
    std::reverse(words.begin(), words.end());  // as CLI11 takes them
    app.parse(std::move(words));
  } catch (const CLI::CallForHelp&) {
    terminal.out << app.help();
    return ExitCode::done;
  } catch (const CLI::ParseError& error) {
    throw worded(app, error);
  }
  if (const auto extra = app.remaining(); !extra.empty()) throw unexpected(app, extra.front());
  return command->run(terminal);
}

ExitCode print_version(Terminal& terminal) {
  terminal.out << program_name() << '\n';
  std::filesystem::path folder;
  try {
    folder = FolderOptions().bank();
  } catch (const Failure&) {
    terminal.out << "no question bank was found\n";
    return ExitCode::done;
  }
  const auto checked = read_bank_reporting(folder, terminal.err);
  terminal.out << "bank " << checked.bank.digest << '\n';
  return checked.sound ? ExitCode::done : ExitCode::input_faulty;
}

ExitCode dispatch(const std::vector<std::string>& words, Terminal& terminal) {
  if (words.empty()) {
    terminal.err << program_help();
    return ExitCode::wrong_command_line;
  }
  if (words[0] == "--help") {
    terminal.out << program_help();
    return ExitCode::done;
  }
  if (words[0] == "--version") return print_version(terminal);
  if (words[0] == "--names") return print_names({words.begin() + 1, words.end()}, terminal);

  const std::string both = words.size() > 1 ? words[0] + " " + words[1] : words[0];
  std::string group;
  for (const auto& row : all_commands()) {
    if (row.name == words[0]) return run_command(row, {words.begin() + 1, words.end()}, terminal);
    if (row.name == both) return run_command(row, {words.begin() + 2, words.end()}, terminal);
    if (row.name.rfind(words[0] + " ", 0) == 0)
      group += "  " + padded(std::string(row.name), 19) + "  " + std::string(row.summary) + "\n";
  }
  if (!group.empty() && (words.size() == 1 || words[1] == "--help")) {
    const bool asked = words.size() > 1;
    (asked ? terminal.out : terminal.err)
        << "Use: footroom " << words[0] << " COMMAND [OPTION]...\n\nCommands:\n"
        << group;
    return asked ? ExitCode::done : ExitCode::wrong_command_line;
  }
  const std::string& wrong = group.empty() ? words[0] : both;
  throw Failure(ExitCode::wrong_command_line,
                wrong + ": is no command of footroom" + did_you_mean(wrong, command_names()));
}

ExitCode told(Terminal& terminal, ExitCode code, const std::string& message) {
  terminal.err << message << '\n';
  return code;
}

/// The only place where exceptions become exit codes.
ExitCode run_guarded(const std::vector<std::string>& words, Terminal& terminal) {
  try {
    return dispatch(words, terminal);
  } catch (const Interrupted&) {
    // Everything is cleaned up, and the signal ended the program before it came here, unless it is
    // handled in another way.
    return told(terminal, ExitCode::cannot_read_or_write, "interrupted");
  } catch (const Failure& failure) {
    return told(terminal, failure.code, failure.what());
  } catch (const quiz::CannotSwap& refusal) {
    return told(terminal, ExitCode::wrong_command_line, std::string("--swap: ") + refusal.what());
  } catch (const quiz::CannotMake& refusal) {
    return told(terminal, ExitCode::input_faulty, refusal.what());
  } catch (const records::Refused& refusal) {
    return told(terminal, ExitCode::input_faulty, refusal.what());
  } catch (const records::Unavailable& error) {
    return told(terminal, ExitCode::cannot_read_or_write, error.what());
  } catch (const std::filesystem::filesystem_error& error) {
    return told(terminal, ExitCode::cannot_read_or_write,
                error.path1().string() + ": " + error.code().message());
  } catch (const std::exception& error) {
    return told(
        terminal, ExitCode::fault_of_ours,
        std::string("footroom: this is a fault of the program, please report it: ") + error.what());
  }
}

}  // namespace

const std::vector<CommandRow>& all_commands() {
  static const std::vector<CommandRow> rows = {
      {"quiz", "Writes a quiz: a sheet and a worked key for each seat.", make_quiz_command},
      {"join", "Joins the parts of a quiz that several machines made.", make_join_command},
      {"practice", "Writes a page to practise with on a phone, or practises in the terminal.",
       make_practice_command},
      {"grade", "Grades a quiz or a practice: feedback, and a report on the class.",
       make_grade_command},
      {"statistics", "Tells how the items of graded quizzes did, and which need care.",
       make_statistics_command},
      {"export qti", "Writes a quiz for learning platforms, by the open standard QTI 3.0.",
       make_export_qti_command},
      {"export csv", "Writes the questions of a quiz with their answers as a table.",
       make_export_csv_command},
      {"desk", "Opens the whole week's work in the browser, on this machine alone.",
       make_desk_command},
      {"calc", "Works out one calculation, with steps and sources.", make_calc_command},
      {"plot", "Draws a force or a clearance as a curve, into an SVG file.", make_plot_command},
      {"manual", "Writes the reference manual of all calculations.", make_manual_command},
      {"bank check", "Tries every item of the question bank and names each defect.",
       make_bank_check_command},
      {"bank list", "Lists the items of the question bank, and what they cover.",
       make_bank_list_command},
      {"bank coverage", "Counts the items by topic, level, kind and training topic, in Markdown.",
       make_bank_coverage_command},
      {"bank show", "Shows a sample question of an item with its key.", make_bank_show_command},
      {"course list", "Lists the course plans of the question bank.", make_course_list_command},
      {"course show", "Shows a course plan week by week, and what the bank cannot fill.",
       make_course_show_command},
      {"record init", "Makes an empty store of training records.", make_record_init_command},
      {"record add-employer", "Adds an employer to the training records.",
       make_record_add_employer_command},
      {"record add-course", "Adds a course to the training records.",
       make_record_add_course_command},
      {"record set-policy", "Says which course an employer's people need, and how often.",
       make_record_set_policy_command},
      {"record add-person", "Adds a worker or a trainer.", make_record_add_person_command},
      {"record add-session", "Records a training session and who attended.",
       make_record_add_session_command},
      {"record add-results", "Records the graded results of a quiz.",
       make_record_add_results_command},
      {"record retrain", "Records that a person has to be trained again, and why.",
       make_record_retrain_command},
      {"record correct", "Corrects or withdraws an entry; the old one stays readable.",
       make_record_correct_command},
      {"record due", "Lists who has to be trained by a day.", make_record_due_command},
      {"record report", "Shows the training and the results of a person.",
       make_record_report_command},
      {"record certificate", "Prints certificates of training to sign, and records them.",
       make_record_certificate_command},
      {"record import", "Adds people or results from CSV or JSON.", make_record_import_command},
      {"record export", "Writes people or results as CSV or JSON.", make_record_export_command},
      {"record verify", "Checks that no entry was changed from outside, and prints the head.",
       make_record_verify_command},
      {"record backup", "Copies the store to a file while it is in use.",
       make_record_backup_command},
      {"record restore", "Makes a store from a backup.", make_record_restore_command},
      {"record erase", "Erases the personal data of a person on request.",
       make_record_erase_command},
  };
  return rows;
}

ExitCode run_program(const std::vector<std::string>& arguments, Terminal terminal) {
  const ExitCode code = run_guarded(arguments, terminal);
  errno = 0;
  terminal.out.flush();
  if (!terminal.out)
    return told(terminal, ExitCode::cannot_read_or_write,
                "standard output: cannot write" +
                    (errno ? ": " + std::generic_category().message(errno) : std::string()));
  return code;
}

}  // namespace footroom::cli
