#include "tasks/roster.hpp"

#include <algorithm>
#include <array>
#include <boost/locale/utf.hpp>
#include <charconv>
#include <iterator>
#include <map>
#include <optional>
#include <utility>

#include "grade/characters.hpp"
#include "notation/unit.hpp"
#include "render/escape.hpp"
#include "tasks/csv_rows.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/record.hpp"

namespace footroom::tasks {
namespace {

using engine::Wording;

/// What is wrong with a name, or nothing.
std::optional<Wording> fault_of(const std::string& name) {
  using Decoder = boost::locale::utf::utf_traits<char>;
  if (grade::is_blank(name)) return Wording{"has no name", "no tiene nombre"};
  for (auto at = name.begin(); at != name.end();) {
    const auto offset = at - name.begin();
    const auto point = Decoder::decode(at, name.end());
    if (!boost::locale::utf::is_valid_codepoint(point))
      return Wording{"the name is not in UTF-8 (byte ", "el nombre no está en UTF-8 (byte "} +
             std::to_string(offset + 1) + ")";
    const bool no_character = point == 0xfffe || point == 0xffff;
    if (point < 0x20 || (point >= 0x7f && point < 0xa0) || point == 0x2028 || point == 0x2029 ||
        no_character)
      return Wording{"the name holds a line break or another control character",
                     "el nombre tiene un salto de línea u otro carácter de control"};
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

Columns read_titles(const CsvRow& header, const std::string& file, std::vector<RowFault>& notes) {
  const auto refuse = [&](const Wording& why) { return FaultyRow({file, header.line, why}); };
  Columns columns;
  std::vector<std::string> known;
  for (const ColumnTitle& one : titles) known.emplace_back(one.title);
  for (std::size_t i = 0; i < header.fields.size(); ++i) {
    const std::string title = plain_title(header.fields[i]);
    const auto found = std::find_if(titles.begin(), titles.end(),
                                    [&](const ColumnTitle& one) { return one.title == title; });
    if (found == titles.end()) {
      const std::string shown = for_terminal(header.fields[i]);
      if (const auto near = notation::suggest(title, known))
        notes.push_back(
            {file,
             header.line,
             {"note: the column " + shown + " is left alone; did you mean " + *near + "?",
              "nota: la columna " + shown + " no se toma en cuenta; ¿quiso decir " + *near + "?"}});
    } else if (!columns.emplace(found->column, i).second) {
      throw refuse({"the column " + title + " stands twice, expected it once",
                    "la columna " + title + " está dos veces, se esperaba una vez"});
    }
  }
  if (columns.contains(Column::name)) return columns;
  std::string all;
  for (const auto& field : header.fields) all += (all.empty() ? "" : ", ") + field;
  throw refuse({"has no column called name or nombre, only: " + all,
                "no tiene una columna llamada nombre o name, solo: " + all});
}

/// A field that cannot be taken for what its column is about.
using Misread = engine::InBothLanguages<std::runtime_error>;

bool read_truth(const std::string& text, const Wording& column) {
  const std::string word = plain(text);
  for (const char* yes : {"yes", "y", "x", "1", "true", "sí", "si", "s"})
    if (word == yes) return true;
  for (const char* no : {"", "no", "n", "0", "false"})
    if (word == no) return false;
  const std::string shown = for_terminal(text);
  throw Misread(column + Wording{" is " + shown + ", expected yes or no",
                                 " es " + shown + ", se esperaba sí o no"});
}

std::optional<engine::Language> read_language(const std::string& text) {
  const std::string word = plain(text);
  if (word.empty()) return std::nullopt;
  for (const char* english : {"en", "english", "inglés", "ingles"})
    if (word == english) return engine::Language::english;
  for (const char* spanish : {"es", "spanish", "español", "espanol"})
    if (word == spanish) return engine::Language::spanish;
  const std::string shown = for_terminal(text);
  throw Misread(Wording{"language is " + shown + ", expected English or Spanish",
                        "el idioma es " + shown + ", se esperaba español o inglés"});
}

/// The time at `at`, "25%", "15 min" or "15"; goes on behind it.
bool read_one_time(const std::string& word, std::size_t& at, quiz::Accommodations& into) {
  int number = 0;
  const auto read = std::from_chars(word.data() + at, word.data() + word.size(), number);
  constexpr int most = 1000;
  if (read.ec != std::errc{} || number < 0 || number > most) return false;
  at = std::min(word.find_first_not_of(' ', static_cast<std::size_t>(read.ptr - word.data())),
                word.size());
  const std::size_t end = std::min(word.find_first_of("0123456789", at), word.size());
  const std::string unit = plain(word.substr(at, end - at));
  at = end;
  if (unit == "%") return std::exchange(into.extra_percent, number) == 0;
  for (const char* minutes : {"", "min", "min.", "minutes", "minutos", "minute", "minuto"})
    if (unit == minutes) return std::exchange(into.extra_minutes, number) == 0;
  return false;
}

quiz::Accommodations read_accommodations(const CsvRow& row, const Columns& columns) {
  const auto field = [&](Column column) {
    const auto found = columns.find(column);
    return found == columns.end() || found->second >= row.fields.size() ? std::string()
                                                                        : row.fields[found->second];
  };
  quiz::Accommodations made;
  made.language = read_language(field(Column::language));
  made.large_print = read_truth(field(Column::large_print), {"large print", "letra grande"});
  made.without_figures =
      read_truth(field(Column::without_figures), {"without figures", "sin figuras"});
  if (const std::string text = field(Column::extra_time); !read_extra_time(text, made)) {
    const std::string shown = for_terminal(text);
    throw Misread(Wording{"extra time is " + shown + ", expected such as 25% or 15 min",
                          "el tiempo extra es " + shown + ", se esperaba como 25% o 15 min"});
  }
  return made;
}

}  // namespace

bool read_extra_time(const std::string& text, quiz::Accommodations& into) {
  const std::string word = plain(text);
  std::size_t at = 0;
  while (at < word.size())
    if (!read_one_time(word, at, into)) return false;
  return true;
}

std::string extra_time_text(const quiz::Accommodations& accommodations) {
  std::string text;
  if (accommodations.extra_percent > 0) text = std::to_string(accommodations.extra_percent) + "%";
  if (accommodations.extra_minutes > 0)
    text += (text.empty() ? "" : " ") + std::to_string(accommodations.extra_minutes) + " min";
  return text;
}

std::string roster_csv(const std::vector<std::string>& names,
                       const std::vector<quiz::Accommodations>& accommodations) {
  std::string csv = "name,language,large print,without figures,extra time\r\n";
  for (std::size_t i = 0; i < names.size(); ++i) {
    const auto& made = accommodations.at(i);
    csv += render::escape_csv(names[i]) + ',';
    if (made.language) csv += *made.language == engine::Language::english ? "English" : "Spanish";
    csv += made.large_print ? ",yes" : ",";
    csv += made.without_figures ? ",yes," : ",,";
    csv += extra_time_text(made) + "\r\n";
  }
  return csv;
}

Roster read_roster(std::string_view bytes, const std::string& file) {
  const auto rows = read_csv(bytes);
  if (rows.empty())
    throw FaultyRow({file,
                     1,
                     {"is empty, expected a first row that names the columns",
                      "está vacío, se esperaba una primera fila con los nombres de las columnas"}});
  if (!rows.front().wrong.empty()) throw FaultyRow({file, 1, rows.front().wrong});

  Roster roster;
  const Columns columns = read_titles(rows.front(), file, roster.notes);
  const std::size_t column = columns.at(Column::name);
  for (auto row = std::next(rows.begin()); row != rows.end(); ++row) {
    const auto refuse = [&](const Wording& why) {
      roster.defects.push_back({file, row->line, why, {"left out", "queda fuera"}});
    };
    const std::string number = std::to_string(column + 1);
    const std::string count = std::to_string(row->fields.size());
    if (!row->wrong.empty()) {
      refuse(row->wrong);
    } else if (row->fields.size() <= column) {
      const bool one = row->fields.size() == 1;
      refuse(
          {"has " + count + (one ? " field" : " fields") + ", expected the name in field " + number,
           "tiene " + count + (one ? " campo" : " campos") +
               ", se esperaba el nombre en el campo " + number});
    } else if (const auto fault = fault_of(row->fields[column])) {
      refuse(*fault);
    } else {
      try {
        roster.accommodations.push_back(read_accommodations(*row, columns));
        roster.names.push_back(render::without_csv_guard(row->fields[column]));
      } catch (const Misread& misread) {
        refuse(misread.says);
      }
    }
  }
  if (roster.names.empty() && roster.defects.empty())
    throw FaultyRow({file,
                     1,
                     {"names nobody, expected a row for each seat",
                      "no nombra a nadie, se esperaba una fila para cada puesto"}});
  return roster;
}

Roster read_roster(const std::filesystem::path& file) {
  return read_roster(file_text(file), file.string());
}

}  // namespace footroom::tasks
