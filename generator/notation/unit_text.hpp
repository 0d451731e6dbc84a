#pragma once
#include <string>

#include "engine/text.hpp"
#include "notation/unit.hpp"

namespace footroom::notation {

/// A unit as it stands apart from a number, behind a field or an answer line: "ft". Empty for plain
/// numbers.
std::string unit_alone(const Unit& unit, engine::Language language);

}  // namespace footroom::notation
