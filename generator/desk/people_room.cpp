// Whom the training records name: found among hundreds, added one by one or from a list.

#include <algorithm>

#include "desk/crew.hpp"
#include "desk/person_page.hpp"
#include "desk/room.hpp"
#include "tasks/failure.hpp"
#include "tasks/people.hpp"
#include "tasks/record_import.hpp"

namespace footroom::desk {
namespace {

constexpr std::size_t page_size = 50;
constexpr std::size_t most_faults = 20;  ///< rows that are told; whoever mends them sees the next

mustache::data person_row(const Call& call, const tasks::Listed& listed) {
  mustache::data row;
  const auto& person = listed.person;
  row.set("person-address", person_address(person.number));
  row.set("person-name", shown_name(call, person));
  std::string more = listed.employer;
  if (person.erased) more = "@" + std::to_string(person.number);
  if (person.value.left)
    more += (more.empty() ? "" : " · ") +
            call.say_with("people-left-on", shown_day(call, *person.value.left));
  row.set("person-more", more);
  return row;
}

Response show_list(const Call& call) {
  const std::string wanted = trimmed(call.query("find"));
  const auto store = crew_store(call);
  std::vector<tasks::Listed> all;
  if (store) all = tasks::list_people(*store, wanted);
  mustache::data data;
  mustache::data list(mustache::data::type::list);
  for (const auto& listed :
       paged(call, all, "/people?find=" + in_address(wanted) + "&", data, page_size))
    list << person_row(call, listed);
  data.set("find", wanted);
  data.set("people", list);
  data.set("has-people", mustache::data(!all.empty()));
  data.set("nobody", mustache::data(all.empty() && wanted.empty()));
  data.set("none-found", mustache::data(all.empty() && !wanted.empty()));
  data.set("counted", call.say_with("people-counted", all.size()));
  Pages::Frame frame{call.language, "people", call.say("room-people")};
  if (call.query("told") == "struck") frame.told = call.say("person-struck");
  return call.page(frame, "people", data);
}

Response new_page(const Call& call, const Form& form) {
  mustache::data data;
  data.set("form", call.form(form));
  Pages::Frame frame{call.language, "people", call.say("people-new"), "/people",
                     call.say("room-people")};
  if (call.query("told") == "added") frame.told = call.say("person-added");
  return call.page(frame, "person-form", data);
}

Form new_form(const Call& call, records::Store* store) {
  Form form;
  form.action = "/people/new";
  form.button = call.say("people-add");
  form.other_button = call.say("people-add-next");
  form.fields = person_fields(call, store, {});
  form.fields.pop_back();  // nobody comes who has left
  form.fields.push_back({Field::Kind::text,
                         "new-employer",
                         call.say("people-new-employer"),
                         {},
                         call.say("people-new-employer-hint")});
  return form;
}

/// Where the name stands in the records already, a tick says that this is someone else.
void ask_about_namesake(const Call& call, records::Store& store,
                        const std::optional<records::Number>& employer, Form& form) {
  if (!form.sound() || !form.at("identity").value.empty()) return;
  const auto other = tasks::namesake_of(store, form.at("name").value, employer);
  if (!other) return;
  Field field{Field::Kind::several_of, "another", call.say("people-another")};
  field.choices = {{"yes", call.say("people-another-yes")}};
  if (call.sent("another") == "yes") field.chosen.insert("yes");
  const bool another = !field.chosen.empty();
  form.fields.push_back(field);
  if (!another) form.refuse("name", call.say_with("people-namesake", shown_name(call, *other)));
}

Response add(const Call& call) {
  const auto store = crew_store_to_write(call);
  Form form = new_form(call, store.get());
  form.fill(call.request.form);
  const auto person = sent_person(call, *store, form, 0);
  const std::string fresh = form.at("new-employer").value;
  if (!fresh.empty() && person.employer)
    form.refuse("new-employer", call.say("people-two-employers"));
  ask_about_namesake(call, *store, person.employer, form);
  if (!form.sound()) return new_page(call, form);
  try {
    const auto writing = store->write(recorded_today(call));
    auto content = person;
    if (!fresh.empty()) content.employer = writing->add(records::Employer{fresh});
    const auto number = writing->add(content);
    writing->commit();
    return see_other(call.sent("other") == "yes" ? "/people/new?told=added"
                                                 : person_address(number) + "?told=added");
  } catch (const records::Refused& refusal) {
    form.error = refusal.says.in(call.language);
    return new_page(call, form);
  }
}

Form import_form(const Call& call) {
  Form form;
  form.action = "/people/import";
  form.button = call.say("people-import-add");
  Field employers{Field::Kind::several_of, "add-employers", call.say("people-new-employers")};
  employers.choices = {{"yes", call.say("people-add-employers")}};
  form.fields = {
      {Field::Kind::area, "pasted", call.say("people-pasted"), {}, call.say("people-pasted-hint")},
      {Field::Kind::file, "file", call.say("people-file"), {}, call.say("people-file-hint")},
      employers};
  return form;
}

Response import_page(const Call& call, const Form& form) {
  mustache::data data;
  data.set("form", call.form(form));
  Pages::Frame frame{call.language, "people", call.say("people-import"), "/people",
                     call.say("room-people")};
  const auto added = number_in(call.query("added"));
  if (added > 0) frame.told = call.say_with("people-imported", static_cast<int>(added));
  return call.page(frame, "people-import", data);
}

/// Says beside the field which rows cannot be taken. A file's text is put into the field above, so
/// that it can be mended there.
void refuse_rows(const Call& call, const tasks::Refusals& refused, Form& form) {
  Field& field = form.at("pasted");
  field.error = call.say_with("people-rows-refused", refused.size());
  for (std::size_t i = 0; i < std::min(refused.size(), most_faults); ++i)
    field.faults.push_back(refused[i].in(call.language));
  if (refused.size() > most_faults) field.faults.push_back("…");
}

Response import(const Call& call) {
  Form form = import_form(call);
  form.fill(call.request.form);
  const std::string file = call.sent("file");
  const std::string text = file.empty() ? form.at("pasted").value : file;
  form.at("pasted").value = text;
  if (trimmed(text).empty()) {
    form.refuse("pasted", call.say("people-nothing-pasted"));
    return import_page(call, form);
  }
  tasks::Refusals refused;
  const auto rows = tasks::read_typed_people(text, call.say("names"), refused);
  const auto store = crew_store_to_write(call);
  const auto writing = store->write(recorded_today(call));
  tasks::RecordImport(*store, *writing, form.at("add-employers").chosen.count("yes") > 0)
      .add(tasks::Exchanged::people, rows, refused);
  if (!refused.empty())
    refuse_rows(call, refused, form);
  else if (rows.empty())
    form.refuse("pasted", call.say("people-nothing-pasted"));
  if (!form.sound()) return import_page(call, form);
  writing->commit();
  return see_other("/people/import?added=" + std::to_string(rows.size()));
}

}  // namespace

void add_people_room(Routes& routes) {
  routes.get("/people", show_list);
  routes.get("/people/new", [](const Call& call) {
    const auto store = crew_store(call);
    return new_page(call, new_form(call, store.get()));
  });
  routes.post("/people/new", add);
  routes.get("/people/import",
             [](const Call& call) { return import_page(call, import_form(call)); });
  routes.post("/people/import", import);
}

}  // namespace footroom::desk
