#pragma once
// The pages of a graded quiz: feedback for each seat, in the quiz's language, and a report on the
// class, in the language of the header given.

#include <string>

#include "grade/class_report.hpp"
#include "grade/results.hpp"
#include "render/render.hpp"

namespace footroom::render {

std::string feedback_markdown(const Templates&, const quiz::Header&, const quiz::Sheet&,
                              const grade::SeatResult&);
/// A whole page, self-contained.
std::string feedback_html_page(const Templates&, const quiz::Header&, const quiz::Sheet&,
                               const grade::SeatResult&);
/// all-feedback.html: a start, each seat's part, and html_end().
std::string feedback_html_start(const Templates&, const quiz::Header&);
std::string feedback_html_part(const Templates&, const quiz::Header&, const quiz::Sheet&,
                               const grade::SeatResult&);

/// The distribution is a link to class-scores.svg.
std::string class_report_markdown(const Templates&, const quiz::Header&, const grade::ClassReport&);
std::string class_report_html(const Templates&, const quiz::Header&, const grade::ClassReport&);

/// results.csv (RFC 4180): a row a question of a seat.
std::string results_csv_header();
std::string results_csv_rows(const grade::Results&, const grade::SeatResult&);

}  // namespace footroom::render
