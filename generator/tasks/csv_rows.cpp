#include "tasks/csv_rows.hpp"

#include <csv.h>

#include <utility>

namespace footroom::tasks {
namespace {

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
          drop({"a quotation mark stands inside a field, expected it around the whole field",
                "hay comillas dentro de un campo, se esperaban alrededor de todo el campo"});
      }
      if (byte == '\n') ++line_;
    }
    if (!skipping_ && csv_fini(&parser_, &Rows::on_field, &Rows::on_row, this) != 0)
      drop({"a quotation mark is opened here and never closed",
            "aquí se abren comillas que nunca se cierran"});
    csv_free(&parser_);
  }
  Rows(const Rows&) = delete;
  Rows& operator=(const Rows&) = delete;

  std::vector<CsvRow> rows;

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
  void drop(const engine::Wording& wrong) {
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

}  // namespace

std::vector<CsvRow> read_csv(std::string_view bytes) {
  constexpr std::string_view mark = "\xef\xbb\xbf";
  if (bytes.substr(0, mark.size()) == mark) bytes.remove_prefix(mark.size());
  const std::string_view first = bytes.substr(0, bytes.find('\n'));
  const bool semicolons =
      first.find(',') == std::string_view::npos && first.find(';') != std::string_view::npos;
  return Rows(bytes, semicolons ? ';' : ',').rows;
}

std::string csv_of_pasted(const std::string& pasted) {
  if (pasted.find('\t') == std::string::npos) return pasted;
  std::string csv;
  std::string cell;
  const auto end_cell = [&](char end) {
    csv += '"';
    for (const char c : cell) csv += c == '"' ? "\"\"" : std::string(1, c);
    csv += '"';
    csv += end;
    cell.clear();
  };
  for (const char c : pasted) {
    if (c == '\t')
      end_cell(',');
    else if (c == '\n')
      end_cell('\n');
    else if (c != '\r')
      cell += c;
  }
  if (!cell.empty()) end_cell('\n');
  return csv;
}

}  // namespace footroom::tasks
