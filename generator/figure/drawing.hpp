#pragma once
// A drawing on paper: millimetres, y downwards. Everything is placed; a renderer only writes it
// out.

#include <string>
#include <vector>

namespace footroom::figure {

struct Point {
  double x = 0;
  double y = 0;
};

/// Line weights and kinds. Each is told from the others without colour.
enum class Pen { outline, thin, rope, rope_before, dimension, extension, hidden, limit, body };
/// Fills and hatches.
enum class Fill { none, paper, light, dark, earth, timber, danger };

struct Path {
  std::vector<Point> points;
  bool closed = false;
  Pen pen = Pen::outline;
  Fill fill = Fill::none;
  bool arrow_start = false;
  bool arrow_end = false;
};

struct Circle {
  Point centre;
  double radius = 0;
  Pen pen = Pen::outline;
  Fill fill = Fill::none;
};

/// Counter-clockwise on paper from `start` to `end`, in radians from the x axis, y downwards.
struct Arc {
  Point centre;
  double radius = 0;
  double start = 0;
  double end = 0;
  Pen pen = Pen::dimension;
  bool arrow_start = false;
  bool arrow_end = false;
};

enum class Align { start, middle, end };

struct Label {
  Point at;          ///< of the baseline
  std::string text;  ///< plain text, not escaped
  Align align = Align::middle;
  double size = 3.2;  ///< mm
  bool bold = false;
  bool italic = false;
  double turn = 0;  ///< degrees, clockwise
};

struct Drawing {
  double width = 0;
  double height = 0;
  std::vector<Path> paths;
  std::vector<Circle> circles;
  std::vector<Arc> arcs;
  std::vector<Label> labels;
  std::string title;        ///< for a screen reader
  std::string description;  ///< the givens in words; on a sheet it gives nothing away
};

}  // namespace footroom::figure
