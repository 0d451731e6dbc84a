#pragma once
// What a command takes, as its declaration says: the man page and the shell completions are written
// from this, so that a new command or option is in them by itself.

#include <string>
#include <vector>

namespace footroom::usage {

/// An option, or a word that stands by its position.
struct Argument {
  std::string name;         ///< "--units"; empty for a word
  std::string placeholder;  ///< "us|si"; empty for a flag
  std::string says;
  bool repeats = false;  ///< takes as many values as follow
};

struct CommandUsage {
  std::string name;  ///< "bank check"
  std::string summary;
  std::vector<Argument> words;
  std::vector<Argument> options;
  std::string footer;
};

/// Every command of the program, in the order of its table.
std::vector<CommandUsage> all_usages();

}  // namespace footroom::usage
