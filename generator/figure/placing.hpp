#pragma once
// Where labels go: boxes of text among lines, none upon another.

#include <algorithm>
#include <optional>
#include <vector>

#include "figure/geometry.hpp"

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

  void include(Point p, double around = 0) {
    low = {std::min(low.x, p.x - around), std::min(low.y, p.y - around)};
    high = {std::max(high.x, p.x + around), std::max(high.y, p.y + around)};
  }
  void include(const Bounds& other) {
    include(other.low);
    include(other.high);
  }
  bool meet(const Bounds& other) const {
    return low.x <= other.high.x && other.low.x <= high.x && low.y <= other.high.y &&
           other.low.y <= high.y;
  }
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

/// A box with what is worked out once for many questions about it.
class MeasuredBox {
 public:
  explicit MeasuredBox(const Box& box);

  Bounds bounds() const { return {box_.centre - reach_, box_.centre + reach_}; }
  bool overlaps(const MeasuredBox& other, double gap) const;
  bool crosses(const Obstacle& line) const;

 private:
  bool is_near(const MeasuredBox& other, double gap) const;

  Box box_;
  Point back_;   ///< turns into its own frame
  Point reach_;  ///< half of its upright bounds
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

  /// Obstacles that were added one after the other, most often pieces of one line.
  struct Stretch {
    std::vector<Obstacle> obstacles;
    Bounds bounds;  ///< with room for doubt
  };

  std::vector<Stretch> stretches_;
  std::vector<MeasuredBox> taken_;
  Bounds bounds_;
};

}  // namespace footroom::figure
