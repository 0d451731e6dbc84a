#pragma once
#include <string>
#include <vector>

#include "cli/command.hpp"

namespace footroom::cli {

/// footroom --names LIST [--bank DIR]: what a shell offers where one of these is to be typed, one a
/// line. LIST: blueprints, calculations, courses, items, rule-sets, topics, or inputs and then a
/// calculation or a plot. Where there is no bank, or nothing of this name, nothing is printed.
ExitCode print_names(const std::vector<std::string>& words, Terminal& terminal);

}  // namespace footroom::cli
