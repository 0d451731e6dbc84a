// Sessions of training: recording one with who came and who completed it, and correcting it.

#include <algorithm>

#include "desk/crew.hpp"
#include "desk/room.hpp"
#include "desk/whom.hpp"
#include "tasks/certificates.hpp"
#include "tasks/record.hpp"
#include "tasks/record_sessions.hpp"

namespace footroom::desk {
namespace {

using records::Number;
using People = std::vector<records::Numbered<records::Person>>;
using Session = records::Numbered<records::Session>;

constexpr std::size_t most_listed = 500;  ///< people on one page

std::string address_of(Number session) {
  return "/sessions/" + std::to_string(session);
}

/// The store, and a session of it that is in effect. Throws NotThere.
struct Found {
  std::unique_ptr<records::Store> store;
  Session session;
};

Found found(const Call& call) {
  auto store = crew_store(call);
  if (!store || call.number(0) < 1 || store->head().number < call.number(0)) throw NotThere();
  const auto entry = store->effective(call.number(0));
  const auto* session = std::get_if<records::Session>(&entry.content);
  if (!session || entry.subject() != call.number(0)) throw NotThere();
  return {std::move(store), {entry.subject(), *session}};
}

// The list of those from whom it is ticked who came.

/// Everybody, the people of an employer, or the names of a class: "people", "employer-3",
/// "class-1".
struct From {
  std::string name;
  std::string label;
};

std::vector<From> lists_of(const Call& call, records::Store& store) {
  std::vector<From> all{{"people", call.say("session-from-people")}};
  for (const auto& employer : store.employers())
    all.push_back({"employer-" + std::to_string(employer.number), employer.value.name});
  for (const auto& one : call.house.folder.classes())
    all.push_back(
        {"class-" + std::to_string(one.number), call.say_with("session-from-class", one.title)});
  return all;
}

std::string chosen_list(const Call& call, records::Store& store, const std::string& asked) {
  const auto lists = lists_of(call, store);
  if (std::any_of(lists.begin(), lists.end(), [&](const From& one) { return one.name == asked; }))
    return asked;
  const bool nobody = crew(store).empty();
  const auto classes = call.house.folder.classes();
  return nobody && !classes.empty() ? "class-" + std::to_string(classes.back().number) : "people";
}

std::optional<SchoolClass> class_of(const Call& call, const std::string& from) {
  if (!from.starts_with("class-")) return std::nullopt;
  return call.house.folder.school_class(static_cast<int>(number_in(from.substr(6))));
}

Field attendance_field(const Call& call, const std::string& name, const std::string& label) {
  Field field{Field::Kind::several_of, name, label};
  field.choices = {{"came", call.say("session-came")},
                   {"completed", call.say("session-completed")}};
  field.beside = true;
  return field;
}

/// A tick row for each person, named by number, or for each name of a class, by its place in it.
void add_rows(const Call& call, const std::string& from, const People& people, Form& form) {
  if (const auto school = class_of(call, from)) {
    for (std::size_t i = 0; i < school->names.size(); ++i) {
      const std::string& name = school->names[i];
      Field field = attendance_field(call, "name-" + std::to_string(i + 1), name);
      field.means_label = call.say_with("whom-means", name);
      field.means = whom_choices(call, name, people);
      field.meant = field.means.front().value;
      field.chosen = {"came", "completed"};
      form.fields.push_back(field);
    }
    return;
  }
  const Number employer = from.starts_with("employer-") ? number_in(from.substr(9)) : 0;
  std::size_t listed = 0;
  for (const auto& person : people) {
    if (person.value.left || (employer != 0 && person.value.employer != employer)) continue;
    if (listed++ == most_listed) break;
    form.fields.push_back(attendance_field(call, "person-" + std::to_string(person.number),
                                           shown_name(call, person)));
  }
}

/// Days, trainer and place, which can be corrected later.
void add_facts(const Call& call, const People& people, const records::Session& now, Form& form) {
  Field day{Field::Kind::date, "day", call.say("session-day")};
  Field more{Field::Kind::text, "more-days", call.say("session-more-days")};
  more.hint = call.say("session-more-days-hint");
  if (!now.days.empty()) day.value = records::date_text(now.days.front());
  for (std::size_t i = 1; i < now.days.size(); ++i)
    more.value += (i > 1 ? ", " : "") + records::date_text(now.days[i]);
  day.needed = true;
  Field trainer{Field::Kind::list, "trainer", call.say("session-trainer")};
  trainer.choices = people_choices(call, people);
  trainer.choices.insert(trainer.choices.begin(), {"", call.say("session-no-trainer")});
  if (now.trainer) trainer.value = std::to_string(*now.trainer);
  Field other{Field::Kind::text, "new-trainer", call.say("session-new-trainer")};
  other.hint = call.say("session-new-trainer-hint");
  Field place{Field::Kind::text, "place", call.say("session-place"), now.place};
  form.fields.insert(form.fields.end(), {day, more, trainer, other, place});
}

/// The facts as they were sent; what is wrong is said at its field.
records::Session sent_facts(const Call& call, Form& form, records::Session session) {
  refuse_unclean(call, form);
  session.days.clear();
  if (const auto day = day_in(call, form, "day"))
    session.days.push_back(*day);
  else
    form.refuse("day", call.say("session-needs-day"));
  for (const auto& text : tasks::parts_of(form.at("more-days").value))
    if (const auto day = records::read_date(text))
      session.days.push_back(*day);
    else
      form.refuse("more-days", call.say("no-day"));
  std::sort(session.days.begin(), session.days.end());
  session.days.erase(std::unique(session.days.begin(), session.days.end()), session.days.end());
  const Field& trainer = form.at("trainer");
  const bool offered =
      std::any_of(trainer.choices.begin(), trainer.choices.end(),
                  [&](const Choice& choice) { return choice.value == trainer.value; });
  session.trainer.reset();
  if (!offered)
    form.refuse("trainer", call.say("choose-one"));
  else if (const Number number = number_in(trainer.value); number > 0)
    session.trainer = number;
  if (session.trainer && !form.at("new-trainer").value.empty())
    form.refuse("new-trainer", call.say("session-two-trainers"));
  session.place = form.at("place").value;
  return session;
}

/// A trainer who was not among the people becomes one of them.
void add_new_trainer(Form& form, records::Writing& writing, records::Session& session) {
  if (const std::string& name = form.at("new-trainer").value; !name.empty())
    session.trainer = writing.add(records::Person{name});
}

// Recording a session.

Form new_form(const Call& call, records::Store& store, const std::string& from,
              const People& people) {
  Form form;
  form.action = "/sessions/new";
  form.button = call.say("session-record");
  Field course{Field::Kind::list, "course", call.say("session-course")};
  course.choices = course_choices(call, store);
  form.fields.push_back(course);
  add_facts(call, people, {}, form);
  form.at("day").value = call.house.today();
  if (class_of(call, from)) {
    Field employer{Field::Kind::list, "employer", call.say("session-new-people")};
    employer.choices = employer_choices(store);
    employer.choices.insert(employer.choices.begin(), {"", call.say("no-employer")});
    employer.hint = call.say("session-new-people-hint");
    if (employer.choices.size() == 2) employer.value = employer.choices.back().value;
    form.fields.push_back(employer);
  }
  add_rows(call, from, people, form);
  form.fields.push_back({Field::Kind::hidden, "from", "", from});
  return form;
}

/// For how many there is a tick.
std::size_t rows_of(const Form& form) {
  return static_cast<std::size_t>(std::count_if(form.fields.begin(), form.fields.end(),
                                                [](const Field& field) { return field.beside; }));
}

Response new_page(const Call& call, records::Store* store, const std::string& from,
                  const Form& form) {
  mustache::data data;
  const bool ready = store && !store->courses().empty();
  data.set("ready", mustache::data(ready));
  data.set("no-course", mustache::data(!ready));
  mustache::data lists(mustache::data::type::list);
  if (ready)
    for (const From& one : lists_of(call, *store)) {
      mustache::data row;
      row.set("list-address", "/sessions/new?from=" + one.name);
      row.set("list-label", one.label);
      row.set("here", mustache::data(one.name == from));
      lists << row;
    }
  data.set("lists", lists);
  data.set("is-class", mustache::data(from.starts_with("class-")));
  data.set("nobody", mustache::data(ready && rows_of(form) == 0));
  data.set("more", mustache::data(rows_of(form) == most_listed));
  data.set("most", call.say_with("session-most", most_listed));
  data.set("form", call.form(form));
  return call.page(
      {call.language, "sessions", call.say("session-new"), "/sessions", call.say("room-sessions")},
      "session-new", data);
}

Response show_new(const Call& call) {
  const auto store = crew_store(call);
  if (!store) return new_page(call, nullptr, {}, {});
  const std::string from = chosen_list(call, *store, call.query("from"));
  return new_page(call, store.get(), from, new_form(call, *store, from, crew(*store)));
}

/// Who came, by what was ticked; people who are new are added. What is wrong is said at its row.
tasks::Attended attended_by(const Call& call, Form& form, records::Writing& writing,
                            std::optional<Number> employer) {
  tasks::Attended attended;
  for (Field& field : form.fields) {
    if (!field.beside) continue;
    const bool completed = field.chosen.count("completed") > 0;
    if (!completed && field.chosen.count("came") == 0) continue;
    Number person = 0;
    if (field.means.empty()) {
      person = number_in(std::string_view(field.name).substr(std::string_view("person-").size()));
    } else {
      const Whom meant = whom(field.means, field.meant);
      if (meant.kind == Whom::Kind::nobody) continue;
      if (meant.kind == Whom::Kind::unclear) {
        field.error = call.say("whom-choose");
        continue;
      }
      person = meant.kind == Whom::Kind::known
                   ? meant.person
                   : writing.add(records::Person{field.label, {}, employer, {}});
    }
    if (!attended.emplace(person, completed).second) field.error = call.say("whom-twice");
  }
  return attended;
}

Response record(const Call& call) {
  const auto store = crew_store(call);
  if (!store) throw NotThere();
  const std::string from = chosen_list(call, *store, call.sent("from"));
  Form form = new_form(call, *store, from, crew(*store));
  form.fill(call.request.form);
  records::Session session = sent_facts(call, form, {});
  session.course = number_in(form.at("course").value);
  const auto courses = store->courses();
  if (std::none_of(courses.begin(), courses.end(),
                   [&](const auto& one) { return one.number == session.course; }))
    form.refuse("course", call.say("choose-one"));
  std::optional<Number> employer;
  if (class_of(call, from))
    if (const Number number = number_in(form.at("employer").value); number > 0) employer = number;
  Number number = 0;
  try {
    const auto writing = store->write(recorded_today(call));
    const auto attended = attended_by(call, form, *writing, employer);
    if (form.sound() && attended.empty()) form.error = call.say("session-nobody-came");
    if (form.sound()) {
      add_new_trainer(form, *writing, session);
      number = tasks::add_session(*writing, session, attended);
      writing->commit();
    }
  } catch (const records::Refused& refusal) {
    form.error = refusal.says.in(call.language);
  }
  if (!form.sound()) return new_page(call, store.get(), from, form);
  return see_other(address_of(number) + "?told=recorded");
}

// A session that was recorded.

Form correct_form(const Call& call, records::Store& store, const Session& session) {
  Form form;
  form.action = address_of(session.number) + "/correct";
  form.button = call.say("session-correct");
  form.plain = true;
  add_facts(call, crew(store), session.value, form);
  return form;
}

Form add_form(const Call& call, records::Store& store, Number session) {
  Form form;
  form.action = address_of(session) + "/add";
  form.button = call.say("session-add");
  form.plain = true;
  People people = crew(store);
  for (const auto& attendance : store.attendances(session))
    std::erase_if(people,
                  [&](const auto& person) { return person.number == attendance.value.person; });
  Field person{Field::Kind::list, "person", call.say("person")};
  person.choices = people_choices(call, people);
  Field state{Field::Kind::one_of, "completed", call.say("session-attendance")};
  state.choices = {{"yes", call.say("session-completed")},
                   {"no", call.say("session-not-completed")}};
  state.value = "yes";
  form.fields = {person, state};
  return form;
}

Form certificates_form(const Call& call, Number session) {
  Form form;
  form.action = address_of(session) + "/certificates";
  form.button = call.say("session-certify");
  return form;
}

/// The forms of a session's page; one of them may have been refused.
struct Forms {
  Form correct;
  Form strike;
  Form add;
  Form certify;
};

Forms forms_of(const Call& call, records::Store& store, const Session& session) {
  return {correct_form(call, store, session),
          strike_form(call, address_of(session.number) + "/strike", "session-strike"),
          add_form(call, store, session.number), certificates_form(call, session.number)};
}

std::string told_text(const Call& call) {
  for (const char* told : {"recorded", "corrected", "added", "struck-person"})
    if (call.query("told") == told) return call.say(std::string("session-") + told);
  return {};
}

Response session_page(const Call& call, const Found& at, const Forms& forms) {
  records::Store& store = *at.store;
  const Session& session = at.session;
  mustache::data data;
  mustache::data people(mustache::data::type::list);
  std::size_t completed = 0;
  const auto attendances = store.attendances(session.number);
  for (const auto& attendance : attendances) {
    mustache::data row;
    row.set("person-address",
            address_of(session.number) + "/people/" + std::to_string(attendance.value.person));
    row.set("person-name", name_in_effect(call, store, attendance.value.person));
    row.set("person-state",
            call.say(attendance.value.completed ? "session-completed" : "session-not-completed"));
    completed += attendance.value.completed ? 1 : 0;
    people << row;
  }
  const auto certificates = tasks::certificates_naming(store, session.number);
  data.set("people", people);
  data.set("has-people", mustache::data(!attendances.empty()));
  data.set("days", shown_days(call, session.value.days));
  data.set("trainer", session.value.trainer ? name_in_effect(call, store, *session.value.trainer)
                                            : call.say("session-no-trainer"));
  data.set("place", session.value.place);
  data.set("has-place", mustache::data(!session.value.place.empty()));
  data.set("entry", call.say_with("entry", static_cast<std::size_t>(session.number)));
  data.set("may-certify", mustache::data(completed > 0));
  data.set("certify", call.form(forms.certify));
  data.set("certified", call.say_with("session-certified", certificates.size()));
  data.set("has-certificates", mustache::data(!certificates.empty()));
  data.set("certificates", "/certificates?session=" + std::to_string(session.number));
  data.set("correct", call.form(forms.correct));
  data.set("correct-open", mustache::data(!forms.correct.sound()));
  data.set("add", call.form(forms.add));
  data.set("add-open", mustache::data(!forms.add.sound()));
  data.set("strike", call.form(forms.strike));
  data.set("strike-open", mustache::data(!forms.strike.sound()));
  data.set("strike-note",
           call.say_with("session-strike-note", attendances.size(), certificates.size()));
  Pages::Frame frame{call.language, "sessions",
                     course_titles(call, store)[session.value.course] + ", " +
                         shown_day(call, session.value.days.front()),
                     "/sessions", call.say("room-sessions")};
  frame.told = told_text(call);
  return call.page(frame, "session", data);
}

Response show(const Call& call) {
  const Found at = found(call);
  return session_page(call, at, forms_of(call, *at.store, at.session));
}

/// Writes; a refusal is said at the form.
template <class Write>
bool written(const Call& call, records::Store& store, Form& form, const Write& write) {
  if (!form.sound()) return false;
  try {
    const auto writing = store.write(recorded_today(call));
    write(*writing);
    writing->commit();
  } catch (const records::Refused& refusal) {
    form.error = refusal.says.in(call.language);
  }
  return form.sound();
}

Response correct(const Call& call) {
  const Found at = found(call);
  Forms forms = forms_of(call, *at.store, at.session);
  forms.correct.fill(call.request.form);
  records::Session sent = sent_facts(call, forms.correct, at.session.value);
  if (!written(call, *at.store, forms.correct, [&](records::Writing& writing) {
        add_new_trainer(forms.correct, writing, sent);
        tasks::correct_session(*at.store, writing, at.session.number, sent);
      }))
    return session_page(call, at, forms);
  return see_other(address_of(at.session.number) + "?told=corrected");
}

Response strike(const Call& call) {
  const Found at = found(call);
  Forms forms = forms_of(call, *at.store, at.session);
  forms.strike.fill(call.request.form);
  refuse_unclean(call, forms.strike);
  if (tasks::has_erased_people(*at.store, at.session.number))
    forms.strike.error = call.say("session-has-erased");
  if (!written(call, *at.store, forms.strike, [&](records::Writing& writing) {
        tasks::withdraw_session(*at.store, writing, at.session.number,
                                forms.strike.at("remark").value);
      }))
    return session_page(call, at, forms);
  return see_other("/sessions?told=struck");
}

Response add(const Call& call) {
  const Found at = found(call);
  Forms forms = forms_of(call, *at.store, at.session);
  Form& form = forms.add;
  form.fill(call.request.form);
  const Field& person = form.at("person");
  if (std::none_of(person.choices.begin(), person.choices.end(),
                   [&](const Choice& choice) { return choice.value == person.value; }))
    form.refuse("person", call.say("choose-one"));
  if (!written(call, *at.store, form, [&](records::Writing& writing) {
        writing.add(records::Attendance{at.session.number, number_in(person.value),
                                        form.at("completed").value == "yes"});
      }))
    return session_page(call, at, forms);
  return see_other(address_of(at.session.number) + "?told=added");
}

Response certify(const Call& call) {
  const Found at = found(call);
  std::vector<std::string> left_out;
  const auto certificates =
      tasks::certificates_of_session(*at.store, at.session.number, {}, left_out);
  if (certificates.empty()) {
    Forms forms = forms_of(call, *at.store, at.session);
    forms.certify.error = call.say("session-nobody-completed");
    return session_page(call, at, forms);
  }
  tasks::CertificateEntries entries(*at.store, recorded_today(call), certificates);
  entries.keep();
  return see_other("/certificates?session=" + std::to_string(at.session.number) + "&told=issued");
}

// One person at a session.

struct FoundPerson {
  Found at;
  records::Numbered<records::Attendance> attendance;
};

FoundPerson found_person(const Call& call) {
  FoundPerson all{found(call), {}};
  for (const auto& attendance : all.at.store->attendances(all.at.session.number))
    if (attendance.value.person == call.number(1)) {
      all.attendance = attendance;
      return all;
    }
  throw NotThere();
}

std::string person_address(const FoundPerson& found) {
  return address_of(found.at.session.number) + "/people/" +
         std::to_string(found.attendance.value.person);
}

Response person_page(const Call& call, const FoundPerson& found, const Form& strike) {
  records::Store& store = *found.at.store;
  Form correct;
  correct.action = person_address(found) + "/correct";
  correct.button =
      call.say(found.attendance.value.completed ? "session-uncomplete" : "session-complete");
  mustache::data data;
  data.set("history", "/people/" + std::to_string(found.attendance.value.person));
  data.set("session", course_titles(call, store)[found.at.session.value.course] + ", " +
                          shown_days(call, found.at.session.value.days));
  data.set("state", call.say(found.attendance.value.completed ? "session-completed"
                                                              : "session-not-completed"));
  data.set("entry", call.say_with("entry", static_cast<std::size_t>(found.attendance.number)));
  const bool erased = store.effective(found.attendance.value.person).erased;
  data.set("erased", mustache::data(erased));
  data.set("here", mustache::data(!erased));
  data.set("correct", call.form(correct));
  data.set("strike", call.form(strike));
  Pages::Frame frame{call.language, "sessions",
                     name_in_effect(call, store, found.attendance.value.person),
                     address_of(found.at.session.number), call.say("session-back")};
  return call.page(frame, "session-person", data);
}

Form person_strike_form(const Call& call, const FoundPerson& found) {
  return strike_form(call, person_address(found) + "/strike", "session-strike-person");
}

Response correct_person(const Call& call) {
  const FoundPerson found = found_person(call);
  Form form = person_strike_form(call, found);
  if (!written(call, *found.at.store, form, [&](records::Writing& writing) {
        tasks::correct_attendance(*found.at.store, writing, found.attendance,
                                  !found.attendance.value.completed);
      }))
    return person_page(call, found, form);
  return see_other(address_of(found.at.session.number) + "?told=corrected");
}

Response strike_person(const Call& call) {
  const FoundPerson found = found_person(call);
  Form form = person_strike_form(call, found);
  form.fill(call.request.form);
  refuse_unclean(call, form);
  if (!written(call, *found.at.store, form, [&](records::Writing& writing) {
        tasks::withdraw_attendance(*found.at.store, writing, found.attendance,
                                   form.at("remark").value);
      }))
    return person_page(call, found, form);
  return see_other(address_of(found.at.session.number) + "?told=struck-person");
}

Response show_all(const Call& call) {
  mustache::data data;
  mustache::data list(mustache::data::type::list);
  std::vector<Session> sessions;
  const auto store = crew_store(call);
  if (store) store->each_session([&](const Session& one) { sessions.push_back(one); });
  std::stable_sort(sessions.begin(), sessions.end(), [](const Session& one, const Session& other) {
    return one.value.days.back() > other.value.days.back();
  });
  data.set("has-sessions", mustache::data(!sessions.empty()));
  sessions = paged(call, sessions, "/sessions?", data);
  auto titles = store ? course_titles(call, *store) : std::map<Number, std::string>();
  for (const Session& one : sessions) {
    mustache::data row;
    row.set("session-address", address_of(one.number));
    row.set("session-title", titles[one.value.course]);
    row.set("session-days", shown_days(call, one.value.days));
    row.set("session-size", call.say_with("class-size", store->attendances(one.number).size()));
    list << row;
  }
  data.set("sessions", list);
  Pages::Frame frame{call.language, "sessions", call.say("room-sessions")};
  if (call.query("told") == "struck") frame.told = call.say("session-struck");
  return call.page(frame, "sessions", data);
}

}  // namespace

void add_session_room(Routes& routes) {
  routes.get("/sessions", show_all);
  routes.get("/sessions/new", show_new);
  routes.post("/sessions/new", record);
  routes.get("/sessions/{number}", show);
  routes.post("/sessions/{number}/correct", correct);
  routes.post("/sessions/{number}/strike", strike);
  routes.post("/sessions/{number}/add", add);
  routes.post("/sessions/{number}/certificates", certify);
  routes.get("/sessions/{number}/people/{number}", [](const Call& call) {
    const FoundPerson found = found_person(call);
    return person_page(call, found, person_strike_form(call, found));
  });
  routes.post("/sessions/{number}/people/{number}/correct", correct_person);
  routes.post("/sessions/{number}/people/{number}/strike", strike_person);
}

}  // namespace footroom::desk
