#pragma once
// Classical test theory: how well the scores of a class hang together. Pure functions of a table of
// scores. What is not defined (one person, one item, everybody alike) is empty, never NaN.

#include <cstddef>
#include <optional>
#include <vector>

namespace footroom::grade {

/// A row a person, a column an item; all rows are as long, all scores finite. Sums of whole numbers
/// (hundredths of a point) are exact, so that "everybody alike" is seen exactly.
using Scores = std::vector<std::vector<double>>;

/// Each person's sum.
std::vector<double> totals(const Scores& scores);
std::vector<double> column(const Scores& scores, std::size_t item);

/// Empty where nothing was given.
std::optional<double> mean(const std::vector<double>& values);
/// With n - 1 in the denominator. Empty for fewer than two values.
std::optional<double> standard_deviation(const std::vector<double>& values);

/// Cronbach's alpha, k/(k-1) (1 - sum of the items' variances / variance of the totals). Source:
/// Cronbach 1951, Psychometrika 16, 297-334 (from memory). At most 1; may be negative. Empty for
/// fewer than two persons or items, and where all totals are alike. An item that everybody answers
/// alike counts among the k. Checked against R's psych.
std::optional<double> cronbach_alpha(const Scores& scores);

/// Kuder-Richardson formula 20, k/(k-1) (1 - sum of p q / variance of the totals), variance with n
/// in the denominator. Source: Kuder and Richardson 1937, Psychometrika 2, 151-160 (from memory).
/// For scores of 0 and `full`, where it equals alpha; empty where a score is another and where
/// alpha is.
std::optional<double> kuder_richardson_20(const Scores& scores, double full);

/// Standard error of measurement: SD sqrt(1 - reliability), in the unit of the SD. Common practice.
double standard_error_of_measurement(double standard_deviation, double reliability);

/// Sums of squares and products about the means: they add up over classes.
struct CentredSums {
  double xx = 0;
  double yy = 0;
  double xy = 0;

  CentredSums& operator+=(const CentredSums& other);
  /// Pearson's r of what was summed. Empty where x or y did not vary.
  std::optional<double> correlation() const;
};
/// Both as long.
CentredSums centred_sums(const std::vector<double>& x, const std::vector<double>& y);

/// Each person's total without this item: what a corrected correlation compares the item with.
std::vector<double> rest_totals(const Scores& scores, std::size_t item);

/// How far each person belongs to the best and to the weakest of a class, 0 to 1; each group's
/// weights add up to `size`.
struct ExtremeGroups {
  std::size_t size = 0;
  std::vector<double> upper;
  std::vector<double> lower;
};

/// From this many persons on the groups are 27 percent each, below it halves, where the one in the
/// middle of an odd number is in neither.
inline constexpr std::size_t enough_for_27_percent = 30;

/// The groups by total. 27 percent: Kelley 1939, J. Educ. Psychol. 30, 17-24 (from memory). Those
/// who tie at the cut share the places left in equal parts, which is what drawing lots gives on
/// average; the order of the persons does not matter. Empty for fewer than two persons, and where
/// all totals are alike.
std::optional<ExtremeGroups> extreme_groups(const std::vector<double>& totals);

}  // namespace footroom::grade
