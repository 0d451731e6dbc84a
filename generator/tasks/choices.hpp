#pragma once
// How a text that names one of several things is read, and what is said where it names none.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/wording.hpp"
#include "tasks/failure.hpp"

namespace footroom::tasks {

/// "; did you mean NEAR?", or nothing where no name is near enough.
std::string did_you_mean(std::string_view misspelt, const std::vector<std::string>& names);

/// The same in both languages.
engine::Wording suggestion(std::string_view misspelt, const std::vector<std::string>& names);

/// "us or si", "a, b or c".
std::string alternatives(const std::vector<std::string>& names, std::string_view or_word = " or ");

/// The value that `text` names. Throws Failure "--units: is metric, expected us or si".
template <class T>
struct Named {
  std::string_view name;
  T value;
};
[[noreturn]] void refuse_choice(std::string_view option, const std::string& text,
                                const std::vector<std::string>& names);
template <class T>
T choose(std::string_view option, const std::string& text, const std::vector<Named<T>>& named) {
  std::vector<std::string> names;
  for (const auto& one : named) {
    if (one.name == text) return one.value;
    names.emplace_back(one.name);
  }
  refuse_choice(option, text, names);
}

/// A whole number from `lowest` to `highest`. Throws Failure naming the option.
std::uint64_t whole_number(std::string_view option, const std::string& text, std::uint64_t lowest,
                           std::uint64_t highest);

}  // namespace footroom::tasks
