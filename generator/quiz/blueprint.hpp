#pragma once
// What a blueprint asks for in numbers.

#include <array>
#include <string>
#include <vector>

#include "bank/item.hpp"

namespace footroom::quiz {

inline constexpr int most_level = 4;

/// How many questions each section gets: its number, or its share of the blueprint's total by
/// largest remainder (see apportion()), where a small share may come to none.
std::vector<int> questions_by_section(const bank::Blueprint& blueprint);

struct Bounds {
  int least = 0;
  int most = 0;
};

/// How many questions of levels 1 to 4, in that order, a quiz of `questions` has. A share is both
/// bounds.
std::array<Bounds, most_level> questions_by_level(const bank::Blueprint& blueprint, int questions);

/// The blueprint with the sections of these topics alone. A total is divided among them anew,
/// at most `topic_at_most` for each of them; numbers stay. With fewer questions, the quiz's points
/// and minutes shrink in proportion.
bank::Blueprint restricted_to(const bank::Blueprint& blueprint,
                              const std::vector<std::string>& topics);

/// The minutes that the questions may take, where the blueprint bounds them or `percent` is given.
int minutes_allowed(const bank::Blueprint& blueprint, int percent);

}  // namespace footroom::quiz
