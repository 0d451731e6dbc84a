#include "tasks/responses.hpp"

#include <algorithm>
#include <boost/locale/utf.hpp>
#include <charconv>
#include <iterator>
#include <map>
#include <optional>

#include "grade/characters.hpp"
#include "render/escape.hpp"
#include "render/render.hpp"
#include "tasks/csv_rows.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/output_folder.hpp"

namespace footroom::tasks {
namespace {

using engine::Wording;

constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

std::string capitals(std::string text) {
  for (char& c : text)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return text;
}

/// Long and strange fields must not fill the terminal.
Wording shown(const std::string& field) {
  const std::string text = grade::cut_short(grade::plain_typing(field), 40);
  return text.empty() ? Wording{"empty", "nada"} : Wording{text, text};
}

struct Columns {
  std::size_t seat = nowhere;
  std::size_t name = nowhere;
  std::size_t code = nowhere;
  std::map<int, std::size_t> questions;  ///< by number
  std::size_t count = 0;
};

class Form {
 public:
  Form(const std::string& file, const grade::Quiz& quiz) : file_(file), quiz_(quiz) {
    for (const quiz::Sheet& sheet : quiz.sheets) sheets_[sheet.seat] = &sheet;
  }

  ReadResponses read(std::string_view bytes) {
    const auto rows = read_csv(bytes);
    if (rows.empty())
      throw FaultyRow(
          {file_,
           1,
           {"is empty, expected a first row that names the columns",
            "está vacío, se esperaba una primera fila con los nombres de las columnas"}});
    if (!rows.front().wrong.empty()) refuse_form(rows.front(), rows.front().wrong);
    read_titles(rows.front());
    for (auto row = std::next(rows.begin()); row != rows.end(); ++row) read_row(*row);
    leave_out_seats_that_stand_twice();
    ReadResponses made;
    for (Row& row : rows_) made.responses.push_back(std::move(row.response));
    made.defects = std::move(defects_);
    return made;
  }

 private:
  struct Row {
    int line;
    grade::Response response;
  };

  [[noreturn]] void refuse_form(const CsvRow& row, const Wording& why) const {
    throw FaultyRow({file_, row.line, why});
  }

  void read_titles(const CsvRow& row) {
    const Wording two_columns{"has two columns called ", "tiene dos columnas llamadas "};
    columns_.count = row.fields.size();
    const auto take = [&](std::size_t& column, std::size_t i) {
      if (column != nowhere) refuse_form(row, two_columns + shown(row.fields[i]));
      column = i;
    };
    for (std::size_t i = 0; i < row.fields.size(); ++i) {
      const std::string title = grade::lower_case(grade::plain_typing(row.fields[i]));
      if (title == "seat" || title == "puesto") {
        take(columns_.seat, i);
      } else if (title == "name" || title == "nombre") {
        take(columns_.name, i);
      } else if (title == "code" || title == "código" || title == "codigo") {
        take(columns_.code, i);
      } else if (const auto number = question_number(title)) {
        if (!columns_.questions.emplace(*number, i).second) refuse_form(row, two_columns + title);
      }
    }
    if (columns_.seat == nowhere)
      refuse_form(row, {"has no column called seat or puesto",
                        "no tiene una columna llamada puesto o seat"});
    if (columns_.questions.empty())
      refuse_form(row, {"has no column called 1, expected one for each question",
                        "no tiene una columna llamada 1, se esperaba una para cada pregunta"});
  }

  static std::optional<int> question_number(const std::string& title) {
    int number = 0;
    const auto [end, error] = std::from_chars(title.data(), title.data() + title.size(), number);
    const bool whole = error == std::errc() && end == title.data() + title.size() && number > 0;
    return whole ? std::optional(number) : std::nullopt;
  }

  void report(int line, const Wording& column, const Wording& what, const Wording& follows) {
    defects_.push_back({file_, line, column.empty() ? what : column + ": " + what, follows});
  }

  Wording column_name(std::size_t column) const {
    if (column == columns_.seat) return seat_column;
    if (column == columns_.name) return {"name", "nombre"};
    if (column == columns_.code) return code_column;
    for (const auto& [number, at] : columns_.questions)
      if (at == column) return {std::to_string(number), std::to_string(number)};
    return Wording{"column ", "columna "} + std::to_string(column + 1);
  }

  void read_row(const CsvRow& row) {
    const auto leave_out = [&](const Wording& column, const Wording& what) {
      report(row.line, column, what, {"the row is left out", "la fila queda fuera"});
    };
    if (!row.wrong.empty()) return leave_out({}, row.wrong);
    if (std::all_of(row.fields.begin(), row.fields.end(), grade::is_blank)) return;
    std::size_t filled = row.fields.size();
    while (filled > columns_.count && row.fields[filled - 1].empty()) --filled;
    if (filled != columns_.count) {
      const std::string has = std::to_string(filled);
      const std::string expected = std::to_string(columns_.count);
      return leave_out(
          {},
          {"has " + has + (filled == 1 ? " field" : " fields") + ", expected " + expected,
           "tiene " + has + (filled == 1 ? " campo" : " campos") + ", se esperaban " + expected});
    }
    for (std::size_t i = 0; i < columns_.count; ++i)
      if (const auto fault = fault_of(row.fields[i])) return leave_out(column_name(i), *fault);

    const auto field = [&](std::size_t column) {
      return column == nowhere ? std::string() : render::without_csv_guard(row.fields[column]);
    };
    const auto sheet = sheets_.find(capitals(grade::plain_typing(field(columns_.seat))));
    if (sheet == sheets_.end()) {
      const std::string& first = quiz_.sheets.front().seat;
      const std::string& last = quiz_.sheets.back().seat;
      return leave_out(
          seat_column,
          is + shown(field(columns_.seat)) +
              Wording{", expected a seat of the quiz, " + first + " to " + last,
                      ", se esperaba un puesto del examen, de " + first + " a " + last});
    }
    const std::string code = capitals(grade::plain_typing(field(columns_.code)));
    if (!code.empty() && code != capitals(sheet->second->code))
      return leave_out(code_column, is + shown(field(columns_.code)) +
                                        Wording{", expected " + sheet->second->code + " for seat " +
                                                    sheet->second->seat,
                                                ", se esperaba " + sheet->second->code +
                                                    " para el puesto " + sheet->second->seat});
    rows_.push_back({row.line, response(row, *sheet->second, field)});
  }

  template <class Field>
  grade::Response response(const CsvRow& row, const quiz::Sheet& sheet, const Field& field) {
    grade::Response made{sheet.seat, grade::plain_typing(field(columns_.name)), {}};
    std::map<int, std::size_t> left = columns_.questions;
    for (const quiz::Question& question : sheet.questions) {
      const auto column = left.find(question.number);
      made.answers.push_back(column == left.end() ? std::string() : field(column->second));
      if (column != left.end()) left.erase(column);
    }
    for (const auto& [number, column] : left)
      if (!grade::is_blank(row.fields[column]))
        report(row.line, {std::to_string(number), std::to_string(number)},
               is + shown(row.fields[column]) +
                   Wording{", but the sheet has no question ",
                           ", pero la hoja no tiene la pregunta "} +
                   std::to_string(number),
               {"the rest of the row is graded", "el resto de la fila se califica"});
    return made;
  }

  /// Which of the two is the right one cannot be known.
  void leave_out_seats_that_stand_twice() {
    std::map<std::string, std::vector<int>> lines;
    for (const Row& row : rows_) lines[row.response.seat].push_back(row.line);
    for (const auto& [seat, at] : lines)
      for (std::size_t i = 1; i < at.size(); ++i)
        report(at[i], seat_column,
               is + seat +
                   Wording{", which stands in line " + std::to_string(at.front()) + " too",
                           ", que también está en la línea " + std::to_string(at.front())},
               {"both rows are left out", "ambas filas quedan fuera"});
    rows_.erase(std::remove_if(rows_.begin(), rows_.end(),
                               [&](const Row& row) { return lines[row.response.seat].size() > 1; }),
                rows_.end());
  }

  const Wording seat_column{"seat", "puesto"};
  const Wording code_column{"code", "código"};
  const Wording is{"is ", "es "};
  const std::string& file_;
  const grade::Quiz& quiz_;
  std::map<std::string, const quiz::Sheet*, std::less<>> sheets_;
  Columns columns_;
  std::vector<Row> rows_;
  std::vector<RowFault> defects_;
};

}  // namespace

std::optional<Wording> fault_of(const std::string& field) {
  using Decoder = boost::locale::utf::utf_traits<char>;
  for (auto at = field.begin(); at != field.end();) {
    const auto offset = at - field.begin();
    const auto point = Decoder::decode(at, field.end());
    if (!boost::locale::utf::is_valid_codepoint(point))
      return Wording{"is not in UTF-8 (byte ", "no está en UTF-8 (byte "} +
             std::to_string(offset + 1) +
             Wording{"), expected a file saved as CSV UTF-8",
                     "), se esperaba un archivo guardado como CSV UTF-8"};
    if (point < 0x20 && point != '\t' && point != '\n' && point != '\r')
      return Wording{"holds a control character (byte ", "tiene un carácter de control (byte "} +
             std::to_string(offset + 1) + ")";
  }
  return std::nullopt;
}

ReadResponses read_responses(std::string_view bytes, const std::string& file,
                             const grade::Quiz& quiz) {
  return Form(file, quiz).read(bytes);
}

std::string responses_text(const grade::Quiz& quiz, const std::vector<grade::Response>& responses) {
  std::string text = render::responses_header(quiz.sheets.front());
  for (const quiz::Sheet& sheet : quiz.sheets) {
    const auto found =
        std::find_if(responses.begin(), responses.end(),
                     [&](const grade::Response& one) { return one.seat == sheet.seat; });
    if (found == responses.end()) {
      text += render::responses_row(sheet);
      continue;
    }
    text += render::escape_csv(sheet.seat) + ',' +
            render::escape_csv(found->name.empty() ? sheet.name : found->name) + ',' +
            render::escape_csv(sheet.code);
    for (const auto& answer : found->answers) text += ',' + render::escape_csv(answer);
    text += "\r\n";
  }
  return text;
}

void write_responses(const std::filesystem::path& file, const grade::Quiz& quiz,
                     const std::vector<grade::Response>& responses) {
  write_whole_file(file, responses_text(quiz, responses));
}

ReadResponses read_responses(const std::filesystem::path& file, const grade::Quiz& quiz) {
  return read_responses(file_text(file), file.string(), quiz);
}

}  // namespace footroom::tasks
