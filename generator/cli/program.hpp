#pragma once
#include <string>
#include <vector>

#include "cli/command.hpp"

namespace footroom::cli {

/// Runs the program on its arguments (without its own name) and gives its exit code. Throws
/// nothing: whatever goes wrong becomes a message and a code.
ExitCode run_program(const std::vector<std::string>& arguments, Terminal terminal);

}  // namespace footroom::cli
