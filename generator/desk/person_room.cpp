// One person of the training records: the history with every entry, corrections, erasure.

#include <algorithm>
#include <array>

#include "desk/crew.hpp"
#include "desk/person_page.hpp"
#include "desk/room.hpp"
#include "render/record_pages.hpp"
#include "tasks/correction.hpp"
#include "tasks/person_record.hpp"
#include "tasks/record.hpp"

namespace footroom::desk {
namespace {

/// The person that the address names, with the open store.
struct There {
  std::unique_ptr<records::Store> store;
  records::PersonReport report;

  records::Number number() const { return report.person.number; }
  bool erased() const { return report.person.erased; }
};

/// Throws NotThere where there is no such person, or not any more.
There person_there(const Call& call) {
  There there;
  there.store = crew_store(call);
  if (!there.store) throw NotThere();
  try {
    there.report = there.store->report(call.number(0));
  } catch (const records::Refused&) {
    throw NotThere();
  }
  return there;
}

std::string address_of(const There& there, const std::string& more = {}) {
  return person_address(there.number()) + more;
}

std::string entry_address(const There& there, records::Number entry) {
  return address_of(there, "/entries/" + std::to_string(entry));
}

std::string name_of(const Call& call, const There& there) {
  return tasks::name_of(there.report.person.value, there.erased(), call.language);
}

/// A page under that of the person.
Pages::Frame frame_under(const Call& call, const There& there, const std::string& title) {
  return {call.language, "people", title, address_of(there), name_of(call, there)};
}

mustache::data sections_data(const There& there, const render::PersonRecord& record) {
  mustache::data list(mustache::data::type::list);
  std::size_t number = 0;
  for (const auto& section : record.sections) {
    mustache::data one;
    one.set("section-id", "section-" + std::to_string(++number));
    one.set("section-title", section.title);
    mustache::data columns(mustache::data::type::list);
    for (const auto& column : section.columns) {
      mustache::data title;
      title.set("column", column);
      columns << title;
    }
    one.set("columns", columns);
    mustache::data rows(mustache::data::type::list);
    for (const auto& row : section.rows) {
      mustache::data cells(mustache::data::type::list);
      for (std::size_t i = 0; i < row.size(); ++i) {
        mustache::data cell;
        const bool links = section.by_entry && i == 0;
        cell.set("cell", row[i]);
        cell.set("of-column", section.columns.at(i));
        cell.set("links", mustache::data(links));
        cell.set("address", links ? address_of(there, "/entries/" + row[i]) : std::string());
        cells << cell;
      }
      mustache::data line;
      line.set("cells", cells);
      rows << line;
    }
    one.set("rows", rows);
    list << one;
  }
  return list;
}

std::string state_text(const Call& call, const tasks::HistoryLine& line) {
  const int later = line.later ? static_cast<int>(*line.later) : 0;
  switch (line.state) {
    case tasks::EntryState::corrected:
      return call.say_with("entry-corrected", later);
    case tasks::EntryState::withdrawn:
      return call.say_with("entry-struck", later);
    case tasks::EntryState::counts:
      break;
  }
  return {};
}

mustache::data history_data(const Call& call, const There& there) {
  mustache::data list(mustache::data::type::list);
  for (const auto& line : tasks::history_of(there.report, call.language)) {
    mustache::data one;
    one.set("entry-address", entry_address(there, line.entry));
    one.set("entry", call.say_with("entry-number", static_cast<int>(line.entry)));
    one.set("says", line.says);
    std::string notes = call.say_with("entry-recorded", line.recorded);
    if (line.corrects)
      notes += " · " + call.say_with("entry-in-place", static_cast<int>(*line.corrects));
    const std::string state = state_text(call, line);
    one.set("notes", notes);
    one.set("state", state);
    one.set("gone", mustache::data(!state.empty()));
    list << one;
  }
  return list;
}

mustache::data facts_data(const render::PersonRecord& record) {
  mustache::data list(mustache::data::type::list);
  for (const auto& [what, text] : record.facts) {
    mustache::data one;
    one.set("what", what);
    one.set("text", text);
    list << one;
  }
  return list;
}

render::PersonRecord record_of(const Call& call, const There& there) {
  return tasks::person_record(there.report, there.store->head().text(), call.house.bank,
                              call.language);
}

Response show(const Call& call) {
  const There there = person_there(call);
  const auto record = record_of(call, there);
  mustache::data data;
  data.set("facts", facts_data(record));
  data.set("sections", sections_data(there, record));
  data.set("has-sections", mustache::data(!record.sections.empty()));
  data.set("no-sections", mustache::data(record.sections.empty()));
  data.set("history", history_data(call, there));
  data.set("print", address_of(there, "/print"));
  data.set("correct", address_of(there, "/correct"));
  data.set("retrain", address_of(there, "/retrain"));
  data.set("erase", address_of(there, "/erase"));
  data.set("erased", mustache::data(there.erased()));
  data.set("here", mustache::data(!there.erased()));
  Pages::Frame frame{call.language, "people", record.name, "/people", call.say("room-people")};
  frame.wide = true;
  for (const char* told : {"added", "corrected", "undone", "struck-entry", "retrain", "erased"})
    if (call.query("told") == told) frame.told = call.say(std::string("person-") + told);
  return call.page(frame, "person", data);
}

Response print(const Call& call) {
  const There there = person_there(call);
  Response response;
  response.policy = Policy::printed;
  response.body = render::person_record_html(
      call.house.templates, {call.language, call.preferences.paper}, record_of(call, there));
  return response;
}

There still_there(const Call& call) {
  There there = person_there(call);
  if (there.erased()) throw NotThere();
  return there;
}

Form correct_form(const Call& call, const There& there) {
  Form form;
  form.action = address_of(there, "/correct");
  form.button = call.say("person-correct-button");
  form.fields = person_fields(call, there.store.get(), there.report.person.value);
  return form;
}

Response correct_page(const Call& call, const There& there, const Form& form) {
  mustache::data data;
  data.set("note", call.say("person-correct-note"));
  data.set("form", call.form(form));
  return call.page(frame_under(call, there, call.say("person-correct")), "person-form", data);
}

/// The corrections of a form, as the task takes them: what is other than before.
tasks::Corrections corrections_in(const There& there, const records::Person& sent) {
  const auto& now = there.report.person.value;
  tasks::Corrections all;
  if (sent.name != now.name) all["name"] = sent.name;
  if (sent.identity != now.identity) all["identity"] = sent.identity;
  if (sent.left != now.left) all["left"] = sent.left ? records::date_text(*sent.left) : "";
  if (sent.employer != now.employer) {
    auto& name = all["employer"];
    for (const auto& employer : there.store->employers())
      if (sent.employer == employer.number) name = employer.value.name;
  }
  return all;
}

Response correct(const Call& call) {
  const There there = still_there(call);
  Form form = correct_form(call, there);
  form.fill(call.request.form);
  const auto sent = sent_person(call, *there.store, form, there.number());
  const auto corrections = corrections_in(there, sent);
  if (form.sound() && corrections.empty()) form.error = call.say("person-nothing-corrected");
  if (!form.sound()) return correct_page(call, there, form);
  try {
    const auto content = tasks::corrected(*there.store, there.number(), corrections);
    const auto writing = there.store->write(recorded_today(call));
    writing->correct(there.number(), content);
    writing->commit();
  } catch (const records::Refused& refusal) {
    form.error = refusal.says.in(call.language);
    return correct_page(call, there, form);
  }
  return see_other(address_of(there, "?told=corrected"));
}

Form erase_form(const Call& call, const There& there) {
  Form form;
  form.action = address_of(there, "/erase");
  form.button = call.say("person-erase-button");
  Field sure{Field::Kind::several_of, "sure", call.say("person-erase-sure")};
  sure.choices = {{"yes", call.say_with("person-erase-yes", name_of(call, there))}};
  form.fields = {sure};
  return form;
}

Response erase_page(const Call& call, const There& there, const Form& form) {
  mustache::data data;
  data.set("says", call.say_with("person-erase-says", there.report.history.size()));
  data.set("form", call.form(form));
  return call.page(frame_under(call, there, call.say("person-erase")), "person-erase", data);
}

Response erase(const Call& call) {
  const There there = still_there(call);
  Form form = erase_form(call, there);
  form.fill(call.request.form);
  if (form.at("sure").chosen.count("yes") == 0) {
    form.refuse("sure", call.say("person-erase-unsure"));
    return erase_page(call, there, form);
  }
  const auto writing = there.store->write(recorded_today(call));
  writing->erase(there.number());
  writing->commit();
  return see_other(address_of(there, "?told=erased"));
}

tasks::HistoryLine line_there(const Call& call, const There& there) {
  for (auto& line : tasks::history_of(there.report, call.language))
    if (line.entry == call.number(1)) return line;
  throw NotThere();
}

const records::Entry& entry_there(const There& there, records::Number number) {
  const auto& all = there.report.history;
  return *std::find_if(all.begin(), all.end(),
                       [number](const records::Entry& one) { return one.number == number; });
}

/// What follows from a training and from a certificate is put right where they are kept.
std::optional<std::string> room_of(const There& there, const records::Entry& entry) {
  if (const auto* attendance = std::get_if<records::Attendance>(&entry.content))
    return "/sessions/" + std::to_string(attendance->session) + "/people/" +
           std::to_string(there.number());
  if (std::holds_alternative<records::Certificate>(entry.content))
    return "/certificates/" + std::to_string(entry.subject());
  return std::nullopt;
}

bool may_be_undone(const There& there, const tasks::HistoryLine& line) {
  const auto& content = entry_there(there, line.entry).content;
  return line.state == tasks::EntryState::counts && !there.erased() &&
         !std::holds_alternative<records::Withdrawal>(content) &&
         !std::holds_alternative<records::Erasure>(content);
}

Form undo_form(const Call& call, const There& there, const tasks::HistoryLine& line) {
  Form form;
  form.action = entry_address(there, line.entry);
  form.button = call.say(line.corrects ? "entry-put-back" : "entry-strike");
  if (!line.corrects)
    form.fields = {
        {Field::Kind::text, "remark", call.say("entry-why"), {}, call.say("entry-why-hint")}};
  return form;
}

Response entry_page(const Call& call, const There& there, const tasks::HistoryLine& line,
                    const Form& form) {
  const auto& entry = entry_there(there, line.entry);
  const bool may = may_be_undone(there, line);
  const auto room = room_of(there, entry);
  mustache::data data;
  data.set("says", line.says);
  data.set("recorded", call.say_with("entry-recorded", line.recorded));
  const std::string state = state_text(call, line);
  data.set("state", state);
  data.set("gone", mustache::data(!state.empty()));
  data.set("corrects", mustache::data(line.corrects.has_value()));
  data.set("in-place", line.corrects
                           ? call.say_with("entry-in-place", static_cast<int>(*line.corrects))
                           : std::string());
  data.set("place-address", line.corrects ? entry_address(there, *line.corrects) : std::string());
  data.set("later-address", line.later ? entry_address(there, *line.later) : std::string());
  data.set("elsewhere", mustache::data(may && room.has_value()));
  data.set("room", room.value_or(""));
  data.set("may-undo", mustache::data(may && !room));
  data.set("undo-note", call.say(line.corrects ? "entry-put-back-note" : "entry-strike-note"));
  data.set("form", call.form(form));
  return call.page(
      frame_under(call, there, call.say_with("entry-number", static_cast<int>(line.entry))),
      "person-entry", data);
}

Response show_entry(const Call& call) {
  const There there = person_there(call);
  const auto line = line_there(call, there);
  return entry_page(call, there, line, undo_form(call, there, line));
}

Response undo(const Call& call) {
  const There there = still_there(call);
  const auto line = line_there(call, there);
  if (!may_be_undone(there, line) || room_of(there, entry_there(there, line.entry)))
    throw NotThere();
  Form form = undo_form(call, there, line);
  form.fill(call.request.form);
  refuse_unclean(call, form);
  if (!form.sound()) return entry_page(call, there, line, form);
  try {
    const std::string remark = line.corrects ? std::string() : form.at("remark").value;
    const auto content = tasks::undoing(there.report, line.entry, remark);
    const auto writing = there.store->write(recorded_today(call));
    writing->correct(line.entry, content);
    writing->commit();
  } catch (const records::Refused& refusal) {
    form.error =
        line.entry == there.number() ? call.say("person-in-use") : refusal.says.in(call.language);
    return entry_page(call, there, line, form);
  }
  if (line.entry == there.number()) return see_other("/people?told=struck");
  return see_other(address_of(there, line.corrects ? "?told=undone" : "?told=struck-entry"));
}

/// Why somebody is to train again, as 29 CFR 1926.503(c) has it, and the employer's interval.
constexpr std::array reasons{records::Reason::workplace_changed, records::Reason::equipment_changed,
                             records::Reason::knowledge_inadequate,
                             records::Reason::interval_passed};

Form retrain_form(const Call& call, const There& there) {
  Form form;
  form.action = address_of(there, "/retrain");
  form.button = call.say("retrain-button");
  Field course{Field::Kind::list, "course", call.say("retrain-course")};
  course.choices = course_choices(call, *there.store);
  if (!course.choices.empty()) course.value = course.choices.front().value;
  Field reason{Field::Kind::one_of,
               "reason",
               call.say("retrain-reason"),
               {},
               call.say("retrain-reason-hint")};
  for (const auto one : reasons)
    reason.choices.push_back(
        {std::string(records::word(one)), std::string(tasks::text_of(one, call.language))});
  Field since{Field::Kind::date, "since", call.say("retrain-since"), call.house.today(),
              call.say("retrain-since-hint")};
  since.needed = true;
  form.fields = {course,
                 reason,
                 since,
                 {Field::Kind::text,
                  "remark",
                  call.say("retrain-remark"),
                  {},
                  call.say("retrain-remark-hint")}};
  return form;
}

Response retrain_page(const Call& call, const There& there, const Form& form) {
  mustache::data data;
  const bool none = there.store->courses().empty();
  data.set("note", call.say(none ? "retrain-no-course" : "retrain-note"));
  data.set("form", none ? mustache::data(false) : call.form(form));
  return call.page(frame_under(call, there, call.say("retrain")), "person-form", data);
}

Response retrain(const Call& call) {
  const There there = still_there(call);
  Form form = retrain_form(call, there);
  form.fill(call.request.form);
  refuse_unclean(call, form);
  for (const char* name : {"course", "reason"}) {
    Field& field = form.at(name);
    if (std::none_of(field.choices.begin(), field.choices.end(),
                     [&](const Choice& choice) { return choice.value == field.value; }))
      form.refuse(name, call.say("choose-one"));
  }
  const auto since = day_in(call, form, "since");
  if (!since) form.refuse("since", call.say("no-day"));
  if (!form.sound()) return retrain_page(call, there, form);
  const auto reason = records::read_reason(form.at("reason").value).value();
  try {
    const auto writing = there.store->write(recorded_today(call));
    writing->add(records::Retraining{there.number(), number_in(form.at("course").value), *since,
                                     reason, form.at("remark").value});
    writing->commit();
  } catch (const records::Refused& refusal) {
    form.error = refusal.says.in(call.language);
    return retrain_page(call, there, form);
  }
  return see_other(address_of(there, "?told=retrain"));
}

}  // namespace

void add_person_room(Routes& routes) {
  routes.get("/people/{number}", show);
  routes.get("/people/{number}/print", print);
  routes.get("/people/{number}/correct", [](const Call& call) {
    const There there = still_there(call);
    return correct_page(call, there, correct_form(call, there));
  });
  routes.post("/people/{number}/correct", correct);
  routes.get("/people/{number}/erase", [](const Call& call) {
    const There there = still_there(call);
    return erase_page(call, there, erase_form(call, there));
  });
  routes.post("/people/{number}/erase", erase);
  routes.get("/people/{number}/retrain", [](const Call& call) {
    const There there = still_there(call);
    return retrain_page(call, there, retrain_form(call, there));
  });
  routes.post("/people/{number}/retrain", retrain);
  routes.get("/people/{number}/entries/{number}", show_entry);
  routes.post("/people/{number}/entries/{number}", undo);
}

}  // namespace footroom::desk
