#include "desk/whom.hpp"

#include <algorithm>
#include <set>
#include <sstream>

#include "grade/characters.hpp"
#include "tasks/people.hpp"

namespace footroom::desk {
namespace {

using Person = records::Numbered<records::Person>;

constexpr const char* unclear = "";
constexpr const char* fresh = "new";
constexpr const char* nobody = "nobody";
constexpr std::size_t few_people = 60;  ///< all of them are offered for every name

std::string compared(const std::string& name) {
  return tasks::folded(grade::plain_typing(name));
}

std::set<std::string> words(const std::string& name) {
  std::istringstream in(compared(name));
  std::set<std::string> all;
  for (std::string word; in >> word;) all.insert(word);
  return all;
}

bool share_a_word(const std::set<std::string>& one, const std::set<std::string>& other) {
  return std::any_of(one.begin(), one.end(),
                     [&](const auto& word) { return other.count(word) > 0; });
}

}  // namespace

std::vector<Choice> whom_choices(const Call& call, const std::string& name,
                                 const std::vector<Person>& people) {
  const std::string wanted = compared(name);
  const auto wanted_words = words(name);
  std::vector<Choice> same;
  std::vector<Choice> others;
  for (const auto& person : people) {
    const Choice choice{std::to_string(person.number), shown_name(call, person)};
    if (compared(person.value.name) == wanted ||
        (!person.value.identity.empty() && compared(person.value.identity) == wanted))
      same.push_back(choice);
    else if (people.size() <= few_people || share_a_word(wanted_words, words(person.value.name)))
      others.push_back(choice);
  }
  std::vector<Choice> all;
  if (same.size() > 1) all.push_back({unclear, call.say("whom-unclear")});
  all.insert(all.end(), same.begin(), same.end());
  all.push_back({fresh, call.say("whom-new")});
  all.push_back({nobody, call.say("whom-nobody")});
  all.insert(all.end(), others.begin(), others.end());
  return all;
}

Whom whom(const std::vector<Choice>& offered, const std::string& chosen) {
  const bool is_offered = std::any_of(offered.begin(), offered.end(),
                                      [&](const auto& choice) { return choice.value == chosen; });
  if (!is_offered || chosen == unclear) return {};
  if (chosen == fresh) return {Whom::Kind::fresh};
  if (chosen == nobody) return {Whom::Kind::nobody};
  return {Whom::Kind::known, number_in(chosen)};
}

}  // namespace footroom::desk
