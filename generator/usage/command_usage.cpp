#include "usage/command_usage.hpp"

#include <CLI/CLI.hpp>

#include "cli/command.hpp"

namespace footroom::usage {

std::vector<CommandUsage> all_usages() {
  std::vector<CommandUsage> all;
  for (const auto& row : cli::all_commands()) {
    CLI::App app;
    app.set_help_flag("--help", "this help");
    const auto command = row.make();
    command->declare(app);
    CommandUsage usage{std::string(row.name), std::string(row.summary), {}, {}, app.get_footer()};
    for (const CLI::Option* option : app.get_options()) {
      const bool flag = option->get_expected_max() == 0;
      Argument argument{"", flag ? "" : option->get_type_name(), option->get_description(),
                        option->get_expected_max() > 1 &&
                            (option->get_positional() || option->get_allow_extra_args())};
      if (option->get_positional()) {
        usage.words.push_back(argument);
      } else {
        argument.name = "--" + option->get_lnames().front();
        usage.options.push_back(argument);
      }
    }
    all.push_back(std::move(usage));
  }
  return all;
}

}  // namespace footroom::usage
