#pragma once
#include <nlohmann/json.hpp>

#include "grade/json_reader.hpp"
#include "notation/quantity_text.hpp"

namespace footroom::practice {

/// The units, language and decimal mark in which a question was asked.
struct Face {
  notation::System system = notation::System::us;
  notation::Style style;
};

/// The members "units", "language" and "decimal-mark" of a JSON object.
void put_face(nlohmann::ordered_json& json, const Face& face);
Face read_face(const grade::JsonReader& at);

}  // namespace footroom::practice
