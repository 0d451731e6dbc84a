#pragma once
#include <stdexcept>
#include <string>

#include "tasks/exit_codes.hpp"

namespace footroom::tasks {

/// Ends a command: the message goes to the user as it is, so it begins with what it is about, and
/// the code to the caller.
class Failure : public std::runtime_error {
 public:
  Failure(ExitCode as, const std::string& message) : std::runtime_error(message), code(as) {}
  ExitCode code;
};

}  // namespace footroom::tasks
