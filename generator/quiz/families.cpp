#include "quiz/families.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <numeric>
#include <optional>
#include <set>
#include <tuple>

#include "engine/wording.hpp"
#include "quiz/blueprint.hpp"
#include "quiz/limits.hpp"

namespace footroom::quiz {
namespace {

/// What counts as the item's level when a quiz is filled.
int level_of(const bank::Item& item, const Settings& settings) {
  const auto found = settings.levels.find(item.id);
  return found == settings.levels.end() ? item.level : found->second;
}

struct Candidates {
  const bank::Section* section;
  std::size_t index;  ///< of the section
  int questions;
  std::vector<std::size_t> items;
  int without_limits = 0;  ///< would fit, but the rule set lacks a limit
  int of_other_rules = 0;  ///< would fit, but belong to other rule sets
};

Candidates candidates_for(const bank::Bank& bank, const bank::Blueprint& blueprint,
                          std::size_t index, int questions, const Settings& settings) {
  const bank::Section& section = blueprint.sections[index];
  Candidates made{&section, index, questions, {}};
  for (std::size_t i = 0; i < bank.items.size(); ++i) {
    const bank::Item& item = bank.items[i];
    const auto& levels = section.levels;
    const bool of_level = levels.empty() || std::find(levels.begin(), levels.end(),
                                                      level_of(item, settings)) != levels.end();
    if (item.topic != section.topic || !of_level) continue;
    if (!belongs_to(item, settings.rules))
      ++made.of_other_rules;
    else if (!has_limits(bank, item, settings))
      ++made.without_limits;
    else
      made.items.push_back(i);
  }
  return made;
}

void shuffle(std::vector<std::size_t>& list, draw::Stream stream) {
  std::vector<std::size_t> shuffled;
  for (const std::uint32_t i : stream.order(static_cast<std::uint32_t>(list.size())))
    shuffled.push_back(list[i]);
  list = std::move(shuffled);
}

std::vector<Candidates> candidates_by_section(const bank::Bank& bank,
                                              const bank::Blueprint& blueprint,
                                              const Settings& settings) {
  const std::vector<int> questions = questions_by_section(blueprint);
  std::vector<Candidates> sections;
  for (std::size_t i = 0; i < questions.size(); ++i)
    sections.push_back(candidates_for(bank, blueprint, i, questions[i], settings));
  return sections;
}

bool has_enough(const Candidates& candidates) {
  return static_cast<int>(candidates.items.size()) >= candidates.questions;
}

std::string joined(const std::vector<std::string>& parts, std::string_view between = ", ") {
  return fmt::format("{}", fmt::join(parts, between));
}

/// What can be asked instead, where the rule set leaves a section too few.
engine::Wording way_out(const bank::Bank& bank, const bank::Blueprint& blueprint,
                        const Settings& settings) {
  if (!settings.course_plan.empty()) return {};  // its weeks choose topics and blueprints
  std::vector<std::string> topics;
  for (const Candidates& section : candidates_by_section(bank, blueprint, settings))
    if (section.questions > 0 && has_enough(section)) topics.push_back(section.section->topic);
  std::vector<std::string> blueprints;
  for (const auto& [id, other] : bank.blueprints) {
    const auto sections = candidates_by_section(bank, other, settings);
    if (id != blueprint.id && std::all_of(sections.begin(), sections.end(), has_enough))
      blueprints.push_back(id);
  }
  engine::Wording says;
  if (!topics.empty()) {
    const std::string list = joined(topics, ",");
    says = says + engine::Wording{"; topics that can be asked: " + list + " (--topics)",
                                  "; temas que se pueden preguntar: " + list + " (--topics)"};
  }
  if (!blueprints.empty()) {
    const std::string list = joined(blueprints);
    says = says + engine::Wording{"; another blueprint that fits: " + list + " (--blueprint)",
                                  "; otro plan que sirve: " + list + " (--blueprint)"};
  }
  return says;
}

engine::Wording so_many_questions(int number) {
  return {number == 1 ? "1 question" : fmt::format("{} questions", number),
          number == 1 ? "1 pregunta" : fmt::format("{} preguntas", number)};
}

[[noreturn]] void refuse(const Candidates& candidates, const bank::Bank& bank,
                         const bank::Blueprint& blueprint, const Settings& settings) {
  const bank::Section& section = *candidates.section;
  const bool us = settings.system == notation::System::us;
  const engine::Wording asked = so_many_questions(candidates.questions);
  engine::Wording message{
      fmt::format("the section \"{}\" asks for {}, but the bank has {} that fit", section.topic,
                  asked.english, candidates.items.size()),
      fmt::format("la sección «{}» pide {}, pero el banco tiene {} que sirven", section.topic,
                  asked.spanish, candidates.items.size())};
  if (candidates.without_limits > 0)
    message = message +
              engine::Wording{
                  fmt::format(" ({} more need a limit that the rule set \"{}\" does not give in {} "
                              "units)",
                              candidates.without_limits, settings.rules, us ? "US" : "SI"),
                  fmt::format(" (otras {} necesitan un límite que las reglas «{}» no dan en "
                              "unidades {})",
                              candidates.without_limits, settings.rules, us ? "de EE. UU." : "SI")};
  if (candidates.of_other_rules > 0)
    message = message + engine::Wording{fmt::format(" ({} more are about other rules than \"{}\")",
                                                    candidates.of_other_rules, settings.rules),
                                        fmt::format(" (otras {} tratan de otras reglas que «{}»)",
                                                    candidates.of_other_rules, settings.rules)};
  if (has_enough(candidates))
    message = message + engine::Wording{", and other sections need some of them",
                                        ", y otras secciones necesitan algunas de ellas"};
  else if (candidates.without_limits + candidates.of_other_rules > 0)
    message = message + way_out(bank, blueprint, settings);
  throw engine::InBothLanguages<CannotMake>(message, section.at);
}

// ---- What was asked before ---------------------------------------------------------------------

struct AskedBefore {
  int times = 0;
  int quizzes_ago = 0;  ///< the last time; 1 is the last quiz
};

AskedBefore asked_before(const Settings& settings, const std::string& item) {
  AskedBefore asked;
  for (std::size_t i = 0; i < settings.before.size(); ++i) {
    if (!settings.before[i].items.contains(item)) continue;
    ++asked.times;
    if (asked.times == 1) asked.quizzes_ago = static_cast<int>(i) + 1;
  }
  return asked;
}

/// How many quizzes ago the last time must be: 2, 4, 8 ...
int wait_after(int times) {
  return 1 << std::min(times, 20);
}

constexpr int last_resort = std::numeric_limits<int>::max();

/// By how many quizzes a family comes too soon; 0 where it may be asked.
int too_soon(const Settings& settings, const std::string& item) {
  const AskedBefore asked = asked_before(settings, item);
  if (asked.times == 0) return 0;
  if (asked.quizzes_ago == 1) return last_resort;
  return std::max(0, wait_after(asked.times) - asked.quizzes_ago);
}

// ---- The choice --------------------------------------------------------------------------------

/// Assigns items to places so that none is taken twice and no level has more than its room, moving
/// or releasing earlier choices where that helps (augmenting paths in a network of places, items
/// and levels; Ford and Fulkerson 1956). A place once filled stays filled, and so does the room
/// of a level: what is needed most is filled first.
class Matching {
 public:
  struct Item {
    std::size_t level;  ///< from 0
    int too_soon;
  };

  Matching(std::vector<const Candidates*> places, std::vector<Item> items)
      : places_(std::move(places)),
        filled_(places_.size(), false),
        items_(std::move(items)),
        place_of_(items_.size(), none) {}

  /// Fills what can be filled, places in this order, at most so many of each level.
  void fill(const std::vector<std::size_t>& order, const std::array<int, most_level>& room) {
    room_ = room;
    std::set<int> steps;
    for (const Item& item : items_) steps.insert(item.too_soon);
    for (const int step : steps) {
      soonest_ = step;
      for (const std::size_t place : order) {
        if (filled_[place]) continue;
        tried_.clear();
        tried_levels_.fill(false);
        filled_[place] = find_item(place);
      }
    }
  }

  const Candidates* first_empty() const {
    const auto empty = std::find(filled_.begin(), filled_.end(), false);
    return empty == filled_.end() ? nullptr : places_[empty - filled_.begin()];
  }

  int of_level(std::size_t level) const { return taken_[level]; }

  const Candidates* place_of(std::size_t item) const {
    return place_of_[item] == none ? nullptr : places_[place_of_[item]];
  }

 private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  bool find_item(std::size_t place) {
    for (const std::size_t item : places_[place]->items) {
      const bool used = place_of_[item] != none;
      if ((!used && items_[item].too_soon > soonest_) || !tried_.insert(item).second) continue;
      if (used ? find_item(place_of_[item]) : find_room(items_[item].level)) {
        place_of_[item] = place;
        return true;
      }
    }
    return false;
  }

  /// Room for one more item of a level, by releasing another one where it is full.
  bool find_room(std::size_t level) {
    if (taken_[level] < room_[level]) {
      ++taken_[level];
      return true;
    }
    if (tried_levels_[level]) return false;
    tried_levels_[level] = true;
    for (std::size_t item = 0; item < items_.size(); ++item) {
      if (place_of_[item] == none || items_[item].level != level || !tried_.insert(item).second)
        continue;
      if (find_item(place_of_[item])) {
        place_of_[item] = none;
        return true;
      }
    }
    return false;
  }

  std::vector<const Candidates*> places_;
  std::vector<bool> filled_;
  std::vector<Item> items_;
  std::vector<std::size_t> place_of_;
  std::array<int, most_level> room_{};
  std::array<int, most_level> taken_{};
  int soonest_ = 0;
  std::set<std::size_t> tried_;
  std::array<bool, most_level> tried_levels_{};
};

/// Throws for the first level that lacks questions, where each level has no more than it needs.
void check_least(const Matching& matching, const bank::Blueprint& blueprint,
                 const std::array<int, most_level>& least) {
  for (const bank::LevelRule& rule : blueprint.levels) {
    const auto level = static_cast<std::size_t>(rule.level - 1);
    if (matching.of_level(level) < least[level])
      throw engine::InBothLanguages<CannotMake>(
          engine::Wording{
              fmt::format("the level mix asks for {} questions of level {}, but beside those of "
                          "the other levels the sections have room for {}",
                          least[level], rule.level, matching.of_level(level)),
              fmt::format(
                  "la mezcla de niveles pide {} preguntas del nivel {}, pero junto a las de "
                  "los otros niveles las secciones tienen lugar para {}",
                  least[level], rule.level, matching.of_level(level))},
          rule.at);
  }
}

std::vector<ChosenFamily> draw_families(const bank::Bank& bank, const bank::Blueprint& blueprint,
                                        const Settings& settings, draw::Key key) {
  std::vector<Candidates> sections = candidates_by_section(bank, blueprint, settings);
  for (Candidates& section : sections) {
    shuffle(section.items, draw::Stream(key));
    ++key.position;
  }
  std::vector<const Candidates*> places;
  for (const Candidates& section : sections)
    places.insert(places.end(), static_cast<std::size_t>(section.questions), &section);
  std::vector<Matching::Item> items;
  for (const bank::Item& item : bank.items)
    items.push_back(
        {static_cast<std::size_t>(level_of(item, settings) - 1), too_soon(settings, item.id)});
  std::vector<std::size_t> order(places.size());
  std::iota(order.begin(), order.end(), std::size_t{0});

  const int questions = static_cast<int>(places.size());
  std::array<int, most_level> least{};
  std::array<int, most_level> most{};
  most.fill(questions);
  Matching matching(places, items);
  if (blueprint.levels.empty()) {
    matching.fill(order, most);
    if (const Candidates* empty = matching.first_empty()) refuse(*empty, bank, blueprint, settings);
  } else {
    Matching any_level(places, items);
    any_level.fill(order, most);
    if (const Candidates* empty = any_level.first_empty())
      refuse(*empty, bank, blueprint, settings);
    shuffle(order, draw::Stream(key));  // so that no section has the first choice of a level
    const auto bounds = questions_by_level(blueprint, questions);
    for (std::size_t level = 0; level < bounds.size(); ++level) {
      least[level] = bounds[level].least;
      most[level] = bounds[level].most;
    }
    matching.fill(order, least);
    check_least(matching, blueprint, least);
    matching.fill(order, most);
    if (const Candidates* empty = matching.first_empty())
      throw engine::InBothLanguages<CannotMake>(
          engine::Wording{
              fmt::format("the section \"{}\" asks for {}, but the level mix has no "
                          "room for so many of those that fit",
                          empty->section->topic, so_many_questions(empty->questions).english),
              fmt::format("la sección «{}» pide {}, pero la mezcla de niveles no tiene "
                          "lugar para tantas de las que sirven",
                          empty->section->topic, so_many_questions(empty->questions).spanish)},
          empty->section->at);
  }

  std::vector<ChosenFamily> chosen;
  for (std::size_t i = 0; i < bank.items.size(); ++i)
    if (const Candidates* place = matching.place_of(i))
      chosen.push_back({&bank.items[i], place->index});
  const auto topic_rank = [&](const bank::Item& item) {
    return std::find_if(bank.topics.begin(), bank.topics.end(),
                        [&](const bank::Topic& topic) { return topic.id == item.topic; }) -
           bank.topics.begin();
  };
  std::sort(chosen.begin(), chosen.end(), [&](const ChosenFamily& a, const ChosenFamily& b) {
    const auto place = [&](const bank::Item& item) {
      return std::tuple(topic_rank(item), level_of(item, settings), std::string_view(item.id));
    };
    return place(*a.item) < place(*b.item);
  });
  return chosen;
}

int minutes_of(const std::vector<ChosenFamily>& chosen) {
  return std::accumulate(chosen.begin(), chosen.end(), 0,
                         [](int sum, const ChosenFamily& one) { return sum + one.item->minutes; });
}

/// By which a quiz may take longer than its blueprint says, where that does not say itself.
constexpr int usual_minutes_over = 10;  // percent

}  // namespace

std::vector<ChosenFamily> choose_families(const bank::Bank& bank, const bank::Blueprint& blueprint,
                                          const Settings& settings, draw::Key key) {
  if (!blueprint.minutes_over) return draw_families(bank, blueprint, settings, key);
  const int allowed = minutes_allowed(blueprint, *blueprint.minutes_over);
  int shortest = std::numeric_limits<int>::max();
  for (std::uint32_t i = 0; i < most_choices; ++i, ++key.attempt) {
    auto chosen = draw_families(bank, blueprint, settings, key);
    const int minutes = minutes_of(chosen);
    if (minutes <= allowed) return chosen;
    shortest = std::min(shortest, minutes);
  }
  throw engine::InBothLanguages<CannotMake>(
      engine::Wording{
          fmt::format("the questions take {} minutes in the shortest of {} choices, but "
                      "minutes=\"{}\" and {} percent over it allow {}",
                      shortest, most_choices, blueprint.minutes, *blueprint.minutes_over, allowed),
          fmt::format("las preguntas llevan {} minutos en la más corta de {} selecciones, pero "
                      "minutes=\"{}\" y {} por ciento más permiten {}",
                      shortest, most_choices, blueprint.minutes, *blueprint.minutes_over, allowed)},
      blueprint.at);
}

std::vector<std::string> remarks_on(const std::vector<ChosenFamily>& chosen, const bank::Bank& bank,
                                    const bank::Blueprint& blueprint, const Settings& settings) {
  std::vector<std::string> remarks;
  const auto remark = [&](const bank::Position& at, const std::string& says) {
    remarks.push_back(fmt::format("{}:{}: note: {}", at.file, at.line, says));
  };
  for (const Candidates& section : candidates_by_section(bank, blueprint, settings)) {
    std::vector<std::string> again;
    std::vector<std::string> sooner;
    for (const ChosenFamily& one : chosen) {
      if (one.section != section.index) continue;
      const int lacking = too_soon(settings, one.item->id);
      const AskedBefore asked = asked_before(settings, one.item->id);
      if (lacking == last_resort)
        again.push_back(one.item->id);
      else if (lacking > 0)
        sooner.push_back(fmt::format("{} ({} quizzes ago, not {})", one.item->id, asked.quizzes_ago,
                                     wait_after(asked.times)));
    }
    const auto in_last_quiz = std::count_if(
        section.items.begin(), section.items.end(),
        [&](std::size_t i) { return too_soon(settings, bank.items[i].id) == last_resort; });
    if (!again.empty())
      remark(section.section->at,
             fmt::format("the section \"{}\" asks for {} of {} questions that fit, and {} of them "
                         "were in the last quiz; asked again: {}",
                         section.section->topic, section.questions, section.items.size(),
                         in_last_quiz, joined(again)));
    if (!sooner.empty())
      remark(section.section->at,
             fmt::format("the section \"{}\" has too few questions that have waited long enough; "
                         "asked sooner: {}",
                         section.section->topic, joined(sooner)));
  }
  const int percent = blueprint.minutes_over.value_or(usual_minutes_over);
  if (const int minutes = minutes_of(chosen); minutes > minutes_allowed(blueprint, percent))
    remark(blueprint.at, fmt::format("the questions take {} minutes, the quiz gives {}", minutes,
                                     blueprint.minutes));
  return remarks;
}

std::vector<const bank::Item*> possible_families(const bank::Bank& bank,
                                                 const bank::Blueprint& blueprint,
                                                 const Settings& settings) {
  std::set<std::size_t> all;
  for (const Candidates& section : candidates_by_section(bank, blueprint, settings))
    if (section.questions > 0) all.insert(section.items.begin(), section.items.end());
  std::vector<const bank::Item*> items;
  for (const std::size_t i : all) items.push_back(&bank.items[i]);
  return items;
}

}  // namespace footroom::quiz
