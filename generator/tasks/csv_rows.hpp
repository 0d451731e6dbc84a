#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "engine/wording.hpp"

namespace footroom::tasks {

struct CsvRow {
  int line = 0;  ///< of its first byte
  std::vector<std::string> fields;
  engine::Wording wrong = {};  ///< not empty: the row could not be taken apart
};

/// The rows of a CSV text (RFC 4180), blank lines left out. Separated by commas, or by semicolons
/// where the first line has no comma; a byte order mark is skipped. A broken row does not take the
/// following ones with it.
std::vector<CsvRow> read_csv(std::string_view bytes);

/// Rows pasted from a spreadsheet, which have tabs between their cells, as CSV; other text as it
/// is.
std::string csv_of_pasted(const std::string& pasted);

}  // namespace footroom::tasks
