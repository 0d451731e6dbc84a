#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <regex>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/progress.hpp"
#include "grade/json_reader.hpp"
#include "grade/statistics.hpp"
#include "grade/statistics_charts.hpp"
#include "render/statistics.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/known_items.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/text.hpp"

namespace footroom::cli {
namespace {

bool is_statistics_file(const std::string& path) {
  static const std::regex ours("statistics\\.(md|html|json)|items-[0-9]+\\.svg");
  return std::regex_match(path, ours);
}

class StatisticsCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("results", files_, "what footroom grade wrote, a file a class")
        ->type_name("RESULTS.json...");
    add_text_option(app, "--out", out_, "DIR", "write pages and statistics.json instead of tables");
    app.add_flag("--json", json_, "statistics.json instead of tables");
    add_text_option(app, "--levels", levels_, "FILE.json",
                    "write the levels that the answers suggest");
    add_text_option(app, "--language", language_, "en|es", "English or Spanish (en)");
    folders_.declare_bank(app);
    folders_.declare_templates(app);
    app.footer(
        "With --out, statistics.html, statistics.md, statistics.json and a chart go into DIR.\n\n"
        "An item is a family: its seats have other numbers. Difficulty is the mean share of the\n"
        "points. Upper-lower compares the best and the weakest 27 percent of a class (halves "
        "under\n"
        "30). Item-rest is the correlation with the rest of the quiz. Numbers from fewer than 30\n"
        "answers are marked with a star: take them with care.\n\n"
        "footroom quiz --levels FILE.json then fills its levels by what FILE.json says.");
  }

  ExitCode run(Terminal& terminal) override {
    if (files_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "RESULTS.json: is missing, expected what footroom grade wrote");
    if (json_ && !out_.empty())
      throw Failure(ExitCode::wrong_command_line,
                    "--json: cannot stand beside --out, which writes statistics.json");
    language_is_ = choose_language(language_);
    const bank::Bank bank = read_bank_reporting(folders_.bank(), terminal.err).bank;
    const grade::Statistics statistics = work_out(known_items(bank, language_is_), terminal);
    if (!out_.empty())
      write_pages(statistics);
    else if (json_)
      terminal.out << grade::statistics_json(statistics);
    else
      terminal.out << text_of(statistics);
    if (!levels_.empty()) write_levels(statistics, terminal);
    return ExitCode::done;
  }

 private:
  void write_levels(const grade::Statistics& statistics, Terminal& terminal) const {
    write_whole_file(levels_, grade::levels_json(statistics));
    const auto& items = statistics.items;
    if (std::any_of(items.begin(), items.end(),
                    [](const auto& item) { return item.suggested_level.has_value(); }))
      return;
    constexpr engine::Text note{
        "{}: note: names no level; a question needs {} answers for one\n",
        "{}: nota: no indica ningún nivel; una pregunta necesita {} respuestas para tener uno\n"};
    terminal.err << fmt::format(fmt::runtime(note.in(language_is_)), levels_,
                                grade::enough_answers);
  }

  grade::Statistics work_out(const grade::KnownItems& known, Terminal& terminal) {
    std::vector<grade::Results> results;
    try {
      Progress progress(terminal, language_is_, {"results read", "resultados leídos"},
                        files_.size());
      for (const std::string& file : files_) {
        results.push_back(tested(grade::read_results(file_text(file), file), file));
        progress.tell(results.size());
      }
      if (!results.empty()) style_ = results.front().style;
      return grade::statistics(results, files_, known);
    } catch (const grade::FaultyFile& fault) {
      throw Failure(ExitCode::input_faulty, fault.what());
    }
  }

  /// In a practice each student has other questions, steps are on view, and what was missed
  /// returns: it tells nothing about the items.
  static grade::Results tested(grade::Results results, const std::string& file) {
    if (results.practice)
      throw grade::FaultyFile(file + ": is practice, expected the results of a graded quiz");
    return results;
  }

  void write_pages(const grade::Statistics& statistics) const {
    notation::Style style = style_;
    style.language = language_is_;
    const render::Templates templates = read_templates(folders_.templates());
    const render::StatisticsPage page{statistics, grade::statistics_charts(statistics, style),
                                      style};
    OutputFolder out(out_, is_statistics_file);
    out.write("statistics.md", render::statistics_markdown(templates, page));
    out.write("statistics.html", render::statistics_html(templates, page));
    out.write("statistics.json", grade::statistics_json(statistics));
    for (std::size_t i = 0; i < page.charts.size(); ++i)
      out.write("items-" + std::to_string(i + 1) + ".svg", render::svg_file(page.charts[i]));
    out.publish();
  }

  std::string say(engine::Text text) const { return std::string(text.in(language_is_)); }
  std::string number(const std::optional<double>& value, int places) const {
    if (!value) return say({"undefined", "no definida"});
    return plain(notation::write_number(*value, places, style_));
  }
  static std::string star(int count) { return count < grade::enough_answers ? "*" : ""; }
  static std::string counted(int count) { return std::to_string(count) + star(count); }

  std::string text_of(const grade::Statistics& statistics) const {
    bool few = false;
    std::vector<std::vector<std::string>> quizzes{
        {say({"quiz", "examen"}), say({"date", "fecha"}), say({"seats", "puestos"}),
         say({"items", "preguntas"}), say({"mean %", "media %"}), say({"SD %", "desv. est. %"}),
         say({"reliability", "fiabilidad"}), say({"SEM %", "error de medida %"})}};
    for (const auto& quiz : statistics.quizzes) {
      few = few || quiz.seats < grade::enough_answers;
      std::string reliability = number(quiz.reliability, 2);
      if (quiz.reliability) reliability += quiz.all_or_nothing ? " (KR-20)" : " (alpha)";
      quizzes.push_back({quiz.quiz, quiz.date, counted(quiz.seats), std::to_string(quiz.items),
                         number(quiz.mean, 1), number(quiz.standard_deviation, 1), reliability,
                         number(quiz.standard_error, 1)});
    }
    std::vector<std::vector<std::string>> items{
        {say({"item", "pregunta"}), say({"answers", "respuestas"}),
         say({"difficulty", "dificultad"}), say({"upper-lower", "altos-bajos"}),
         say({"item-rest", "con el resto"}), say({"level", "nivel"})}};
    std::string answers;
    std::string care;
    for (const auto& item : statistics.items) {
      few = few || item.answers < grade::enough_answers;
      std::string level = std::to_string(item.level);
      if (item.suggested_level && *item.suggested_level != item.level)
        level += " -> " + std::to_string(*item.suggested_level);
      items.push_back({item.item, counted(item.answers), number(item.difficulty, 2),
                       number(item.discrimination, 2), number(item.item_rest, 2), level});
      answers += uses_of(item);
      for (const auto& concern : item.concerns)
        care += "  " + item.item + star(item.answers) + ": " +
                grade::in_words(concern, language_is_) + "\n";
    }
    std::string text = table(quizzes) + "\n" + table(items);
    if (!answers.empty())
      text += "\n" + say({"Answers given", "Respuestas dadas"}) + "\n" + answers;
    if (!care.empty())
      text += "\n" + say({"Items that need care", "Preguntas que piden atención"}) + "\n" + care;
    if (few)
      text += "\n" +
              say({"* fewer than 30: take the numbers with care",
                   "* menos de 30: tome los números con cautela"}) +
              "\n";
    return text;
  }

  /// "  item: slack-only 5, sign 1, height-only 0"; nothing where it has no answers to count.
  std::string uses_of(const grade::ItemStatistics& item) const {
    std::string line;
    for (const auto& use : item.uses) {
      line += (line.empty() ? "  " + item.item + ": " : ", ") + use.id + " " +
              std::to_string(use.given);
      if (use.right > 0)
        line += " (" + say({"right", "correcta"}) + " " + std::to_string(use.right) + ")";
    }
    return line.empty() ? line : line + "\n";
  }

  std::vector<std::string> files_;
  std::string out_;
  bool json_ = false;
  std::string levels_;
  std::string language_ = "en";
  engine::Language language_is_ = engine::Language::english;
  notation::Style style_;
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_statistics_command() {
  return std::make_unique<StatisticsCommand>();
}

}  // namespace footroom::cli
