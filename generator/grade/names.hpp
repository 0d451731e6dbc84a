#pragma once
// The words that item files, quiz.json and results.json share, in the order of their enums.

#include <string>
#include <vector>

namespace footroom::grade {

inline const std::vector<std::string>& kind_names() {
  static const std::vector<std::string> names{"number", "one-of", "several-of", "order", "verdict"};
  return names;
}
inline const std::vector<std::string>& system_names() {
  static const std::vector<std::string> names{"us", "si"};
  return names;
}
inline const std::vector<std::string>& language_names() {
  static const std::vector<std::string> names{"en", "es"};
  return names;
}
inline const std::vector<std::string>& decimal_mark_names() {
  static const std::vector<std::string> names{"point", "comma"};
  return names;
}

}  // namespace footroom::grade
