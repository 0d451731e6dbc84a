#pragma once
// Reading and writing quantities. Locale-free and the same on every compiler.

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "engine/catalogue.hpp"
#include "notation/unit.hpp"

namespace footroom::notation {

struct Style {
  engine::Language language = engine::Language::english;
  char decimal_mark = '.';  ///< '.' groups thousands with ',', ',' with a no-break space
};

/// A number with a fixed count of decimal places, correctly rounded, thousands grouped: "1,800.0".
/// A negative number gets a real minus sign (U+2212); a result that rounds to zero has no sign.
std::string write_number(double number, int places, Style style);
/// The shortest decimal that reads back as the same double, at most 12 significant digits: "4.5".
std::string write_shortest(double number, Style style);

/// Number and unit, joined by a no-break space: "16 ft", "26.6°", "6:12". For "ft-in" the number is
/// in feet and prints as "4 ft 6 in", to the nearest inch (places 0) or 1/8 inch (places 1).
std::string write_quantity(double number, const Unit& unit, int places, Style style);
std::string write_quantity_shortest(double number, const Unit& unit, Style style);

/// True where rounding `number` to `places` decimals could differ for a relative change of 1e-9:
/// such draws are thrown away. For "ft-in" ask with the number in the printed fraction of an inch.
bool near_rounding_boundary(double number, int places);
bool near_rounding_boundary(double number, const Unit& unit, int places);

struct ReadQuantity {
  engine::Quantity quantity;
  const Unit* unit;  ///< as typed; of several parts (4 ft 6 in) the first
  double number;     ///< in that unit
};
/// What is wrong with a text that is no quantity, ready to stand behind "file:line: ".
struct ReadError {
  std::string message;
};

/// Reads "16 ft", "220lbf", "6:12", "4' 6\"", "4 ft 6 in", "1/2 in", "12 1/2 ft", "26.57 deg",
/// "1,800 lbf", "-2 ft", "3" (a plain number where `expected` is a ratio). Refuses NaN, infinity, a
/// bare number where a unit is needed, an unknown unit (with a suggestion) and another dimension.
/// Where `expected` is a force, a mass is taken as the weight of that mass under standard gravity
/// (100 kg is 980.665 N), and the other way round is refused.
std::variant<ReadQuantity, ReadError> read_quantity(std::string_view text,
                                                    engine::Dimension expected);

/// The name of a dimension for messages: "a length", "a force"; unusual ones as "m2 kg s-1".
std::string dimension_in_words(engine::Dimension dimension);

}  // namespace footroom::notation
