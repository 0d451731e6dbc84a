#include "figure/placing.hpp"

#include <algorithm>
#include <array>

#include "figure/geometry.hpp"

namespace footroom::figure {
namespace {

constexpr double label_gap = 0.5;         // mm between labels
constexpr double cost_of_growing = 0.12;  // a mm by which the drawing gets larger
constexpr double cost_of_leader_crossing = 0.5;
// What only touches is apart, and of places that cost the same the first is taken, whatever the
// last bit of a sine or a product says.
constexpr double touching = 1e-6;  // mm, mm², and cost

std::array<Point, 4> corners(const Box& box) {
  const Point along = direction(box.turn) * box.half_width;
  const Point across = turned({0, box.half_height}, box.turn);
  return {box.centre + along + across, box.centre + along - across, box.centre - along - across,
          box.centre - along + across};
}

// Separating axis of two turned rectangles, tried along the axes of `a`.
bool apart_along(const Box& a, const Box& b, double gap) {
  const Point between_centres = turned(b.centre - a.centre, -a.turn);
  const double c = std::abs(std::cos(b.turn - a.turn));
  const double s = std::abs(std::sin(b.turn - a.turn));
  const Point beyond{
      std::abs(between_centres.x) - (a.half_width + b.half_width * c + b.half_height * s),
      std::abs(between_centres.y) - (a.half_height + b.half_width * s + b.half_height * c)};
  return beyond.x >= gap - touching || beyond.y >= gap - touching;
}

/// A box with what is worked out once for many questions about it.
class MeasuredBox {
 public:
  explicit MeasuredBox(const Box& box) : box_(box), back_(direction(-box.turn)) {
    const double c = std::abs(back_.x);
    const double s = std::abs(back_.y);
    reach_ = {box.half_width * c + box.half_height * s, box.half_width * s + box.half_height * c};
  }

  bool is_near(const MeasuredBox& other, double gap) const {
    const Point between_centres = other.box_.centre - box_.centre;
    return std::abs(between_centres.x) <= reach_.x + other.reach_.x + gap + doubt &&
           std::abs(between_centres.y) <= reach_.y + other.reach_.y + gap + doubt;
  }

  // The segment clipped by the box in the box's own frame (Liang and Barsky 1984).
  bool crosses(const Obstacle& line) const {
    const Point from = line.from - box_.centre;
    const Point to = line.to - box_.centre;
    if (is_beyond(from.x, to.x, reach_.x, line.half_width) ||
        is_beyond(from.y, to.y, reach_.y, line.half_width))
      return false;
    const double hw = box_.half_width + line.half_width - touching;
    const double hh = box_.half_height + line.half_width - touching;
    const Point a = turned_back(from);
    const Point d = turned_back(line.to - line.from);
    double enter = 0;
    double leave = 1;
    const auto clip = [&](double along, double room) {
      if (along == 0) return room >= 0;
      const double t = room / along;
      if (along > 0)
        leave = std::min(leave, t);
      else
        enter = std::max(enter, t);
      return enter <= leave;
    };
    return clip(d.x, hw - a.x) && clip(-d.x, hw + a.x) && clip(d.y, hh - a.y) &&
           clip(-d.y, hh + a.y);
  }

 private:
  static constexpr double doubt = 1e-6;  // mm: what is so near is looked at exactly

  /// Whether both ends lie on one side of a strip, which is wider where the box is turned.
  static bool is_beyond(double from, double to, double reach, double half_width) {
    const double room = reach + half_width * M_SQRT2 + doubt;
    return (from > room && to > room) || (from < -room && to < -room);
  }

  Point turned_back(Point p) const {
    return {p.x * back_.x - p.y * back_.y, p.x * back_.y + p.y * back_.x};
  }

  Box box_;
  Point back_;
  Point reach_;  ///< half of its upright bounds
};

bool segments_cross(Point a, Point b, Point c, Point d) {
  const auto side = [](Point p, Point q, Point r) {
    return (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  };
  const auto apart = [&](double one, double other) {
    return std::min(one, other) < -touching && std::max(one, other) > touching;
  };
  return apart(side(a, b, c), side(a, b, d)) && apart(side(c, d, a), side(c, d, b));
}

}  // namespace

bool overlap(const Box& a, const Box& b, double gap) {
  return !apart_along(a, b, gap) && !apart_along(b, a, gap);
}

void Bounds::include(Point p, double around) {
  low = {std::min(low.x, p.x - around), std::min(low.y, p.y - around)};
  high = {std::max(high.x, p.x + around), std::max(high.y, p.y + around)};
}

void Bounds::include(const Box& box) {
  for (const Point corner : corners(box)) include(corner);
}

void Places::add(const Obstacle& obstacle) {
  obstacles_.push_back(obstacle);
  include(obstacle.from, obstacle.half_width);
  include(obstacle.to, obstacle.half_width);
}

void Places::add(const Box& taken) {
  taken_.push_back(taken);
  bounds_.include(taken);
}

Point Places::leader_start(const Candidate& candidate) {
  const Box& box = candidate.box;
  const Point towards = *candidate.leader - box.centre;
  if (std::abs(towards.x) > box.half_width)
    return box.centre + Point{std::copysign(box.half_width + 0.4, towards.x), 0};
  return box.centre + Point{0, std::copysign(box.half_height + 0.2, towards.y)};
}

double Places::cost_of(const Candidate& candidate, double dearest) const {
  double cost = candidate.cost;
  Bounds grown = bounds_;
  grown.include(candidate.box);
  cost += cost_of_growing * (grown.width() - bounds_.width() + grown.height() - bounds_.height());
  if (cost >= dearest) return cost;
  const MeasuredBox box(candidate.box);
  std::optional<Obstacle> leader;
  if (candidate.leader) leader = Obstacle{leader_start(candidate), *candidate.leader, 0.2, 0};
  for (const Box& taken : taken_) {
    const MeasuredBox other(taken);
    if (box.is_near(other, label_gap) && overlap(candidate.box, taken, label_gap)) return 1e18;
    if (leader && other.crosses(*leader)) return 1e18;
  }
  for (const Obstacle& line : obstacles_) {
    if (cost >= dearest) break;
    if (box.crosses(line)) cost += line.weight;
    if (leader && segments_cross(leader->from, leader->to, line.from, line.to))
      cost += cost_of_leader_crossing * line.weight;
  }
  return cost;
}

const Candidate* Places::cheapest(const std::vector<Candidate>& candidates, double dearest) const {
  const Candidate* best = nullptr;
  for (const Candidate& candidate : candidates) {
    if (candidate.cost >= dearest) continue;
    const double cost = cost_of(candidate, dearest);
    if (cost < dearest - touching) {
      dearest = cost;
      best = &candidate;
    }
  }
  return best;
}

}  // namespace footroom::figure
