// The classes: a title and the names, typed, pasted or from a file.

#include <algorithm>

#include "desk/room.hpp"
#include "tasks/failure.hpp"
#include "tasks/roster.hpp"

namespace footroom::desk {
namespace {

constexpr std::size_t most_names = 500;
constexpr std::size_t longest_title = 100;

Form class_form(const Call& call, const SchoolClass& now) {
  const bool fresh = now.number == 0;
  std::string names;
  for (const auto& name : now.names) names += name + "\n";
  Form form;
  form.action = fresh ? "/classes" : "/classes/" + std::to_string(now.number);
  form.button = call.say(fresh ? "class-add" : "class-save");
  form.fields = {
      {Field::Kind::text,
       "title",
       call.say("class-title"),
       now.title,
       call.say("class-title-hint"),
       {},
       true},
      {Field::Kind::area, "names", call.say("class-names"), names, call.say("class-names-hint")},
      {Field::Kind::file, "file", call.say("class-file"), {}, call.say("class-file-hint")}};
  return form;
}

/// Names a line each: the roster's reader takes them as a file of one column.
std::string as_roster(const std::string& typed) {
  std::string csv = "name\n";
  for (std::size_t at = 0; at < typed.size();) {
    const auto end = std::min(typed.find('\n', at), typed.size());
    const std::string name = trimmed(std::string_view(typed).substr(at, end - at));
    at = end + 1;
    if (name.empty()) continue;
    csv += '"';
    for (const char c : name) csv += c == '"' ? "\"\"" : std::string(1, c);
    csv += "\"\n";
  }
  return csv;
}

/// Reads the names of `csv` into `into`, or says at `field` what is wrong.
void read_names(const Call& call, const std::string& csv, const char* field, Form& form,
                std::vector<std::string>& into) {
  try {
    const auto roster = tasks::read_roster(csv, call.say(field));
    if (!roster.defects.empty()) {
      form.refuse(field, roster.defects.front().text());
      return;
    }
    into.insert(into.end(), roster.names.begin(), roster.names.end());
  } catch (const tasks::Failure& failure) {
    form.refuse(field, failure.what());
  }
}

/// What was sent; where it is not sound, the form says why.
SchoolClass sent_class(const Call& call, Form& form) {
  SchoolClass sent;
  sent.title = trimmed(call.sent("title"));
  if (sent.title.empty())
    form.refuse("title", call.say("class-no-title"));
  else if (sent.title.size() > longest_title)
    form.refuse("title", call.say("too-long"));
  const std::string typed = call.sent("names");
  if (!trimmed(typed).empty()) read_names(call, as_roster(typed), "names", form, sent.names);
  const std::string file = call.sent("file");
  if (!file.empty()) read_names(call, file, "file", form, sent.names);
  if (form.sound() && sent.names.empty()) form.refuse("names", call.say("class-no-names"));
  if (sent.names.size() > most_names)
    form.refuse("names", call.say_with("class-too-many", most_names));
  return sent;
}

Response all_page(const Call& call, const Form& form) {
  mustache::data list(mustache::data::type::list);
  const auto classes = call.house.folder.classes();
  for (const auto& one : classes) {
    mustache::data row;
    row.set("class-address", "/classes/" + std::to_string(one.number));
    row.set("class-title", one.title);
    row.set("class-size", call.say_with("class-size", one.names.size()));
    list << row;
  }
  mustache::data data;
  data.set("has-classes", mustache::data(!classes.empty()));
  data.set("classes", list);
  data.set("form", call.form(form));
  return call.page({call.language, "classes", call.say("room-classes")}, "classes", data);
}

Response one_page(const Call& call, const SchoolClass& now, const Form& form) {
  mustache::data data;
  data.set("form", call.form(form));
  data.set("new-quiz", "/quizzes/new?class=" + std::to_string(now.number));
  Pages::Frame frame{call.language, "classes", now.title, "/classes", call.say("room-classes")};
  if (call.query("told") == "saved") frame.told = call.say("class-saved");
  return call.page(frame, "class", data);
}

SchoolClass there(const Call& call) {
  const auto found = call.house.folder.school_class(call.number(0));
  if (!found) throw NotThere();
  return *found;
}

Response add(const Call& call) {
  Form form = class_form(call, {});
  form.fill(call.request.form);
  const SchoolClass sent = sent_class(call, form);
  if (!form.sound()) return all_page(call, form);
  const int number = call.house.folder.add(sent);
  return see_other("/classes/" + std::to_string(number) + "?told=saved");
}

Response change(const Call& call) {
  const SchoolClass now = there(call);
  Form form = class_form(call, now);
  form.fill(call.request.form);
  SchoolClass sent = sent_class(call, form);
  if (!form.sound()) return one_page(call, now, form);
  sent.number = now.number;
  call.house.folder.write(sent);
  return see_other("/classes/" + std::to_string(now.number) + "?told=saved");
}

}  // namespace

void add_class_room(Routes& routes) {
  routes.get("/classes", [](const Call& call) { return all_page(call, class_form(call, {})); });
  routes.post("/classes", add);
  routes.get("/classes/{number}", [](const Call& call) {
    const SchoolClass now = there(call);
    return one_page(call, now, class_form(call, now));
  });
  routes.post("/classes/{number}", change);
}

}  // namespace footroom::desk
