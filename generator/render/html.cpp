#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <map>

#include "render/commonmark.hpp"
#include "render/escape.hpp"
#include "render/feedback_data.hpp"
#include "render/manual_data.hpp"
#include "render/page_data.hpp"
#include "render/qr_code.hpp"
#include "render/record_data.hpp"
#include "render/statistics_data.hpp"

namespace footroom::render {
namespace {

const Dress dress{html_of_markdown, html_of_markdown, mathml, svg_element, qr_code};

std::string page_size(quiz::Paper paper) {
  return fmt::format("@page {{ size: {}; }}\n", paper == quiz::Paper::letter ? "letter" : "A4");
}

// In large print the foot of a page is large too.
std::string_view foot_size(bool large) {
  return large ? " font-size: 18pt;" : "";
}

// A file of one sheet knows its number of pages. `foot` tells on each what it belongs to.
std::string page_numbers(const Templates::Parts& parts, engine::Language language,
                         const std::string& foot, bool large = false) {
  return fmt::format(
      "@page {{ @bottom-left {{ content: {0};{3} }}\n"
      "  @bottom-right {{ content: {1} counter(page) {2} counter(pages);{3} }} }}\n",
      escape_css(foot), escape_css(parts.labels.at("page", language) + " "),
      escape_css(" " + parts.labels.at("page-of", language) + " "), foot_size(large));
}

quiz::Accommodations accommodations_of(const quiz::Header& header, int index) {
  const auto seat = static_cast<std::size_t>(index);
  if (!header.accommodations || seat >= header.accommodations->size()) return {};
  return header.accommodations->at(seat);
}

bool any_in_large_print(const quiz::Header& header) {
  return header.accommodations &&
         std::any_of(header.accommodations->begin(), header.accommodations->end(),
                     [](const quiz::Accommodations& seat) { return seat.large_print; });
}

// In a file of many sheets each has pages of a name of its own with a counter of its own. Their
// total cannot be known, so the end of a sheet is marked in the text.
std::string page_numbers_of_seat(const Templates::Parts& parts, const quiz::Header& header,
                                 int index) {
  const std::string seat = quiz::seat_name(index);
  const quiz::Accommodations special = accommodations_of(header, index);
  const auto language = special.language.value_or(header.style.language);
  return fmt::format(
      "@page seat-{0} {{ counter-increment: seat-{0}; @bottom-left {{ content: {1};{3} }}\n"
      "  @bottom-right {{ content: {2} counter(seat-{0});{3} }} }}\n",
      seat, escape_css(header.code + "-" + seat),
      escape_css(fmt::format("{} {} · {} ", parts.labels.at("seat", language), seat,
                             parts.labels.at("page", language))),
      foot_size(special.large_print));
}

std::string page_start(const Templates::Parts& parts, const quiz::Header& header,
                       const std::string& title, const std::string& page_rules, bool large) {
  mustache::data data = page_data(parts, header, Face::sheet);
  data.set("page-title", title);
  data.set("styles", large ? parts.styles + "\n" + parts.large_styles : parts.styles);
  data.set("page-rules", page_size(header.paper) + page_rules);
  return parts.page_start.render(data);
}

// A class of a hundred thousand has more rules than a page has text, so they are never held at
// once.
void write_start_of_all(const Templates::Parts& parts, const quiz::Header& header,
                        std::string_view what, const Write& write) {
  constexpr std::string_view here = "@page here;";
  const std::string title =
      fmt::format("{}: {}", header.title, parts.labels.at(what, header.style.language));
  const std::string start =
      page_start(parts, header, title, std::string(here), any_in_large_print(header));
  const std::size_t at = start.rfind(here);
  write(std::string_view(start).substr(0, at));
  for (int index = 0; index < header.sheets; ++index)
    write(page_numbers_of_seat(parts, header, index));
  write(std::string_view(start).substr(at + here.size()));
}

std::string collected(const std::function<void(const Write&)>& source) {
  std::string all;
  source([&](std::string_view piece) { all += piece; });
  return all;
}

std::string record_page_start(const Templates::Parts& parts, const RecordPage& page,
                              const std::string& title, const std::string& page_rules) {
  mustache::data data = record_page_data(parts, page);
  data.set("page-title", title);
  data.set("styles", parts.styles + "\n" + parts.record_styles);
  data.set("page-rules", page_size(page.paper) + page_rules);
  return parts.page_start.render(data);
}

std::string record_page_end(const Templates::Parts& parts, const RecordPage& page) {
  return parts.page_end.render(record_page_data(parts, page));
}

const std::string& face_label(const Templates::Parts& parts, const quiz::Header& header, Face face,
                              std::string_view sheet, std::string_view key) {
  return parts.labels.at(face == Face::sheet ? sheet : key, header.style.language);
}

}  // namespace

void write_html_start(const Templates& templates, const quiz::Header& header, Face face,
                      const Write& write) {
  write_start_of_all(templates.parts(), header, face == Face::sheet ? "all-sheets" : "all-keys",
                     write);
}

std::string html_start(const Templates& templates, const quiz::Header& header, Face face) {
  return collected([&](const Write& write) { write_html_start(templates, header, face, write); });
}

namespace {

std::string part_in(const Dress& wearing, const Templates::Parts& parts, const quiz::Header& header,
                    const quiz::Sheet& sheet, Face face) {
  const Template& body = face == Face::sheet ? parts.html_sheet : parts.html_key;
  return body.render(sheet_data(parts, header, sheet, face, wearing));
}

std::string page_around(const std::string& part, const Templates& templates,
                        const quiz::Header& header, const quiz::Sheet& sheet, Face face) {
  const auto& parts = templates.parts();
  const std::string title =
      fmt::format("{}: {} {}", header.title,
                  face_label(parts, header, face, "sheet-title", "key-title"), sheet.code);
  std::string page = page_start(
      parts, header, title,
      page_numbers(parts, header.style.language, sheet.code, sheet.accommodations.large_print),
      sheet.accommodations.large_print);
  const std::string end = html_end(templates, header, face);
  page.reserve(page.size() + part.size() + end.size());
  page += part;
  page += end;
  return page;
}

}  // namespace

std::string html_part(const Templates& templates, const quiz::Header& header,
                      const quiz::Sheet& sheet, Face face) {
  return part_in(dress, templates.parts(), header, sheet, face);
}

std::string html_end(const Templates& templates, const quiz::Header& header, Face face) {
  const auto& parts = templates.parts();
  return parts.page_end.render(page_data(parts, header, face));
}

std::string html_page(const Templates& templates, const quiz::Header& header,
                      const quiz::Sheet& sheet, Face face) {
  return page_around(html_part(templates, header, sheet, face), templates, header, sheet, face);
}

FacePages face_pages(const Templates& templates, const quiz::Header& header,
                     const quiz::Sheet& sheet, Face face) {
  FacePages pages;
  std::map<const figure::Drawing*, Svg> drawn;
  if (!sheet.accommodations.without_figures)
    for (const quiz::Question& question : sheet.questions) {
      const auto& drawing = face == Face::sheet ? question.sheet_figure : question.key_figure;
      if (!drawing) continue;
      const Svg& svg = drawn.emplace(&*drawing, *drawing).first->second;
      pages.figures.push_back({question.number, svg.file()});
    }
  Dress drawn_before = dress;
  drawn_before.drawing = [&](const figure::Drawing& drawing, const std::string& id) {
    return drawn.at(&drawing).element(id);
  };
  pages.html_part = part_in(drawn_before, templates.parts(), header, sheet, face);
  pages.html_page = page_around(pages.html_part, templates, header, sheet, face);
  pages.markdown = markdown(templates, header, sheet, face);
  return pages;
}

std::string feedback_html_start(const Templates& templates, const quiz::Header& header) {
  return collected([&](const Write& write) {
    write_start_of_all(templates.parts(), header, "all-feedback", write);
  });
}

std::string feedback_html_part(const Templates& templates, const quiz::Header& header,
                               const quiz::Sheet& sheet, const grade::SeatResult& result) {
  const auto& parts = templates.parts();
  return parts.html_feedback.render(feedback_data(parts, header, sheet, result, dress));
}

std::string feedback_html_page(const Templates& templates, const quiz::Header& header,
                               const quiz::Sheet& sheet, const grade::SeatResult& result) {
  const auto& parts = templates.parts();
  const std::string title =
      fmt::format("{}: {} {}", header.title,
                  parts.labels.at("feedback-title", header.style.language), sheet.code);
  return page_start(parts, header, title,
                    page_numbers(parts, header.style.language, sheet.code,
                                 sheet.accommodations.large_print),
                    sheet.accommodations.large_print) +
         feedback_html_part(templates, header, sheet, result) +
         html_end(templates, header, Face::key);
}

std::string class_report_html(const Templates& templates, const quiz::Header& header,
                              const grade::ClassReport& report) {
  const auto& parts = templates.parts();
  const std::string title =
      fmt::format("{}: {} {}", header.title,
                  parts.labels.at("class-report-title", header.style.language), header.code);
  return page_start(parts, header, title, page_numbers(parts, header.style.language, header.code),
                    false) +
         parts.html_class_report.render(class_report_data(parts, header, report, dress)) +
         html_end(templates, header, Face::key);
}

std::string statistics_html(const Templates& templates, const StatisticsPage& page) {
  const auto& parts = templates.parts();
  const auto data = statistics_data(parts, page, dress);
  return parts.page_start.render(data) + parts.html_statistics.render(data) +
         parts.page_end.render(data);
}

std::string manual_html(const Templates& templates, const Manual& manual) {
  const auto& parts = templates.parts();
  const auto data = manual_data(parts, manual, {mathml, svg_element});
  return parts.page_start.render(data) + parts.html_manual.render(data) +
         parts.page_end.render(data);
}

std::string certificates_html_start(const Templates& templates, const RecordPage& page) {
  const auto& parts = templates.parts();
  return record_page_start(parts, page, parts.labels.at("all-certificates", page.language), {});
}

std::string certificates_html_part(const Templates& templates, const RecordPage& page,
                                   const Certificate& certificate) {
  const auto& parts = templates.parts();
  return parts.html_certificate.render(certificate_data(parts, page, certificate));
}

std::string certificates_html_end(const Templates& templates, const RecordPage& page) {
  return record_page_end(templates.parts(), page);
}

std::string certificate_html_page(const Templates& templates, const RecordPage& page,
                                  const Certificate& certificate) {
  const auto& parts = templates.parts();
  const std::string title =
      fmt::format("{}: {}", parts.labels.at("certificate-title", page.language), certificate.name);
  return record_page_start(parts, page, title, {}) +
         certificates_html_part(templates, page, certificate) + record_page_end(parts, page);
}

std::string person_record_html(const Templates& templates, const RecordPage& page,
                               const PersonRecord& record) {
  const auto& parts = templates.parts();
  const std::string title =
      fmt::format("{}: {}", parts.labels.at("person-record-title", page.language), record.name);
  return record_page_start(parts, page, title, page_numbers(parts, page.language, record.name)) +
         parts.html_person_record.render(person_record_data(parts, page, record)) +
         record_page_end(parts, page);
}

}  // namespace footroom::render
