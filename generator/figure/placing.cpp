#include "figure/placing.hpp"

#include <algorithm>

#include "figure/geometry.hpp"

namespace footroom::figure {
namespace {

constexpr double label_gap = 0.5;         // mm between labels
constexpr double cost_of_growing = 0.12;  // a mm by which the drawing gets larger
constexpr double cost_of_leader_crossing = 0.5;
// What only touches is apart, and of places that cost the same the first is taken, whatever the
// last bit of a sine or a product says.
constexpr double touching = hair;  // mm, mm², and cost

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

constexpr double doubt = 1e-6;  // mm: what is so near is looked at exactly

/// Whether both ends lie on one side of a strip, which is wider where the box is turned.
bool is_beyond(double from, double to, double reach, double half_width) {
  const double room = reach + half_width * M_SQRT2 + doubt;
  return (from > room && to > room) || (from < -room && to < -room);
}

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

MeasuredBox::MeasuredBox(const Box& box) : box_(box), back_(direction(-box.turn)) {
  const double c = std::abs(back_.x);
  const double s = std::abs(back_.y);
  reach_ = {box.half_width * c + box.half_height * s, box.half_width * s + box.half_height * c};
}

bool MeasuredBox::is_near(const MeasuredBox& other, double gap) const {
  const Point between_centres = other.box_.centre - box_.centre;
  return std::abs(between_centres.x) <= reach_.x + other.reach_.x + gap + doubt &&
         std::abs(between_centres.y) <= reach_.y + other.reach_.y + gap + doubt;
}

bool MeasuredBox::overlaps(const MeasuredBox& other, double gap) const {
  return is_near(other, gap) && overlap(box_, other.box_, gap);
}

// The segment clipped by the box in the box's own frame (Liang and Barsky 1984).
bool MeasuredBox::crosses(const Obstacle& line) const {
  const Point from = line.from - box_.centre;
  const Point to = line.to - box_.centre;
  if (is_beyond(from.x, to.x, reach_.x, line.half_width) ||
      is_beyond(from.y, to.y, reach_.y, line.half_width))
    return false;
  const double hw = box_.half_width + line.half_width - touching;
  const double hh = box_.half_height + line.half_width - touching;
  const Point a = turned_to(from, back_);
  const Point d = turned_to(line.to - line.from, back_);
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
  return clip(d.x, hw - a.x) && clip(-d.x, hw + a.x) && clip(d.y, hh - a.y) && clip(-d.y, hh + a.y);
}

void Places::add(const Obstacle& obstacle) {
  constexpr std::size_t longest = 8;
  if (stretches_.empty() || stretches_.back().obstacles.size() == longest) {
    stretches_.emplace_back();
    stretches_.back().obstacles.reserve(longest);
  }
  Stretch& stretch = stretches_.back();
  stretch.obstacles.push_back(obstacle);
  for (const Point end : {obstacle.from, obstacle.to}) {
    include(end, obstacle.half_width);
    stretch.bounds.include(end, obstacle.half_width * M_SQRT2 + doubt);
  }
}

void Places::add(const Box& taken) {
  taken_.emplace_back(taken);
  bounds_.include(taken_.back().bounds());
}

Point Places::leader_start(const Candidate& candidate) {
  const Box& box = candidate.box;
  const Point towards = *candidate.leader - box.centre;
  if (std::abs(towards.x) > box.half_width + hair)
    return box.centre + Point{std::copysign(box.half_width + 0.4, towards.x), 0};
  return box.centre + Point{0, std::copysign(box.half_height + 0.2, towards.y)};
}

double Places::cost_of(const Candidate& candidate, double dearest) const {
  double cost = candidate.cost;
  const MeasuredBox box(candidate.box);
  const Bounds box_bounds = box.bounds();
  Bounds grown = bounds_;
  grown.include(box_bounds);
  cost += cost_of_growing * (grown.width() - bounds_.width() + grown.height() - bounds_.height());
  if (cost >= dearest) return cost;
  std::optional<Obstacle> leader;
  Bounds leader_bounds;  // of nothing, where there is none
  if (candidate.leader) {
    leader = Obstacle{leader_start(candidate), *candidate.leader, 0.2, 0};
    leader_bounds.include(leader->from);
    leader_bounds.include(leader->to);
  }
  for (const MeasuredBox& other : taken_)
    if (box.overlaps(other, label_gap) || (leader && other.crosses(*leader))) return 1e18;
  for (const Stretch& stretch : stretches_) {
    if (cost >= dearest) break;
    const bool box_meets = box_bounds.meet(stretch.bounds);
    const bool leader_meets = leader_bounds.meet(stretch.bounds);
    if (!box_meets && !leader_meets) continue;
    for (const Obstacle& line : stretch.obstacles) {
      if (box_meets && box.crosses(line)) cost += line.weight;
      if (leader_meets && segments_cross(leader->from, leader->to, line.from, line.to))
        cost += cost_of_leader_crossing * line.weight;
    }
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
