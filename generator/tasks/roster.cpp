#include "tasks/roster.hpp"

#include <algorithm>
#include <array>
#include <boost/locale/utf.hpp>
#include <charconv>
#include <iterator>
#include <map>
#include <optional>

#include "tasks/choices.hpp"
#include "tasks/csv_rows.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/record.hpp"

namespace footroom::tasks {
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

/// Without blanks around it and capitals, those of Spanish too.
std::string plain(std::string text) {
  const std::size_t first = text.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  text = lower_case(text.substr(first, text.find_last_not_of(' ') - first + 1));
  for (const auto& [capital, small] :
       {std::pair<std::string, std::string>{"Í", "í"}, {"É", "é"}, {"Ñ", "ñ"}})
    for (auto at = text.find(capital); at != std::string::npos; at = text.find(capital))
      text.replace(at, capital.size(), small);
  return text;
}

/// As people write one title for another: "Large-Print ", "large_print".
std::string plain_title(std::string text) {
  for (char& c : text)
    if (c == '-' || c == '_') c = ' ';
  return plain(std::move(text));
}

enum class Column { name, language, large_print, without_figures, extra_time };

struct ColumnTitle {
  std::string_view title;
  Column column;
};
constexpr std::array titles{
    ColumnTitle{"name", Column::name},
    ColumnTitle{"nombre", Column::name},
    ColumnTitle{"language", Column::language},
    ColumnTitle{"idioma", Column::language},
    ColumnTitle{"large print", Column::large_print},
    ColumnTitle{"letra grande", Column::large_print},
    ColumnTitle{"without figures", Column::without_figures},
    ColumnTitle{"sin figuras", Column::without_figures},
    ColumnTitle{"extra time", Column::extra_time},
    ColumnTitle{"tiempo extra", Column::extra_time},
};

using Columns = std::map<Column, std::size_t>;

Columns read_titles(const CsvRow& header, const std::string& file,
                    std::vector<std::string>& notes) {
  const std::string at = file + ":" + std::to_string(header.line) + ": ";
  Columns columns;
  std::vector<std::string> known;
  for (const ColumnTitle& one : titles) known.emplace_back(one.title);
  for (std::size_t i = 0; i < header.fields.size(); ++i) {
    const std::string title = plain_title(header.fields[i]);
    const auto found = std::find_if(titles.begin(), titles.end(),
                                    [&](const ColumnTitle& one) { return one.title == title; });
    if (found == titles.end()) {
      if (const std::string near = did_you_mean(title, known); !near.empty())
        notes.push_back(at + "note: the column " + for_terminal(header.fields[i]) +
                        " is left alone" + near);
    } else if (!columns.emplace(found->column, i).second) {
      throw Failure(ExitCode::input_faulty,
                    at + "the column " + title + " stands twice, expected it once");
    }
  }
  if (columns.contains(Column::name)) return columns;
  std::string all;
  for (const auto& field : header.fields) all += (all.empty() ? "" : ", ") + field;
  throw Failure(ExitCode::input_faulty, at + "has no column called name or nombre, only: " + all);
}

/// A field that cannot be taken for what its column is about.
class Misread : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

bool read_truth(const std::string& text, const std::string& column) {
  const std::string word = plain(text);
  for (const char* yes : {"yes", "y", "x", "1", "true", "sí", "si", "s"})
    if (word == yes) return true;
  for (const char* no : {"", "no", "n", "0", "false"})
    if (word == no) return false;
  throw Misread(column + " is " + for_terminal(text) + ", expected yes or no");
}

std::optional<engine::Language> read_language(const std::string& text) {
  const std::string word = plain(text);
  if (word.empty()) return std::nullopt;
  for (const char* english : {"en", "english", "inglés", "ingles"})
    if (word == english) return engine::Language::english;
  for (const char* spanish : {"es", "spanish", "español", "espanol"})
    if (word == spanish) return engine::Language::spanish;
  throw Misread("language is " + for_terminal(text) + ", expected English or Spanish");
}

/// "25%", "15 min", "15".
void read_extra_time(const std::string& text, quiz::Accommodations& into) {
  const std::string word = plain(text);
  if (word.empty()) return;
  int number = 0;
  const auto read = std::from_chars(word.data(), word.data() + word.size(), number);
  const std::string unit = plain({read.ptr, word.data() + word.size()});
  constexpr int most = 1000;
  if (read.ec != std::errc{} || number < 0 || number > most)
    throw Misread("extra time is " + for_terminal(text) + ", expected such as 25% or 15 min");
  if (unit == "%") {
    into.extra_percent = number;
    return;
  }
  for (const char* minutes : {"", "min", "min.", "minutes", "minutos", "minute", "minuto"})
    if (unit == minutes) {
      into.extra_minutes = number;
      return;
    }
  throw Misread("extra time is " + for_terminal(text) + ", expected such as 25% or 15 min");
}

quiz::Accommodations read_accommodations(const CsvRow& row, const Columns& columns) {
  const auto field = [&](Column column) {
    const auto found = columns.find(column);
    return found == columns.end() || found->second >= row.fields.size() ? std::string()
                                                                        : row.fields[found->second];
  };
  quiz::Accommodations made;
  made.language = read_language(field(Column::language));
  made.large_print = read_truth(field(Column::large_print), "large print");
  made.without_figures = read_truth(field(Column::without_figures), "without figures");
  read_extra_time(field(Column::extra_time), made);
  return made;
}

}  // namespace

Roster read_roster(std::string_view bytes, const std::string& file) {
  const auto rows = read_csv(bytes);
  if (rows.empty())
    throw Failure(ExitCode::input_faulty,
                  file + ":1: is empty, expected a first row that names the columns");
  if (!rows.front().wrong.empty())
    throw Failure(ExitCode::input_faulty, file + ":1: " + rows.front().wrong);

  Roster roster;
  const Columns columns = read_titles(rows.front(), file, roster.notes);
  const std::size_t column = columns.at(Column::name);
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
      try {
        roster.accommodations.push_back(read_accommodations(*row, columns));
        roster.names.push_back(row->fields[column]);
      } catch (const Misread& misread) {
        refuse(misread.what());
      }
    }
  }
  if (roster.names.empty() && roster.defects.empty())
    throw Failure(ExitCode::input_faulty, file + ":1: names nobody, expected a row for each seat");
  return roster;
}

Roster read_roster(const std::filesystem::path& file) {
  return read_roster(file_text(file), file.string());
}

}  // namespace footroom::tasks
