#include "draw/stream.hpp"

#include <Random123/philox.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>
#include <utility>

namespace footroom::draw {
namespace {

/// The decimals of a step as people write it: 0.25 has two.
int decimals(double number) {
  double scaled = std::abs(number);
  for (int places = 0; places < 9; ++places, scaled *= 10)
    if (std::abs(scaled - std::round(scaled)) < 1e-9 * std::fmax(1.0, scaled)) return places;
  return 9;
}

constexpr double powers_of_ten[] = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9};

}  // namespace

std::uint32_t Stream::next() {
  if (used_ == 4) {
    const r123::Philox4x32::ctr_type counter = {
        {key_.sheet, key_.position, key_.attempt, block_++}};
    const r123::Philox4x32::key_type seed = {
        {static_cast<std::uint32_t>(key_.seed), static_cast<std::uint32_t>(key_.seed >> 32)}};
    const auto words = r123::Philox4x32()(counter, seed);
    for (std::size_t i = 0; i < words_.size(); ++i) words_[i] = words[i];
    used_ = 0;
  }
  return words_[static_cast<std::size_t>(used_++)];
}

std::uint32_t Stream::below(std::uint32_t count) {
  if (count == 0) throw std::invalid_argument("a draw from nothing");
  // Multiply and shift, with the few words thrown away that would favour low numbers
  // (D. Lemire, "Fast random integer generation in an interval", ACM TOMACS 29 (2019)).
  const std::uint32_t surplus = (0u - count) % count;
  for (;;) {
    const std::uint64_t product = std::uint64_t{next()} * count;
    if (static_cast<std::uint32_t>(product) >= surplus)
      return static_cast<std::uint32_t>(product >> 32);
  }
}

std::vector<std::uint32_t> Stream::order(std::uint32_t count) {
  std::vector<std::uint32_t> all(count);
  std::iota(all.begin(), all.end(), 0u);
  for (std::uint32_t i = count; i > 1; --i) std::swap(all[i - 1], all[below(i)]);
  return all;
}

std::uint32_t grid_points(double from, double to, double step) {
  const double steps = std::floor((to - from) / step + 1e-9);
  if (!(step > 0) || !(steps >= 0) || !(steps < std::numeric_limits<std::uint32_t>::max()))
    throw std::invalid_argument("no grid: expected a step above 0 and an end not below the start");
  return static_cast<std::uint32_t>(steps) + 1;
}

double grid_point(double from, double step, std::uint32_t i) {
  const int places = std::max(decimals(from), decimals(step));
  const double scale = powers_of_ten[places];
  return std::round((from + step * i) * scale) / scale;
}

}  // namespace footroom::draw
