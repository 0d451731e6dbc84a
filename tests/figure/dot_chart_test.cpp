#include "figure/dot_chart.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <stdexcept>

#include "figure/figure.hpp"

namespace footroom::figure {
namespace {

DotChart sample() {
  return {"How the questions did",
          "A dot a question.",
          {{"difficulty", {0, 0.5, 1}}, {"correlation with the rest of the quiz", {-1, 0, 1}}},
          {{"Fall over the eave, straight down", {0.25, 0.5}}, {"Roof", {1.0, std::nullopt}}},
          {}};
}

TEST(DotChart, PutsEachDotWhereItsValueIs) {
  const Drawing drawing = draw_dot_chart(sample());
  ASSERT_EQ(drawing.marks.size(), 3u);
  const Point quarter = drawing.marks.at("row-1-panel-1");
  const Point full = drawing.marks.at("row-2-panel-1");
  const Point half_way = drawing.marks.at("row-1-panel-2");
  // Panels are equally wide: 0.25 of 0 to 1, 1 of it, and 0.75 of -1 to 1 beside it.
  const double width = (full.x - quarter.x) / 0.75;
  EXPECT_GT(width, 20);
  EXPECT_GT(half_way.x, full.x + 0.75 * width);
  EXPECT_EQ(quarter.y, half_way.y);
  EXPECT_GT(full.y, quarter.y);
}

TEST(DotChart, KeepsItsTextsOnThePageAndApart) {
  const Drawing drawing = draw_dot_chart(sample());
  struct Box {
    double left, right, top, bottom;
  };
  std::vector<Box> boxes;
  for (const Label& label : drawing.labels) {
    const double width = text_width(label.runs[0].text, label.size);
    const double left = label.at.x - (label.align == Align::start ? 0 : width / 2);
    boxes.push_back(
        {left, left + width, label.at.y - 0.78 * label.size, label.at.y + 0.22 * label.size});
    EXPECT_GE(boxes.back().left, 0) << label.runs[0].text;
    EXPECT_LE(boxes.back().right, drawing.width) << label.runs[0].text;
    EXPECT_LE(boxes.back().bottom, drawing.height) << label.runs[0].text;
    for (std::size_t i = 0; i + 1 < boxes.size(); ++i) {
      const Box& a = boxes[i];
      const Box& b = boxes.back();
      EXPECT_TRUE(a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top)
          << label.runs[0].text << " on " << drawing.labels[i].runs[0].text;
    }
  }
}

TEST(DotChart, RefusesWhatItCannotPlace) {
  DotChart chart = sample();
  chart.rows[0].values[0] = 1.01;
  EXPECT_THROW(draw_dot_chart(chart), std::invalid_argument);
  chart.rows[0].values[0] = std::nan("");
  EXPECT_THROW(draw_dot_chart(chart), std::invalid_argument);
  chart = sample();
  chart.rows[0].values.pop_back();
  EXPECT_THROW(draw_dot_chart(chart), std::invalid_argument);
  chart = sample();
  chart.panels[0].ticks = {1};
  EXPECT_THROW(draw_dot_chart(chart), std::invalid_argument);
}

}  // namespace
}  // namespace footroom::figure
