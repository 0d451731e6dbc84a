#include <unistd.h>

#include <csignal>
#include <iostream>

#include "cli/program.hpp"

int main(int count, char** words) {
  // A file that grows past the process's limit is then an error to report, as a full disk is.
  std::signal(SIGXFSZ, SIG_IGN);
  return static_cast<int>(footroom::cli::run_program(
      {words + 1, words + count}, {std::cout, std::cerr, ::isatty(STDERR_FILENO) == 1}));
}
