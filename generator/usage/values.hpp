#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace footroom::usage {

/// What may stand where a placeholder stands in the help.
struct Values {
  enum class Kind {
    any,      ///< what nobody but the user knows: a number, a name, a day
    fixed,    ///< one of `words`
    files,    ///< files that end in `suffix`, or any where that is empty
    folders,  ///< folders
    names,    ///< what footroom --names `list` prints
    inputs,   ///< NAME= for the inputs of the calculation that was named before
  };
  Kind kind = Kind::any;
  std::vector<std::string> words = {};
  std::string suffix = {};
  std::string list = {};
  bool with_commas = false;  ///< several in one word, with commas between

  std::string which() const;  ///< the words with spaces between, or the suffix, or the list
};

/// "fixed", "files" ...
std::string_view name_of(Values::Kind kind);

/// Nothing for a placeholder that no rule covers: a test names such a one.
std::optional<Values> known_values_of(const std::string& placeholder);

/// As above, or anything.
Values values_of(const std::string& placeholder);

}  // namespace footroom::usage
