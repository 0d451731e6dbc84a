#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "quiz/question.hpp"
#include "tasks/failure.hpp"

namespace footroom::tasks {

struct Roster {
  std::vector<std::string> names;                    ///< in the order of the file
  std::vector<quiz::Accommodations> accommodations;  ///< of each of them
  std::vector<RowFault> defects;                     ///< one a row that was left out
  std::vector<RowFault> notes;                       ///< on columns that look misspelt
};

/// Reads a class list: CSV (see csv_rows.hpp) in UTF-8. The first row names the columns, in
/// capitals or not:
///   name (nombre)                   must be there
///   language (idioma)               en, English, inglés; es, Spanish, español
///   large print (letra grande)      yes, sí, x, 1; no, 0
///   without figures (sin figuras)   as above
///   extra time (tiempo extra)       25%; 15 min; 15; 25% 15 min
/// Other columns are left alone, and an empty field asks for nothing. A name
/// that begins with an apostrophe before = + - or @ is the name without it (see escape_csv()).
/// Throws Failure where the file cannot be read or has no names; FaultyRow where one of its lines
/// is why.
Roster read_roster(const std::filesystem::path& file);

/// The same from memory; `file` is the name for messages.
Roster read_roster(std::string_view bytes, const std::string& file);

/// The same back, with all columns: reading it gives names and accommodations again.
std::string roster_csv(const std::vector<std::string>& names,
                       const std::vector<quiz::Accommodations>& accommodations);

/// "25%", "15 min", "25% 15 min" or nothing, and back. Nothing where it cannot be taken.
std::string extra_time_text(const quiz::Accommodations& accommodations);
bool read_extra_time(const std::string& text, quiz::Accommodations& into);

}  // namespace footroom::tasks
