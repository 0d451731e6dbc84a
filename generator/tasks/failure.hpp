#pragma once
#include <stdexcept>
#include <string>
#include <utility>

#include "engine/wording.hpp"
#include "tasks/exit_codes.hpp"

namespace footroom::tasks {

/// Ends a command: the message goes to the user as it is, so it begins with what it is about, and
/// the code to the caller.
class Failure : public std::runtime_error, public engine::Spoken {
 public:
  Failure(ExitCode as, const engine::Wording& message)
      : std::runtime_error(message.english), Spoken(message), code(as) {}
  /// Where it is told in a terminal only.
  Failure(ExitCode as, const std::string& message)
      : Failure(as, engine::Wording{message, message}) {}
  ExitCode code;
};

/// What the system says of an error number, behind what could not be done: "FILE: cannot write: No
/// space left on device".
Failure system_failure(const std::string& about, const engine::Wording& what, int error);

/// What is wrong in a line of a file or of what was typed.
struct RowFault {
  std::string file;
  int line = 1;
  engine::Wording says;
  engine::Wording follows = {};  ///< what is done about it: "left out"

  /// "FILE:LINE: what is wrong; what follows"
  std::string text(engine::Language language = engine::Language::english) const;
};

/// A file that cannot be taken for what it should be, because of one of its lines.
class FaultyRow : public Failure {
 public:
  explicit FaultyRow(RowFault in);
  RowFault fault;
};

}  // namespace footroom::tasks
