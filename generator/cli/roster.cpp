#include "cli/roster.hpp"

#include <csv.h>

#include <algorithm>
#include <boost/locale/utf.hpp>
#include <cerrno>
#include <fstream>
#include <iterator>
#include <memory>
#include <optional>
#include <system_error>

#include "cli/failure.hpp"
#include "cli/options.hpp"

namespace footroom::cli {
namespace {

struct Row {
  int line = 0;
  std::vector<std::string> fields;
  std::string wrong = {};  ///< not empty: the row could not be taken apart
};

/// libcsv, fed byte by byte, so that each row knows its line and a broken row does not take the
/// following ones with it.
class Rows {
 public:
  Rows(std::string_view bytes, char delimiter) : delimiter_(static_cast<unsigned char>(delimiter)) {
    start();
    for (const char byte : bytes) {
      if (skipping_) {
        if (byte == '\n') start();
      } else {
        if (field_line_ == 0 && byte != '\n' && byte != '\r') field_line_ = line_;
        if (csv_parse(&parser_, &byte, 1, &Rows::on_field, &Rows::on_row, this) != 1)
          drop("a quotation mark stands inside a field, expected it around the whole field");
      }
      if (byte == '\n') ++line_;
    }
    if (!skipping_ && csv_fini(&parser_, &Rows::on_field, &Rows::on_row, this) != 0)
      drop("a quotation mark is opened here and never closed");
    csv_free(&parser_);
  }
  Rows(const Rows&) = delete;
  Rows& operator=(const Rows&) = delete;

  std::vector<Row> rows;

 private:
  void start() {
    if (started_) csv_free(&parser_);
    csv_init(&parser_, CSV_STRICT | CSV_STRICT_FINI);
    csv_set_delim(&parser_, delimiter_);
    started_ = true;
    skipping_ = false;
    fields_.clear();
    field_line_ = 0;
  }
  void drop(const std::string& wrong) {
    rows.push_back({field_line_, {}, wrong});
    skipping_ = true;
  }
  static void on_field(void* bytes, std::size_t size, void* self) {
    static_cast<Rows*>(self)->fields_.emplace_back(static_cast<const char*>(bytes), size);
  }
  static void on_row(int, void* self) {
    auto& rows = *static_cast<Rows*>(self);
    rows.rows.push_back({rows.field_line_, std::move(rows.fields_)});
    rows.fields_.clear();
    rows.field_line_ = 0;
  }

  csv_parser parser_{};
  unsigned char delimiter_;
  bool started_ = false;
  bool skipping_ = false;
  int line_ = 1;
  int field_line_ = 0;
  std::vector<std::string> fields_;
};

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

std::string bare(std::string_view bytes) {
  constexpr std::string_view mark = "\xef\xbb\xbf";
  if (bytes.substr(0, mark.size()) == mark) bytes.remove_prefix(mark.size());
  return std::string(bytes);
}

std::string lower_case(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

std::size_t name_column(const Row& header, const std::string& file) {
  for (std::size_t i = 0; i < header.fields.size(); ++i)
    if (lower_case(header.fields[i]) == "name") return i;
  std::string columns;
  for (const auto& field : header.fields) columns += (columns.empty() ? "" : ", ") + field;
  throw Failure(ExitCode::input_faulty,
                file + ":" + std::to_string(header.line) +
                    ": has no column called name, expected it among: " + columns);
}

}  // namespace

Roster read_roster(std::string_view bytes, const std::string& file) {
  const std::string text = bare(bytes);
  const std::string first = text.substr(0, text.find('\n'));
  const bool semicolons =
      first.find(',') == std::string::npos && first.find(';') != std::string::npos;
  const Rows parsed(text, semicolons ? ';' : ',');
  if (parsed.rows.empty())
    throw Failure(ExitCode::input_faulty,
                  file + ":1: is empty, expected a first row that names the columns");
  if (!parsed.rows.front().wrong.empty())
    throw Failure(ExitCode::input_faulty, file + ":1: " + parsed.rows.front().wrong);

  const std::size_t column = name_column(parsed.rows.front(), file);
  Roster roster;
  for (auto row = std::next(parsed.rows.begin()); row != parsed.rows.end(); ++row) {
    const auto refuse = [&](const std::string& why) {
      roster.defects.push_back({{file, row->line}, why + "; left out"});
    };
    if (!row->wrong.empty()) {
      refuse(row->wrong);
    } else if (row->fields.size() <= column) {
      refuse("has " + std::to_string(row->fields.size()) + " fields, expected the name in field " +
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
  errno = 0;
  std::ifstream in(file, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  if (!in.is_open() || in.bad() || std::filesystem::is_directory(file))
    throw Failure(ExitCode::cannot_read_or_write,
                  file.string() + ": cannot read" +
                      (errno ? ": " + std::generic_category().message(errno) : std::string()));
  return read_roster(bytes, file.string());
}

}  // namespace footroom::cli
