#include "quiz/item_demands.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace footroom::quiz {

std::vector<bank::Defect> unmet_demands(const bank::Item& item) {
  std::vector<bank::Defect> defects;
  if (item.training.empty())
    defects.push_back({item.at,
                       "no training topic, expected training=\"i\" ... \"viii\", of 29 CFR "
                       "1926.503(a)(2)"});
  if (item.answer) {
    const auto named = static_cast<int>(item.mistakes.size());
    if (named < wrong_answers_wanted)
      defects.push_back(
          {item.at, fmt::format("{} <mistake>, expected {} or more", named, wrong_answers_wanted)});
  } else if (item.kind != bank::Kind::order) {
    const auto wrong =
        std::count_if(item.options.begin(), item.options.end(),
                      [](const bank::Option& option) { return option.right.text != "true"; });
    if (wrong < wrong_answers_wanted)
      defects.push_back({item.at, fmt::format("{} <option> that can be wrong, expected {} or more",
                                              wrong, wrong_answers_wanted)});
  }
  return defects;
}

}  // namespace footroom::quiz
