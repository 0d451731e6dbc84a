#pragma once
// Seeded draws. Counter-based, so that any sheet can be made alone, in any order, on any machine.

#include <array>
#include <cstdint>
#include <vector>

namespace footroom::draw {

/// What a stream of draws is keyed by. Equal keys give equal draws; nothing else enters.
struct Key {
  std::uint64_t seed = 0;
  std::uint32_t sheet = 0;
  std::uint32_t position = 0;
  std::uint32_t attempt = 0;
};

/// Philox4x32-10 (Salmon, Moraes, Dror, Shaw, "Parallel random numbers: as easy as 1, 2, 3",
/// SC11), from the Random123 library. The key is the seed; the counter holds sheet, position,
/// attempt and the running block.
class Stream {
 public:
  explicit Stream(Key key) : key_(key) {}

  std::uint32_t next();
  /// An unbiased number in [0, count). Throws std::invalid_argument where count is 0.
  std::uint32_t below(std::uint32_t count);
  /// A random order of 0 ... count-1 (Fisher-Yates).
  std::vector<std::uint32_t> order(std::uint32_t count);

 private:
  Key key_;
  std::uint32_t block_ = 0;
  int used_ = 4;
  std::array<std::uint32_t, 4> words_{};
};

/// The number of points of a grid from `from` to `to` in steps of `step`, both ends included (the
/// last only where a step falls on it). Throws std::invalid_argument where step is not above 0 or
/// `to` lies below `from`.
std::uint32_t grid_points(double from, double to, double step);
/// The i-th point, rounded to the decimals of from and step, so that it equals its printed text.
double grid_point(double from, double step, std::uint32_t i);

}  // namespace footroom::draw
