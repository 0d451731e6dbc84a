#pragma once
// Where labels go: boxes of text among lines, none upon another.

#include <optional>
#include <vector>

#include "figure/drawing.hpp"

namespace footroom::figure {

/// A rectangle about its centre, turned clockwise by radians.
struct Box {
  Point centre;
  double half_width = 0;
  double half_height = 0;
  double turn = 0;
};
bool overlap(const Box& a, const Box& b, double gap = 0);

/// Upright bounds of everything drawn.
struct Bounds {
  Point low{1e300, 1e300};
  Point high{-1e300, -1e300};

  void include(Point p, double around = 0);
  void include(const Box& box);
  double width() const { return high.x - low.x; }
  double height() const { return high.y - low.y; }
};

/// A line that a label had better not cross.
struct Obstacle {
  Point from;
  Point to;
  double half_width = 0;
  double weight = 1;
};

struct Candidate {
  Box box;
  double cost = 0;              ///< how far from the best place
  std::optional<Point> leader;  ///< a line from here to the box shows what it names
};

/// Keeps what is placed and finds the cheapest free place for what comes next.
class Places {
 public:
  void add(const Obstacle& obstacle);
  void add(const Box& taken);
  void include(Point p, double around) { bounds_.include(p, around); }
  const Bounds& bounds() const { return bounds_; }

  /// The cheapest candidate that overlaps no taken box, if there is one at most this dear.
  const Candidate* cheapest(const std::vector<Candidate>& candidates, double dearest = 1e9) const;
  /// Where a leader starts on the box of `candidate`.
  static Point leader_start(const Candidate& candidate);

 private:
  double cost_of(const Candidate& candidate, double dearest) const;

  std::vector<Obstacle> obstacles_;
  std::vector<Box> taken_;
  Bounds bounds_;
};

}  // namespace footroom::figure
