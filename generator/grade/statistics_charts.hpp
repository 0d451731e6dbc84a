#pragma once
#include <vector>

#include "figure/drawing.hpp"
#include "grade/statistics.hpp"

namespace footroom::grade {

/// Difficulty and correlation with the rest as dots, a row an item in the order of the statistics;
/// so many items a drawing that it fits a page.
std::vector<figure::Drawing> statistics_charts(const Statistics& statistics, notation::Style style);

}  // namespace footroom::grade
