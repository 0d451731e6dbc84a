#include "usage/usage.hpp"
#include "usage/values.hpp"

namespace footroom::usage {

std::string table(const std::vector<CommandUsage>& commands) {
  std::string rows;
  const auto row = [&rows](const CommandUsage& command, const Argument& argument) {
    rows += command.name + "\t" + (argument.name.empty() ? "word" : argument.name) + "\t";
    if (argument.placeholder.empty()) {
      rows += "flag\t";
    } else {
      const Values values = values_of(argument.placeholder);
      rows += std::string(name_of(values.kind)) + (values.with_commas ? "," : "") + "\t" +
              values.which();
    }
    rows += "\n";
  };
  for (const auto& command : commands) {
    for (const auto& word : command.words) row(command, word);
    for (const auto& option : command.options) row(command, option);
  }
  return rows;
}

}  // namespace footroom::usage
