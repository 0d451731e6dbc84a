#include "grade/test_theory.hpp"

// Notation
//   n    persons                         k    items
//   X    a person's total                s²   variance
//   p, q shares of right and wrong answers to an item of 0 and 1

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

namespace footroom::grade {
namespace {

double sum(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0);
}

bool all_alike(const std::vector<double>& values) {
  return std::adjacent_find(values.begin(), values.end(), std::not_equal_to<>()) == values.end();
}

/// Sum of squares about the mean; exactly 0 where all are alike.
double squares(const std::vector<double>& values) {
  return centred_sums(values, values).xx;
}

/// Weights that take `size` persons from the top of `totals`.
std::vector<double> top(const std::vector<double>& totals, std::size_t size) {
  std::vector<double> ordered = totals;
  std::sort(ordered.begin(), ordered.end(), std::greater<>());
  const double cut = ordered[size - 1];
  const auto above = static_cast<double>(
      std::count_if(totals.begin(), totals.end(), [&](double total) { return total > cut; }));
  const auto tied = static_cast<double>(std::count(totals.begin(), totals.end(), cut));
  std::vector<double> weights;
  for (const double total : totals)
    weights.push_back(total > cut ? 1 : total == cut ? (double(size) - above) / tied : 0);
  return weights;
}

}  // namespace

std::vector<double> totals(const Scores& scores) {
  std::vector<double> all;
  for (const auto& person : scores) all.push_back(sum(person));
  return all;
}

std::vector<double> column(const Scores& scores, std::size_t item) {
  std::vector<double> all;
  for (const auto& person : scores) all.push_back(person.at(item));
  return all;
}

std::optional<double> mean(const std::vector<double>& values) {
  if (values.empty()) return std::nullopt;
  return sum(values) / double(values.size());
}

std::optional<double> standard_deviation(const std::vector<double>& values) {
  if (values.size() < 2) return std::nullopt;
  return std::sqrt(squares(values) / double(values.size() - 1));
}

std::optional<double> cronbach_alpha(const Scores& scores) {
  if (scores.size() < 2 || scores.front().size() < 2) return std::nullopt;
  const double of_totals = squares(totals(scores));
  if (!(of_totals > 0)) return std::nullopt;
  const std::size_t k = scores.front().size();
  double of_items = 0;
  for (std::size_t item = 0; item < k; ++item) of_items += squares(column(scores, item));
  // Cronbach 1951: n or n - 1 cancels.
  return double(k) / double(k - 1) * (1 - of_items / of_totals);
}

std::optional<double> kuder_richardson_20(const Scores& scores, double full) {
  if (scores.size() < 2 || scores.front().size() < 2 || !(full > 0)) return std::nullopt;
  const auto n = double(scores.size());
  const std::size_t k = scores.front().size();
  double pq = 0;
  for (std::size_t item = 0; item < k; ++item) {
    double right = 0;
    for (const auto& person : scores) {
      if (person.at(item) != 0 && person.at(item) != full) return std::nullopt;
      if (person.at(item) == full) ++right;
    }
    pq += right / n * (1 - right / n);
  }
  const double variance = squares(totals(scores)) / (full * full) / n;
  if (!(variance > 0)) return std::nullopt;
  return double(k) / double(k - 1) * (1 - pq / variance);  // Kuder and Richardson 1937, formula 20
}

double standard_error_of_measurement(double standard_deviation, double reliability) {
  return standard_deviation * std::sqrt(std::max(0.0, 1 - reliability));
}

CentredSums& CentredSums::operator+=(const CentredSums& other) {
  xx += other.xx;
  yy += other.yy;
  xy += other.xy;
  return *this;
}

std::optional<double> CentredSums::correlation() const {
  if (!(xx > 0 && yy > 0)) return std::nullopt;
  return std::clamp(xy / (std::sqrt(xx) * std::sqrt(yy)), -1.0, 1.0);
}

CentredSums centred_sums(const std::vector<double>& x, const std::vector<double>& y) {
  CentredSums sums;
  if (x.empty()) return sums;
  // A mean that is rounded would make a constant vary.
  const double mean_x = all_alike(x) ? x.front() : *mean(x);
  const double mean_y = all_alike(y) ? y.front() : *mean(y);
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double dx = x[i] - mean_x;
    const double dy = y.at(i) - mean_y;
    sums.xx += dx * dx;
    sums.yy += dy * dy;
    sums.xy += dx * dy;
  }
  return sums;
}

std::vector<double> rest_totals(const Scores& scores, std::size_t item) {
  std::vector<double> rest = totals(scores);
  for (std::size_t person = 0; person < scores.size(); ++person)
    rest[person] -= scores[person].at(item);
  return rest;
}

std::optional<ExtremeGroups> extreme_groups(const std::vector<double>& totals) {
  const std::size_t n = totals.size();
  if (n < 2 || all_alike(totals)) return std::nullopt;
  ExtremeGroups groups;
  groups.size = n < enough_for_27_percent ? n / 2 : (27 * n + 50) / 100;
  groups.upper = top(totals, groups.size);
  std::vector<double> turned;
  for (const double total : totals) turned.push_back(-total);
  groups.lower = top(turned, groups.size);
  return groups;
}

}  // namespace footroom::grade
