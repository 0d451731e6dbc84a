#include "cli/roster.hpp"

#include <boost/locale/utf.hpp>
#include <iterator>
#include <optional>

#include "cli/csv_rows.hpp"
#include "cli/failure.hpp"
#include "cli/file_text.hpp"

namespace footroom::cli {
namespace {

/// What is wrong with a name, or nothing.
std::optional<std::string> fault_of(const std::string& name) {
  using Decoder = boost::locale::utf::utf_traits<char>;
  if (name.empty()) return "has no name";
  for (auto at = name.begin(); at != name.end();) {
    const auto offset = at - name.begin();
    const auto point = Decoder::decode(at, name.end());
    if (!boost::locale::utf::is_valid_codepoint(point))
      return "the name is not in UTF-8 (byte " + std::to_string(offset + 1) + ")";
    if (point < 0x20 || (point >= 0x7f && point < 0xa0) || point == 0x2028 || point == 0x2029)
      return "the name holds a line break or another control character";
  }
  return std::nullopt;
}

std::string lower_case(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

std::size_t name_column(const CsvRow& header, const std::string& file) {
  for (std::size_t i = 0; i < header.fields.size(); ++i)
    if (const auto title = lower_case(header.fields[i]); title == "name" || title == "nombre")
      return i;
  std::string columns;
  for (const auto& field : header.fields) columns += (columns.empty() ? "" : ", ") + field;
  throw Failure(ExitCode::input_faulty,
                file + ":" + std::to_string(header.line) +
                    ": has no column called name or nombre, only: " + columns);
}

}  // namespace

Roster read_roster(std::string_view bytes, const std::string& file) {
  const auto rows = read_csv(bytes);
  if (rows.empty())
    throw Failure(ExitCode::input_faulty,
                  file + ":1: is empty, expected a first row that names the columns");
  if (!rows.front().wrong.empty())
    throw Failure(ExitCode::input_faulty, file + ":1: " + rows.front().wrong);

  const std::size_t column = name_column(rows.front(), file);
  Roster roster;
  for (auto row = std::next(rows.begin()); row != rows.end(); ++row) {
    const auto refuse = [&](const std::string& why) {
      roster.defects.push_back({{file, row->line}, why + "; left out"});
    };
    if (!row->wrong.empty()) {
      refuse(row->wrong);
    } else if (row->fields.size() <= column) {
      refuse("has " + std::to_string(row->fields.size()) +
             (row->fields.size() == 1 ? " field" : " fields") + ", expected the name in field " +
             std::to_string(column + 1));
    } else if (const auto fault = fault_of(row->fields[column])) {
      refuse(*fault);
    } else {
      roster.names.push_back(row->fields[column]);
    }
  }
  if (roster.names.empty() && roster.defects.empty())
    throw Failure(ExitCode::input_faulty, file + ":1: names nobody, expected a row for each seat");
  return roster;
}

Roster read_roster(const std::filesystem::path& file) {
  return read_roster(file_text(file), file.string());
}

}  // namespace footroom::cli
