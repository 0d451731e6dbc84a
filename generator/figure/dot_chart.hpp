#pragma once
// Named rows with a dot for each value: how many things compare in one or several measures.

#include <optional>
#include <string>
#include <vector>

#include "figure/drawing.hpp"
#include "notation/quantity_text.hpp"

namespace footroom::figure {

/// One measure, in a column of its own.
struct DotPanel {
  std::string axis;           ///< "difficulty"
  std::vector<double> ticks;  ///< ascending, at least two; the first and the last are the ends
};

struct DotRow {
  std::string name;
  std::vector<std::optional<double>> values;  ///< one a panel; empty: no dot
};

struct DotChart {
  std::string title;
  std::string description;
  std::vector<DotPanel> panels;
  std::vector<DotRow> rows;
  notation::Style style = {};
};

/// The marks "row-1-panel-1" are the dots. Throws std::invalid_argument for a panel without two
/// ticks, a row without a value for each panel, and a value that is not between the ends.
Drawing draw_dot_chart(const DotChart& chart);

}  // namespace footroom::figure
