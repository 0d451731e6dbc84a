#pragma once
// The files of a graded quiz: reading the quiz, and writing what grading made of it.

#include <filesystem>
#include <string>

#include "grade/class_report.hpp"
#include "grade/marking.hpp"
#include "render/render.hpp"
#include "tasks/told.hpp"

namespace footroom::tasks {

/// A quiz.json, or the one in a folder, as grading needs it. Throws Failure.
grade::Quiz read_quiz_file(const std::filesystem::path& place);

/// Writes feedback-A.md, feedback-A.html ..., all-feedback.html, class-report.md, .html,
/// class-scores.svg, results.json and results.csv, as a whole or not at all (see
/// output_folder.hpp). `results` are those of `responses` by `credit`. The report is set by
/// `report_header`, which may be in another language than the quiz. Throws Failure.
void write_graded(const grade::Quiz& quiz, const std::vector<grade::Response>& responses,
                  const grade::Credit& credit, const grade::Results& results,
                  const grade::ClassReport& report, const quiz::Header& report_header,
                  const render::Templates& templates, const std::filesystem::path& folder,
                  const Told& seats_written = tell_nobody);

/// The same of a practice: feedback and results, and no report on a class.
void write_graded_practice(const grade::Quiz& quiz, const grade::Results& results,
                           const grade::Credit& credit, const render::Templates& templates,
                           const std::filesystem::path& folder);

}  // namespace footroom::tasks
