#include "grade/statistics_charts.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace footroom::grade {
namespace {

Statistics of_items(int count) {
  Statistics made;
  for (int i = 0; i < count; ++i) {
    ItemStatistics item;
    item.item = "item-" + std::to_string(i);
    item.title = "Title " + std::to_string(i);
    item.difficulty = 0.25;
    made.items.push_back(item);
  }
  return made;
}

/// How many labels read so.
std::ptrdiff_t labels(const figure::Drawing& drawing, const std::string& text) {
  return std::count_if(drawing.labels.begin(), drawing.labels.end(), [&](const auto& label) {
    std::string all;
    for (const figure::Run& run : label.runs) all += run.text;
    return all == text;
  });
}
bool has_label(const figure::Drawing& drawing, const std::string& text) {
  return labels(drawing, text) > 0;
}

TEST(StatisticsCharts, PutEveryQuestionWhereItsFiguresAre) {
  Statistics statistics = of_items(3);
  statistics.items[0].difficulty = 0;
  statistics.items[0].item_rest = -1;
  statistics.items[1].difficulty = 0.25;
  statistics.items[1].item_rest = 0.5;
  statistics.items[2].difficulty = 1;
  statistics.items[2].item_rest = 1;
  const auto charts = statistics_charts(statistics, {});
  ASSERT_EQ(charts.size(), 1u);
  const auto x = [&](const std::string& mark) { return charts[0].marks.at(mark).x; };
  const double from = x("row-1-panel-1");
  EXPECT_NEAR((x("row-2-panel-1") - from) / (x("row-3-panel-1") - from), 0.25, 1e-9);
  const double rest_from = x("row-1-panel-2");
  EXPECT_NEAR((x("row-2-panel-2") - rest_from) / (x("row-3-panel-2") - rest_from), 0.75, 1e-9);
  EXPECT_GT(rest_from, x("row-3-panel-1"));
  for (const char* title : {"Title 0", "Title 1", "Title 2"})
    EXPECT_TRUE(has_label(charts[0], title)) << title;
  // The ticks of both columns.
  EXPECT_EQ(labels(charts[0], "0"), 2);
  EXPECT_EQ(labels(charts[0], "0.25"), 1);
  EXPECT_EQ(labels(charts[0], "0.5"), 2);
  EXPECT_EQ(labels(charts[0], "0.75"), 1);
  EXPECT_EQ(labels(charts[0], "1"), 2);
  EXPECT_EQ(labels(charts[0], "\u22121"), 1);
  EXPECT_EQ(labels(charts[0], "\u22120.5"), 1);
}

TEST(StatisticsCharts, HaveNoDotForACorrelationThatIsNotDefined) {
  const auto charts = statistics_charts(of_items(1), {});
  ASSERT_EQ(charts.size(), 1u);
  EXPECT_TRUE(charts[0].marks.contains("row-1-panel-1"));
  EXPECT_FALSE(charts[0].marks.contains("row-1-panel-2"));
}

TEST(StatisticsCharts, HaveFortyRowsAPage) {
  EXPECT_TRUE(statistics_charts(of_items(0), {}).empty());
  EXPECT_EQ(statistics_charts(of_items(40), {}).size(), 1u);
  const auto charts = statistics_charts(of_items(81), {});
  ASSERT_EQ(charts.size(), 3u);
  for (const std::size_t full : {0u, 1u}) {
    EXPECT_TRUE(charts[full].marks.contains("row-40-panel-1"));
    EXPECT_FALSE(charts[full].marks.contains("row-41-panel-1"));
  }
  EXPECT_TRUE(has_label(charts[0], "Title 39"));
  EXPECT_TRUE(has_label(charts[1], "Title 40"));
  EXPECT_TRUE(has_label(charts[2], "Title 80"));
  EXPECT_FALSE(charts[2].marks.contains("row-2-panel-1"));
}

TEST(StatisticsCharts, SpeakTheLanguageAsked) {
  const auto english = statistics_charts(of_items(1), {});
  EXPECT_EQ(english[0].title, "How the questions did");
  EXPECT_TRUE(has_label(english[0], "difficulty"));
  const auto spanish = statistics_charts(of_items(1), {engine::Language::spanish, ','});
  EXPECT_EQ(spanish[0].title, "Cómo resultaron las preguntas");
  EXPECT_TRUE(has_label(spanish[0], "dificultad"));
  EXPECT_TRUE(has_label(spanish[0], "correlación con el resto"));
  EXPECT_TRUE(has_label(spanish[0], "0,75"));
}

}  // namespace
}  // namespace footroom::grade
