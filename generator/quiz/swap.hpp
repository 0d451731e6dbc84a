#pragma once
#include <vector>

#include "bank/item.hpp"
#include "quiz/families.hpp"
#include "quiz/maker.hpp"

namespace footroom::quiz {

/// The families of a sheet after settings.swaps. An item that stands in is of the same topic, can
/// be asked under the rule set, and is not in the quiz yet; the order stays. Where seats have
/// families of their own (not `same_items`), only other draws can be had. Throws CannotSwap.
std::vector<ChosenFamily> swapped(std::vector<ChosenFamily> chosen, bool same_items,
                                  const bank::Bank& bank, const Settings& settings);

}  // namespace footroom::quiz
