#include "figure/building.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <cstdint>

#include "figure/worker.hpp"

namespace footroom::figure {
namespace {

constexpr double rope_radius = 0.55;  // mm
constexpr int rope_pieces = 80;
constexpr int pieces_of_a_wave = 14;
constexpr double waving_share = 0.8;    // of a rope that lies in waves; the rest rises to the ring
constexpr double pitch_sign_side = 11;  // mm

// A rope that would hang through the surface lies on it.
Point above_surface(Point p, const Surface& surface) {
  const Point along = surface.to - surface.from;
  if (!(along.x > 0)) return p;
  return {p.x, std::min(p.y, surface.from.y + (p.x - surface.from.x) * along.y / along.x)};
}

/// A rope between two points that droops as deep as one likes.
class Droop {
 public:
  Droop(Point a, Point b, const std::optional<Surface>& surface) : surface_(surface) {
    straight_.reserve(rope_pieces + 1);
    for (int i = 0; i <= rope_pieces; ++i) {
      const double t = double(i) / rope_pieces;
      straight_.push_back({between(a, b, t), 4 * t * (1 - t)});
    }
  }

  /// Kept until the next call.
  const std::vector<Point>& points(double sag) {
    points_.clear();
    for (const Piece& piece : straight_) {
      Point p = piece.at + Point{0, piece.share * sag};
      const bool inner = &piece != &straight_.front() && &piece != &straight_.back();
      if (surface_ && inner) p = above_surface(p, *surface_);
      points_.push_back(p);
    }
    return points_;
  }

 private:
  struct Piece {
    Point at;
    double share;
  };
  const std::optional<Surface>& surface_;
  std::vector<Piece> straight_;
  std::vector<Point> points_;
};

/// Humps across a line, none at its ends, as high as one likes.
class Waves {
 public:
  Waves(const std::vector<Point>& base, int waves) {
    const std::size_t n = static_cast<std::size_t>(std::max(rope_pieces, waves * pieces_of_a_wave));
    flat_.reserve(n + 1);
    const double whole = path_length(base);
    std::size_t piece = 1;
    double before = 0;
    for (std::size_t i = 0; i <= n; ++i) {
      const double s = whole * double(i) / double(n);
      while (piece + 1 < base.size() && before + distance(base[piece - 1], base[piece]) < s - hair)
        before += distance(base[piece - 1], base[piece]), ++piece;
      const double span = distance(base[piece - 1], base[piece]);
      const Point p = between(base[piece - 1], base[piece],
                              span > 0 ? std::min(1.0, (s - before) / span) : 0.0);
      Point normal = left_of(base[piece - 1], base[piece]);
      if (normal.y > 0) normal = normal * -1.0;
      const double share = std::min(1.0, double(i) / double(n) / waving_share);
      const double phase = 2 * M_PI * waves * share;
      flat_.push_back({p, normal, 1 - std::cos(phase)});
    }
  }

  /// Kept until the next call.
  const std::vector<Point>& points(double height) {
    points_.clear();
    for (const Piece& piece : flat_)
      points_.push_back(piece.at + piece.normal * (height * piece.lift / 2));
    return points_;
  }

 private:
  struct Piece {
    Point at;
    Point normal;
    double lift;
  };
  std::vector<Piece> flat_;
  std::vector<Point> points_;
};

// The x at which a growing function reaches `wanted`, which it does at `high`.
template <class Function>
double reach(double wanted, double high, const Function& value) {
  constexpr double near_enough = 1e-9;  // mm
  if (value(0) >= wanted) return 0;
  std::uintmax_t most_steps = 60;
  const auto [below, above] = boost::math::tools::toms748_solve(
      [&](double x) { return value(x) - wanted; }, 0.0, high,
      [](double low, double up) { return up - low < near_enough; }, most_steps);
  return (below + above) / 2;
}

}  // namespace

Point RoofSection::on_slope(const Sketch& sketch, double from_ridge) const {
  return sketch.at(from_ridge * std::cos(pitch), -from_ridge * std::sin(pitch));
}

double path_length(const std::vector<Point>& points) {
  double sum = 0;
  for (std::size_t i = 1; i < points.size(); ++i) sum += distance(points[i - 1], points[i]);
  return sum;
}

std::vector<Point> loose_rope(Point a, Point b, double slack,
                              const std::optional<Surface>& bare_surface) {
  std::optional<Surface> surface = bare_surface;
  if (surface) {  // what is drawn is the middle of the rope
    const Point lift = left_of(surface->from, surface->to) * rope_radius;
    surface = Surface{surface->from + lift, surface->to + lift};
    a = above_surface(a + Point{lift.x, 0}, *surface);
  }
  if (slack < 0.05 - hair) return {a, b};
  const double rope_length = distance(a, b) + slack;
  const double deepest = rope_length;  // a droop this deep is longer than the rope by itself
  Droop droop(a, b, surface);
  const auto droop_length = [&](double sag) { return path_length(droop.points(sag)); };
  if (droop_length(deepest) >= rope_length)
    return droop.points(reach(rope_length, deepest, droop_length));
  const auto base = droop.points(deepest);
  const int count = std::clamp(static_cast<int>(std::lround(path_length(base) / 7 + hair)), 2, 12);
  Waves waves(base, count);
  const auto wave_length = [&](double height) { return path_length(waves.points(height)); };
  return waves.points(reach(rope_length, rope_length, wave_length));
}

void draw_break(Sketch& sketch, Point a, Point b) {
  const Point d = unit(b - a);
  const Point n = left_of(a, b);
  const double whole = distance(a, b);
  const bool is_short = whole < 4 - hair;
  const double high = is_short ? 0.7 : 1.1;
  const double beyond = is_short ? 0.6 : 1.2;
  std::vector<Point> points{a - d * beyond};
  points.push_back(a + d * (whole / 2 - 0.6));
  points.push_back(a + d * (whole / 2 - 0.3) + n * high);
  points.push_back(a + d * (whole / 2 + 0.3) - n * high);
  points.push_back(a + d * (whole / 2 + 0.6));
  points.push_back(b + d * beyond);
  sketch.line(std::move(points), Pen::thin);
}

void draw_ground(Sketch& sketch, double from_x, double to_x, double y) {
  constexpr double depth = 2.4;
  sketch.area({{from_x, y}, {to_x, y}, {to_x, y + depth}, {from_x, y + depth}}, Fill::earth);
  sketch.line({{from_x, y}, {to_x, y}}, Pen::outline);
  sketch.keep_clear({from_x, y + depth / 2}, {to_x, y + depth / 2}, depth / 2);
}

void draw_roof_section(Sketch& sketch, const RoofSection& roof, double wall_mm) {
  const Point ridge = sketch.at(0, 0);
  const Point eave = roof.eave(sketch);
  const Point down = unit(direction(roof.pitch));
  const double run = eave.x - ridge.x;

  // Wall under the eave, with an overhang.
  const double thick = std::clamp(sketch.mm(0.15), 0.9, 2.2);
  const double deep = std::max(sketch.mm(0.15), 1.3);
  const double plumb = std::min(deep / std::cos(roof.pitch), 3 * deep);
  const double outer = std::max(eave.x - std::min(sketch.mm(0.4), 5.0), ridge.x + run * 0.6);
  const double inner = std::max(outer - thick, ridge.x + run * 0.4);
  const auto under = [&](double x) {
    return ridge.y + (x - ridge.x) * std::tan(roof.pitch) + plumb;
  };
  const double foot = roof.to_ground ? eave.y + sketch.mm(*roof.to_ground)
                                     : std::max(eave.y, under(outer)) + wall_mm;
  if (foot > under(outer) + hair) {
    sketch.area({{inner, under(inner)}, {outer, under(outer)}, {outer, foot}, {inner, foot}},
                Fill::light);
    sketch.line({{inner, under(inner)}, {inner, foot}}, Pen::edge);
    sketch.line({{outer, under(outer)}, {outer, foot}}, Pen::edge);
    if (!roof.to_ground) draw_break(sketch, {inner, foot}, {outer, foot});
  }

  // The other side of the roof, broken off.
  const double stub = std::min({sketch.mm(1.2), sketch.mm(roof.slope) * 0.4, 9.0});
  const Point far = ridge + Point{-down.x, down.y} * stub;
  const Point below{0, plumb};
  sketch.area({ridge, far, far + below, ridge + below}, Fill::paper, Pen::edge);
  sketch.line({far, ridge}, Pen::outline);
  draw_break(sketch, far, far + below);

  // Rafter, with grain, and the surface on it.
  sketch.area({ridge, eave, eave + below, ridge + below}, Fill::paper, Pen::edge);
  for (const double share : {0.35, 0.68}) {
    const Point grain{0, plumb * share};
    sketch.line({between(ridge, eave, 0.03 * share) + grain,
                 between(ridge, eave, 0.97 + 0.03 * share) + grain},
                Pen::thin);
  }
  sketch.line({ridge, eave}, Pen::outline);
}

void draw_ridge_anchor(Sketch& sketch, Point p, double pitch) {
  const double arm = std::clamp(sketch.mm(0.25), 1.8, 4.0);
  const Point right = direction(pitch) * arm;
  const Point left{-right.x, right.y};
  const Point up{0, -0.5};
  const Point top = up * 2.4;
  sketch.area({p + left + up, p + up, p + right + up, p + right + top, p + top, p + left + top},
              Fill::dark, Pen::none);
  draw_ring(sketch, p + Point{0, -0.6});
}

void draw_pitch_sign(Sketch& sketch, Point beside, double pitch, std::string_view id) {
  if (!sketch.labels(id)) return;
  const Point along = direction(pitch);
  const Point corner = beside + along * (pitch_sign_side / 2);
  const Point top = corner - along * pitch_sign_side;
  const Point level{top.x, corner.y};
  sketch.line({corner, level, top}, Pen::thin);
  sketch.line({corner, top}, Pen::edge);
  sketch.angle(corner, pitch_sign_side * 0.62, M_PI - pitch, M_PI, id);
}

}  // namespace footroom::figure
