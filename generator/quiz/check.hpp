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
  int draws = 2000;  ///< in each unit system
};

/// What a thousand seats should find: as many different questions.
inline constexpr double questions_wanted = 1000;
/// Of questions in words: different in what is picked, drawn or offered. Of fewer than four times
/// as many draws, a quarter.
inline constexpr int choices_wanted = 100;
/// So many draws offer every option, and give every verdict, that is ever likely to be.
inline constexpr int draws_for_every_option = 1000;

struct ItemReport {
  std::vector<bank::Defect> defects;  ///< each once, with the draw and seed that first showed it
  double possible = 0;  ///< different numbers it can ask with, estimated: the smaller of both unit
                        ///< systems (grid points times own choices times the share that is kept)
  int draws = 0;        ///< usable ones made
  Tally thrown_away;
};

/// Looks for what is wrong with the item itself (unmet_demands) and makes `draws` questions in each
/// unit system and language, in which it looks for: an item that cannot be made; what is wrong with
/// any question (faults_of); languages that ask different things; an answer that no worked step
/// arrives at; values that do not scale with the base units (scaling_fault); an option that is
/// never offered; a verdict that is always the same; a figure that the program cannot draw; fewer
/// than `questions_wanted` possible questions with a number, or fewer than `choices_wanted`
/// different ones among those made of any other kind. That no verdict stands on an edge, no mistake
/// in the tolerance and no printed number on a rounding boundary is seen to where a question is
/// made: such draws are thrown away, and what is thrown away too often is an item that cannot be
/// made. Figures are drawn in every hundredth draw only.
ItemReport check_item(const bank::Bank& bank, const bank::Item& item, const CheckSettings& how);

}  // namespace footroom::quiz
