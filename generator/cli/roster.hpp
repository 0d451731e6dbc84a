#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "bank/item.hpp"

namespace footroom::cli {

struct Roster {
  std::vector<std::string> names;     ///< in the order of the file
  std::vector<bank::Defect> defects;  ///< one a row that was left out
};

/// Reads a class list: CSV (see csv_rows.hpp) in UTF-8. The first row names the columns; the column
/// `name` (or `nombre`) is used. Throws Failure where the file cannot be read or has no such
/// column.
Roster read_roster(const std::filesystem::path& file);

/// The same from memory; `file` is the name for messages.
Roster read_roster(std::string_view bytes, const std::string& file);

}  // namespace footroom::cli
