#include "tasks/known_items.hpp"

#include "tasks/text.hpp"

namespace footroom::tasks {

grade::KnownItems known_items(const bank::Bank& bank, engine::Language language) {
  grade::KnownItems known;
  for (const bank::Item& item : bank.items) {
    grade::KnownItem one{in_language(item.title, language), item.level, {}};
    for (const auto& mistake : item.mistakes) one.answers.push_back(mistake.id);
    if (item.kind != bank::Kind::order)
      for (const auto& option : item.options) one.answers.push_back(option.id);
    known.emplace(item.id, std::move(one));
  }
  return known;
}

}  // namespace footroom::tasks
