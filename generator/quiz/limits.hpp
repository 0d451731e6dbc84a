#pragma once
// The limits of a rule set, as published, in the unit system of a quiz.

#include <string>
#include <variant>
#include <vector>

#include "bank/item.hpp"
#include "engine/catalogue.hpp"
#include "quiz/maker.hpp"

namespace footroom::quiz {

struct LimitInForce {
  const bank::Limit* published;
  notation::ReadQuantity value;
  std::string text;  ///< "6 ft"
};

/// The limit, or what is wrong: no such rule set or limit, or no value in the unit system.
std::variant<LimitInForce, bank::Defect> limit_in_force(const bank::Bank& bank,
                                                        const bank::Item& item,
                                                        const Settings& settings,
                                                        const std::string& id);

/// The ids an item needs: those it declares, and those its calculations fall back to for an input
/// that the item leaves out.
std::vector<std::string> limits_needed(const bank::Item& item);

/// Whether the item may be asked under a rule set: it names this one, or none.
bool belongs_to(const bank::Item& item, const std::string& rules);

/// Whether the rule set of the settings gives all of these, in the quiz's units.
bool has_limits(const bank::Bank& bank, const bank::Item& item, const Settings& settings);

/// Both: whether the item can be asked under the settings.
bool can_be_asked(const bank::Bank& bank, const bank::Item& item, const Settings& settings);

}  // namespace footroom::quiz
