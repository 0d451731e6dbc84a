#include "render/templates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <pugixml.hpp>
#include <stdexcept>

#include "notation/unit.hpp"
#include "render/escape.hpp"

namespace footroom::render {
namespace {

namespace fs = std::filesystem;

std::string read_file(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw std::runtime_error(file.string() + ":1: cannot be read, expected a text file");
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::ptrdiff_t line_at(std::string_view text, std::size_t offset) {
  return 1 + std::count(text.begin(), text.begin() + std::min(offset, text.size()), '\n');
}

[[noreturn]] void refuse(const fs::path& file, std::string_view text, std::size_t offset,
                         const std::string& message) {
  throw std::runtime_error(fmt::format("{}:{}: {}", file.string(), line_at(text, offset), message));
}

void check_syntax(const fs::path& file, const std::string& text) {
  try {
    const Template parsed(text, escape_xml);
  } catch (const Template::Broken& broken) {
    refuse(file, text, broken.offset, broken.what());
  }
}

void check_labels(const fs::path& file, const std::string& text, const Labels& labels) {
  constexpr std::string_view start = "{{label.";
  for (std::size_t at = text.find(start); at != std::string::npos; at = text.find(start, at + 1)) {
    const std::size_t begin = at + start.size();
    const std::string id = text.substr(begin, text.find("}}", begin) - begin);
    if (labels.has(id)) continue;
    const auto near = notation::suggest(id, labels.ids());
    refuse(file, text, at,
           fmt::format("unknown label \"{}\", expected one of labels.xml{}", id,
                       near ? fmt::format(" (did you mean \"{}\"?)", *near) : ""));
  }
}

// Puts other files in the place of {{> name}}. The library would read them again at each rendering.
std::string with_includes(const fs::path& folder, const std::string& name, const Labels& labels,
                          int depth = 0) {
  const fs::path file = folder / name;
  const std::string text = read_file(file);
  check_syntax(file, text);
  check_labels(file, text, labels);
  constexpr std::string_view start = "{{> ";
  std::string whole;
  std::size_t done = 0;
  for (std::size_t at = text.find(start); at != std::string::npos; at = text.find(start, done)) {
    if (depth > 8) refuse(file, text, at, "includes go deeper than 8 files");
    const std::size_t begin = at + start.size();
    const std::size_t end = text.find("}}", begin);
    whole += text.substr(done, at - done);
    whole += with_includes(folder, text.substr(begin, end - begin), labels, depth + 1);
    done = end + 2;
    if (done < text.size() && text[done] == '\n') ++done;  // the included file ends with one
  }
  return whole + text.substr(done);
}

// An editor that understands XML puts a text on lines of its own; a label is one line.
std::string one_line(std::string_view text) {
  std::string line;
  for (const char c : text) {
    const bool space = c == ' ' || c == '\n' || c == '\t' || c == '\r';
    if (!space)
      line += c;
    else if (!line.empty() && line.back() != ' ')
      line += ' ';
  }
  if (!line.empty() && line.back() == ' ') line.pop_back();
  return line;
}

}  // namespace

// The rest is said in the templates.
std::vector<std::string> labels_of_code() {
  std::vector<std::string> ids{"date-format",
                               "point",
                               "points",
                               "mark-one",
                               "mark-several",
                               "write-order",
                               "seat",
                               "page",
                               "page-of",
                               "sheet-title",
                               "key-title",
                               "all-sheets",
                               "all-keys",
                               "manual-title",
                               "feedback-title",
                               "all-feedback",
                               "class-report-title",
                               "nothing-written",
                               "points-of",
                               "one-point-of",
                               "seats-graded",
                               "seats-absent",
                               "made-by",
                               "right-by",
                               "statistics-title",
                               "statistics-undefined",
                               "statistics-kr-20",
                               "statistics-alpha",
                               "certificate-title",
                               "all-certificates",
                               "person-record-title"};
  for (const char* outcome :
       {"right", "right-in-other-unit", "right-without-unit", "right-with-wrong-unit",
        "partly-right", "named-mistake", "general-mistake", "wrong", "empty", "unreadable"})
    ids.push_back(fmt::format("outcome-{}", outcome));
  for (const char* status : {"read", "second-hand", "from-memory", "computed", "common-practice"})
    ids.push_back(fmt::format("status-{}", status));
  for (int month = 1; month <= 12; ++month) ids.push_back(fmt::format("month-{}", month));
  return ids;
}

Labels read_labels(const fs::path& file, const std::vector<std::string>& needed) {
  const std::string text = read_file(file);
  pugi::xml_document document;
  const auto result = document.load_buffer(text.data(), text.size());
  const auto offset = [](std::ptrdiff_t at) {
    return static_cast<std::size_t>(std::max<std::ptrdiff_t>(at, 0));
  };
  if (!result) refuse(file, text, offset(result.offset), result.description());
  Labels labels;
  for (const pugi::xml_node node : document.child("labels").children()) {
    const std::size_t at = offset(node.offset_debug());
    const std::string id = node.attribute("id").value();
    if (node.name() != std::string_view("label") || id.empty())
      refuse(file, text, at, "expected <label id=\"...\">");
    const std::string english = one_line(node.child_value("en"));
    const std::string spanish = one_line(node.child_value("es"));
    if (english.empty() || spanish.empty())
      refuse(file, text, at, fmt::format("label \"{}\" lacks a text, expected <en> and <es>", id));
    if (!labels.add(id, english, spanish))
      refuse(file, text, at, fmt::format("label \"{}\" stands here a second time", id));
  }
  for (const std::string& id : needed)
    if (!labels.has(id))
      refuse(file, text, text.size(), fmt::format("label \"{}\" is missing", id));
  return labels;
}

Data label_data(const Labels& labels, engine::Language language) {
  Data all;
  for (const std::string& id : labels.ids()) all.set(id, labels.at(id, language));
  return {"label", std::move(all)};
}

std::string template_text(const fs::path& folder, const std::string& name, const Labels& labels) {
  return with_includes(folder, name, labels);
}

Templates::Templates(const fs::path& folder) : parts_(std::make_unique<Parts>()) {
  parts_->labels = read_labels(folder / "labels.xml", labels_of_code());
  parts_->english = label_data(parts_->labels, engine::Language::english);
  parts_->spanish = label_data(parts_->labels, engine::Language::spanish);
  parts_->styles = read_file(folder / "styles.css");
  parts_->large_styles = read_file(folder / "large-print.css");
  parts_->record_styles = read_file(folder / "record-styles.css");
  const auto load = [&](const char* name, Template::Escape escape) {
    return Template(with_includes(folder, name, parts_->labels), escape);
  };
  parts_->page_start = load("page-start.html", escape_xml);
  parts_->page_end = load("page-end.html", escape_xml);
  parts_->html_sheet = load("sheet.html", escape_xml);
  parts_->html_key = load("key.html", escape_xml);
  parts_->markdown_sheet = load("sheet.md", escape_markdown);
  parts_->markdown_key = load("key.md", escape_markdown);
  parts_->html_feedback = load("feedback.html", escape_xml);
  parts_->markdown_feedback = load("feedback.md", escape_markdown);
  parts_->html_class_report = load("class-report.html", escape_xml);
  parts_->markdown_class_report = load("class-report.md", escape_markdown);
  parts_->html_statistics = load("statistics.html", escape_xml);
  parts_->markdown_statistics = load("statistics.md", escape_markdown);
  parts_->html_manual = load("manual.html", escape_xml);
  parts_->markdown_manual = load("manual.md", escape_markdown);
  parts_->html_certificate = load("certificate.html", escape_xml);
  parts_->markdown_certificate = load("certificate.md", escape_markdown);
  parts_->html_person_record = load("person-record.html", escape_xml);
  parts_->markdown_person_record = load("person-record.md", escape_markdown);
}

Templates::~Templates() = default;
Templates::Templates(Templates&&) noexcept = default;

}  // namespace footroom::render
