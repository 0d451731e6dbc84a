// Use: footroom_usage FOLDER DATE | table
// Writes the man page and the shells' completions into a folder, or the table behind them to
// standard output. Runs while Footroom is built and tested.

#include <fstream>
#include <iostream>
#include <string>
#include <vector>

#include "usage/usage.hpp"

namespace {

bool write(const std::string& file, const std::string& text) {
  std::ofstream out(file, std::ios::binary);
  out << text;
  out.close();
  if (!out) std::cerr << file << ": cannot write\n";
  return !out.fail();
}

}  // namespace

int main(int count, char** words) {
  const std::vector<std::string> arguments(words + 1, words + count);
  const auto commands = footroom::usage::all_usages();
  if (arguments == std::vector<std::string>{"table"}) {
    std::cout << footroom::usage::table(commands) << std::flush;
    return std::cout ? 0 : 3;
  }
  if (arguments.size() != 2) return 2;
  const std::string& folder = arguments[0];
  const bool written =
      write(folder + "/footroom.1", footroom::usage::manual_page(commands, arguments[1])) &&
      write(folder + "/footroom.bash", footroom::usage::bash_completion(commands)) &&
      write(folder + "/_footroom", footroom::usage::zsh_completion(commands));
  return written ? 0 : 3;
}
