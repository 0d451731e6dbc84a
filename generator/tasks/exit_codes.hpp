#pragma once

namespace footroom::tasks {

/// What the program tells its caller; the same for every command.
enum class ExitCode : int {
  done = 0,
  input_faulty = 1,
  wrong_command_line = 2,
  cannot_read_or_write = 3,
  fault_of_ours = 70,
};

}  // namespace footroom::tasks
