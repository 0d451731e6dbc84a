#pragma once
// A drawing on paper: millimetres, y downwards. Everything is placed; a renderer only writes it
// out.

#include <map>
#include <string>
#include <variant>
#include <vector>

namespace footroom::figure {

struct Point {
  double x = 0;
  double y = 0;
};

/// Line weights and kinds. Each is told from the others without colour.
enum class Pen {
  none,
  outline,      ///< heaviest: what carries, what a worker stands on
  edge,         ///< visible edges
  thin,         ///< grain, leaders, small parts
  rope,         ///< a laid rope
  rope_before,  ///< where the rope ran before the fall
  dimension,
  extension,
  hidden,  ///< dashed: reference lines, what is behind
  limit,   ///< dash-dot: levels and limits
  motion,  ///< the path of a movement
  strap,   ///< light on a dark body
};
/// Fills and hatches.
enum class Fill { none, paper, light, dark, earth, timber, danger };

struct Path {
  std::vector<Point> points;
  bool closed = false;
  Pen pen = Pen::outline;
  Fill fill = Fill::none;
};

struct Circle {
  Point centre;
  double radius = 0;
  Pen pen = Pen::outline;
  Fill fill = Fill::none;
};

using Shape = std::variant<Path, Circle>;

/// A piece of a label, set in one way.
struct Run {
  std::string text;  ///< plain text, not escaped
  bool italic = false;
  bool lowered = false;  ///< an index
};

enum class Align { middle, start };

struct Label {
  Point at;  ///< on the baseline
  std::vector<Run> runs;
  double size = 3;  ///< mm
  bool bold = false;
  Align align = Align::middle;
  double turn = 0;  ///< degrees, clockwise, about `at`
};

struct Drawing {
  double width = 0;
  double height = 0;
  std::vector<Shape> shapes;  ///< in the order of painting
  std::vector<Label> labels;  ///< above all shapes
  std::string title;          ///< for a screen reader
  std::string description;    ///< the givens in words; on a sheet it gives nothing away
  double scale = 0;           ///< mm on paper for a metre
  std::map<std::string, Point, std::less<>> marks;  ///< named points of the scene: "anchor", "eave"
};

}  // namespace footroom::figure
