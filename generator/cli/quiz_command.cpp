#include <algorithm>
#include <chrono>

#include "cli/command.hpp"
#include "cli/failure.hpp"
#include "cli/options.hpp"
#include "cli/quiz_files.hpp"
#include "cli/roster.hpp"
#include "cli/surroundings.hpp"
#include "quiz/maker.hpp"

namespace footroom::cli {
namespace {

constexpr std::uint64_t most_sheets = 1'000'000;

std::string checked_date(const std::string& text) {
  bool sound = text.size() == 10;
  for (std::size_t i = 0; sound && i < text.size(); ++i)
    sound = i == 4 || i == 7 ? text[i] == '-' : text[i] >= '0' && text[i] <= '9';
  if (sound) {
    const auto number = [&](std::size_t from, std::size_t size) {
      return static_cast<unsigned>(std::stoul(text.substr(from, size)));
    };
    sound = std::chrono::year_month_day(std::chrono::year(static_cast<int>(number(0, 4))),
                                        std::chrono::month(number(5, 2)),
                                        std::chrono::day(number(8, 2)))
                .ok();
  }
  if (!sound)
    throw Failure(ExitCode::wrong_command_line,
                  "--date: is " + text + ", expected a day of the calendar as YYYY-MM-DD");
  return text;
}

class QuizCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    add_text_option(app, "--blueprint", blueprint_, "NAME", "what the quiz is made of (weekly)");
    add_text_option(app, "--seed", seed_, "N", "makes the same quiz again; see below");
    add_text_option(app, "--sheets", sheets_, "K", "how many seats (1, or the class list's)");
    add_text_option(app, "--roster", roster_, "FILE.csv",
                    "class list with a column called name (or nombre)");
    style_.declare(app);
    add_text_option(app, "--rules", rules_, "NAME", "rule set (us-construction)");
    add_text_option(app, "--paper", paper_, "letter|a4", "paper to print on (letter)");
    add_text_option(app, "--date", date_, "YYYY-MM-DD", "day of the quiz (today)");
    add_text_option(app, "--out", out_, "DIR", "where to write (output/CODE)");
    folders_.declare_bank(app);
    folders_.declare_templates(app);
    app.footer(
        "Writes a sheet and a key for each seat, all-sheets.html and all-keys.html to print,\n"
        "quiz.json and responses.csv. A run that fails leaves DIR as it was; one that ends well\n"
        "replaces an earlier quiz in DIR and keeps other files.\n\n"
        "Without --seed the system's random numbers choose, and quiz.json records the choice.\n"
        "Whoever knows or guesses the seed can make the keys, so name one only to make a quiz\n"
        "again or to try things out, never a date or a small number for a real class, and keep\n"
        "quiz.json from students.");
  }

  ExitCode run(Terminal& terminal) override {
    quiz::Settings settings;
    settings.system = style_.system();
    settings.style = style_.style();
    settings.paper = choose<quiz::Paper>(
        "--paper", paper_, {{"letter", quiz::Paper::letter}, {"a4", quiz::Paper::a4}});
    settings.date = date_.empty() ? today() : checked_date(date_);
    settings.seed = choose_seed(seed_);
    settings.sheets =
        sheets_.empty() ? 1 : static_cast<int>(whole_number("--sheets", sheets_, 1, most_sheets));
    settings.program = program_name();

    bool all_rows_read = true;
    if (!roster_.empty()) {
      Roster roster = read_roster(std::filesystem::path(roster_));
      for (const auto& defect : roster.defects) terminal.err << defect.text() << '\n';
      all_rows_read = roster.defects.empty();
      if (roster.names.empty())
        throw Failure(ExitCode::input_faulty, roster_ + ": no row is left; nothing was written");
      if (roster.names.size() > most_sheets)
        throw Failure(ExitCode::input_faulty,
                      roster_ + ": names " + std::to_string(roster.names.size()) +
                          " people, expected at most " + std::to_string(most_sheets));
      settings.sheets = std::max(settings.sheets, static_cast<int>(roster.names.size()));
      settings.names = std::move(roster.names);
    }

    const auto bank = read_sound_bank(folders_.bank(), terminal.err);
    settings.rules = find_rules(bank, rules_).id;
    const auto& blueprint = find_blueprint(bank, blueprint_);
    const render::Templates templates = read_templates(folders_.templates());
    const quiz::Maker maker(bank, blueprint, settings);
    const std::string& code = maker.header().code;
    const std::filesystem::path out = out_.empty() ? "output/" + code : out_;
    write_quiz(maker, templates, out);
    terminal.out << tell(settings.style.language, code, settings.sheets, out);
    return all_rows_read ? ExitCode::done : ExitCode::input_faulty;
  }

 private:
  static std::string tell(engine::Language language, const std::string& code, int sheets,
                          const std::filesystem::path& out) {
    const std::string count = std::to_string(sheets);
    const std::string all_sheets = (out / "all-sheets.html").string();
    const std::string all_keys = (out / "all-keys.html").string();
    if (language == engine::Language::spanish)
      return "Examen " + code + ", hojas: " + count + "\nPara imprimir: " + all_sheets +
             "\nClaves de respuestas: " + all_keys + "\n";
    return "Quiz " + code + ", sheets: " + count + "\nTo print: " + all_sheets +
           "\nAnswer keys: " + all_keys + "\n";
  }

  std::string blueprint_ = "weekly";
  std::string seed_;
  std::string sheets_;
  std::string roster_;
  StyleOptions style_;
  std::string rules_ = "us-construction";
  std::string paper_ = "letter";
  std::string date_;
  std::string out_;
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_quiz_command() {
  return std::make_unique<QuizCommand>();
}

}  // namespace footroom::cli
