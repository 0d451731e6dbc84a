#include "figure/dot_chart.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "figure/figure.hpp"
#include "figure/lettering.hpp"

namespace footroom::figure {
namespace {

constexpr double margin = 2;  // mm
constexpr double row_height = 4.4;
constexpr double panel_width = 40;
constexpr double panel_gap = 9;
constexpr double text_gap = 1.4;
constexpr double dot_radius = 0.9;
constexpr double below_axis = 2 * word_size + 2 * text_gap;
constexpr double to_middle = 0.35 * word_size;  // from a baseline

void check(const DotChart& chart) {
  for (const DotPanel& panel : chart.panels)
    if (panel.ticks.size() < 2 || !(panel.ticks.front() < panel.ticks.back()))
      throw std::invalid_argument("a panel of a dot chart needs two ticks");
  for (const DotRow& row : chart.rows) {
    if (row.values.size() != chart.panels.size())
      throw std::invalid_argument("a row of a dot chart needs a value for each panel");
    for (std::size_t i = 0; i < row.values.size(); ++i) {
      const auto& ticks = chart.panels[i].ticks;
      if (row.values[i] && !(*row.values[i] >= ticks.front() && *row.values[i] <= ticks.back()))
        throw std::invalid_argument("a value of a dot chart lies outside its axis");
    }
  }
}

}  // namespace

Drawing draw_dot_chart(const DotChart& chart) {
  check(chart);
  Drawing drawing;
  drawing.title = chart.title;
  drawing.description = chart.description;
  double names = 0;
  for (const DotRow& row : chart.rows) names = std::max(names, text_width(row.name, word_size));
  const double top = margin;
  const double bottom = top + row_height * double(chart.rows.size());
  double left = margin + names + text_gap + dot_radius;

  for (std::size_t i = 0; i < chart.rows.size(); ++i)
    drawing.labels.push_back({{margin, top + row_height * (double(i) + 0.5) + to_middle},
                              {{chart.rows[i].name}},
                              word_size,
                              false,
                              Align::start});
  for (std::size_t p = 0; p < chart.panels.size(); ++p) {
    const DotPanel& panel = chart.panels[p];
    const double low = panel.ticks.front();
    const auto x_of = [&](double value) {
      return left + (value - low) / (panel.ticks.back() - low) * panel_width;
    };
    for (const double tick : panel.ticks) {
      const double x = x_of(tick);
      drawing.shapes.push_back(Path{{{x, top}, {x, bottom}}, false, Pen::extension});
      drawing.labels.push_back({{x, bottom + text_gap + 0.78 * word_size},
                                {{notation::write_shortest(tick, chart.style)}},
                                word_size});
    }
    drawing.shapes.push_back(
        Path{{{left, bottom}, {left + panel_width, bottom}}, false, Pen::edge});
    drawing.labels.push_back(
        {{left + panel_width / 2, bottom + below_axis}, {{panel.axis}}, word_size});
    for (std::size_t i = 0; i < chart.rows.size(); ++i) {
      const double y = top + row_height * (double(i) + 0.5);
      drawing.shapes.push_back(Path{{{left, y}, {left + panel_width, y}}, false, Pen::extension});
      if (!chart.rows[i].values[p]) continue;
      const Point dot{x_of(*chart.rows[i].values[p]), y};
      drawing.shapes.push_back(Circle{dot, dot_radius, Pen::none, Fill::dark});
      drawing.marks[fmt::format("row-{}-panel-{}", i + 1, p + 1)] = dot;
    }
    left += panel_width + panel_gap;
  }
  drawing.width = left - panel_gap + 2 * margin + dot_radius;
  drawing.height = bottom + below_axis + margin;
  return drawing;
}

}  // namespace footroom::figure
