#pragma once
// What the templates of feedback and class report may mention.

#include "grade/class_report.hpp"
#include "render/feedback.hpp"
#include "render/page_data.hpp"

namespace footroom::render {

mustache::data feedback_data(const Templates::Parts& parts, const quiz::Header& header,
                             const quiz::Sheet& sheet, const grade::SeatResult& result,
                             const Dress& dress);
mustache::data class_report_data(const Templates::Parts& parts, const quiz::Header& header,
                                 const grade::ClassReport& report, const Dress& dress);

}  // namespace footroom::render
