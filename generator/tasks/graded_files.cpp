#include "tasks/graded_files.hpp"

#include <regex>

#include "grade/json_reader.hpp"
#include "render/feedback.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/output_folder.hpp"

namespace footroom::tasks {
namespace {

/// True for a path inside an output folder that an earlier run may have written.
bool is_graded_file(const std::string& path) {
  static const std::regex ours(
      "feedback-[A-Z]+\\.(md|html)|all-feedback\\.html|class-report\\.(md|html)|"
      "class-scores\\.svg|results\\.(json|csv)");
  return std::regex_match(path, ours);
}

/// What a seat is told: in the language of its sheet.
grade::SeatResult in_its_language(const quiz::Sheet& sheet, const grade::SeatResult& result,
                                  const std::vector<grade::Response>& responses,
                                  const grade::Credit& credit, notation::Style style) {
  if (!sheet.accommodations.language) return result;
  for (const auto& response : responses)
    if (response.seat == sheet.seat) return grade::mark_sheet(sheet, response, credit, style);
  return result;
}

void write_feedback(const OutputFolder& out, const render::Templates& templates,
                    const grade::Quiz& quiz, const grade::Results& results,
                    const std::vector<grade::Response>& responses, const grade::Credit& credit,
                    const Told& seats_written) {
  OutputFile all = out.file("all-feedback.html");
  all.write(render::feedback_html_start(templates, quiz.header));
  auto result = results.seats.begin();
  for (const quiz::Sheet& sheet : quiz.sheets) {
    if (result == results.seats.end() || result->seat != sheet.seat) continue;  // absent
    const quiz::Header header = quiz::header_of(quiz.header, sheet);
    const grade::SeatResult seat = in_its_language(sheet, *result, responses, credit, header.style);
    const std::string page = "feedback-" + sheet.seat;
    out.write(page + ".md", render::feedback_markdown(templates, header, sheet, seat));
    out.write(page + ".html", render::feedback_html_page(templates, header, sheet, seat));
    all.write(render::feedback_html_part(templates, header, sheet, seat));
    ++result;
    seats_written(static_cast<std::size_t>(result - results.seats.begin()));
  }
  all.write(render::html_end(templates, quiz.header, render::Face::key));
  all.close();
}

void write_results(const OutputFolder& out, const grade::Results& results) {
  out.write("results.json", grade::results_json(results));
  OutputFile csv = out.file("results.csv");
  csv.write(render::results_csv_header());
  for (const auto& seat : results.seats) csv.write(render::results_csv_rows(results, seat));
  csv.close();
}

}  // namespace

grade::Quiz read_quiz_file(const std::filesystem::path& place) {
  const auto file = std::filesystem::is_directory(place) ? place / "quiz.json" : place;
  try {
    return grade::read_quiz(file_text(file), file.string());
  } catch (const grade::FaultyFile& fault) {
    throw Failure(ExitCode::input_faulty, fault.what());
  }
}

void write_graded(const grade::Quiz& quiz, const std::vector<grade::Response>& responses,
                  const grade::Credit& credit, const grade::Results& results,
                  const grade::ClassReport& report, const quiz::Header& report_header,
                  const render::Templates& templates, const std::filesystem::path& folder,
                  const Told& seats_written) {
  OutputFolder out(folder, is_graded_file);
  write_feedback(out, templates, quiz, results, responses, credit, seats_written);
  out.write("class-report.md", render::class_report_markdown(templates, report_header, report));
  out.write("class-report.html", render::class_report_html(templates, report_header, report));
  out.write("class-scores.svg", render::svg_file(report.distribution));
  write_results(out, results);
  out.publish();
}

void write_graded_practice(const grade::Quiz& quiz, const grade::Results& results,
                           const grade::Credit& credit, const render::Templates& templates,
                           const std::filesystem::path& folder) {
  OutputFolder out(folder, is_graded_file);
  write_feedback(out, templates, quiz, results, {}, credit, tell_nobody);
  write_results(out, results);
  out.publish();
}

}  // namespace footroom::tasks
