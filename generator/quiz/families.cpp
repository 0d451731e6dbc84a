#include "quiz/families.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <tuple>

#include "quiz/limits.hpp"

namespace footroom::quiz {
namespace {

bool has_limits(const bank::Bank& bank, const bank::Item& item, const Settings& settings) {
  for (const std::string& id : limits_needed(item))
    if (!std::holds_alternative<LimitInForce>(limit_in_force(bank, item, settings, id)))
      return false;
  return true;
}

struct Candidates {
  const bank::Section* section;
  std::vector<std::size_t> items;
  int without_limits = 0;  ///< would fit, but the rule set lacks a limit
};

Candidates candidates_for(const bank::Bank& bank, const bank::Section& section,
                          const Settings& settings) {
  Candidates made{&section, {}, 0};
  for (std::size_t i = 0; i < bank.items.size(); ++i) {
    const bank::Item& item = bank.items[i];
    const auto& levels = section.levels;
    const bool of_level =
        levels.empty() || std::find(levels.begin(), levels.end(), item.level) != levels.end();
    if (item.topic != section.topic || !of_level) continue;
    if (has_limits(bank, item, settings))
      made.items.push_back(i);
    else
      ++made.without_limits;
  }
  return made;
}

void shuffle(std::vector<std::size_t>& list, draw::Stream stream) {
  std::vector<std::size_t> shuffled;
  for (const std::uint32_t i : stream.order(static_cast<std::uint32_t>(list.size())))
    shuffled.push_back(list[i]);
  list = std::move(shuffled);
}

[[noreturn]] void refuse(const Candidates& candidates, const Settings& settings) {
  const bank::Section& section = *candidates.section;
  std::string message =
      fmt::format("the section \"{}\" asks for {} families, but the bank has {} that fit",
                  section.topic, section.questions, candidates.items.size());
  if (candidates.without_limits > 0)
    message += fmt::format(
        " ({} more need a limit that the rule set \"{}\" does not give in {} "
        "units)",
        candidates.without_limits, settings.rules,
        settings.system == notation::System::us ? "US" : "SI");
  if (static_cast<int>(candidates.items.size()) >= section.questions)
    message += ", and other sections need some of them";
  throw CannotMake(section.at, message);
}

/// Assigns items to places so that none is taken twice, moving earlier choices where that helps
/// (augmenting paths in a bipartite graph; Kuhn 1955).
class Matching {
 public:
  Matching(std::vector<const Candidates*> places, std::size_t items)
      : places_(std::move(places)), place_of_(items, none) {}

  bool fill(std::size_t place) {
    tried_.clear();
    return find_item(place);
  }

  std::vector<std::size_t> items() const {
    std::vector<std::size_t> taken;
    for (std::size_t i = 0; i < place_of_.size(); ++i)
      if (place_of_[i] != none) taken.push_back(i);
    return taken;
  }

 private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  bool find_item(std::size_t place) {
    for (const std::size_t item : places_[place]->items) {
      if (!tried_.insert(item).second) continue;
      if (place_of_[item] == none || find_item(place_of_[item])) {
        place_of_[item] = place;
        return true;
      }
    }
    return false;
  }

  std::vector<const Candidates*> places_;
  std::vector<std::size_t> place_of_;
  std::set<std::size_t> tried_;
};

}  // namespace

std::vector<const bank::Item*> choose_families(const bank::Bank& bank,
                                               const bank::Blueprint& blueprint,
                                               const Settings& settings, draw::Key key) {
  std::vector<Candidates> sections;
  for (const bank::Section& section : blueprint.sections) {
    sections.push_back(candidates_for(bank, section, settings));
    shuffle(sections.back().items, draw::Stream(key));
    ++key.position;
  }
  std::vector<const Candidates*> places;
  for (const Candidates& section : sections)
    places.insert(places.end(), static_cast<std::size_t>(section.section->questions), &section);
  Matching matching(places, bank.items.size());
  for (std::size_t place = 0; place < places.size(); ++place)
    if (!matching.fill(place)) refuse(*places[place], settings);

  std::vector<const bank::Item*> chosen;
  for (const std::size_t i : matching.items()) chosen.push_back(&bank.items[i]);
  const auto topic_rank = [&](const bank::Item& item) {
    return std::find_if(bank.topics.begin(), bank.topics.end(),
                        [&](const bank::Topic& topic) { return topic.id == item.topic; }) -
           bank.topics.begin();
  };
  std::sort(chosen.begin(), chosen.end(), [&](const bank::Item* a, const bank::Item* b) {
    return std::tuple(topic_rank(*a), a->level, std::string_view(a->id)) <
           std::tuple(topic_rank(*b), b->level, std::string_view(b->id));
  });
  return chosen;
}

std::vector<const bank::Item*> possible_families(const bank::Bank& bank,
                                                 const bank::Blueprint& blueprint,
                                                 const Settings& settings) {
  std::set<std::size_t> all;
  for (const bank::Section& section : blueprint.sections)
    for (const std::size_t i : candidates_for(bank, section, settings).items) all.insert(i);
  std::vector<const bank::Item*> items;
  for (const std::size_t i : all) items.push_back(&bank.items[i]);
  return items;
}

}  // namespace footroom::quiz
