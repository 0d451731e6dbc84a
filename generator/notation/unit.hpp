#pragma once
// Units by name, as people type them and as sheets print them. The only table of conversion
// factors in the program.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/quantity.hpp"
#include "engine/text.hpp"

namespace footroom::notation {

enum class System { us, si };

struct Unit {
  std::string_view name;  ///< as bank files and the engine's Show name it: "ft", "ft-in", "lbf",
                          ///< "pitch" (rise in 12), "deg", "" (a plain number)
  engine::Text printed;   ///< what stands behind the number, with its space: " ft", "°", ":12"
  engine::Dimension dimension;
  double factor;  ///< SI value of one unit; exact where the unit's definition is
  std::vector<std::string_view> also = {};  ///< other spellings accepted when reading: "feet", "'"

  /// "pitch" is not linear (the angle of a rise in a run of 12); all others are a factor.
  double to_si(double number) const;
  double from_si(double si) const;
};

const std::vector<Unit>& all_units();
/// The unit of that name or spelling, or null. Upper and lower case are alike, except in symbols
/// of one letter and where they tell mega from milli.
const Unit* find_unit(std::string_view name_or_spelling);
bool same_spelling(std::string_view typed, std::string_view spelling);

/// The unit name nearest to a misspelt one, if any is near enough to suggest.
std::optional<std::string_view> suggest_unit(std::string_view misspelt);

/// The nearest of several names by edit distance, if near enough to suggest ("did you mean").
std::optional<std::string> suggest(std::string_view misspelt,
                                   const std::vector<std::string>& names);

}  // namespace footroom::notation
