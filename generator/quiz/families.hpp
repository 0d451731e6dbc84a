#pragma once
#include <vector>

#include "bank/item.hpp"
#include "draw/stream.hpp"
#include "quiz/maker.hpp"

namespace footroom::quiz {

/// Draws the items (families of questions) of a quiz: for each section of the blueprint as many as
/// it asks for, none twice. Of items with limits, only those whose limits the rule set gives in the
/// quiz's units. In the order of a sheet: topics as the bank orders them, then level, then id.
/// Throws CannotMake with the line of the section that cannot be filled.
std::vector<const bank::Item*> choose_families(const bank::Bank& bank,
                                               const bank::Blueprint& blueprint,
                                               const Settings& settings, draw::Key key);

/// Every item that choose_families may draw, in the order of the bank.
std::vector<const bank::Item*> possible_families(const bank::Bank& bank,
                                                 const bank::Blueprint& blueprint,
                                                 const Settings& settings);

}  // namespace footroom::quiz
