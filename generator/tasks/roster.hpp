#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "quiz/question.hpp"

namespace footroom::tasks {

struct Roster {
  std::vector<std::string> names;                    ///< in the order of the file
  std::vector<quiz::Accommodations> accommodations;  ///< of each of them
  std::vector<bank::Defect> defects;                 ///< one a row that was left out
  std::vector<std::string> notes;                    ///< on columns that look misspelt
};

/// Reads a class list: CSV (see csv_rows.hpp) in UTF-8. The first row names the columns, in
/// capitals or not:
///   name (nombre)                   must be there
///   language (idioma)               en, English, inglés; es, Spanish, español
///   large print (letra grande)      yes, sí, x, 1; no, 0
///   without figures (sin figuras)   as above
///   extra time (tiempo extra)       25%; 15 min; 15
/// Other columns are left alone, and an empty field asks for nothing. Throws Failure where the file
/// cannot be read or has no names.
Roster read_roster(const std::filesystem::path& file);

/// The same from memory; `file` is the name for messages.
Roster read_roster(std::string_view bytes, const std::string& file);

}  // namespace footroom::tasks
