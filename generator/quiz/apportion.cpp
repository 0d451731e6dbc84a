#include "quiz/apportion.hpp"

#include <algorithm>
#include <cstdint>
#include <numeric>

namespace footroom::quiz {
namespace {

std::vector<int> by_largest_remainder(std::int64_t total, const std::vector<std::int64_t>& weights,
                                      std::int64_t sum) {
  std::vector<int> numbers;
  std::vector<std::int64_t> remainders;
  std::int64_t left = total;
  for (const std::int64_t weight : weights) {
    numbers.push_back(static_cast<int>(total * weight / sum));
    remainders.push_back(total * weight % sum);
    left -= numbers.back();
  }
  std::vector<std::size_t> order(weights.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return remainders[a] > remainders[b]; });
  for (std::size_t i = 0; left > 0; ++i, --left) ++numbers[order[i]];
  return numbers;
}

}  // namespace

std::vector<int> apportion(int total, const std::vector<int>& weights, int at_least) {
  std::vector<std::int64_t> free(weights.begin(), weights.end());
  std::vector<int> fixed(weights.size(), 0);
  std::int64_t rest = total;
  while (true) {
    const std::int64_t sum = std::accumulate(free.begin(), free.end(), std::int64_t{0});
    if (sum == 0) return fixed;
    bool raised = false;
    const std::int64_t divided = std::max<std::int64_t>(rest, 0);
    for (std::size_t i = 0; i < free.size(); ++i) {
      if (free[i] == 0 || divided * free[i] >= at_least * sum) continue;
      free[i] = 0;
      fixed[i] = at_least;
      rest -= at_least;
      raised = true;
    }
    if (raised) continue;
    const auto shares = by_largest_remainder(divided, free, sum);
    for (std::size_t i = 0; i < free.size(); ++i) fixed[i] += shares[i];
    return fixed;
  }
}

}  // namespace footroom::quiz
