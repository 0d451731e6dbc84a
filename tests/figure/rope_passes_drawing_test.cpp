// The crossings of ropes, found again in the drawing by geometry alone.

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>
#include <random>

#include "figure/figure.hpp"

namespace footroom::figure {
namespace {

constexpr double rope_width = 1;  // mm on paper

Request ropes(int workers, const std::vector<std::string>& passes) {
  Request request;
  request.calculation = "rope-passes";
  request.inputs["workers"] = engine::Quantity{engine::dimension::ratio, double(workers)};
  engine::Words words;
  for (const auto& pass : passes) words.push_back({pass});
  request.inputs["passes"] = words;
  return request;
}

std::vector<Path> pieces_of(const Drawing& drawing) {
  std::vector<Path> all;
  for (const Shape& shape : drawing.shapes)
    if (const auto* path = std::get_if<Path>(&shape); path && path->pen == Pen::rope)
      all.push_back(*path);
  return all;
}

double away(Point p, Point a, Point b) {
  const double dx = b.x - a.x;
  const double dy = b.y - a.y;
  const double whole = dx * dx + dy * dy;
  double t = whole > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / whole : 0;
  t = std::min(1.0, std::max(0.0, t));
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}
double away(Point p, const Path& path) {
  double nearest = 1e300;
  for (std::size_t i = 1; i < path.points.size(); ++i)
    nearest = std::min(nearest, away(p, path.points[i - 1], path.points[i]));
  return nearest;
}

/// Whether the piece of rope that lies on top at `p` goes down to the right.
bool falls_to_the_right(const Path& path, Point p) {
  for (std::size_t i = 1; i < path.points.size(); ++i)
    if (away(p, path.points[i - 1], path.points[i]) < 1e-6)
      return path.points[i].x > path.points[i - 1].x;
  return false;
}

bool cross(Point a, Point b, Point c, Point d) {
  const auto side = [](Point p, Point q, Point r) {
    return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  };
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

std::vector<std::string> random_passes(std::mt19937& numbers, int workers, std::size_t count) {
  std::vector<std::string> passes;
  for (std::size_t i = 0; i < count; ++i)
    passes.push_back(std::to_string(1 + numbers() % static_cast<unsigned>(workers - 1)) +
                     (numbers() % 2 ? "-over" : "-under"));
  return passes;
}

TEST(RopePassesDrawing, DrawsEachCrossingOnceWithTheUpperRopeUnbroken) {
  std::mt19937 numbers(42);
  for (int i = 0; i < 120; ++i) {
    const int workers = 2 + static_cast<int>(numbers() % 7);
    const auto passes = random_passes(numbers, workers, numbers() % 65);
    const Drawing drawing = *draw(ropes(workers, passes));
    ASSERT_LE(drawing.width, 165);
    ASSERT_LE(drawing.height, 75);
    const auto pieces = pieces_of(drawing);

    // Each crossing breaks one rope once, each column every rope.
    const auto ropes_in_columns = pieces.size() - passes.size();
    ASSERT_GE(pieces.size(), passes.size() + static_cast<std::size_t>(workers));
    ASSERT_EQ(ropes_in_columns % static_cast<std::size_t>(workers), 0u);

    for (std::size_t k = 0; k < passes.size(); ++k) {
      const Point middle = drawing.marks.at("pass-" + std::to_string(k + 1));
      int on_top = 0;
      for (const Path& piece : pieces) {
        const double distance = away(middle, piece);
        if (distance < 1e-6) {
          ++on_top;
          EXPECT_EQ(falls_to_the_right(piece, middle), passes[k].ends_with("-over")) << passes[k];
        } else {
          EXPECT_GT(distance, rope_width * 0.6) << "a broken rope comes too near";
        }
      }
      EXPECT_EQ(on_top, 1) << "pass " << k + 1;
    }
    for (std::size_t a = 0; a < pieces.size(); ++a)
      for (std::size_t b = 0; b < a; ++b)
        for (std::size_t m = 1; m < pieces[a].points.size(); ++m)
          for (std::size_t n = 1; n < pieces[b].points.size(); ++n)
            ASSERT_FALSE(cross(pieces[a].points[m - 1], pieces[a].points[m],
                               pieces[b].points[n - 1], pieces[b].points[n]));
  }
}

TEST(RopePassesDrawing, NumbersTheRopesBelowTheWorkersUnlessThatIsAsked) {
  const auto bold_numbers = [](const Drawing& drawing) {
    std::string all;
    for (const Label& label : drawing.labels)
      if (label.bold && label.runs.size() == 1 && label.runs[0].text.size() == 1)
        all += label.runs[0].text;
    return all;
  };
  Request request = ropes(3, {"1-over", "2-under"});
  EXPECT_EQ(bold_numbers(*draw(request)), "123231");
  request.labels["places"] = {"", ""};
  EXPECT_EQ(bold_numbers(*draw(request)), "123");
  request.labels["places"].text = "2; 3; 1";
  request.wanted = Request::For::key;
  EXPECT_EQ(bold_numbers(*draw(request)), "123231");
}

TEST(RopePassesDrawing, RefusesWhatIsNoPass) {
  EXPECT_THROW(draw(ropes(3, {"3-over"})), std::invalid_argument);
  EXPECT_THROW(draw(ropes(9, {})), std::invalid_argument);
  EXPECT_THROW(draw(ropes(1, {})), std::invalid_argument);
}

}  // namespace
}  // namespace footroom::figure
