#include <numeric>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "quiz/blueprint.hpp"
#include "quiz/course_plan.hpp"
#include "tasks/failure.hpp"
#include "tasks/text.hpp"

namespace footroom::cli {
namespace {

std::string titles_of(const std::vector<std::string>& topics, const bank::Bank& bank,
                      engine::Language language) {
  std::string all;
  for (const auto& id : topics)
    for (const auto& topic : bank.topics)
      if (topic.id == id) all += (all.empty() ? "" : "; ") + in_language(topic.title, language);
  return all;
}

class CourseShowCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("course", course_, "the course plan, as footroom course list names it")
        ->type_name("COURSE");
    add_text_option(app, "--language", language_, "en|es", "English or Spanish (en)");
    add_text_option(app, "--units", units_, "us|si", "units that the quizzes will have (us)");
    add_text_option(app, "--rules", rules_, "RULE-SET", "rule set (us-construction)");
    folders_.declare_bank(app);
    app.footer(
        "A topic returns so many weeks after it was last asked as the spacing of the plan says.\n"
        "Each week is tried once: what the bank cannot fill is refused with file and line.");
  }

  ExitCode run(Terminal& terminal) override {
    if (course_.empty())
      throw Failure(ExitCode::wrong_command_line, "COURSE: is missing; see footroom course list");
    const auto language = choose_language(language_);
    quiz::Settings settings;
    settings.seed = 1;
    settings.system = choose<notation::System>(
        "--units", units_, {{"us", notation::System::us}, {"si", notation::System::si}});
    const auto bank = read_sound_bank(folders_.bank(), terminal.err);
    settings.rules = find_rules(bank, rules_).id;
    const auto weeks = quiz::plan_course(bank, find_course(bank, "COURSE", course_));

    const bool spanish = language == engine::Language::spanish;
    std::vector<std::vector<std::string>> rows{
        spanish ? std::vector<std::string>{"semana", "temas nuevos", "temas que vuelven",
                                           "preguntas", "minutos"}
                : std::vector<std::string>{"week", "new topics", "returning topics", "questions",
                                           "minutes"}};
    std::size_t taught = 0;
    for (const auto& week : weeks) {
      const bool all = week.returning.size() == taught && taught > 3;
      taught += week.new_topics.size();
      const auto numbers = quiz::questions_by_section(week.blueprint);
      rows.push_back({std::to_string(week.number), titles_of(week.new_topics, bank, language),
                      all ? (spanish ? "todos los anteriores" : "all earlier ones")
                          : titles_of(week.returning, bank, language),
                      std::to_string(std::accumulate(numbers.begin(), numbers.end(), 0)),
                      std::to_string(week.blueprint.minutes)});
    }
    terminal.out << table(rows);
    for (const auto& remark : quiz::try_course(bank, weeks, settings))
      terminal.err << remark << '\n';
    return ExitCode::done;
  }

 private:
  std::string course_;
  std::string language_ = "en";
  std::string units_ = "us";
  std::string rules_ = "us-construction";
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_course_show_command() {
  return std::make_unique<CourseShowCommand>();
}

}  // namespace footroom::cli
