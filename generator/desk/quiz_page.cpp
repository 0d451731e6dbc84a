#include "desk/quiz_page.hpp"

#include <algorithm>
#include <array>

#include "render/page_data.hpp"
#include "tasks/file_text.hpp"
#include "tasks/graded_files.hpp"
#include "tasks/responses.hpp"

namespace footroom::desk {

namespace fs = std::filesystem;

std::string address_of(int quiz) {
  return "/quizzes/" + std::to_string(quiz);
}

std::string work_about(int quiz) {
  return "quiz " + std::to_string(quiz);
}

fs::path there(const Call&, const fs::path& file) {
  if (!fs::is_regular_file(file)) throw NotThere();
  return file;
}

Response printed_page(const fs::path& file) {
  Response response;
  response.policy = Policy::printed;
  response.body = tasks::file_text(file);
  return response;
}

std::shared_ptr<const grade::Quiz> quiz_of(const Call& call, int quiz) {
  if (!call.house.folder.has_quiz(quiz)) throw NotThere();
  return call.house.shelf.quiz(call.house.folder.quiz(quiz) / "quiz.json");
}

bool is_graded(const Call& call, int quiz) {
  return call.house.folder.has_quiz(quiz) &&
         fs::exists(call.house.folder.graded(quiz) / "results.json");
}

grade::Results results_of(const Call& call, int quiz) {
  if (!is_graded(call, quiz)) throw NotThere();
  const auto file = call.house.folder.graded(quiz) / "results.json";
  return grade::read_results(tasks::file_text(file), file.string());
}

fs::path responses_file(const Call& call, int quiz) {
  return call.house.folder.quiz(quiz) / "responses.csv";
}

fs::path figure_file(const Call& call, int quiz, int question) {
  return call.house.folder.quiz(quiz) / "figures" / ("A-" + std::to_string(question) + "-key.svg");
}

std::string order_of(const quiz::Question& question) {
  std::vector<quiz::Option> options = question.options;
  std::sort(options.begin(), options.end(),
            [](const auto& one, const auto& other) { return one.place < other.place; });
  std::string text;
  for (const auto& option : options) text += (text.empty() ? "" : ", ") + option.letter;
  return text;
}

std::size_t answered_seats(const Call& call, int quiz, const grade::Quiz& of) {
  return answered_seats(responses_file(call, quiz), of);
}

mustache::data quiz_row(const Call& call, int quiz) {
  const auto of = call.house.shelf.facts(call.house.folder.quiz(quiz) / "quiz.json",
                                         responses_file(call, quiz));
  mustache::data row;
  const bool graded = is_graded(call, quiz);
  row.set("quiz-address", graded            ? address_of(quiz) + "/results"
                          : of.answered > 0 ? address_of(quiz) + "/answers"
                                            : address_of(quiz));
  row.set("quiz-title", of.header.title);
  row.set("quiz-code", of.header.code);
  const auto school = call.house.folder.school_class(call.house.folder.made_for(quiz).class_number);
  row.set("quiz-class", school ? school->title : std::string());
  row.set("quiz-date",
          render::long_date(call.house.templates.parts().labels, call.language, of.header.date));
  row.set("quiz-state",
          graded ? call.say("quiz-graded") : call.say_with("quiz-answered", of.answered, of.seats));
  return row;
}

mustache::data unfinished_row(const Call& call, int quiz) {
  const MadeFor made_for = call.house.folder.made_for(quiz);
  const auto school = call.house.folder.school_class(made_for.class_number);
  const auto state = call.house.work.state(work_about(quiz)).value_or(Work::State{});
  mustache::data row;
  row.set("quiz-address", address_of(quiz));
  row.set("quiz-title", call.say("quiz-unfinished"));
  row.set("quiz-class", school ? school->title : std::string());
  row.set("quiz-date", made_for.date.empty()
                           ? std::string()
                           : render::long_date(call.house.templates.parts().labels, call.language,
                                               made_for.date));
  row.set("quiz-state", call.say(state.running ? "work-running" : "work-failed"));
  return row;
}

void set_steps(const Call& call, int quiz, const std::string& here, mustache::data& data) {
  struct Step {
    const char* name;
    const char* path;
    const char* label;
  };
  constexpr std::array<Step, 3> steps{{{"quiz", "", "step-quiz"},
                                       {"answers", "/answers", "step-answers"},
                                       {"results", "/results", "step-results"}}};
  mustache::data list(mustache::data::type::list);
  for (const Step& step : steps) {
    if (step.name == std::string_view("results") && !is_graded(call, quiz)) continue;
    mustache::data one;
    one.set("step-address", address_of(quiz) + step.path);
    one.set("step-label", call.say(step.label));
    one.set("here", mustache::data(here == step.name));
    list << one;
  }
  data.set("steps", list);
}

Pages::Frame quiz_frame(const Call& call, int quiz, const grade::Quiz& of) {
  const auto school = call.house.folder.school_class(call.house.folder.made_for(quiz).class_number);
  Pages::Frame frame{call.language, "quizzes", of.header.title, "/quizzes",
                     call.say("room-quizzes")};
  if (school) frame.title += ", " + school->title;
  return frame;
}

}  // namespace footroom::desk
