#include "render/escape.hpp"
#include "render/feedback_data.hpp"
#include "render/manual_data.hpp"
#include "render/page_data.hpp"
#include "render/record_data.hpp"
#include "render/statistics_data.hpp"

namespace footroom::render {
namespace {

std::string trimmed(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(" \n\r\t");
  if (begin == std::string_view::npos) return {};
  return std::string(text.substr(begin, text.find_last_not_of(" \n\r\t") - begin + 1));
}

// The texts of the bank are Markdown already.
std::string prose(std::string_view markdown) {
  return trimmed(markdown);
}

// Further lines are indented, so that they stay in their list item.
std::string option(std::string_view markdown) {
  std::string text = trimmed(markdown);
  for (std::size_t at = text.find('\n'); at != text.npos; at = text.find('\n', at + 1))
    text.insert(at + 1, "  ");
  return text;
}

std::string formula(const notation::Math& math) {
  return escape_markdown(notation::to_text(math));
}

std::string no_drawing(const figure::Drawing&, const std::string&) {
  return {};
}

std::string no_code(const std::string&, const std::string&) {
  return {};
}

const Dress dress{prose, option, formula, no_drawing, no_code};

// A part that is left out leaves its blank lines behind.
std::string with_single_blank_lines(std::string text) {
  const std::string_view too_many = "\n\n\n";
  for (std::size_t at = text.find(too_many); at != text.npos; at = text.find(too_many, at)) {
    const std::size_t end = text.find_first_not_of('\n', at);
    text.erase(at + 2, end == text.npos ? end : end - at - 2);
  }
  return text;
}

}  // namespace

std::string markdown(const Templates& templates, const quiz::Header& header,
                     const quiz::Sheet& sheet, Face face) {
  const auto& parts = templates.parts();
  const Template& body = face == Face::sheet ? parts.markdown_sheet : parts.markdown_key;
  return with_single_blank_lines(body.render(sheet_data(parts, header, sheet, face, dress)));
}

std::string feedback_markdown(const Templates& templates, const quiz::Header& header,
                              const quiz::Sheet& sheet, const grade::SeatResult& result) {
  const auto& parts = templates.parts();
  return with_single_blank_lines(
      parts.markdown_feedback.render(feedback_data(parts, header, sheet, result, dress)));
}

std::string class_report_markdown(const Templates& templates, const quiz::Header& header,
                                  const grade::ClassReport& report) {
  const auto& parts = templates.parts();
  return with_single_blank_lines(
      parts.markdown_class_report.render(class_report_data(parts, header, report, dress)));
}

std::string statistics_markdown(const Templates& templates, const StatisticsPage& page) {
  const auto& parts = templates.parts();
  return with_single_blank_lines(
      parts.markdown_statistics.render(statistics_data(parts, page, dress)));
}

std::string manual_markdown(const Templates& templates, const Manual& manual) {
  const auto& parts = templates.parts();
  return with_single_blank_lines(
      parts.markdown_manual.render(manual_data(parts, manual, {formula, no_drawing})));
}

std::string certificate_markdown(const Templates& templates, const RecordPage& page,
                                 const Certificate& certificate) {
  const auto& parts = templates.parts();
  return with_single_blank_lines(
      parts.markdown_certificate.render(certificate_data(parts, page, certificate)));
}

std::string person_record_markdown(const Templates& templates, const RecordPage& page,
                                   const PersonRecord& record) {
  const auto& parts = templates.parts();
  return with_single_blank_lines(
      parts.markdown_person_record.render(person_record_data(parts, page, record)));
}

}  // namespace footroom::render
