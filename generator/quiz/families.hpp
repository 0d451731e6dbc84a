#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "draw/stream.hpp"
#include "quiz/maker.hpp"

namespace footroom::quiz {

struct ChosenFamily {
  const bank::Item* item;
  std::size_t section;     ///< index in the blueprint
  std::uint32_t draw = 0;  ///< which of the item's draws; 0 is the first
};

/// Draws the items (families of questions) of a quiz: for each section of the blueprint as many as
/// it asks for, none twice, so that the level mix holds. Only items that belong to the rule set;
/// of those with limits, only those whose limits it gives in the quiz's units. An item's level is
/// that of settings.levels, else its own. In the order of a sheet: topics as the bank orders them,
/// then level, then id.
///
/// Families asked before (settings.before) stand back: one that was asked n times waits until the
/// last time is 2^n quizzes ago (2, 4, 8 ...). The blueprint goes first: where it cannot be filled
/// otherwise, families come sooner, those that lack the fewest quizzes first, and those of the
/// last quiz only where nothing else is left.
///
/// Where the blueprint bounds the minutes (minutes_over), families are drawn up to
/// `most_choices` times until they keep within.
///
/// Throws CannotMake with the line of the section, level or blueprint that cannot be met.
std::vector<ChosenFamily> choose_families(const bank::Bank& bank, const bank::Blueprint& blueprint,
                                          const Settings& settings, draw::Key key);

inline constexpr std::uint32_t most_choices = 100;

/// What an instructor should know of a choice: families of the last quiz asked again, families that
/// come sooner than they should, and more minutes than the blueprint gives. One line each, with
/// file and line.
std::vector<std::string> remarks_on(const std::vector<ChosenFamily>& chosen, const bank::Bank& bank,
                                    const bank::Blueprint& blueprint, const Settings& settings);

/// Every item that choose_families may draw, in the order of the bank.
std::vector<const bank::Item*> possible_families(const bank::Bank& bank,
                                                 const bank::Blueprint& blueprint,
                                                 const Settings& settings);

}  // namespace footroom::quiz
