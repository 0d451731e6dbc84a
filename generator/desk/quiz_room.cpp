// The quizzes: choosing what the next one is made of, seeing it, changing it, printing it.

#include <algorithm>
#include <nlohmann/json.hpp>

#include "desk/needs.hpp"
#include "desk/quiz_page.hpp"
#include "desk/room.hpp"
#include "grade/names.hpp"
#include "quiz/course_plan.hpp"
#include "render/commonmark.hpp"
#include "render/page_data.hpp"
#include "tasks/earlier_quiz.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/graded_files.hpp"
#include "tasks/quiz_again.hpp"
#include "tasks/quiz_files.hpp"
#include "tasks/record.hpp"
#include "tasks/text.hpp"

namespace footroom::desk {
namespace {

constexpr int missed_below_percent = 80;  ///< a topic is offered again where less was earned

/// What a quiz can be made of: a blueprint, or a week of a course plan.
struct Recipe {
  std::string name;  ///< "weekly", "twelve-weeks-4": a value of the form
  std::string label;
  bank::Blueprint blueprint;
  std::string course;  ///< id; empty: no plan
  int week = 0;
};

std::vector<Recipe> recipes(const Call& call) {
  std::vector<Recipe> all;
  for (const auto& [id, blueprint] : call.house.bank.blueprints)
    all.push_back({id, tasks::in_language(blueprint.title, call.language), blueprint, {}, 0});
  for (const auto& [id, course] : call.house.bank.courses)
    for (const auto& week : quiz::plan_course(call.house.bank, course)) {
      std::string topics;
      for (const auto& topic : week.new_topics)
        topics += (topics.empty() ? ": " : ", ") +
                  tasks::title_of_topic(call.house.bank, topic, call.language);
      all.push_back(
          {id + "-" + std::to_string(week.number),
           call.say_with("week-of", tasks::in_language(course.title, call.language), week.number) +
               topics,
           week.blueprint, id, week.number});
    }
  return all;
}

/// The quizzes that a class had, the newest first.
std::vector<int> quizzes_of(const Call& call, int class_number) {
  std::vector<int> all = call.house.folder.quizzes();
  std::erase_if(all, [&](int number) {
    return call.house.folder.made_for(number).class_number != class_number;
  });
  return all;
}

/// What follows the last quiz of the class: the next week of its plan, or the weekly quiz.
std::string next_recipe(const Call& call, int class_number, const std::vector<Recipe>& all) {
  const auto had = quizzes_of(call, class_number);
  if (!had.empty()) {
    const auto header = quiz_of(call, had.front())->header;
    if (!header.course_plan.empty())
      for (const Recipe& recipe : all)
        if (recipe.course == header.course_plan && recipe.week > header.week) return recipe.name;
  }
  return "weekly";
}

/// Topics with what the class earned in them, for a quiz that follows another.
struct Earned {
  std::string topic;
  std::string title;
  grade::Points points;
  grade::Points possible;
  bool missed() const {
    return points.hundredths * 100 < possible.hundredths * missed_below_percent;
  }
};

std::vector<Earned> earned_in(const grade::Results& results) {
  std::vector<Earned> all;
  for (const auto& seat : results.seats)
    for (const auto& question : seat.questions) {
      auto topic = std::find_if(all.begin(), all.end(),
                                [&](const Earned& one) { return one.topic == question.topic; });
      if (topic == all.end())
        topic = all.insert(all.end(), {question.topic, question.topic_title, {}, {}});
      topic->points += question.points;
      topic->possible += question.possible;
    }
  return all;
}

Field choice_field(const Call& call, const char* name, std::string value,
                   std::vector<Choice> choices) {
  Field field{Field::Kind::list, name, call.say(name), std::move(value)};
  field.choices = std::move(choices);
  field.narrow = true;
  return field;
}

Form new_form(const Call& call, int class_number, int from) {
  const Preferences& now = call.preferences;
  const auto all = recipes(call);
  Form form;
  form.action = "/quizzes/new";
  form.button = call.say("quiz-make");
  Field school{Field::Kind::list, "class", call.say("class"), std::to_string(class_number)};
  for (const auto& one : call.house.folder.classes())
    school.choices.push_back({std::to_string(one.number), one.title});
  if (class_number == 0 && !school.choices.empty()) school.value = school.choices.back().value;
  Field recipe{Field::Kind::list, "made-of", call.say("quiz-made-of")};
  recipe.hint = call.say("quiz-made-of-hint");
  for (const auto& one : all) recipe.choices.push_back({one.name, one.label});
  recipe.value =
      from > 0 ? "refresher" : next_recipe(call, std::max(std::atoi(school.value.c_str()), 0), all);
  form.fields = {school, recipe};
  if (from > 0) {
    Field topics{Field::Kind::several_of, "topics", call.say("quiz-topics")};
    topics.hint = call.say("quiz-topics-hint");
    for (const Earned& one : earned_in(results_of(call, from))) {
      topics.choices.push_back(
          {one.topic,
           one.title + " (" + grade::percent_text(one.points, one.possible, now.style) + ")"});
      if (one.missed()) topics.chosen.insert(one.topic);
    }
    form.fields.push_back(topics);
    form.fields.push_back({Field::Kind::hidden, "from", "", std::to_string(from)});
  }
  form.fields.push_back(
      {Field::Kind::date, "date", call.say("quiz-date"), call.house.today(), {}, {}, true});
  const auto& languages = grade::language_names();
  const auto& systems = grade::system_names();
  form.fields.push_back(choice_field(
      call, "language", languages.at(call.language == engine::Language::spanish ? 1 : 0),
      {{languages[0], "English"}, {languages[1], "Español"}}));
  form.fields.push_back(
      choice_field(call, "units", systems.at(now.system == notation::System::si ? 1 : 0),
                   {{systems[0], call.say("units-us")}, {systems[1], call.say("units-si")}}));
  Field fresh{Field::Kind::several_of, "fresh", call.say("quiz-fresh")};
  fresh.choices = {{"yes", call.say("quiz-fresh-yes")}};
  fresh.chosen = {"yes"};
  form.fields.push_back(fresh);
  return form;
}

Response new_page(const Call& call, const Form& form, int from) {
  mustache::data data;
  data.set("form", call.form(form));
  data.set("no-class", mustache::data(call.house.folder.classes().empty()));
  data.set("from", mustache::data(from > 0));
  return call.page(
      {call.language, "quizzes", call.say("quiz-new"), "/quizzes", call.say("room-quizzes")},
      "quiz-new", data);
}

int graded_number(const Call& call, const std::string& text) {
  int number = 0;
  if (text.empty() || text.size() > 6 || text.find_first_not_of("0123456789") != std::string::npos)
    return 0;
  number = std::stoi(text);
  return is_graded(call, number) ? number : 0;
}

Response show_new(const Call& call) {
  const int from = graded_number(call, call.query("from"));
  int class_number = 0;
  if (from > 0)
    class_number = call.house.folder.made_for(from).class_number;
  else
    for (const auto& one : call.house.folder.classes())
      if (std::to_string(one.number) == call.query("class")) class_number = one.number;
  return new_page(call, new_form(call, class_number, from), from);
}

/// Makes the quiz in the folder `number`, telling how far it has come.
void begin_writing(const Call& call, int number, std::shared_ptr<const quiz::Maker> maker) {
  call.house.work.begin(
      work_about(number), [&templates = call.house.templates, &folder = call.house.folder, number,
                           maker = std::move(maker)](const Work::Tell& tell) {
        const int sheets = maker->header().sheets;
        try {
          tasks::write_quiz(*maker, templates, folder.quiz(number),
                            [&](std::size_t done) { tell(static_cast<int>(done), sheets); });
        } catch (const std::exception& error) {
          if (folder.is_unfinished(number)) folder.tell_failed(number, engine::wording_of(error));
          throw;
        }
      });
}

/// Whoever makes a quiz for the class anew needs no list of those that came to no end.
void forget_unfinished(const Call& call, int class_number, int but) {
  const Folder& folder = call.house.folder;
  for (const int number : folder.unfinished_quizzes()) {
    const auto state = call.house.work.state(work_about(number)).value_or(Work::State{});
    if (number != but && !state.running && folder.made_for(number).class_number == class_number)
      folder.forget_unfinished(number);
  }
}

Response make(const Call& call) {
  const int from = graded_number(call, call.sent("from"));
  Form form = new_form(call, 0, from);
  form.fill(call.request.form);
  std::optional<SchoolClass> school;
  for (auto& one : call.house.folder.classes())
    if (std::to_string(one.number) == form.at("class").value) school = std::move(one);
  if (!school)
    form.refuse("class", call.say("choose-one"));
  else if (!school->faults.empty())
    form.refuse("class", call.say("class-faulty"));
  const auto all = recipes(call);
  const auto recipe = std::find_if(all.begin(), all.end(), [&](const Recipe& one) {
    return one.name == form.at("made-of").value;
  });
  if (recipe == all.end()) form.refuse("made-of", call.say("choose-one"));
  if (!records::read_date(form.at("date").value)) form.refuse("date", call.say("no-day"));
  if (!form.sound()) return new_page(call, form, from);

  quiz::Settings settings;
  settings.seed = call.house.seed();
  settings.secret = call.house.random().substr(0, 32);
  settings.program = call.house.program;
  settings.names = school->names;
  settings.accommodations = school->accommodations;
  settings.sheets = std::max(static_cast<int>(school->names.size()), 1);
  settings.date = form.at("date").value;
  settings.style = call.preferences.style;
  settings.style.language = form.at("language").value == grade::language_names().at(1)
                                ? engine::Language::spanish
                                : engine::Language::english;
  settings.system = form.at("units").value == grade::system_names().at(1) ? notation::System::si
                                                                          : notation::System::us;
  settings.paper = call.preferences.paper;
  settings.rules = call.preferences.rules;
  settings.course_plan = recipe->course;
  settings.week = recipe->week;
  if (from > 0)
    for (const auto& section : recipe->blueprint.sections)
      if (form.at("topics").chosen.count(section.topic) > 0 &&
          std::find(settings.topics.begin(), settings.topics.end(), section.topic) ==
              settings.topics.end())
        settings.topics.push_back(section.topic);
  if (from > 0 && settings.topics.empty()) {
    form.refuse("topics", call.say("quiz-no-topics"));
    return new_page(call, form, from);
  }
  if (form.at("fresh").chosen.count("yes") > 0) {
    std::vector<std::string> files;
    for (const int number : quizzes_of(call, school->number))
      files.insert(files.begin(), (call.house.folder.quiz(number) / "quiz.json").string());
    settings.before = tasks::read_earlier_quizzes(files);
  }
  std::shared_ptr<const quiz::Maker> maker;
  try {
    maker = std::make_shared<const quiz::Maker>(call.house.bank, recipe->blueprint, settings);
  } catch (const quiz::CannotMake& refusal) {
    form.refuse("made-of", engine::wording_of(refusal).in(call.language));
    return new_page(call, form, from);
  }
  const int number = call.house.folder.add_quiz({school->number, settings.date});
  forget_unfinished(call, school->number, number);
  begin_writing(call, number, maker);
  return see_other(address_of(number));
}

/// Other numbers for the same question, or another question of its topic.
Form swap_form(const Call& call, int number, const quiz::Sheet& sheet,
               const quiz::Question& question) {
  const std::string place = std::to_string(question.number);
  Form form;
  form.action = address_of(number) + "/swap";
  form.button = call.say("swap-button");
  form.plain = true;
  Field other{Field::Kind::list, "item-" + place, call.say("swap-for")};
  other.choices = {{"", call.say("swap-draw")}};
  for (const auto& item : call.house.bank.items) {
    const bool asked = std::any_of(sheet.questions.begin(), sheet.questions.end(),
                                   [&](const auto& one) { return one.item == item.id; });
    if (item.topic == question.topic && !asked)
      other.choices.push_back({item.id, tasks::in_language(item.title, call.language) + ", " +
                                            call.say_with("level", item.level)});
  }
  form.fields = {other, {Field::Kind::hidden, "number", "", place}};
  return form;
}

mustache::data question_data(const Call& call, int number, const quiz::Sheet& sheet,
                             const quiz::Question& question, bool may_swap) {
  mustache::data data;
  const std::string place = std::to_string(question.number);
  data.set("question-number", place);
  data.set("question-title", question.title);
  data.set("question-topic", question.topic_title);
  data.set("question-level", call.say_with("level", question.level));
  data.set("question-points", call.say_with("points", question.points));
  data.set("stem", render::html_of_markdown(question.stem));
  std::string right;
  mustache::data options(mustache::data::type::list);
  for (const auto& option : question.options) {
    mustache::data one;
    one.set("letter", option.letter);
    one.set("option", render::html_of_markdown(option.text));
    one.set("is-right", mustache::data(option.right));
    options << one;
    if (option.right) right += (right.empty() ? "" : ", ") + option.letter;
  }
  if (question.kind == quiz::Kind::order) right = order_of(question);
  data.set("options", options);
  data.set("has-options", mustache::data(!question.options.empty()));
  data.set("right", question.answer ? question.answer->text : right);
  const auto figure = figure_file(call, number, question.number);
  data.set("has-figure", mustache::data(std::filesystem::exists(figure)));
  data.set("figure", address_of(number) + "/figures/" + place);
  data.set("figure-says", call.say_with("figure-of", question.number));
  data.set("may-swap", mustache::data(may_swap));
  if (may_swap) data.set("swap", call.form(swap_form(call, number, sheet, question)));
  return data;
}

/// A quiz without its files: being written, or not brought to its end.
Response unfinished_page(const Call& call, int number) {
  const auto state = call.house.work.state(work_about(number)).value_or(Work::State{});
  const MadeFor made_for = call.house.folder.made_for(number);
  const std::string& failed = made_for.failed.in(call.language);
  Form forget;
  forget.action = address_of(number) + "/forget";
  forget.button = call.say("quiz-forget");
  forget.plain = true;
  mustache::data data;
  data.set("work", address_of(number) + "/work");
  data.set("done", std::to_string(state.done));
  data.set("of", std::to_string(std::max(state.of, 1)));
  data.set("running", mustache::data(state.running));
  data.set("work-says", call.say("work-label"));
  data.set("failed", failed);
  data.set("has-failed", mustache::data(!failed.empty()));
  data.set("again", address_of(number));
  data.set("new-quiz", "/quizzes/new?class=" + std::to_string(made_for.class_number));
  data.set("forget", call.form(forget));
  return call.page(
      {call.language, "quizzes", call.say(state.running ? "work-running" : "work-failed"),
       "/quizzes", call.say("room-quizzes")},
      "work", data);
}

Response quiz_page(const Call& call, int number, const std::string& failed) {
  const auto kept = quiz_of(call, number);
  const grade::Quiz& quiz = *kept;
  const quiz::Sheet& first = quiz.sheets.front();
  const bool may_swap = answered_seats(call, number, quiz) == 0;
  mustache::data data;
  set_steps(call, number, "quiz", data);
  data.set("facts", call.say_with("quiz-facts", quiz.header.code, quiz.sheets.size(),
                                  first.questions.size(), first.points, quiz.header.minutes));
  data.set("rules", quiz.header.rules_title);
  data.set("print-sheets", address_of(number) + "/sheets");
  data.set("print-keys", address_of(number) + "/keys");
  data.set("failed", failed);
  data.set("has-failed", mustache::data(!failed.empty()));
  mustache::data questions(mustache::data::type::list);
  for (const auto& question : first.questions)
    questions << question_data(call, number, first, question, may_swap);
  data.set("questions", questions);
  data.set("first-seat", call.say_with("quiz-first-seat", first.seat));
  mustache::data needs(mustache::data::type::list);
  bool any_needs = false;
  for (const auto& sheet : quiz.sheets) {
    const std::string text = needs_text(call, sheet.accommodations);
    if (text.empty()) continue;
    any_needs = true;
    mustache::data one;
    one.set("needs-seat", call.say_with("seat-of", sheet.seat, sheet.name));
    one.set("needs", text);
    needs << one;
  }
  data.set("needs-list", needs);
  data.set("has-needs", mustache::data(any_needs));
  return call.page(quiz_frame(call, number, quiz), "quiz", data);
}

/// Changes one question in every sheet, while nobody has answered.
Response swap(const Call& call) {
  const int number = call.number(0);
  const auto kept = quiz_of(call, number);
  const grade::Quiz& quiz = *kept;
  if (answered_seats(call, number, quiz) > 0)
    return quiz_page(call, number, call.say("swap-too-late"));
  for (const auto& question : quiz.sheets.front().questions) {
    const std::string place = std::to_string(question.number);
    if (place != call.sent("number")) continue;
    try {
      const tasks::QuizAgain again(call.house.folder.quiz(number));
      begin_writing(call, number,
                    std::make_shared<const quiz::Maker>(again.maker(
                        call.house.bank, {{question.number, call.sent("item-" + place)}})));
    } catch (const quiz::CannotSwap& refusal) {
      return quiz_page(call, number, engine::wording_of(refusal).in(call.language));
    } catch (const tasks::Failure& refusal) {
      return quiz_page(call, number, refusal.says.in(call.language));
    }
    return see_other(address_of(number) + "?told=swapped#question-" + place);
  }
  throw NotThere();
}

Response show(const Call& call) {
  const int number = call.number(0);
  const auto state = call.house.work.state(work_about(number)).value_or(Work::State{});
  if (state.running || call.house.folder.is_unfinished(number))
    return unfinished_page(call, number);
  return quiz_page(call, number, state.failed.in(call.language));
}

Response forget(const Call& call) {
  const int number = call.number(0);
  const auto state = call.house.work.state(work_about(number)).value_or(Work::State{});
  if (state.running || !call.house.folder.is_unfinished(number)) throw NotThere();
  call.house.folder.forget_unfinished(number);
  return see_other("/quizzes");
}

Response show_all(const Call& call) {
  mustache::data list(mustache::data::type::list);
  const auto unfinished = call.house.folder.unfinished_quizzes();
  const auto numbers = call.house.folder.quizzes();
  for (const int number : unfinished) list << unfinished_row(call, number);
  for (const int number : numbers) list << quiz_row(call, number);
  mustache::data data;
  data.set("quizzes", list);
  data.set("has-quizzes", mustache::data(!numbers.empty() || !unfinished.empty()));
  return call.page({call.language, "quizzes", call.say("room-quizzes")}, "quizzes", data);
}

Response show_work(const Call& call) {
  const auto state = call.house.work.state(work_about(call.number(0)));
  if (!state) throw NotThere();
  Response response;
  response.type = "application/json";
  response.body =
      nlohmann::json{{"running", state->running}, {"done", state->done}, {"of", state->of}}.dump();
  return response;
}

}  // namespace

void add_quiz_room(Routes& routes) {
  routes.get("/quizzes", show_all);
  routes.get("/quizzes/new", show_new);
  routes.post("/quizzes/new", make);
  routes.get("/quizzes/{number}", show);
  routes.post("/quizzes/{number}/swap", swap);
  routes.post("/quizzes/{number}/forget", forget);
  routes.get("/quizzes/{number}/work", show_work);
  routes.get("/quizzes/{number}/sheets", [](const Call& call) {
    return printed_page(there(call, call.house.folder.quiz(call.number(0)) / "all-sheets.html"));
  });
  routes.get("/quizzes/{number}/keys", [](const Call& call) {
    return printed_page(there(call, call.house.folder.quiz(call.number(0)) / "all-keys.html"));
  });
  routes.get("/quizzes/{number}/figures/{number}", [](const Call& call) {
    Response response;
    response.type = "image/svg+xml";
    response.policy = Policy::printed;
    response.body =
        tasks::file_text(there(call, figure_file(call, call.number(0), call.number(1))));
    return response;
  });
}

}  // namespace footroom::desk
