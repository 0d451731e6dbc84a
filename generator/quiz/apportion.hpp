#pragma once
#include <vector>

namespace footroom::quiz {

/// Whole numbers that sum to `total`, as near to the weights as the largest-remainder method comes
/// (Hamilton's method with the Hare quota): each gets the whole part of total * weight / sum, and
/// what is left goes one by one to the largest remainders, of equal ones to the first. Weight 0
/// gets nothing. With `at_least`, whoever would have less gets that much and the rest is divided
/// among the others. Weights and total are 0 or more. All are 0 where the weights sum to 0; where
/// total is less than `at_least` for each, the numbers sum to more than total.
std::vector<int> apportion(int total, const std::vector<int>& weights, int at_least = 0);

}  // namespace footroom::quiz
