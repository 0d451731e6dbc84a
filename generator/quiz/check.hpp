#pragma once
// Checking an item over many draws, in both unit systems and both languages.

#include <cstdint>
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "quiz/compiled_item.hpp"

namespace footroom::quiz {

struct CheckSettings {
  std::string rules = "us-construction";
  std::uint64_t seed = 1;
  int draws = 1000;  ///< in each unit system
};

/// What a thousand seats should find: as many different questions.
inline constexpr double questions_wanted = 1000;

struct ItemReport {
  std::vector<bank::Defect> defects;  ///< each once, with the draw and seed that first showed it
  double possible = 0;  ///< different numbers it can ask with, estimated: the smaller of both unit
                        ///< systems (grid points times own choices times the share that is kept)
  int draws = 0;        ///< usable ones made
  Tally thrown_away;
};

/// Makes `draws` questions in each unit system and language and looks for: an item that cannot be
/// made; other than exactly one right option for one-of and verdict; places of an order that are
/// not 1, 2, 3 ...; a text that is empty or has a brace left; languages that disagree about numbers
/// or right options; an answer that no worked step arrives at; an option that is never offered; a
/// verdict that is always the same; a figure that the program cannot draw; for numbers, fewer than
/// `questions_wanted` possible questions. Figures are drawn in every hundredth draw only.
ItemReport check_item(const bank::Bank& bank, const bank::Item& item, const CheckSettings& how);

}  // namespace footroom::quiz
