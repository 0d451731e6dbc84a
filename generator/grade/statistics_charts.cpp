#include "grade/statistics_charts.hpp"

#include <algorithm>

#include "figure/dot_chart.hpp"

namespace footroom::grade {
namespace {

constexpr std::size_t rows_of_a_page = 40;

}  // namespace

std::vector<figure::Drawing> statistics_charts(const Statistics& statistics,
                                               notation::Style style) {
  const auto say = [&](engine::Text text) { return std::string(text.in(style.language)); };
  std::vector<figure::Drawing> charts;
  const auto& items = statistics.items;
  for (std::size_t start = 0; start < items.size(); start += rows_of_a_page) {
    figure::DotChart chart;
    chart.style = style;
    chart.title = say({"How the questions did", "Cómo resultaron las preguntas"});
    chart.description =
        say({"A dot a question: its difficulty, and its correlation with the rest of the quiz "
             "where that is defined. The numbers stand in the table.",
             "Un punto por pregunta: su dificultad, y su correlación con el resto del examen donde "
             "está definida. Los números están en la tabla."});
    chart.panels = {
        {say({"difficulty", "dificultad"}), {0, 0.25, 0.5, 0.75, 1}},
        {say({"correlation with the rest", "correlación con el resto"}), {-1, -0.5, 0, 0.5, 1}}};
    const std::size_t end = std::min(items.size(), start + rows_of_a_page);
    for (std::size_t i = start; i < end; ++i)
      chart.rows.push_back({items[i].title, {items[i].difficulty, items[i].item_rest}});
    charts.push_back(figure::draw_dot_chart(chart));
  }
  return charts;
}

}  // namespace footroom::grade
