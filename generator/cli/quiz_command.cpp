#include <algorithm>
#include <chrono>
#include <optional>
#include <set>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/progress.hpp"
#include "cli/record.hpp"
#include "cli/surroundings.hpp"
#include "grade/json_reader.hpp"
#include "grade/statistics.hpp"
#include "quiz/course_plan.hpp"
#include "quiz/maker.hpp"
#include "records/missed_topics.hpp"
#include "tasks/earlier_quiz.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/in_order.hpp"
#include "tasks/quiz_again.hpp"
#include "tasks/quiz_files.hpp"
#include "tasks/quiz_parts.hpp"
#include "tasks/roster.hpp"
#include "tasks/unfinished.hpp"

namespace footroom::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::uint64_t most_sheets = 1'000'000;
constexpr std::uint64_t most_jobs = 256;

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

std::vector<std::string> topics_of(const bank::Blueprint& blueprint) {
  std::vector<std::string> topics;
  for (const auto& section : blueprint.sections)
    if (std::find(topics.begin(), topics.end(), section.topic) == topics.end())
      topics.push_back(section.topic);
  return topics;
}

/// "a,b" as a list; each must be a topic of the blueprint.
std::vector<std::string> checked_topics(const std::string& text, const bank::Blueprint& blueprint) {
  const std::vector<std::string> known = topics_of(blueprint);
  std::vector<std::string> topics;
  for (const std::string& topic : split_at_commas(text)) {
    if (std::find(known.begin(), known.end(), topic) == known.end())
      throw Failure(ExitCode::wrong_command_line,
                    "--topics: the blueprint " + blueprint.id + " has no topic \"" + topic + "\"" +
                        (notation::suggest(topic, known)
                             ? did_you_mean(topic, known)
                             : ", expected " + alternatives(known) + ", with commas between"));
    if (std::find(topics.begin(), topics.end(), topic) == topics.end()) topics.push_back(topic);
  }
  return topics;
}

struct Refreshed {
  std::string name;
  std::vector<std::string> topics;  ///< that they missed last
};

Refreshed find_refreshed(const std::string& store_location, const std::string& person) {
  const auto& location = need("--store", store_location, "FILE or postgresql://...");
  std::optional<Unfinished> open;  // SQLite keeps files beside an open store
  if (!records::is_server(location)) open.emplace();
  const auto store = records::Store::open(location, random_salt);
  const auto report = store->report(find_person(*store, person));
  if (report.person.erased)
    throw Failure(ExitCode::input_faulty, "--for: the personal data of " + person + " was erased");
  Refreshed refreshed{report.person.value.name, records::missed_topics(report.results)};
  const std::string who = for_terminal(refreshed.name);
  if (report.results.empty())
    throw Failure(ExitCode::input_faulty,
                  "--for: no results of " + who + " are recorded; leave --for out");
  if (refreshed.topics.empty())
    throw Failure(ExitCode::input_faulty,
                  "--for: " + who + " missed no topic in the latest results; leave --for out");
  return refreshed;
}

/// Those that the blueprint has; the others are named to `err`.
std::vector<std::string> refresher_topics(const Refreshed& refreshed,
                                          const bank::Blueprint& blueprint, std::ostream& err) {
  const auto known = topics_of(blueprint);
  std::vector<std::string> topics;
  std::string left_out;
  for (const auto& topic : refreshed.topics) {
    if (std::find(known.begin(), known.end(), topic) != known.end())
      topics.push_back(topic);
    else
      left_out += (left_out.empty() ? "" : ", ") + for_terminal(topic);
  }
  const std::string message =
      "--for: the blueprint " + blueprint.id + " does not have: " + left_out;
  if (topics.empty()) throw Failure(ExitCode::input_faulty, message);
  if (!left_out.empty()) err << message << '\n';
  return topics;
}

quiz::PlannedWeek find_week(const std::vector<quiz::PlannedWeek>& weeks, std::uint64_t number) {
  std::vector<std::string> numbers;
  for (const auto& week : weeks) {
    if (static_cast<std::uint64_t>(week.number) == number) return week;
    numbers.push_back(std::to_string(week.number));
  }
  throw Failure(ExitCode::wrong_command_line, "--week: the course has no quiz in week " +
                                                  std::to_string(number) + ", expected " +
                                                  alternatives(numbers));
}

/// The levels of a file, but for items that the bank no longer has: a note names them.
std::map<std::string, int, std::less<>> levels_for(const bank::Bank& bank, const std::string& file,
                                                   std::ostream& err) {
  std::map<std::string, int, std::less<>> levels;
  try {
    levels = grade::read_levels(file_text(file), file);
  } catch (const grade::FaultyFile& fault) {
    throw Failure(ExitCode::input_faulty, fault.what());
  }
  std::vector<std::string> ids;
  for (const auto& item : bank.items) ids.push_back(item.id);
  std::erase_if(levels, [&](const auto& level) {
    const bool unknown = std::find(ids.begin(), ids.end(), level.first) == ids.end();
    if (unknown)
      err << file << ": note: the bank has no item \"" << level.first
          << "\", so its level is left out" << did_you_mean(level.first, ids) << '\n';
    return unknown;
  });
  return levels;
}

/// "3=ITEM" or "3".
quiz::Swap swap_of(const std::string& text) {
  const std::size_t sign = text.find('=');
  if (sign != std::string::npos && sign + 1 == text.size())
    throw Failure(ExitCode::wrong_command_line,
                  "--swap: " + text + " names no item, expected N=ITEM or N alone");
  const auto number = whole_number("--swap", text.substr(0, sign), 1, 1000);
  return {static_cast<int>(number), sign == std::string::npos ? "" : text.substr(sign + 1)};
}

std::string checked_secret(const std::string& text) {
  if (text.size() != 32 || text.find_first_not_of("0123456789abcdef") != std::string::npos)
    throw Failure(ExitCode::wrong_command_line,
                  "--secret: is " + text + ", expected 32 of the digits 0 to 9 and a to f");
  return text;
}

class QuizCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app_ = &app;
    add_text_option(app, "--blueprint", blueprint_, "BLUEPRINT",
                    "what the quiz is made of (weekly)");
    add_text_option(app, "--topics", topics_, "TOPIC,...", "only these topics of the blueprint");
    add_text_option(app, "--for", for_, "PERSON",
                    "a refresher on the topics that this person missed last");
    add_text_option(app, "--store", store_, "FILE|postgresql://...",
                    "the training records that tell what was missed");
    add_text_option(app, "--course", course_, "COURSE", "a course plan instead of a blueprint");
    add_text_option(app, "--week", week_, "N", "which week of the course plan");
    app.add_option("--after", after_, "quizzes the class had: their questions stand back")
        ->type_name("QUIZ.json...");
    add_text_option(app, "--levels", levels_, "FILE.json",
                    "levels instead of the items' own; see footroom statistics");
    app.add_option("--swap", swaps_, "question N: another item, or the same with other values")
        ->type_name("N[=ITEM]")
        ->allow_extra_args(false);
    add_text_option(app, "--from", from_, "QUIZ.json|DIR",
                    "makes a quiz again from its quiz.json or the folder with it");
    add_text_option(app, "--code", code_, "CODE",
                    "with --from: only the sheet that has this code, and its key");
    add_text_option(app, "--seed", seed_, "N", "where the draws begin; see below");
    add_text_option(app, "--secret", secret_, "DIGITS", "with --seed: 32 hexadecimal digits");
    add_text_option(app, "--sheets", sheets_, "K", "how many seats (1, or the class list's)");
    add_text_option(app, "--roster", roster_, "FILE.csv",
                    "class list with a column called name; see below");
    app.add_flag("--large-print", large_print_, "every sheet in 18 points, figures larger");
    app.add_flag("--without-figures", without_figures_,
                 "every sheet with its figures told in words, for a reader");
    style_.declare(app);
    add_text_option(app, "--rules", rules_, "RULE-SET", "rule set (us-construction)");
    add_text_option(app, "--paper", paper_, "letter|a4", "paper to print on (letter)");
    add_text_option(app, "--date", date_, "YYYY-MM-DD", "day of the quiz (today)");
    add_text_option(app, "--out", out_, "DIR", "where to write (output/CODE)");
    add_text_option(app, "--seats", seats_, "FIRST..LAST",
                    "only these seats, a part to join with others; see below");
    add_text_option(app, "--jobs", jobs_, "N", "sheets made at the same time (the processors)");
    folders_.declare_bank(app);
    folders_.declare_templates(app);
    app.footer(
        "Writes a sheet and a key for each seat, all-sheets.html and all-keys.html to print,\n"
        "quiz.json and responses.csv. A run that fails leaves DIR as it was; one that ends well\n"
        "replaces an earlier quiz in DIR and keeps other files.\n\n"
        "The class list may have more columns, for what a seat needs: language (English or\n"
        "Spanish), large print, without figures (yes or no), and extra time (25% or 15 min). In\n"
        "Spanish: nombre, idioma, letra grande, sin figuras, tiempo extra.\n\n"
        "With --after, nothing that the last quiz asked is asked again, and older questions "
        "return\n"
        "at growing intervals: after 2, 4, 8 ... quizzes. Dates in the files tell which was last.\n"
        "Where the bank has too few, a quiz is made all the same, and a note names what "
        "returns.\n\n"
        "With --for and --store, the blueprint is refresher unless another is named, and the quiz\n"
        "asks only topics in which the person's latest result earned less than all points.\n\n"
        "With --course and --week, the quiz is that week's; footroom course show NAME lists "
        "them.\n\n"
        "--swap 3=ITEM asks another item of the same topic as question 3, and --swap 3 gives its\n"
        "item other values, in every sheet; the rest of the quiz stays. Say it again for another\n"
        "question, or for other values yet again.\n\n"
        "--from makes the same sheets and keys again, byte for byte; with --code R8WD3-B (it\n"
        "stands on the sheet, and in its QR code) only the sheet of seat B and its key. With\n"
        "--swap, all but that question stays, and the quiz has a new code. The code alone makes\n"
        "nothing: it names a sheet, and neither questions nor answers follow from it.\n\n"
        "--seats C..F, or --seats 3..6, makes a part of the quiz: these seats' pages, and their "
        "share\n"
        "of the files of all. Several machines make parts with the same --seed and --secret, or "
        "the\n"
        "same --from, and with the same --date, class list and --sheets; footroom join puts them\n"
        "together to what one machine would have written, byte for byte.\n\n"
        "Without --seed, the system's random numbers choose seed and secret, and quiz.json "
        "records\n"
        "both: keep it from students. A seed without a secret is for trying things out, never for\n"
        "a class. Whoever knows or guesses the seed can make the keys of such a quiz.");
  }

  ExitCode run(Terminal& terminal) override {
    if (from_.empty() && !code_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "--code: a code only names a sheet; neither its questions nor its answers "
                    "follow from it. Name the instructor's quiz.json, or its folder, with --from");
    return from_.empty() ? make_new(terminal) : make_again(terminal);
  }

 private:
  ExitCode make_again(Terminal& terminal) const {
    refuse_beside_from();
    const QuizAgain again(from_);
    const auto bank = read_sound_bank(folders_.bank(), terminal.err);
    const render::Templates templates = read_templates(folders_.templates());
    const quiz::Maker as_before = again.maker(bank);
    const quiz::Header& header = as_before.header();
    const quiz::SeatRange seats = seat_range(header.sheets);
    if (!code_.empty()) {
      const int index = again.sheet_named(code_);
      const quiz::Sheet sheet = as_before.sheet(index);
      again.check(sheet, index, program_name());
      note_other_program(header, terminal);
      const fs::path out = out_.empty() ? "output/" + sheet.code : out_;
      write_sheet(header, sheet, templates, out);
      terminal.out << tell_sheet(header.style.language, sheet, out);
      return ExitCode::done;
    }
    Progress progress(terminal, header.style.language, {"sheets compared", "hojas comparadas"},
                      static_cast<std::size_t>(seats.count()));
    const auto index_of = [&](std::size_t i) { return seats.first + static_cast<int>(i); };
    work_in_order(
        static_cast<std::size_t>(seats.count()), jobs(),
        [&](std::size_t i) {
          again.check(as_before.sheet(index_of(i)), index_of(i), program_name());
        },
        [&](std::size_t i) { progress.tell(i + 1); });
    progress.clear();
    const quiz::Maker maker = again.maker(bank, swaps());
    std::vector<std::string> names;
    for (const quiz::Sheet& sheet : again.quiz().sheets) names.push_back(sheet.name);
    write_and_tell(maker, names, templates, "", terminal);
    return ExitCode::done;
  }

  void note_other_program(const quiz::Header& header, Terminal& terminal) const {
    if (header.program != program_name())
      terminal.err << from_ << ": note: made by " << for_terminal(header.program) << ", this is "
                   << program_name() << ": the questions are the same, pages may look otherwise\n";
  }

  ExitCode make_new(Terminal& terminal) {
    quiz::Settings settings;
    settings.system = style_.system();
    settings.style = style_.style();
    settings.paper = choose_paper(paper_);
    settings.date = date_.empty() ? today() : checked_date(date_);
    settings.seed = choose_seed(seed_);
    if (!secret_.empty())
      settings.secret = checked_secret(secret_);
    else if (seed_.empty())
      settings.secret = random_secret();
    settings.sheets =
        sheets_.empty() ? 1 : static_cast<int>(whole_number("--sheets", sheets_, 1, most_sheets));
    settings.program = program_name();
    settings.swaps = swaps();

    jobs();  // a wrong number is told before anything else is done
    if (!seats_.empty() && seed_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "--seats: needs --seed, and --secret for a class, or --from beside it: parts "
                    "with random numbers of their own would be of different quizzes");

    if (!swaps_.empty() && seed_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "--swap: needs the quiz whose question it changes: --from beside it, or its "
                    "--seed, and --secret if it has one");

    std::optional<Refreshed> refreshed;
    if (!for_.empty()) {
      refuse_beside_for();
      refreshed = find_refreshed(store_, for_);
      settings.names = {refreshed->name};
    }
    bool all_rows_read = true;
    if (!roster_.empty()) {
      Roster roster = read_roster(std::filesystem::path(roster_));
      for (const auto& note : roster.notes) terminal.err << note.text() << '\n';
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
      settings.accommodations = std::move(roster.accommodations);
    }
    if (large_print_ || without_figures_) {
      settings.accommodations.resize(static_cast<std::size_t>(settings.sheets));
      for (quiz::Accommodations& seat : settings.accommodations) {
        seat.large_print = seat.large_print || large_print_;
        seat.without_figures = seat.without_figures || without_figures_;
      }
    }

    seat_range(settings.sheets);

    const auto bank = read_sound_bank(folders_.bank(), terminal.err);
    settings.rules = find_rules(bank, rules_).id;
    const bank::Blueprint blueprint = choose_blueprint(bank, settings);
    if (!topics_.empty()) settings.topics = checked_topics(topics_, blueprint);
    if (!levels_.empty()) settings.levels = levels_for(bank, levels_, terminal.err);
    if (refreshed) settings.topics = refresher_topics(*refreshed, blueprint, terminal.err);
    settings.before = read_earlier_quizzes(after_);
    const render::Templates templates = read_templates(folders_.templates());
    const quiz::Maker maker(bank, blueprint, settings);
    for (const auto& remark : maker.remarks()) terminal.err << remark << '\n';
    write_and_tell(maker, settings.names, templates, refreshed ? tell_topics(bank, settings) : "",
                   terminal);
    return all_rows_read ? ExitCode::done : ExitCode::input_faulty;
  }

  void write_and_tell(const quiz::Maker& maker, const std::vector<std::string>& names,
                      const render::Templates& templates, const std::string& first,
                      Terminal& terminal) const {
    const quiz::Header& header = maker.header();
    const quiz::SeatRange seats = seat_range(header.sheets);
    Progress progress(terminal, header.style.language, {"sheets written", "hojas escritas"},
                      static_cast<std::size_t>(seats.count()));
    const auto told = [&](std::size_t done) { progress.tell(done); };
    fs::path out = out_.empty() ? "output/" + header.code : out_;
    if (seats_.empty()) {
      write_quiz(maker, templates, out, told, jobs());
      progress.clear();
      terminal.out << first << tell(header.style.language, header.code, header.sheets, out);
      return;
    }
    if (out_.empty()) out += "-" + quiz::seat_name(seats.first) + "-" + quiz::seat_name(seats.last);
    write_part(maker, names, templates, out, seats, told, jobs());
    progress.clear();
    terminal.out << first << tell_part(header, seats, out);
  }

  std::size_t jobs() const {
    return jobs_.empty() ? processors() : whole_number("--jobs", jobs_, 1, most_jobs);
  }

  /// Those of --seats, or all.
  quiz::SeatRange seat_range(int sheets) const {
    if (seats_.empty()) return {0, sheets - 1};
    try {
      return quiz::read_seat_range(seats_, sheets);
    } catch (const quiz::FaultyRange& faulty) {
      throw Failure(ExitCode::wrong_command_line, std::string("--seats: ") + faulty.what());
    }
  }

  std::vector<quiz::Swap> swaps() const {
    std::vector<quiz::Swap> all;
    for (const auto& text : swaps_) all.push_back(swap_of(text));
    return all;
  }

  /// quiz.json tells all the rest.
  void refuse_beside_from() const {
    if (!code_.empty() && !seats_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "--seats: cannot stand beside --code, which names one seat already");
    static const std::set<std::string> allowed{"from", "code",  "out",      "bank",
                                               "jobs", "seats", "templates"};
    for (const CLI::Option* option : app_->get_options()) {
      const std::string& name = option->get_lnames().front();
      if (option->count() == 0 || allowed.contains(name)) continue;
      if (name != "swap")
        throw Failure(ExitCode::wrong_command_line,
                      "--" + name + ": cannot stand beside --from, whose quiz has its own");
      if (!code_.empty())
        throw Failure(ExitCode::wrong_command_line,
                      "--swap: cannot stand beside --code: a swap changes every sheet");
    }
  }

  bank::Blueprint choose_blueprint(const bank::Bank& bank, quiz::Settings& settings) const {
    if (course_.empty() && week_.empty())
      return find_blueprint(bank, !blueprint_.empty() ? blueprint_
                                  : for_.empty()      ? "weekly"
                                                      : "refresher");
    if (course_.empty())
      throw Failure(ExitCode::wrong_command_line, "--week: needs --course NAME beside it");
    if (week_.empty())
      throw Failure(ExitCode::wrong_command_line, "--course: needs --week N beside it");
    if (!blueprint_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "--blueprint: cannot stand beside --course, whose week has its own");
    const bank::Course& course = find_course(bank, "--course", course_);
    const auto week =
        find_week(quiz::plan_course(bank, course), whole_number("--week", week_, 1, 1000));
    settings.course_plan = course.id;
    settings.week = week.number;
    return week.blueprint;
  }

  void refuse_beside_for() const {
    for (const auto& [option, text] :
         {std::pair{"--topics", &topics_}, std::pair{"--course", &course_},
          std::pair{"--roster", &roster_}})
      if (!text->empty())
        throw Failure(ExitCode::wrong_command_line,
                      std::string(option) + ": cannot stand beside --for");
  }

  static std::string tell_topics(const bank::Bank& bank, const quiz::Settings& settings) {
    const bool spanish = settings.style.language == engine::Language::spanish;
    std::string text = spanish ? "Repaso para " : "Refresher for ";
    text += for_terminal(settings.names.at(0)) + ": ";
    std::vector<std::string> titles;
    for (const auto& topic : settings.topics)
      titles.push_back(title_of_topic(bank, topic, settings.style.language));
    return text + alternatives(titles, ", ") + "\n";
  }

  static std::string tell_sheet(engine::Language language, const quiz::Sheet& sheet,
                                const fs::path& out) {
    const std::string page = (out / ("sheet-" + sheet.seat + ".html")).string();
    const std::string key = (out / ("key-" + sheet.seat + ".html")).string();
    if (language == engine::Language::spanish)
      return "Hoja " + sheet.code + "\nPara imprimir: " + page + "\nClave de respuestas: " + key +
             "\n";
    return "Sheet " + sheet.code + "\nTo print: " + page + "\nAnswer key: " + key + "\n";
  }

  static std::string tell_part(const quiz::Header& header, quiz::SeatRange seats,
                               const fs::path& out) {
    const bool spanish = header.style.language == engine::Language::spanish;
    return (spanish ? "Examen " : "Quiz ") + header.code + (spanish ? ", puestos: " : ", seats: ") +
           quiz::seat_name(seats.first) + ".." + quiz::seat_name(seats.last) +
           (spanish ? " de " : " of ") + std::to_string(header.sheets) +
           (spanish ? "\nParte: " : "\nPart: ") + out.string() + "\n";
  }

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

  std::string blueprint_;
  std::string topics_;
  std::string for_;
  std::string store_;
  std::string course_;
  std::string week_;
  std::vector<std::string> after_;
  std::string levels_;
  const CLI::App* app_ = nullptr;
  std::vector<std::string> swaps_;
  std::string from_;
  std::string code_;
  std::string seed_;
  std::string secret_;
  std::string sheets_;
  std::string roster_;
  bool large_print_ = false;
  bool without_figures_ = false;
  StyleOptions style_;
  std::string rules_ = "us-construction";
  std::string paper_ = "letter";
  std::string date_;
  std::string out_;
  std::string seats_;
  std::string jobs_;
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_quiz_command() {
  return std::make_unique<QuizCommand>();
}

}  // namespace footroom::cli
