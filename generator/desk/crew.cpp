#include "desk/crew.hpp"

#include <algorithm>
#include <filesystem>

#include "render/page_data.hpp"
#include "tasks/record.hpp"
#include "tasks/responses.hpp"

namespace footroom::desk {
namespace {

constexpr std::size_t longest_line = 300;  // bytes; the store takes more

}  // namespace

std::unique_ptr<records::Store> crew_store(const Call& call) {
  const auto file = call.house.folder.store();
  if (!std::filesystem::exists(file)) return nullptr;
  return records::Store::open(file.string(), call.house.random);
}

std::unique_ptr<records::Store> crew_store_to_write(const Call& call) {
  if (auto store = crew_store(call)) return store;
  records::Store::create(call.house.folder.store().string());
  return crew_store(call);
}

records::Date recorded_today(const Call& call) {
  return records::read_date(call.house.today()).value();
}

std::string fault_of_line(const Call& call, const std::string& text) {
  if (text.size() > longest_line) return call.say("too-long");
  if (tasks::fault_of(text) || text.find_first_of("\t\r\n") != std::string::npos)
    return call.say("line-unclean");
  return {};
}

void refuse_unclean(const Call& call, Form& form) {
  for (Field& field : form.fields)
    if (field.kind == Field::Kind::text && field.error.empty()) {
      field.value = trimmed(field.value);
      field.error = fault_of_line(call, field.value);
    }
}

std::optional<records::Date> day_in(const Call& call, Form& form, std::string_view name) {
  const std::string typed = trimmed(form.at(name).value);
  if (typed.empty()) return std::nullopt;
  const auto day = records::read_date(typed);
  if (!day) form.refuse(name, call.say("no-day"));
  return day;
}

std::vector<records::Numbered<records::Person>> crew(records::Store& store) {
  std::vector<records::Numbered<records::Person>> all;
  store.each_person([&](const auto& person) {
    if (!person.erased) all.push_back(person);
  });
  std::stable_sort(all.begin(), all.end(), [](const auto& one, const auto& other) {
    return one.value.name < other.value.name;
  });
  return all;
}

std::string shown_name(const Call& call, const records::Numbered<records::Person>& person) {
  const std::string name = tasks::name_of(person.value, person.erased, call.language);
  return person.value.identity.empty() ? name : name + " (" + person.value.identity + ")";
}

std::string shown_day(const Call& call, records::Date day) {
  return render::long_date(call.house.templates.parts().labels, call.language,
                           records::date_text(day));
}

std::map<records::Number, std::string> course_titles(const Call& call, records::Store& store) {
  std::map<records::Number, std::string> titles;
  for (const auto& one : store.courses())
    titles[one.number] = tasks::title_of(one.value, call.language);
  return titles;
}

std::string name_in_effect(const Call& call, records::Store& store, records::Number person) {
  const auto entry = store.effective(person);
  const auto* content = std::get_if<records::Person>(&entry.content);
  return content ? shown_name(call, {person, *content, entry.erased}) : std::string();
}

std::string shown_days(const Call& call, const std::vector<records::Date>& days) {
  std::string text;
  for (const auto day : days) text += (text.empty() ? "" : " · ") + shown_day(call, day);
  return text;
}

Form strike_form(const Call& call, const std::string& action, const char* button) {
  Form form;
  form.action = action;
  form.button = call.say(button);
  form.plain = true;
  form.fields = {
      {Field::Kind::text, "remark", call.say("strike-remark"), {}, call.say("strike-remark-hint")}};
  return form;
}

std::size_t asked_page(const Call& call, std::size_t pages) {
  const auto asked = static_cast<std::size_t>(number_in(call.query("page")));
  return std::clamp<std::size_t>(asked, 1, pages);
}

records::Number number_in(std::string_view text) {
  if (text.empty() || text.size() > 18 ||
      text.find_first_not_of("0123456789") != std::string_view::npos)
    return 0;
  return std::stoll(std::string(text));
}

std::vector<Choice> people_choices(const Call& call,
                                   const std::vector<records::Numbered<records::Person>>& people) {
  std::vector<Choice> choices;
  for (const auto& person : people)
    choices.push_back({std::to_string(person.number), shown_name(call, person)});
  return choices;
}

std::vector<Choice> course_choices(const Call& call, records::Store& store) {
  std::vector<Choice> choices;
  for (const auto& course : store.courses())
    choices.push_back(
        {std::to_string(course.number), tasks::title_of(course.value, call.language)});
  return choices;
}

std::vector<Choice> employer_choices(records::Store& store) {
  std::vector<Choice> choices;
  for (const auto& employer : store.employers())
    choices.push_back({std::to_string(employer.number), employer.value.name});
  return choices;
}

}  // namespace footroom::desk
