#pragma once
// How a value stands in JSON, the same in quiz.json and in the output of single calculations.

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>

#include "engine/catalogue.hpp"

namespace footroom::render {

/// The number nearest to `number` with at most 12 significant digits, so that a file shows
/// 1.2192 and not the last bits of a binary fraction. Not finite: stays as it is.
double twelve_digits(double number);

/// The same with nine digits, for what nothing is graded by: its last bits may differ between
/// processors, and no draw is thrown away for them.
double nine_digits(double number);

/// The SI base unit of a dimension as files name it: "m", "kg", "rad", "N", "J", "m/s", "N/m";
/// empty for a plain number. Dimensions without a name of their own are products of powers:
/// "kg m3 s-2".
std::string base_unit_name(engine::Dimension dimension);

/// A quantity as {"si", "unit", "text"} with the base unit's name, a list of quantities the same
/// with an array of numbers, a word as {"word", "text"}, a list of words as {"words", "text"}.
nlohmann::ordered_json json_value(const engine::Value& value, std::string_view text);

}  // namespace footroom::render
