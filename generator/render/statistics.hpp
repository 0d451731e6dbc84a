#pragma once
// The page on the items of graded quizzes, in the language of the style.

#include <string>
#include <vector>

#include "grade/statistics.hpp"
#include "render/render.hpp"

namespace footroom::render {

struct StatisticsPage {
  const grade::Statistics& statistics;
  std::vector<figure::Drawing> charts;
  notation::Style style;
};

/// The charts are links to items-1.svg, items-2.svg ...
std::string statistics_markdown(const Templates&, const StatisticsPage&);
/// A whole page, self-contained.
std::string statistics_html(const Templates&, const StatisticsPage&);

}  // namespace footroom::render
