#pragma once
// Plane vectors on paper.

#include <cmath>

#include "figure/drawing.hpp"

namespace footroom::figure {

/// A scene decides a hair beyond a limit. Its lengths are short decimals that often stand exactly
/// at one, so that otherwise a last bit, which processors round differently, would make another
/// drawing.
constexpr double hair = 1e-6;

inline Point operator+(Point a, Point b) {
  return {a.x + b.x, a.y + b.y};
}
inline Point operator-(Point a, Point b) {
  return {a.x - b.x, a.y - b.y};
}
inline Point operator*(Point a, double k) {
  return {a.x * k, a.y * k};
}

inline double dot(Point a, Point b) {
  return a.x * b.x + a.y * b.y;
}
inline double length(Point a) {
  return std::sqrt(a.x * a.x + a.y * a.y);  // on paper nothing is so large that this overflows
}
inline double distance(Point a, Point b) {
  return length(b - a);
}
inline Point between(Point a, Point b, double t) {
  return a + (b - a) * t;
}
inline Point direction(double angle) {
  if (angle == 0) return {1, 0};  // most texts are level
  return {std::cos(angle), std::sin(angle)};
}
/// Turned clockwise on paper, as far as the x direction is from `d`, which has length 1.
inline Point turned_to(Point a, Point d) {
  return {a.x * d.x - a.y * d.y, a.x * d.y + a.y * d.x};
}
inline Point turned(Point a, double angle) {
  return turned_to(a, direction(angle));
}
/// Of length 1; a point without direction gives the x direction.
inline Point unit(Point a) {
  const double l = length(a);
  return l > 0 ? a * (1 / l) : Point{1, 0};
}
/// A quarter turn to the left as one looks from `a` to `b` on paper.
inline Point left_of(Point a, Point b) {
  const Point d = unit(b - a);
  return {d.y, -d.x};
}

}  // namespace footroom::figure
