// Language, units, paper and rules: what new pages and quizzes use.

#include <algorithm>

#include "desk/room.hpp"
#include "grade/names.hpp"
#include "tasks/text.hpp"

namespace footroom::desk {
namespace {

constexpr const char* second_paper = "a4";

Form preferences_form(const Call& call) {
  const Preferences& now = call.preferences;
  const auto& languages = grade::language_names();
  const auto& systems = grade::system_names();
  const auto& marks = grade::decimal_mark_names();
  const auto pick = [](const std::vector<std::string>& names, bool second) {
    return names.at(second ? 1 : 0);
  };
  Form form;
  form.action = "/preferences";
  form.button = call.say("preferences-save");
  Field language{Field::Kind::one_of, "language", call.say("language"),
                 pick(languages, call.language == engine::Language::spanish)};
  language.choices = {{languages[0], "English"}, {languages[1], "Español"}};
  Field units{Field::Kind::one_of, "units", call.say("units"),
              pick(systems, now.system == notation::System::si)};
  units.choices = {{systems[0], call.say("units-us")}, {systems[1], call.say("units-si")}};
  Field mark{Field::Kind::one_of, "decimal-mark", call.say("decimal-mark"),
             pick(marks, now.style.decimal_mark == ',')};
  mark.choices = {{marks[0], call.say("decimal-mark-point")},
                  {marks[1], call.say("decimal-mark-comma")}};
  Field paper{Field::Kind::one_of, "paper", call.say("paper"),
              now.paper == quiz::Paper::a4 ? second_paper : "letter"};
  paper.choices = {{"letter", call.say("paper-letter")}, {second_paper, call.say("paper-a4")}};
  Field rules{Field::Kind::list, "rules", call.say("rules"), now.rules};
  for (const auto& [id, set] : call.house.bank.rules)
    rules.choices.push_back({id, tasks::in_language(set.title, call.language)});
  Field course{Field::Kind::list, "course", call.say("course"), now.course};
  course.hint = call.say("course-hint");
  course.choices.push_back({"", call.say("course-none")});
  for (const auto& [id, plan] : call.house.bank.courses)
    course.choices.push_back({id, tasks::in_language(plan.title, call.language)});
  form.fields = {language, units, mark, paper, rules, course};
  return form;
}

Response show(const Call& call, const Form& form) {
  mustache::data data;
  data.set("form", call.form(form));
  data.set("folder", call.house.folder.path().string());
  data.set("program", call.house.program);
  Pages::Frame frame{call.language, "preferences", call.say("room-preferences")};
  if (call.query("told") == "saved") frame.told = call.say("preferences-saved");
  return call.page(frame, "preferences", data);
}

Response save(const Call& call) {
  Form form = preferences_form(call);
  form.fill(call.request.form);
  for (Field& field : form.fields)
    if (std::none_of(field.choices.begin(), field.choices.end(),
                     [&](const Choice& choice) { return choice.value == field.value; }))
      field.error = call.say("choose-one");
  if (!form.sound()) return show(call, form);
  Preferences chosen;
  if (form.at("language").value == grade::language_names().at(1))
    chosen.style.language = engine::Language::spanish;
  if (form.at("units").value == grade::system_names().at(1)) chosen.system = notation::System::si;
  if (form.at("decimal-mark").value == grade::decimal_mark_names().at(1))
    chosen.style.decimal_mark = ',';
  if (form.at("paper").value == second_paper) chosen.paper = quiz::Paper::a4;
  chosen.rules = form.at("rules").value;
  chosen.course = form.at("course").value;
  call.house.folder.write(chosen);
  return see_other("/preferences?told=saved");
}

}  // namespace

void add_preferences_room(Routes& routes) {
  routes.get("/preferences", [](const Call& call) { return show(call, preferences_form(call)); });
  routes.post("/preferences", save);
}

}  // namespace footroom::desk
