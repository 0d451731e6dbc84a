#pragma once
// What the tasks on training records share: how people, employers, courses and days are named, and
// how what is recorded is put into words.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "bank/item.hpp"
#include "engine/text.hpp"
#include "records/store.hpp"

namespace footroom::tasks {

/// The day that `text` names. Throws Failure "--on: is May, expected a day of the calendar ...".
records::Date need_date(std::string_view option, const std::string& text);

/// A word or an option that must be there. Throws Failure "--course: is missing, expected CODE".
const std::string& need(std::string_view option, const std::string& text,
                        std::string_view placeholder);

/// A person by identity, by name, or by number as "@12". Throws Failure where nobody or several are
/// named so.
records::Number find_person(records::Store& store, const std::string& text);

/// By name or code; throws Failure with a suggestion.
records::Number find_employer(records::Store& store, const std::string& name);
records::Number find_course(records::Store& store, const std::string& code);

/// The parts of "a,b,c" without spaces around them; empty ones are left out.
std::vector<std::string> parts_of(const std::string& list);

/// "2026-03-02", or "-" for no day.
std::string day_or_dash(const std::optional<records::Date>& day);
/// "2026-03-02, 2026-03-03"
std::string days_text(const std::vector<records::Date>& days);

/// "350" hundredths as "3.5", and back; nothing for any other text.
std::string points_text(std::int64_t hundredths);
std::optional<std::int64_t> read_points(std::string_view text);

/// Text from outside for a terminal: what could turn the line around or hide in it is spelt out.
std::string for_terminal(std::string_view text);

/// The topic's title in the bank, or `id` where the bank has no such topic.
std::string title_of_topic(const bank::Bank& bank, const std::string& id,
                           engine::Language language);

/// The person's name, or that it was erased.
std::string name_of(const records::Person& person, bool erased, engine::Language language);
std::string title_of(const records::Course& course, engine::Language language);
std::string_view text_of(records::Reason reason, engine::Language language);

}  // namespace footroom::tasks
