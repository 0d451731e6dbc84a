#include "tasks/people.hpp"

#include <utf8proc.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <memory>

namespace footroom::tasks {
namespace {

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words;
  std::string word;
  for (const char c : text + " ") {
    if (c != ' ' && c != '\t') {
      word += c;
    } else if (!word.empty()) {
      words.push_back(std::move(word));
      word.clear();
    }
  }
  return words;
}

struct Found {
  Listed listed;
  std::string name;  ///< folded, to sort by
};

bool has_all(const std::string& text, const std::vector<std::string>& words) {
  return std::all_of(words.begin(), words.end(),
                     [&](const std::string& word) { return text.find(word) != std::string::npos; });
}

}  // namespace

std::string folded(std::string_view text) {
  utf8proc_uint8_t* made = nullptr;
  const auto size = utf8proc_map(
      reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
      static_cast<utf8proc_ssize_t>(text.size()), &made,
      static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_DECOMPOSE | UTF8PROC_COMPAT |
                                     UTF8PROC_CASEFOLD | UTF8PROC_STRIPMARK));
  const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owned(made, &std::free);
  if (size < 0) return std::string(text);
  return {reinterpret_cast<const char*>(made), static_cast<std::size_t>(size)};
}

std::vector<Listed> list_people(records::Store& store, const std::string& wanted) {
  const auto words = words_of(folded(wanted));
  std::map<records::Number, std::string> employers;
  for (const auto& employer : store.employers()) employers[employer.number] = employer.value.name;
  std::vector<Found> found;
  store.each_person([&](const records::Numbered<records::Person>& person) {
    const auto employer = person.value.employer ? employers[*person.value.employer] : std::string();
    const std::string name = folded(person.value.name);
    const std::string text = name + '\n' + folded(person.value.identity) + '\n' + folded(employer) +
                             "\n@" + std::to_string(person.number);
    if (words.empty() || (!person.erased && has_all(text, words)))
      found.push_back({{person, employer}, name});
  });
  std::stable_sort(found.begin(), found.end(), [](const Found& one, const Found& other) {
    const bool erased = one.listed.person.erased;
    if (erased != other.listed.person.erased) return !erased;
    return one.name < other.name;
  });
  std::vector<Listed> all;
  for (auto& one : found) all.push_back(std::move(one.listed));
  return all;
}

std::optional<records::Numbered<records::Person>> holder_of(
    records::Store& store, const std::string& identity,
    const std::optional<records::Number>& employer, records::Number but) {
  if (identity.empty()) return std::nullopt;
  for (const auto& one : store.find_people(identity))
    if (one.number != but && one.value.identity == identity && one.value.employer == employer)
      return one;
  return std::nullopt;
}

std::optional<records::Numbered<records::Person>> namesake_of(
    records::Store& store, const std::string& name,
    const std::optional<records::Number>& employer) {
  const std::string wanted = folded(name);
  std::optional<records::Numbered<records::Person>> found;
  store.each_person([&](const records::Numbered<records::Person>& person) {
    if (!found && !person.erased && person.value.employer == employer &&
        folded(person.value.name) == wanted)
      found = person;
  });
  return found;
}

}  // namespace footroom::tasks
