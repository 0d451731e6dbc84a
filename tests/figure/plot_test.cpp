#include "figure/plot.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "figure/figure.hpp"

namespace footroom::figure {
namespace {

struct Extent {
  double left, top, right, bottom;
};
Extent extent(const Label& label) {
  double width = 0;
  for (const Run& run : label.runs) width += text_width(run.text, label.size);
  const double left = label.align == Align::start ? 0 : -width / 2;
  const double top = -0.78 * label.size;
  const double bottom = 0.22 * label.size;
  if (label.turn == 0)
    return {label.at.x + left, label.at.y + top, label.at.x + left + width, label.at.y + bottom};
  // Read upwards: the text's up is the page's left.
  return {label.at.x + top, label.at.y - left - width, label.at.x + bottom, label.at.y - left};
}

void expect_sound(const Drawing& drawing) {
  EXPECT_LE(drawing.width, 165);
  EXPECT_LE(drawing.height, 150);
  std::vector<Extent> texts;
  for (const Label& label : drawing.labels) {
    texts.push_back(extent(label));
    const Extent& e = texts.back();
    EXPECT_TRUE(e.left >= 0 && e.top >= 0 && e.right <= drawing.width && e.bottom <= drawing.height)
        << label.runs[0].text;
  }
  for (std::size_t i = 0; i < texts.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      EXPECT_TRUE(texts[i].right <= texts[j].left || texts[j].right <= texts[i].left ||
                  texts[i].bottom <= texts[j].top || texts[j].bottom <= texts[i].top)
          << drawing.labels[i].runs[0].text << " on " << drawing.labels[j].runs[0].text;
  for (const Shape& shape : drawing.shapes)
    for (const Point p : std::get<Path>(shape).points)
      EXPECT_TRUE(p.x >= 0 && p.y >= 0 && p.x <= drawing.width && p.y <= drawing.height);
}

std::vector<std::vector<Point>> drawn_with(const Drawing& drawing, Pen pen) {
  std::vector<std::vector<Point>> all;
  for (const Shape& shape : drawing.shapes)
    if (const auto& path = std::get<Path>(shape); path.pen == pen) all.push_back(path.points);
  return all;
}

TEST(RoundTicks, ReachOverTheNumbersAtRoundSteps) {
  EXPECT_EQ(round_ticks(0, 10, 5), (std::vector<double>{0, 2, 4, 6, 8, 10}));
  EXPECT_EQ(round_ticks(0, 1800, 6), (std::vector<double>{0, 500, 1000, 1500, 2000}));
  EXPECT_EQ(round_ticks(-3, 7, 5), (std::vector<double>{-4, -2, 0, 2, 4, 6, 8}));
  EXPECT_EQ(round_ticks(0, 0, 5).size(), 6u);
  std::mt19937 numbers(3);
  for (int i = 0; i < 2000; ++i) {
    const double low = std::ldexp(double(numbers()), -20) - 2048;
    const double high = low + std::ldexp(1.0 + double(numbers()), -int(numbers() % 30));
    const auto ticks = round_ticks(low, high, 6);
    ASSERT_GE(ticks.size(), 2u);
    ASSERT_LE(ticks.size(), 9u);
    const double step = ticks[1] - ticks[0];
    EXPECT_LE(ticks.front(), low + step * 1e-6);
    EXPECT_GE(ticks.back(), high - step * 1e-6);
    const double digit = step / std::pow(10.0, std::floor(std::log10(step) + 1e-6));
    EXPECT_TRUE(std::abs(digit - 1) < 1e-3 || std::abs(digit - 2) < 1e-3 ||
                std::abs(digit - 5) < 1e-3)
        << step;
  }
}

TEST(Plot, CurvesStandWhereTheTicksSay) {
  Plot plot{"t", "d", "x (s)", {{"y (ft)", false, {{"one", {}}, {"two", {}}}, {}}}, {}};
  for (int i = 0; i <= 10; ++i) {
    plot.panels[0].curves[0].points.push_back({double(i), double(i * i)});
    plot.panels[0].curves[1].points.push_back({double(i), 100.0 - i});
  }
  const Drawing drawing = draw_plot(plot);
  expect_sound(drawing);
  // The numbers printed beside the axis tell where a value is; the first axis number stands at
  // zero and the last at 100.
  const Point origin = drawing.marks.at("panel-1-origin");
  const Point far = drawing.marks.at("panel-1-far");
  const auto curve = drawn_with(drawing, Pen::outline);
  ASSERT_EQ(curve.size(), 2u);  // the legend's sample and the curve
  const auto& points = curve[1];
  ASSERT_EQ(points.size(), 11u);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const double share = double(i) / 10;
    EXPECT_NEAR(points[i].x, origin.x + (far.x - origin.x) * share, 1e-9);
    EXPECT_NEAR(points[i].y, origin.y + (far.y - origin.y) * share * share, 1e-9);
  }
  for (const Label& label : drawing.labels)
    if (label.runs[0].text == "100") {
      EXPECT_NEAR(label.at.y - label.size * 0.28, far.y, 1e-9);
    }
  EXPECT_EQ(drawn_with(drawing, Pen::hidden).size(), 2u);  // the second is dashed
}

TEST(Plot, NamesLevelsWithoutOverlap) {
  for (const double spread : {0.0, 0.01, 1.0, 40.0}) {
    Plot plot{"t", "d", "x (s)", {{"y (ft)", false, {{"one", {{0, 0}, {1, 3}}}}, {}}}, {}};
    for (int i = 0; i < 5; ++i)
      plot.panels[0].levels.push_back(
          {"a limit with a rather long name that breaks: 1,800 lbf", 60 + spread * i, i % 2 == 0});
    expect_sound(draw_plot(plot));
  }
}

TEST(Plot, RefusesWhatCannotBeDrawn) {
  Plot plot{"t", "d", "x (s)", {{"y (ft)", false, {{"one", {{0, std::nan("")}}}}, {}}}, {}};
  EXPECT_THROW(draw_plot(plot), std::invalid_argument);
  plot.panels[0].curves[0].points.clear();
  EXPECT_THROW(draw_plot(plot), std::invalid_argument);
  plot.panels.clear();
  EXPECT_THROW(draw_plot(plot), std::invalid_argument);
}

engine::ArrestInTimeCase arrest_case(double free_fall, double elongation) {
  using namespace engine;
  ArrestInTimeCase c{};
  c.mass = 100.0 * si::kilogramme;
  c.free_fall = free_fall * si::metre;
  c.stiffness = 40e3 * si::newton / si::metre;
  c.absorber_force = 4000.0 * si::newton;
  c.maximum_elongation = elongation * si::metre;
  return c;
}

TEST(ArrestPlot, ShowsTheHistoryItsPeakAndTheLimit) {
  for (const auto system : {notation::System::us, notation::System::si})
    for (const auto language : {engine::Language::english, engine::Language::spanish})
      for (const double free_fall : {0.3, 1.8, 3.6}) {
        const auto c = arrest_case(free_fall, 1.2);
        const Plot plot =
            arrest_plot(c, {{"a limit of force, at most", 8000}}, system, {language, '.'});
        expect_sound(draw_plot(plot));
        const auto ends = engine::arrest_in_time(c);
        const bool us = system == notation::System::us;
        const double newton = us ? 4.4482216152605 : 1000;
        const double metre = us ? 0.3048 : 1;
        double highest = 0;
        double lowest = 0;
        for (const Point p : plot.panels[0].curves[0].points) highest = std::max(highest, p.y);
        for (const Point p : plot.panels[1].curves[0].points) lowest = std::max(lowest, p.y);
        EXPECT_NEAR(highest * newton, ends.peak_force.value(), ends.peak_force.value() * 0.01);
        EXPECT_NEAR(lowest * metre, ends.lowest_drop.value(), 0.01);
        EXPECT_NEAR(plot.panels[0].levels[0].value * newton, 8000, 1e-6);
        EXPECT_TRUE(plot.panels[0].levels[0].limit);
      }
}

TEST(ClearancePlot, GrowsOneToOneWithTheSlackOverTheEave) {
  using engine::Quantity;
  using engine::Word;
  ClearanceAgainstSlack c;
  c.edge_fall = {{"slope-length", Quantity{engine::dimension::length, 5}},
                 {"pitch", Quantity{engine::dimension::angle, 0.0}},
                 {"d-ring-height", Quantity{engine::dimension::length, 1.5}}};
  c.clearance = {{"datum", Word{"below-d-ring"}},
                 {"deceleration", Quantity{engine::dimension::length, 1}},
                 {"body-below", Quantity{engine::dimension::length, 1.5}}};
  c.largest_slack = 3;
  c.free_fall_limits = {{"free fall, at most", 1.8}};
  const Plot plot = clearance_plot(c, notation::System::si, {});
  expect_sound(draw_plot(plot));
  // A flat roof: the taut line is the hypotenuse, and all of the slack falls.
  const double taut = std::hypot(5, 1.5);
  for (const Point p : plot.panels[0].curves[0].points)
    EXPECT_NEAR(p.y, 1.5 + taut - 5 + p.x + 1 + 1.5, 1e-9);
  for (const Point p : plot.panels[1].curves[0].points)
    EXPECT_NEAR(p.y, 1.5 + taut - 5 + p.x, 1e-9);
}

}  // namespace
}  // namespace footroom::figure
