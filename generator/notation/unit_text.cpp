#include "notation/unit_text.hpp"

#include <string_view>

namespace footroom::notation {

std::string unit_alone(const Unit& unit, engine::Language language) {
  std::string_view text = unit.printed.in(language);
  constexpr std::string_view blanks[] = {" ", "\u00a0"};
  for (const std::string_view blank : blanks) {
    while (text.starts_with(blank)) text.remove_prefix(blank.size());
    while (text.ends_with(blank)) text.remove_suffix(blank.size());
  }
  return std::string(text);
}

}  // namespace footroom::notation
