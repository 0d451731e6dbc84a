#include "desk/person_page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "desk/crew.hpp"
#include "tasks/people.hpp"

namespace footroom::desk {

std::string person_address(records::Number person) {
  return fmt::format("/people/{}", person);
}

std::string in_address(const std::string& text) {
  std::string out;
  for (const char c : text) {
    const bool plain =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
    out += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return out;
}

std::vector<Field> person_fields(const Call& call, records::Store* store,
                                 const records::Person& now) {
  Field name{Field::Kind::text, "name", call.say("people-name"), now.name};
  name.needed = true;
  Field identity{Field::Kind::text, "identity", call.say("people-identity"), now.identity,
                 call.say("people-identity-hint")};
  Field employer{Field::Kind::list, "employer", call.say("people-employer"),
                 now.employer ? std::to_string(*now.employer) : std::string()};
  employer.choices = {{"", call.say("people-no-employer")}};
  if (store)
    for (auto& choice : employer_choices(*store)) employer.choices.push_back(std::move(choice));
  Field left{Field::Kind::date, "left", call.say("people-left"),
             now.left ? records::date_text(*now.left) : std::string(),
             call.say("people-left-hint")};
  return {name, identity, employer, left};
}

records::Person sent_person(const Call& call, records::Store& store, Form& form,
                            records::Number person) {
  refuse_unclean(call, form);
  records::Person sent{form.at("name").value, form.at("identity").value, {}, {}};
  if (sent.name.empty()) form.refuse("name", call.say("people-no-name"));
  Field& employer = form.at("employer");
  if (!employer.value.empty()) {
    sent.employer = number_in(employer.value);
    if (std::none_of(employer.choices.begin(), employer.choices.end(),
                     [&](const Choice& choice) { return choice.value == employer.value; }))
      form.refuse("employer", call.say("choose-one"));
  }
  const bool has_left = std::any_of(form.fields.begin(), form.fields.end(),
                                    [](const Field& field) { return field.name == "left"; });
  if (has_left) sent.left = day_in(call, form, "left");
  if (const auto holder = tasks::holder_of(store, sent.identity, sent.employer, person))
    form.refuse("identity", call.say_with("people-identity-taken", shown_name(call, *holder)));
  return sent;
}

void set_pager(const Call& call, std::size_t page, std::size_t pages,
               const std::function<std::string(std::size_t)>& address, mustache::data& data) {
  mustache::data pager(mustache::data::type::list);
  if (pages > 1) {
    mustache::data one;
    one.set("at", call.say_with("pager-at", page, pages));
    one.set("has-before", mustache::data(page > 1));
    one.set("before", page > 1 ? address(page - 1) : std::string());
    one.set("has-after", mustache::data(page < pages));
    one.set("after", page < pages ? address(page + 1) : std::string());
    pager << one;
  }
  data.set("pager", pager);
}

}  // namespace footroom::desk
