// The classes: a title and the names, typed, pasted or from a file; and what each person needs.

#include <algorithm>
#include <optional>

#include "desk/needs.hpp"
#include "desk/room.hpp"
#include "grade/names.hpp"
#include "tasks/csv_rows.hpp"
#include "tasks/roster.hpp"

namespace footroom::desk {
namespace {

constexpr std::size_t most_names = 500;
constexpr std::size_t longest_title = 100;
constexpr std::size_t most_faults_told = 5;

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

std::string quoted_cell(const std::string& text) {
  std::string csv = "\"";
  for (const char c : text) csv += c == '"' ? "\"\"" : std::string(1, c);
  return csv + '"';
}

/// What is typed, names a line each, as a file of one column. Line 2 of it is line 1 of what was
/// typed.
std::string as_roster(const std::string& typed) {
  std::string csv = "name\n";
  for (std::size_t at = 0; at < typed.size();) {
    const auto end = std::min(typed.find('\n', at), typed.size());
    const std::string name = trimmed(std::string_view(typed).substr(at, end - at));
    at = end + 1;
    csv += (name.empty() ? name : quoted_cell(name)) + "\n";
  }
  return csv;
}

/// The people of `csv`, whose line 1 is line `first` of what was typed; or says at `field` what is
/// wrong.
tasks::Roster read_people(const Call& call, const std::string& csv, int first, const char* field,
                          Form& form) {
  const auto say_fault = [&](const tasks::RowFault& fault) {
    return call.say_with("in-line", std::max(fault.line + first - 1, 1),
                         fault.says.in(call.language));
  };
  try {
    auto roster = tasks::read_roster(csv, form.at(field).label);
    std::vector<tasks::RowFault> faults = roster.defects;
    faults.insert(faults.end(), roster.notes.begin(), roster.notes.end());
    std::string all;
    for (std::size_t i = 0; i < std::min(faults.size(), most_faults_told); ++i)
      all += (i == 0 ? "" : " ") + say_fault(faults[i]);
    if (!all.empty()) form.refuse(field, all);
    return roster;
  } catch (const tasks::FaultyRow& faulty) {
    form.refuse(field, say_fault(faulty.fault));
    return {};
  }
}

/// The place of the first one called `name` that is not taken yet, which it then is.
std::optional<std::size_t> take(const std::vector<std::string>& names, const std::string& name,
                                std::vector<bool>& taken) {
  taken.resize(names.size());
  for (std::size_t i = 0; i < names.size(); ++i)
    if (!taken[i] && names[i] == name) {
      taken[i] = true;
      return i;
    }
  return std::nullopt;
}

bool needs_nothing(const quiz::Accommodations& made) {
  return made == quiz::Accommodations{};
}

/// Whoever needs something and is in the list no more leaves only where that is said.
void ask_before_taking_out(const Call& call, const SchoolClass& now, const std::vector<bool>& kept,
                           Form& form) {
  Field gone{Field::Kind::several_of, "gone", call.say("class-gone")};
  bool sure = true;
  for (std::size_t i = 0; i < now.names.size(); ++i) {
    if (kept.at(i) || needs_nothing(now.accommodations.at(i))) continue;
    const auto [begin, end] = call.request.form.equal_range(gone.name);
    const bool said =
        std::any_of(begin, end, [&, i](const auto& one) { return one.second == now.names.at(i); });
    sure = sure && said;
    if (said) gone.chosen.insert(now.names[i]);
    gone.choices.push_back({now.names[i], call.say_with("class-gone-one", now.names[i],
                                                        needs_text(call, now.accommodations[i]))});
  }
  if (sure) return;
  gone.error = call.say("class-gone-sure");
  form.fields.push_back(gone);
}

/// What was sent; where it is not sound, the form says why. A person named as before keeps what
/// they need.
SchoolClass sent_class(const Call& call, const SchoolClass& now, Form& form) {
  SchoolClass sent;
  sent.number = now.number;
  sent.title = trimmed(call.sent("title"));
  if (sent.title.empty())
    form.refuse("title", call.say("class-no-title"));
  else if (sent.title.size() > longest_title)
    form.refuse("title", call.say("too-long"));
  std::vector<bool> kept(now.names.size());
  if (const std::string typed = call.sent("names"); !trimmed(typed).empty()) {
    const bool table = typed.find('\t') != std::string::npos;
    const auto read = table ? read_people(call, tasks::csv_of_pasted(typed), 1, "names", form)
                            : read_people(call, as_roster(typed), 0, "names", form);
    for (std::size_t i = 0; i < read.names.size(); ++i) {
      const auto before = take(now.names, read.names[i], kept);
      sent.names.push_back(read.names[i]);
      sent.accommodations.push_back(before && needs_nothing(read.accommodations[i])
                                        ? now.accommodations.at(*before)
                                        : read.accommodations[i]);
    }
  }
  if (const std::string file = call.sent("file"); !file.empty()) {
    const auto from_file = read_people(call, file, 1, "file", form);
    const std::vector<std::string> above = sent.names;
    std::vector<bool> met;
    for (std::size_t i = 0; i < from_file.names.size(); ++i) {
      const auto& needs = from_file.accommodations[i];
      const auto same = take(above, from_file.names[i], met);
      if (!same) {
        sent.names.push_back(from_file.names[i]);
        sent.accommodations.push_back(needs);
      } else if (!needs_nothing(needs)) {
        sent.accommodations[*same] = needs;
      }
    }
  }
  if (form.sound() && sent.names.empty()) form.refuse("names", call.say("class-no-names"));
  if (sent.names.size() > most_names)
    form.refuse("names", call.say_with("class-too-many", most_names));
  if (form.sound()) ask_before_taking_out(call, now, kept, form);
  return sent;
}

std::string address_of_class(int number) {
  return "/classes/" + std::to_string(number);
}

std::string address_of_person(int number, std::size_t index) {
  return address_of_class(number) + "/people/" + std::to_string(index + 1);
}

Response all_page(const Call& call, const Form& form) {
  mustache::data list(mustache::data::type::list);
  const auto classes = call.house.folder.classes();
  for (const auto& one : classes) {
    mustache::data row;
    row.set("class-address", address_of_class(one.number));
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

mustache::data people_data(const Call& call, const SchoolClass& now) {
  mustache::data list(mustache::data::type::list);
  for (std::size_t i = 0; i < now.names.size(); ++i) {
    mustache::data row;
    row.set("person-address", address_of_person(now.number, i));
    row.set("person-name", now.names[i]);
    const auto& needs = now.accommodations.at(i);
    row.set("person-needs", needs_nothing(needs) ? std::string() : needs_text(call, needs));
    list << row;
  }
  return list;
}

Response one_page(const Call& call, const SchoolClass& now, const Form& form) {
  mustache::data faults(mustache::data::type::list);
  for (const auto& fault : now.faults) {
    mustache::data one;
    one.set("fault", call.say_with("in-line", fault.line, fault.says.in(call.language)));
    faults << one;
  }
  mustache::data data;
  data.set("form", call.form(form));
  data.set("new-quiz", "/quizzes/new?class=" + std::to_string(now.number));
  data.set("people", people_data(call, now));
  data.set("has-people", mustache::data(!now.names.empty()));
  data.set("has-faults", mustache::data(!now.faults.empty()));
  data.set("faults", faults);
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
  const SchoolClass sent = sent_class(call, {}, form);
  if (!form.sound()) return all_page(call, form);
  const int number = call.house.folder.add(sent);
  return see_other(address_of_class(number) + "?told=saved");
}

Response change(const Call& call) {
  const SchoolClass now = there(call);
  Form form = class_form(call, now);
  form.fill(call.request.form);
  const SchoolClass sent = sent_class(call, now, form);
  if (!form.sound()) return one_page(call, now, form);
  call.house.folder.write(sent);
  return see_other(address_of_class(now.number) + "?told=saved");
}

// ---- One person, and what they need -------------------------------------------------------------

std::size_t index_there(const Call& call, const SchoolClass& now) {
  const int place = call.number(1);
  if (place < 1 || static_cast<std::size_t>(place) > now.names.size()) throw NotThere();
  return static_cast<std::size_t>(place) - 1;
}

Form person_form(const Call& call, const SchoolClass& now, std::size_t index) {
  const auto& needs = now.accommodations.at(index);
  const auto& languages = grade::language_names();
  Field language{Field::Kind::list, "language", call.say("person-language")};
  language.choices = {{"", call.say("person-language-class")},
                      {languages[0], "English"},
                      {languages[1], "Español"}};
  if (needs.language)
    language.value = languages.at(*needs.language == engine::Language::spanish ? 1 : 0);
  Field sheet{Field::Kind::several_of, "sheet", call.say("person-sheet")};
  sheet.choices = {{"large-print", call.say("needs-large-print")},
                   {"without-figures", call.say("needs-without-figures")}};
  if (needs.large_print) sheet.chosen.insert("large-print");
  if (needs.without_figures) sheet.chosen.insert("without-figures");
  Field time{Field::Kind::text, "extra-time", call.say("person-time"),
             tasks::extra_time_text(needs), call.say("person-time-hint")};
  time.narrow = true;
  Form form;
  form.action = address_of_person(now.number, index);
  form.button = call.say("person-save");
  form.fields = {
      {Field::Kind::text, "name", call.say("person-name"), now.names[index], {}, {}, true},
      language,
      sheet,
      time,
      {Field::Kind::hidden, "was", "", now.names[index]}};
  return form;
}

Response person_page(const Call& call, const SchoolClass& now, std::size_t index,
                     const Form& form) {
  mustache::data data;
  data.set("form", call.form(form));
  Pages::Frame frame{call.language, "classes", now.names[index], address_of_class(now.number),
                     now.title};
  if (call.query("told") == "saved") frame.told = call.say("person-saved");
  return call.page(frame, "class-person", data);
}

Response change_person(const Call& call) {
  SchoolClass now = there(call);
  const std::size_t index = index_there(call, now);
  Form form = person_form(call, now, index);
  form.fill(call.request.form);
  if (form.at("was").value != now.names[index]) form.error = call.say("person-moved");
  quiz::Accommodations needs;
  const std::string name = trimmed(form.at("name").value);
  if (name.empty())
    form.refuse("name", call.say("class-no-names"));
  else if (read_people(call, as_roster(name), 0, "name", form).names.size() > 1)
    form.refuse("name", call.say("person-one-line"));
  const std::string& language = form.at("language").value;
  const auto& languages = grade::language_names();
  if (language == languages[0]) needs.language = engine::Language::english;
  if (language == languages[1]) needs.language = engine::Language::spanish;
  if (!needs.language && !language.empty()) form.refuse("language", call.say("choose-one"));
  needs.large_print = form.at("sheet").chosen.contains("large-print");
  needs.without_figures = form.at("sheet").chosen.contains("without-figures");
  if (!tasks::read_extra_time(form.at("extra-time").value, needs))
    form.refuse("extra-time", call.say("person-time-wrong"));
  if (!form.sound()) return person_page(call, now, index, form);
  now.names[index] = name;
  now.accommodations[index] = needs;
  call.house.folder.write(now);
  return see_other(address_of_person(now.number, index) + "?told=saved");
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
  routes.get("/classes/{number}/people/{number}", [](const Call& call) {
    const SchoolClass now = there(call);
    const std::size_t index = index_there(call, now);
    return person_page(call, now, index, person_form(call, now, index));
  });
  routes.post("/classes/{number}/people/{number}", change_person);
}

}  // namespace footroom::desk
