#include "desk/pages.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <stdexcept>

#include "render/escape.hpp"
#include "tasks/file_text.hpp"

namespace footroom::desk {
namespace {

namespace fs = std::filesystem;
using engine::Language;

/// Whose rooms stand together in the frame, and what stands alone.
struct Group {
  const char* group;
  const char* label;  ///< nullptr: its rooms stand beside the groups
};
constexpr std::array<Group, 4> groups{{{"instructor", "group-instructor"},
                                       {"employer", "group-employer"},
                                       {"student", "group-student"},
                                       {"everyone", nullptr}}};

/// The rooms in the order in which the frame lists them, each with the label of its name. The first
/// of a group is where its name leads.
struct Door {
  const char* group;
  const char* room;
  const char* address;
  const char* label;
};
constexpr auto doors = std::to_array<Door>({
    {"instructor", "start", "/", "room-start"},
    {"instructor", "classes", "/classes", "room-classes"},
    {"instructor", "quizzes", "/quizzes", "room-quizzes"},
    {"instructor", "care", "/care", "room-care"},
    {"employer", "people", "/people", "room-people"},
    {"employer", "sessions", "/sessions", "room-sessions"},
    {"employer", "certificates", "/certificates", "room-certificates"},
    {"employer", "due", "/due", "room-due"},
    {"employer", "courses", "/courses", "room-courses"},
    {"employer", "records", "/records", "room-records"},
    {"student", "practice", "/practice/hand-out", "room-practice"},
    {"everyone", "calculations", "/calculations", "room-calculations"},
    {"everyone", "preferences", "/preferences", "room-preferences"},
});

std::vector<Door> doors_of(std::string_view group) {
  std::vector<Door> all;
  std::copy_if(doors.begin(), doors.end(), std::back_inserter(all),
               [group](const Door& door) { return door.group == group; });
  return all;
}

mustache::data door_data(const std::string& address, const std::string& label,
                         const std::string& current) {
  mustache::data one;
  one.set("door-address", address);
  one.set("door-label", label);
  one.set("current", current);  // for aria-current; empty: not here
  one.set("here", mustache::data(!current.empty()));
  return one;
}

mustache::data choices_data(const Field& field) {
  mustache::data list(mustache::data::type::list);
  for (std::size_t i = 0; i < field.choices.size(); ++i) {
    const auto& choice = field.choices[i];
    const bool chosen = field.kind == Field::Kind::several_of ? field.chosen.count(choice.value) > 0
                                                              : field.value == choice.value;
    mustache::data one;
    one.set("choice-value", choice.value);
    one.set("choice-label", choice.label);
    one.set("choice-id", fmt::format("{}-{}", field.name, i + 1));
    one.set("chosen", mustache::data(chosen));
    list << one;
  }
  return list;
}

mustache::data means_data(const Field& field) {
  mustache::data list(mustache::data::type::list);
  for (const auto& choice : field.means) {
    mustache::data one;
    one.set("means-value", choice.value);
    one.set("means-choice", choice.label);
    one.set("is-meant", mustache::data(field.meant == choice.value));
    list << one;
  }
  return list;
}

mustache::data field_data(const Field& field) {
  using Kind = Field::Kind;
  const bool tells = !field.reading.empty() || !field.read.empty();
  mustache::data data;
  data.set("name", field.name);
  data.set("field-label", field.label);
  data.set("value", field.value);
  data.set("hint", field.hint);
  data.set("unit", field.unit);
  data.set("error", field.error);
  data.set("reading", field.reading);
  data.set("read", field.read);
  data.set("symbol", field.symbol);
  const auto flag = [&data](const char* name, bool is) { data.set(name, mustache::data(is)); };
  flag("has-symbol", !field.symbol.empty());
  flag("has-hint", !field.hint.empty());
  flag("has-unit", !field.unit.empty());
  flag("has-error", !field.error.empty());
  flag("has-reading", !field.reading.empty());
  flag("tells", tells);
  flag("needed", field.needed);
  flag("narrow", field.narrow);
  flag("is-line", field.kind == Kind::text || field.kind == Kind::date);
  flag("is-date", field.kind == Kind::date);
  flag("is-area", field.kind == Kind::area);
  flag("is-file", field.kind == Kind::file);
  flag("is-list", field.kind == Kind::list);
  flag("is-one-of", field.kind == Kind::one_of);
  flag("is-several-of", field.kind == Kind::several_of);
  flag("is-group", field.kind == Kind::one_of || field.kind == Kind::several_of);
  flag("is-hidden", field.kind == Kind::hidden);
  std::string described;
  if (!field.unit.empty()) described += field.name + "-unit ";
  if (!field.hint.empty()) described += field.name + "-hint ";
  if (!field.error.empty()) described += field.name + "-error ";
  if (tells) described += field.name + "-read ";
  if (!described.empty()) described.pop_back();
  data.set("described", described);
  flag("has-described", !described.empty());
  data.set("choices", choices_data(field));
  flag("beside", field.beside);
  flag("has-means", !field.means.empty());
  data.set("means-label", field.means_label);
  data.set("means", means_data(field));
  mustache::data faults(mustache::data::type::list);
  for (const auto& fault : field.faults) {
    mustache::data one;
    one.set("fault", fault);
    faults << one;
  }
  data.set("faults", faults);
  flag("has-faults", !field.faults.empty());
  return data;
}

}  // namespace

Pages::Pages(const fs::path& folder)
    : labels_(render::read_labels(folder / "desk" / "labels.xml", {})),
      english_(render::label_data(labels_, Language::english)),
      spanish_(render::label_data(labels_, Language::spanish)),
      style_(tasks::file_text(folder / "desk" / "desk.css")),
      script_(tasks::file_text(folder / "desk" / "desk.js")),
      icon_(tasks::file_text(folder / "desk" / "footroom.svg")) {
  for (const auto& entry : fs::directory_iterator(folder / "desk"))
    if (const auto name = entry.path().filename().string(); name.ends_with(".html"))
      templates_.emplace(name,
                         render::Template(render::template_text(folder / "desk", name, labels_),
                                          render::escape_xml));
}

const std::string& Pages::say(std::string_view label, Language language) const {
  return labels_.at(label, language);
}

std::string Pages::filled(std::string text, const std::vector<std::string>& values) {
  for (std::size_t i = 0; i < values.size(); ++i) {
    const std::string place = fmt::format("{{{}}}", i);
    const auto at = text.find(place);
    if (at != std::string::npos) text.replace(at, place.size(), values[i]);
  }
  return text;
}

Response Pages::page(const Frame& frame, const std::string& name, mustache::data data) const {
  const auto found = templates_.find(name + ".html");
  if (found == templates_.end()) throw std::logic_error("no template " + name);
  data.look_also_in(frame.language == Language::english ? english_ : spanish_);
  data.set("content", found->second.render(data));
  data.set("language", std::string(frame.language == Language::english ? "en" : "es"));
  data.set("title", frame.title);
  data.set("told", frame.told);
  data.set("has-told", mustache::data(!frame.told.empty()));
  data.set("above", frame.above);
  data.set("above-title", frame.above_title);
  data.set("has-above", mustache::data(!frame.above.empty()));
  data.set("wide", mustache::data(frame.wide));
  set_doors(frame, data);
  Response response;
  response.body = templates_.find("frame.html")->second.render(data);
  return response;
}

/// The groups, and under them the doors of the one that the page belongs to.
void Pages::set_doors(const Frame& frame, mustache::data& whole) const {
  mustache::data outer(mustache::data::type::list);
  mustache::data inner(mustache::data::type::list);
  const auto add = [&](mustache::data& into, const Door& door) {
    const bool here = frame.room == door.room;
    into << door_data(door.address, say(door.label, frame.language), here ? "page" : "");
  };
  whole.set("has-doors", mustache::data(false));
  for (const Group& group : groups) {
    const auto rooms = doors_of(group.group);
    if (rooms.empty()) continue;
    if (!group.label) {
      for (const Door& door : rooms) add(outer, door);
      continue;
    }
    const std::string& label = say(group.label, frame.language);
    const bool here = std::any_of(rooms.begin(), rooms.end(),
                                  [&](const Door& door) { return frame.room == door.room; });
    outer << door_data(rooms.front().address, label, here ? "true" : "");
    if (!here) continue;
    whole.set("has-doors", mustache::data(true));
    whole.set("group", label);
    for (const Door& door : rooms) add(inner, door);
  }
  whole.set("groups", outer);
  whole.set("doors", inner);
}

mustache::data Pages::form_data(const Form& form, Language language, const std::string& token,
                                const std::string& once) const {
  mustache::data data;
  data.set("action", form.action);
  data.set("button", form.button);
  data.set("other-button", form.other_button);
  data.set("has-other-button", mustache::data(!form.other_button.empty()));
  data.set("plain", mustache::data(form.plain));
  data.set("asks", mustache::data(form.asks));
  data.set("look-at", say(form.asks ? "look-at" : "something-wrong", language));
  data.set("token", token);
  data.set("once", once);
  data.set("form-error", form.error);
  data.set("has-form-error", mustache::data(!form.error.empty()));
  mustache::data fields(mustache::data::type::list);
  mustache::data errors(mustache::data::type::list);
  bool any = false;
  for (const Field& field : form.fields) {
    fields << field_data(field);
    if (field.error.empty()) continue;
    any = true;
    mustache::data one;
    const bool group = field.kind == Field::Kind::one_of || field.kind == Field::Kind::several_of;
    one.set("wrong-field", group && !field.choices.empty() ? field.name + "-1" : field.name);
    one.set("wrong-label", field.label);
    one.set("wrong-says", field.error);
    errors << one;
  }
  data.set("fields", fields);
  data.set("errors", errors);
  data.set("has-errors", mustache::data(any));
  data.set("is-wrong", mustache::data(any || !form.error.empty()));
  return data;
}

}  // namespace footroom::desk
