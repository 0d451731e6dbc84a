// Courses, employers, and after how long an employer wants a course again.

#include <algorithm>

#include "desk/crew.hpp"
#include "desk/room.hpp"
#include "tasks/record.hpp"

namespace footroom::desk {
namespace {

using records::Number;

constexpr int most_months = 600;

Form course_form(const Call& call, const records::Numbered<records::Course>& now) {
  const bool fresh = now.number == 0;
  Form form;
  form.action = fresh ? "/courses" : "/courses/" + std::to_string(now.number);
  form.button = call.say(fresh ? "course-add" : "course-save");
  if (fresh) {
    Field code{Field::Kind::text, "code", call.say("course-code")};
    code.hint = call.say("course-code-hint");
    code.needed = true;
    form.fields.push_back(code);
  }
  form.fields.push_back(
      {Field::Kind::text, "english", call.say("course-english"), now.value.english});
  Field spanish{Field::Kind::text, "spanish", call.say("course-spanish"), now.value.spanish};
  spanish.hint = call.say("course-titles-hint");
  form.fields.push_back(spanish);
  return form;
}

Form employer_form(const Call& call, const records::Numbered<records::Employer>& now) {
  const bool fresh = now.number == 0;
  Form form;
  form.action = fresh ? "/employers" : "/employers/" + std::to_string(now.number);
  form.button = call.say(fresh ? "employer-add" : "employer-save");
  Field name{Field::Kind::text, "name", call.say("employer-name"), now.value.name};
  name.needed = true;
  form.fields = {name, {Field::Kind::text, "place", call.say("employer-place"), now.value.place}};
  return form;
}

Form interval_form(const Call& call, records::Store& store, Number course) {
  Form form;
  form.action = "/courses/" + std::to_string(course) + "/interval";
  form.button = call.say("interval-set");
  Field employer{Field::Kind::list, "employer", call.say("interval-employer")};
  employer.choices = employer_choices(store);
  Field months{Field::Kind::text, "months", call.say("interval-months"), "12"};
  months.hint = call.say("interval-months-hint");
  months.unit = call.say("interval-unit");
  months.narrow = true;
  form.fields = {employer, months};
  return form;
}

records::Course sent_course(const Call& call, Form& form, records::Course course) {
  refuse_unclean(call, form);
  course.english = form.at("english").value;
  course.spanish = form.at("spanish").value;
  if (course.english.empty() && course.spanish.empty())
    form.refuse("english", call.say("course-no-title"));
  return course;
}

records::Employer sent_employer(const Call& call, Form& form, records::Store& store,
                                Number number) {
  refuse_unclean(call, form);
  const records::Employer sent{form.at("name").value, form.at("place").value};
  if (sent.name.empty()) form.refuse("name", call.say("employer-no-name"));
  for (const auto& one : store.employers())
    if (one.value.name == sent.name && one.number != number)
      form.refuse("name", call.say("employer-taken"));
  return sent;
}

/// In a store that looking may not make, so it is made here.
Number added(const Call& call, records::Store& store, const records::Content& content) {
  const auto writing = store.write(recorded_today(call));
  const Number number = writing->add(content);
  writing->commit();
  return number;
}

void corrected(const Call& call, records::Store& store, Number number,
               const records::Content& content) {
  const auto writing = store.write(recorded_today(call));
  writing->correct(number, content);
  writing->commit();
}

Response all_page(const Call& call, const Form& course, const Form& employer) {
  const auto store = crew_store(call);
  mustache::data courses(mustache::data::type::list);
  mustache::data employers(mustache::data::type::list);
  mustache::data data;
  data.set("has-courses", mustache::data(store && !store->courses().empty()));
  data.set("has-employers", mustache::data(store && !store->employers().empty()));
  if (store) {
    for (const auto& one : store->courses()) {
      mustache::data row;
      row.set("course-address", "/courses/" + std::to_string(one.number));
      row.set("course-title", tasks::title_of(one.value, call.language));
      row.set("course-code", one.value.code);
      courses << row;
    }
    for (const auto& one : store->employers()) {
      mustache::data row;
      row.set("employer-address", "/employers/" + std::to_string(one.number));
      row.set("employer-name", one.value.name);
      row.set("employer-place", one.value.place);
      employers << row;
    }
  }
  data.set("courses", courses);
  data.set("employers", employers);
  data.set("course-form", call.form(course));
  data.set("employer-form", call.form(employer));
  Pages::Frame frame{call.language, "courses", call.say("room-courses")};
  if (call.query("told") == "saved") frame.told = call.say("saved");
  return call.page(frame, "courses", data);
}

template <class T>
struct Found {
  std::unique_ptr<records::Store> store;
  records::Numbered<T> one;
};

template <class T>
Found<T> found(const Call& call, std::vector<records::Numbered<T>> (records::Store::*all)()) {
  auto store = crew_store(call);
  if (!store) throw NotThere();
  for (auto& one : ((*store).*all)())
    if (one.number == call.number(0)) return {std::move(store), std::move(one)};
  throw NotThere();
}

Found<records::Course> found_course(const Call& call) {
  return found<records::Course>(call, &records::Store::courses);
}

Found<records::Employer> found_employer(const Call& call) {
  return found<records::Employer>(call, &records::Store::employers);
}

Response course_page(const Call& call, const Found<records::Course>& at, const Form& form,
                     const Form& interval) {
  records::Store& store = *at.store;
  std::vector<std::pair<Number, int>> months;  // of each employer, the last policy
  for (const auto& policy : store.policies()) {
    if (policy.value.course != at.one.number) continue;
    std::erase_if(months, [&](const auto& one) { return one.first == policy.value.employer; });
    months.emplace_back(policy.value.employer, policy.value.refresher_months);
  }
  mustache::data list(mustache::data::type::list);
  for (const auto& [employer, count] : months) {
    mustache::data row;
    for (const auto& one : store.employers())
      if (one.number == employer) row.set("interval-name", one.value.name);
    row.set("interval-text",
            count == 0 ? call.say("interval-none") : call.say_with("interval-every", count));
    list << row;
  }
  mustache::data data;
  data.set("code", at.one.value.code);
  data.set("intervals", list);
  data.set("has-intervals", mustache::data(!months.empty()));
  data.set("may-set", mustache::data(!store.employers().empty()));
  data.set("may-not-set", mustache::data(store.employers().empty()));
  data.set("interval-form", call.form(interval));
  data.set("form", call.form(form));
  Pages::Frame frame{call.language, "courses", tasks::title_of(at.one.value, call.language),
                     "/courses", call.say("room-courses")};
  if (call.query("told") == "saved") frame.told = call.say("saved");
  return call.page(frame, "course", data);
}

Response employer_page(const Call& call, const Found<records::Employer>& at, const Form& form) {
  mustache::data data;
  data.set("form", call.form(form));
  Pages::Frame frame{call.language, "courses", at.one.value.name, "/courses",
                     call.say("room-courses")};
  if (call.query("told") == "saved") frame.told = call.say("saved");
  return call.page(frame, "employer", data);
}

Response add_course(const Call& call) {
  Form form = course_form(call, {});
  form.fill(call.request.form);
  records::Course course = sent_course(call, form, {});
  course.code = form.at("code").value;
  if (course.code.empty()) form.refuse("code", call.say("course-no-code"));
  if (const auto store = crew_store(call))
    for (const auto& one : store->courses())
      if (one.value.code == course.code) form.refuse("code", call.say("course-taken"));
  if (form.sound()) try {
      const auto store = crew_store_to_write(call);
      return see_other("/courses/" + std::to_string(added(call, *store, course)) + "?told=saved");
    } catch (const records::Refused& refusal) {
      form.error = refusal.says.in(call.language);
    }
  return all_page(call, form, employer_form(call, {}));
}

Response add_employer(const Call& call) {
  Form form = employer_form(call, {});
  form.fill(call.request.form);
  try {
    const auto store = crew_store_to_write(call);
    const auto employer = sent_employer(call, form, *store, 0);
    if (form.sound()) {
      added(call, *store, employer);
      return see_other("/courses?told=saved");
    }
  } catch (const records::Refused& refusal) {
    form.error = refusal.says.in(call.language);
  }
  return all_page(call, course_form(call, {}), form);
}

Response change_course(const Call& call) {
  const auto at = found_course(call);
  Form form = course_form(call, at.one);
  form.fill(call.request.form);
  const auto sent = sent_course(call, form, at.one.value);
  if (form.sound()) try {
      corrected(call, *at.store, at.one.number, sent);
      return see_other("/courses/" + std::to_string(at.one.number) + "?told=saved");
    } catch (const records::Refused& refusal) {
      form.error = refusal.says.in(call.language);
    }
  return course_page(call, at, form, interval_form(call, *at.store, at.one.number));
}

Response change_employer(const Call& call) {
  const auto at = found_employer(call);
  Form form = employer_form(call, at.one);
  form.fill(call.request.form);
  const auto sent = sent_employer(call, form, *at.store, at.one.number);
  if (form.sound()) try {
      corrected(call, *at.store, at.one.number, sent);
      return see_other("/employers/" + std::to_string(at.one.number) + "?told=saved");
    } catch (const records::Refused& refusal) {
      form.error = refusal.says.in(call.language);
    }
  return employer_page(call, at, form);
}

Response set_interval(const Call& call) {
  const auto at = found_course(call);
  Form form = interval_form(call, *at.store, at.one.number);
  form.fill(call.request.form);
  const Field& employer = form.at("employer");
  if (std::none_of(employer.choices.begin(), employer.choices.end(),
                   [&](const Choice& choice) { return choice.value == employer.value; }))
    form.refuse("employer", call.say("choose-one"));
  const std::string months = trimmed(form.at("months").value);
  const bool is_number = !months.empty() && months.size() <= 3 &&
                         months.find_first_not_of("0123456789") == std::string::npos &&
                         std::stoi(months) <= most_months;
  if (!is_number) form.refuse("months", call.say_with("interval-no-months", most_months));
  if (!form.sound()) return course_page(call, at, course_form(call, at.one), form);
  added(call, *at.store,
        records::Policy{number_in(employer.value), at.one.number, std::stoi(months)});
  return see_other("/courses/" + std::to_string(at.one.number) + "?told=saved");
}

}  // namespace

void add_course_room(Routes& routes) {
  routes.get("/courses", [](const Call& call) {
    return all_page(call, course_form(call, {}), employer_form(call, {}));
  });
  routes.post("/courses", add_course);
  routes.post("/employers", add_employer);
  routes.get("/courses/{number}", [](const Call& call) {
    const auto at = found_course(call);
    return course_page(call, at, course_form(call, at.one),
                       interval_form(call, *at.store, at.one.number));
  });
  routes.post("/courses/{number}", change_course);
  routes.post("/courses/{number}/interval", set_interval);
  routes.get("/employers/{number}", [](const Call& call) {
    const auto at = found_employer(call);
    return employer_page(call, at, employer_form(call, at.one));
  });
  routes.post("/employers/{number}", change_employer);
}

}  // namespace footroom::desk
