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

constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

std::string capitals(std::string text) {
  for (char& c : text)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return text;
}

/// Long and strange fields must not fill the terminal.
std::string shown(const std::string& field) {
  std::string text = grade::cut_short(grade::plain_typing(field), 40);
  return text.empty() ? "empty" : text;
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
      throw Failure(ExitCode::input_faulty,
                    file_ + ":1: is empty, expected a first row that names the columns");
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

  [[noreturn]] void refuse_form(const CsvRow& row, const std::string& why) const {
    throw Failure(ExitCode::input_faulty, file_ + ":" + std::to_string(row.line) + ": " + why);
  }

  void read_titles(const CsvRow& row) {
    columns_.count = row.fields.size();
    const auto take = [&](std::size_t& column, std::size_t i) {
      if (column != nowhere) refuse_form(row, "has two columns called " + shown(row.fields[i]));
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
        if (!columns_.questions.emplace(*number, i).second)
          refuse_form(row, "has two columns called " + title);
      }
    }
    if (columns_.seat == nowhere) refuse_form(row, "has no column called seat or puesto");
    if (columns_.questions.empty())
      refuse_form(row, "has no column called 1, expected one for each question");
  }

  static std::optional<int> question_number(const std::string& title) {
    int number = 0;
    const auto [end, error] = std::from_chars(title.data(), title.data() + title.size(), number);
    const bool whole = error == std::errc() && end == title.data() + title.size() && number > 0;
    return whole ? std::optional(number) : std::nullopt;
  }

  void report(int line, const std::string& column, const std::string& what) {
    defects_.push_back(file_ + ":" + std::to_string(line) + ": " +
                       (column.empty() ? "" : column + ": ") + what);
  }

  std::string column_name(std::size_t column) const {
    if (column == columns_.seat) return "seat";
    if (column == columns_.name) return "name";
    if (column == columns_.code) return "code";
    for (const auto& [number, at] : columns_.questions)
      if (at == column) return std::to_string(number);
    return "column " + std::to_string(column + 1);
  }

  void read_row(const CsvRow& row) {
    const auto leave_out = [&](const std::string& column, const std::string& what) {
      report(row.line, column, what + "; the row is left out");
    };
    if (!row.wrong.empty()) return leave_out({}, row.wrong);
    if (std::all_of(row.fields.begin(), row.fields.end(), grade::is_blank)) return;
    std::size_t filled = row.fields.size();
    while (filled > columns_.count && row.fields[filled - 1].empty()) --filled;
    if (filled != columns_.count)
      return leave_out({}, "has " + std::to_string(filled) + (filled == 1 ? " field" : " fields") +
                               ", expected " + std::to_string(columns_.count));
    for (std::size_t i = 0; i < columns_.count; ++i)
      if (const auto fault = fault_of(row.fields[i])) return leave_out(column_name(i), *fault);

    const auto field = [&](std::size_t column) {
      return column == nowhere ? std::string() : render::without_csv_guard(row.fields[column]);
    };
    const auto sheet = sheets_.find(capitals(grade::plain_typing(field(columns_.seat))));
    if (sheet == sheets_.end())
      return leave_out("seat", "is " + shown(field(columns_.seat)) +
                                   ", expected a seat of the quiz, " + quiz_.sheets.front().seat +
                                   " to " + quiz_.sheets.back().seat);
    const std::string code = capitals(grade::plain_typing(field(columns_.code)));
    if (!code.empty() && code != capitals(sheet->second->code))
      return leave_out("code", "is " + shown(field(columns_.code)) + ", expected " +
                                   sheet->second->code + " for seat " + sheet->second->seat);
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
        report(row.line, std::to_string(number),
               "is " + shown(row.fields[column]) + ", but the sheet has no question " +
                   std::to_string(number) + "; the rest of the row is graded");
    return made;
  }

  /// Which of the two is the right one cannot be known.
  void leave_out_seats_that_stand_twice() {
    std::map<std::string, std::vector<int>> lines;
    for (const Row& row : rows_) lines[row.response.seat].push_back(row.line);
    for (const auto& [seat, at] : lines)
      for (std::size_t i = 1; i < at.size(); ++i)
        report(at[i], "seat",
               "is " + seat + ", which stands in line " + std::to_string(at.front()) +
                   " too; both rows are left out");
    rows_.erase(std::remove_if(rows_.begin(), rows_.end(),
                               [&](const Row& row) { return lines[row.response.seat].size() > 1; }),
                rows_.end());
  }

  const std::string& file_;
  const grade::Quiz& quiz_;
  std::map<std::string, const quiz::Sheet*, std::less<>> sheets_;
  Columns columns_;
  std::vector<Row> rows_;
  std::vector<std::string> defects_;
};

}  // namespace

std::optional<std::string> fault_of(const std::string& field) {
  using Decoder = boost::locale::utf::utf_traits<char>;
  for (auto at = field.begin(); at != field.end();) {
    const auto offset = at - field.begin();
    const auto point = Decoder::decode(at, field.end());
    if (!boost::locale::utf::is_valid_codepoint(point))
      return "is not in UTF-8 (byte " + std::to_string(offset + 1) +
             "), expected a file saved as CSV UTF-8";
    if (point < 0x20 && point != '\t' && point != '\n' && point != '\r')
      return "holds a control character (byte " + std::to_string(offset + 1) + ")";
  }
  return std::nullopt;
}

ReadResponses read_responses(std::string_view bytes, const std::string& file,
                             const grade::Quiz& quiz) {
  return Form(file, quiz).read(bytes);
}

void write_responses(const std::filesystem::path& file, const grade::Quiz& quiz,
                     const std::vector<grade::Response>& responses) {
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
  write_whole_file(file, text);
}

ReadResponses read_responses(const std::filesystem::path& file, const grade::Quiz& quiz) {
  return read_responses(file_text(file), file.string(), quiz);
}

}  // namespace footroom::tasks
