#pragma once
#include <string>
#include <vector>

#include "usage/command_usage.hpp"

namespace footroom::usage {

/// The man page footroom(1) in mdoc(7). `date`: "26 Nov 2026", the day of the release.
std::string manual_page(const std::vector<CommandUsage>& commands, const std::string& date);

std::string bash_completion(const std::vector<CommandUsage>& commands);
std::string zsh_completion(const std::vector<CommandUsage>& commands);

/// A row for each option and word, for tests: command, option or "word", kind of its values, and
/// which, with tabs between.
std::string table(const std::vector<CommandUsage>& commands);

}  // namespace footroom::usage
