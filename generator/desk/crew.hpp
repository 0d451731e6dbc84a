#pragma once
// What the rooms of the training records share: the store, and how people and days are named.

#include <algorithm>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "desk/person_page.hpp"
#include "desk/room.hpp"
#include "records/store.hpp"

namespace footroom::desk {

/// The store; nothing before anything was recorded: looking makes none.
std::unique_ptr<records::Store> crew_store(const Call& call);
/// The store, made where there is none.
std::unique_ptr<records::Store> crew_store_to_write(const Call& call);
/// The day that new entries carry.
records::Date recorded_today(const Call& call);

/// Why a line of text cannot be recorded, as the page says it; empty: it can. Nothing typed is no
/// fault here.
std::string fault_of_line(const Call& call, const std::string& text);
/// Says at each text field of the form what fault_of_line() says.
void refuse_unclean(const Call& call, Form& form);
/// Says at a date field that it is no day; nothing typed is no fault here.
std::optional<records::Date> day_in(const Call& call, Form& form, std::string_view name);

/// People in effect whose data was not erased, by name.
std::vector<records::Numbered<records::Person>> crew(records::Store& store);
/// "Ana Ejemplo (A-1)"
std::string shown_name(const Call& call, const records::Numbered<records::Person>& person);
/// "March 2, 2026"
std::string shown_day(const Call& call, records::Date day);

/// What a choice of people, courses and the like sends: a number, 0 where it is none.
records::Number number_in(std::string_view text);

/// Choices of a list field: everybody in `people`, each by number.
std::vector<Choice> people_choices(const Call& call,
                                   const std::vector<records::Numbered<records::Person>>& people);
/// In the language of the page, by number.
std::map<records::Number, std::string> course_titles(const Call& call, records::Store& store);
/// The name in effect of one person.
std::string name_in_effect(const Call& call, records::Store& store, records::Number person);
/// "March 2, 2026 · March 3, 2026"
std::string shown_days(const Call& call, const std::vector<records::Date>& days);

std::vector<Choice> course_choices(const Call& call, records::Store& store);
std::vector<Choice> employer_choices(records::Store& store);

/// A quiet form that strikes an entry, with why; `button` is a label.
Form strike_form(const Call& call, const std::string& action, const char* button);

constexpr std::size_t longest_page = 100;  ///< rows of a long list

/// Which of the pages of a long list is asked for (page=2), from 1 on.
std::size_t asked_page(const Call& call, std::size_t pages);

/// The part of a long list that is asked for; sets `pager` for {{> pager.html}}. `address` ends in
/// "?" or "&".
template <class T>
std::vector<T> paged(const Call& call, const std::vector<T>& all, const std::string& address,
                     mustache::data& data, std::size_t rows = longest_page) {
  const std::size_t pages = all.empty() ? 1 : (all.size() - 1) / rows + 1;
  const std::size_t page = asked_page(call, pages);
  set_pager(
      call, page, pages,
      [&address](std::size_t at) { return address + "page=" + std::to_string(at); }, data);
  const auto begin = (page - 1) * rows;
  const auto end = std::min(all.size(), begin + rows);
  return {all.begin() + static_cast<std::ptrdiff_t>(begin),
          all.begin() + static_cast<std::ptrdiff_t>(end)};
}

}  // namespace footroom::desk
