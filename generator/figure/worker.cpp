#include "figure/worker.hpp"

#include <algorithm>
#include <array>

namespace footroom::figure {
namespace {

struct Limb {
  Point from;
  Point to;
  double thickness;
};
// In heights of the D-ring, y upwards, looking along x.
struct Figure {
  std::vector<Limb> limbs;
  Point head;
  double look;       // turn of the head, radians, counter-clockwise
  bool brim = true;  // seen from the side
  std::vector<std::pair<Point, Point>> straps = {};
};

const Figure& figure_of(Pose pose) {
  static const Figure standing{
      {{{0.085, -0.03}, {0.075, -0.4}, 0.17},
       {{0.095, 0}, {0.115, 0.1}, 0.07},
       {{0.065, -0.42}, {0.04, -0.7}, 0.105},
       {{0.04, -0.7}, {-0.05, -0.955}, 0.085},
       {{-0.05, -0.97}, {0.03, -0.975}, 0.05},
       {{0.085, -0.42}, {0.12, -0.69}, 0.105},
       {{0.12, -0.69}, {0.1, -0.955}, 0.085},
       {{0.1, -0.97}, {0.19, -0.975}, 0.05},
       {{0.09, -0.05}, {0.15, -0.25}, 0.075},
       {{0.15, -0.25}, {0.28, -0.33}, 0.06}},
      {0.12, 0.13},
      0,
      true,
      {{{0.01, 0.0}, {0.14, -0.3}}, {{0, -0.37}, {0.15, -0.37}}, {{0.01, -0.46}, {0.14, -0.5}}}};
  static const Figure hanging{{{{0.06, -0.07}, {0.15, -0.42}, 0.17},
                               {{0.05, -0.02}, {0.1, 0.07}, 0.07},
                               {{0.15, -0.43}, {0.3, -0.62}, 0.105},
                               {{0.3, -0.62}, {0.25, -0.88}, 0.085},
                               {{0.25, -0.9}, {0.32, -0.95}, 0.05},
                               {{0.14, -0.44}, {0.2, -0.7}, 0.105},
                               {{0.2, -0.7}, {0.1, -0.92}, 0.085},
                               {{0.1, -0.94}, {0.16, -0.99}, 0.05},
                               {{0.08, -0.08}, {0.22, -0.22}, 0.075},
                               {{0.22, -0.22}, {0.3, -0.4}, 0.06}},
                              {0.14, 0.09},
                              -0.35,
                              true,
                              {{{0.02, -0.02}, {0.19, -0.32}}, {{0.07, -0.4}, {0.22, -0.36}}}};
  static const Figure lying{{{{0.03, 0.09}, {0.4, 0.085}, 0.17},
                             {{-0.04, 0.1}, {-0.1, 0.12}, 0.07},
                             {{0.42, 0.09}, {0.66, 0.2}, 0.105},
                             {{0.66, 0.2}, {0.88, 0.06}, 0.085},
                             {{0.9, 0.05}, {0.94, 0.12}, 0.05},
                             {{0.42, 0.07}, {0.7, 0.08}, 0.105},
                             {{0.7, 0.08}, {0.94, 0.045}, 0.085},
                             {{0.96, 0.05}, {0.99, 0.12}, 0.05},
                             {{0.05, 0.1}, {0.2, 0.21}, 0.075},
                             {{0.2, 0.21}, {0.36, 0.2}, 0.06}},
                            {-0.17, 0.14},
                            1.1,
                            true,
                            {{{0, 0.02}, {0.3, 0.15}}, {{0.37, 0.01}, {0.37, 0.16}}}};
  static const Figure from_behind{{{{0, -0.05}, {0, -0.4}, 0.24},
                                   {{0, 0}, {0, 0.1}, 0.08},
                                   {{-0.06, -0.42}, {-0.08, -0.7}, 0.11},
                                   {{-0.08, -0.7}, {-0.09, -0.95}, 0.09},
                                   {{-0.09, -0.97}, {-0.13, -0.975}, 0.05},
                                   {{0.06, -0.42}, {0.08, -0.7}, 0.11},
                                   {{0.08, -0.7}, {0.09, -0.95}, 0.09},
                                   {{0.09, -0.97}, {0.13, -0.975}, 0.05},
                                   {{-0.13, -0.02}, {-0.19, -0.22}, 0.075},
                                   {{-0.19, -0.22}, {-0.17, -0.42}, 0.06},
                                   {{0.13, -0.02}, {0.19, -0.22}, 0.075},
                                   {{0.19, -0.22}, {0.17, -0.42}, 0.06}},
                                  {0, 0.13},
                                  0,
                                  false,
                                  {{{-0.09, 0.05}, {0.1, -0.36}},
                                   {{0.09, 0.05}, {-0.1, -0.36}},
                                   {{-0.11, -0.39}, {0.11, -0.39}},
                                   {{-0.11, -0.5}, {-0.02, -0.46}},
                                   {{0.11, -0.5}, {0.02, -0.46}}}};
  static const Figure hanging_from_behind{{{{0, -0.05}, {0, -0.4}, 0.24},
                                           {{0, 0}, {0, 0.1}, 0.08},
                                           {{-0.06, -0.42}, {-0.12, -0.68}, 0.11},
                                           {{-0.12, -0.68}, {-0.09, -0.92}, 0.09},
                                           {{-0.09, -0.94}, {-0.12, -0.98}, 0.05},
                                           {{0.06, -0.42}, {0.11, -0.66}, 0.11},
                                           {{0.11, -0.66}, {0.13, -0.9}, 0.09},
                                           {{0.13, -0.92}, {0.16, -0.96}, 0.05},
                                           {{-0.13, -0.03}, {-0.25, -0.16}, 0.075},
                                           {{-0.25, -0.16}, {-0.3, -0.36}, 0.06},
                                           {{0.13, -0.03}, {0.25, -0.16}, 0.075},
                                           {{0.25, -0.16}, {0.3, -0.36}, 0.06}},
                                          {0, 0.13},
                                          0,
                                          false,
                                          from_behind.straps};
  static const Figure from_above{{{{-0.17, -0.12}, {0.17, -0.12}, 0.19},
                                  {{-0.21, -0.13}, {-0.23, -0.27}, 0.08},
                                  {{-0.23, -0.27}, {-0.12, -0.38}, 0.065},
                                  {{0.21, -0.13}, {0.23, -0.27}, 0.08},
                                  {{0.23, -0.27}, {0.12, -0.38}, 0.065}},
                                 {0, -0.16},
                                 0,
                                 false,
                                 {}};
  switch (pose) {
    case Pose::standing:
      return standing;
    case Pose::hanging:
      return hanging;
    case Pose::lying:
      return lying;
    case Pose::from_behind:
      return from_behind;
    case Pose::hanging_from_behind:
      return hanging_from_behind;
    case Pose::from_above:
      return from_above;
  }
  return standing;
}

constexpr double head_radius = 0.078;
constexpr double helmet_radius = 0.1;
constexpr double smallest_with_straps = 9;  // mm
constexpr double thinnest_limb = 0.35;      // mm

/// Directions of the half circle around +x, from one side to the other.
template <int steps>
const std::array<Point, steps + 1>& half_circle() {
  static const std::array<Point, steps + 1> all = [] {
    std::array<Point, steps + 1> made;
    for (int i = 0; i <= steps; ++i)
      made[static_cast<std::size_t>(i)] = direction(-M_PI / 2 + M_PI * i / steps);
    return made;
  }();
  return all;
}

std::vector<Point> capsule(Point a, Point b, double thickness) {
  const auto& around = half_circle<5>();
  std::vector<Point> points;
  points.reserve(2 * around.size());
  const Point ahead = unit(b - a) * (thickness / 2);
  for (const Point p : around) points.push_back(b + turned_to(p, ahead));
  for (const Point p : around) points.push_back(a - turned_to(p, ahead));
  return points;
}

}  // namespace

void draw_worker(Sketch& sketch, Point d_ring, double height, const Worker& worker) {
  const Figure& figure = figure_of(worker.pose);
  const Point turn = direction(worker.turn);
  const auto place = [&](Point p) {
    const Point upright{worker.faces_left ? -p.x : p.x, -p.y};
    return d_ring + turned_to(upright, turn) * height;
  };
  std::vector<std::vector<Point>> body;
  body.reserve(figure.limbs.size());
  for (const Limb& limb : figure.limbs) {
    body.push_back(capsule(place(limb.from), place(limb.to),
                           std::max(limb.thickness * height, thinnest_limb)));
    sketch.keep_clear(place(limb.from), place(limb.to), limb.thickness * height / 2);
  }
  const Point head = place(figure.head);
  const bool above = worker.pose == Pose::from_above;
  if (worker.look == Look::solid) {
    for (auto& limb : body) sketch.area(std::move(limb), Fill::dark);
    if (!above) sketch.disc(head, head_radius * height, Pen::none, Fill::dark);
  } else {  // strokes first, then paper over them: the outline of the union remains
    for (const auto& limb : body) sketch.area(limb, Fill::none, Pen::edge);
    if (!above) sketch.disc(head, head_radius * height, Pen::edge);
    for (auto& limb : body) sketch.area(std::move(limb), Fill::paper);
    if (!above) sketch.disc(head, head_radius * height, Pen::none, Fill::paper);
  }
  if (worker.look == Look::solid && height >= smallest_with_straps - hair)
    for (const auto& [from, to] : figure.straps) sketch.line({place(from), place(to)}, Pen::strap);

  const Pen pen = Pen::edge;
  if (above) {
    // The peak of the helmet points ahead.
    std::vector<Point> peak;
    for (int i = 0; i <= 8; ++i)
      peak.push_back(place(figure.head + Point{0.085 * std::cos(M_PI + M_PI * i / 8),
                                               -0.05 + 0.1 * std::sin(M_PI + M_PI * i / 8)}));
    sketch.area(std::move(peak), Fill::paper, pen);
    sketch.disc(head, helmet_radius * height, pen, Fill::paper);
    sketch.line({place(figure.head + Point{0, 0.06}), place(figure.head + Point{0, -0.06})},
                Pen::thin);
    return;
  }
  // Helmet: half a disc, with a brim ahead where it is seen from the side.
  std::vector<Point> shell;
  const Point look = direction(figure.look);
  const auto on_head = [&](Point p) { return place(figure.head + turned_to(p, look)); };
  for (const Point p : half_circle<10>())
    shell.push_back(on_head(Point{0, 0.015} + Point{-p.y, p.x} * helmet_radius));
  sketch.area(std::move(shell), Fill::paper, pen);
  const double brim = figure.brim ? 0.165 : 0.115;
  sketch.line({on_head({-0.115, 0.015}), on_head({brim, 0.015})}, pen);
}

void draw_ring(Sketch& sketch, Point p) {
  sketch.disc(p, 0.75, Pen::edge, Fill::paper);
}

}  // namespace footroom::figure
