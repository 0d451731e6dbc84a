#include "quiz/blueprint.hpp"

#include <algorithm>
#include <numeric>

#include "quiz/apportion.hpp"

namespace footroom::quiz {
namespace {

int total(const std::vector<int>& numbers) {
  return std::accumulate(numbers.begin(), numbers.end(), 0);
}

}  // namespace

std::vector<int> questions_by_section(const bank::Blueprint& blueprint) {
  std::vector<int> numbers;
  for (const bank::Section& section : blueprint.sections)
    numbers.push_back(blueprint.questions > 0 ? section.share.value_or(0) : section.questions);
  return blueprint.questions > 0 ? apportion(blueprint.questions, numbers) : numbers;
}

std::array<Bounds, most_level> questions_by_level(const bank::Blueprint& blueprint, int questions) {
  std::array<Bounds, most_level> bounds;
  const bool by_share = !blueprint.levels.empty() && blueprint.levels.front().share;
  bounds.fill({0, by_share ? 0 : questions});
  std::vector<int> shares(most_level, 0);
  for (const bank::LevelRule& rule : blueprint.levels) {
    const auto i = static_cast<std::size_t>(rule.level - 1);
    shares[i] = rule.share.value_or(0);
    bounds[i] = {rule.at_least, rule.at_most.value_or(questions)};
  }
  if (by_share) {
    const auto numbers = apportion(questions, shares);
    for (std::size_t i = 0; i < bounds.size(); ++i) bounds[i] = {numbers[i], numbers[i]};
  }
  return bounds;
}

bank::Blueprint restricted_to(const bank::Blueprint& blueprint,
                              const std::vector<std::string>& topics) {
  bank::Blueprint restricted = blueprint;
  restricted.sections.clear();
  for (const bank::Section& section : blueprint.sections)
    if (std::find(topics.begin(), topics.end(), section.topic) != topics.end())
      restricted.sections.push_back(section);
  if (blueprint.topic_at_most > 0)
    restricted.questions =
        std::min(blueprint.questions, blueprint.topic_at_most * static_cast<int>(topics.size()));
  const int before = total(questions_by_section(blueprint));
  const int after = total(questions_by_section(restricted));
  if (after == before || after == 0) return restricted;
  restricted.minutes = std::max(1, blueprint.minutes * after / before);
  if (blueprint.points > 0) restricted.points = std::max(after, blueprint.points * after / before);
  return restricted;
}

int minutes_allowed(const bank::Blueprint& blueprint, int percent) {
  return blueprint.minutes * (100 + percent) / 100;
}

}  // namespace footroom::quiz
