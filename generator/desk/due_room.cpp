// Who is to be trained again by which day, by course, with the reason.

#include <algorithm>
#include <map>

#include "desk/crew.hpp"
#include "desk/person_page.hpp"
#include "desk/room.hpp"
#include "tasks/due_list.hpp"

namespace footroom::desk {
namespace {

/// What the page is asked for. It is asked by GET, and changes nothing.
struct Asked {
  Form form;  ///< its fields alone
  records::Date on;
  std::optional<records::Number> employer;
  std::optional<records::Number> course;
};

std::optional<records::Number> chosen(Form& form, const char* name, const Call& call) {
  Field& field = form.at(name);
  if (field.value.empty()) return std::nullopt;
  if (std::none_of(field.choices.begin(), field.choices.end(),
                   [&](const Choice& choice) { return choice.value == field.value; })) {
    form.refuse(name, call.say("choose-one"));
    return std::nullopt;
  }
  return number_in(field.value);
}

Asked asked(const Call& call, records::Store* store) {
  Asked asked;
  Field on{Field::Kind::date, "on", call.say("due-on"), call.house.today()};
  Field employer{Field::Kind::list, "employer", call.say("due-employer")};
  employer.choices = {{"", call.say("due-all")}};
  Field course{Field::Kind::list, "course", call.say("due-course")};
  course.choices = {{"", call.say("due-all")}};
  if (store) {
    for (auto& choice : employer_choices(*store)) employer.choices.push_back(std::move(choice));
    for (auto& choice : course_choices(call, *store)) course.choices.push_back(std::move(choice));
  }
  asked.form.fields = {on, employer, course};
  asked.form.fill(call.request.query);
  const auto day = day_in(call, asked.form, "on");
  if (!day) asked.form.refuse("on", call.say("no-day"));
  asked.on = day ? *day : recorded_today(call);
  asked.employer = chosen(asked.form, "employer", call);
  asked.course = chosen(asked.form, "course", call);
  return asked;
}

std::string query_of(const Form& form) {
  std::string query;
  for (const Field& field : form.fields)
    query += (query.empty() ? "?" : "&") + field.name + "=" + in_address(field.value);
  return query;
}

/// By course, the longest overdue first within each.
std::vector<records::Due> dues(records::Store& store, const Asked& asked) {
  std::map<records::Number, std::vector<records::Due>> by_course;
  store.each_due(asked.on, asked.employer, [&](const records::Due& due) {
    if (!asked.course || *asked.course == due.standing.course)
      by_course[due.standing.course].push_back(due);
  });
  std::vector<records::Due> all;
  for (auto& [course, some] : by_course)
    std::move(some.begin(), some.end(), std::back_inserter(all));
  return all;
}

mustache::data row_of(const Call& call, const records::Due& due) {
  const auto line = tasks::due_line(due, call.language);
  mustache::data row;
  row.set("person-address", person_address(due.standing.person));
  row.set("person-name", shown_name(call, {due.standing.person, due.person, due.erased}));
  row.set("day", due.standing.due ? shown_day(call, *due.standing.due) : line.due);
  row.set("reason", line.reason);
  row.set("trained", due.standing.trained
                         ? call.say_with("due-trained", shown_day(call, *due.standing.trained))
                         : call.say("due-untrained"));
  return row;
}

/// The rows of a page under the titles of their courses.
mustache::data courses_data(const Call& call, const std::vector<records::Due>& shown) {
  mustache::data courses(mustache::data::type::list);
  for (std::size_t i = 0; i < shown.size();) {
    const auto course = shown[i].standing.course;
    mustache::data rows(mustache::data::type::list);
    mustache::data one;
    one.set("course-id", "course-" + std::to_string(course));
    one.set("course-title", tasks::due_line(shown[i], call.language).course);
    for (; i < shown.size() && shown[i].standing.course == course; ++i)
      rows << row_of(call, shown[i]);
    one.set("rows", rows);
    courses << one;
  }
  return courses;
}

Response show(const Call& call) {
  const auto store = crew_store(call);
  const Asked now = asked(call, store.get());
  std::vector<records::Due> all;
  if (store && now.form.sound()) all = dues(*store, now);
  const std::string query = query_of(now.form);
  mustache::data data;
  data.set("ask", call.form(now.form));
  data.set("courses", courses_data(call, paged(call, all, "/due" + query + "&", data)));
  data.set("any", mustache::data(!all.empty()));
  data.set("nobody", mustache::data(all.empty() && now.form.sound()));
  const std::string day = shown_day(call, now.on);
  data.set("counted", all.empty() ? call.say_with("due-nobody", day)
                                  : call.say_with("due-counted", all.size(), day));
  data.set("calendar", "/due/calendar" + query);
  return call.page({call.language, "due", call.say("due-title")}, "due", data);
}

Response calendar(const Call& call) {
  const auto store = crew_store(call);
  const Asked now = asked(call, store.get());
  if (!store || !now.form.sound()) throw NotThere();
  tasks::DueCalendar calendar(call.language);
  for (const auto& due : dues(*store, now)) calendar.add(due);
  if (calendar.empty()) throw NotThere();
  Response response;
  response.type = "text/calendar; charset=utf-8";
  response.file_name = "due.ics";
  response.body = calendar.text(*store, now.on, call.house.program);
  return response;
}

}  // namespace

void add_due_room(Routes& routes) {
  routes.get("/due", show);
  routes.get("/due/calendar", calendar);
}

}  // namespace footroom::desk
