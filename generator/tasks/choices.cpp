#include "tasks/choices.hpp"

#include <charconv>

#include "notation/quantity_text.hpp"

namespace footroom::tasks {

std::string alternatives(const std::vector<std::string>& names, std::string_view or_word) {
  std::string all;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) all += i + 1 == names.size() ? or_word : ", ";
    all += names[i];
  }
  return all;
}

std::string did_you_mean(std::string_view misspelt, const std::vector<std::string>& names) {
  const auto near = notation::suggest(misspelt, names);
  return near ? "; did you mean " + *near + "?" : "";
}

engine::Wording suggestion(std::string_view misspelt, const std::vector<std::string>& names) {
  const auto near = notation::suggest(misspelt, names);
  if (!near) return {};
  return {"; did you mean " + *near + "?", "; ¿quiso decir " + *near + "?"};
}

void refuse_choice(std::string_view option, const std::string& text,
                   const std::vector<std::string>& names) {
  throw Failure(ExitCode::wrong_command_line,
                std::string(option) + ": is " + text + ", expected " + alternatives(names));
}

std::uint64_t whole_number(std::string_view option, const std::string& text, std::uint64_t lowest,
                           std::uint64_t highest) {
  std::uint64_t number = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, number);
  if (read.ec != std::errc{} || read.ptr != end || number < lowest || number > highest)
    throw Failure(ExitCode::wrong_command_line,
                  std::string(option) + ": is " + text + ", expected a whole number from " +
                      std::to_string(lowest) + " to " + std::to_string(highest));
  return number;
}

}  // namespace footroom::tasks
