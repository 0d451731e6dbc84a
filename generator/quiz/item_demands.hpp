#pragma once
#include <vector>

#include "bank/item.hpp"

namespace footroom::quiz {

/// Wrong answers that an item names, each with its teaching sentence.
inline constexpr int wrong_answers_wanted = 3;

/// What an item lacks that no draw is needed to see: a training topic; three named mistakes where a
/// number is asked or chosen; three options that can be wrong for one-of, several-of and verdict.
std::vector<bank::Defect> unmet_demands(const bank::Item& item);

}  // namespace footroom::quiz
