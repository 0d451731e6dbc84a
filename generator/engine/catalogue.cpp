#include "engine/catalogue.hpp"

#include <algorithm>
#include <sstream>

#include "engine/absorber.hpp"
#include "engine/anchor_reach.hpp"
#include "engine/anchor_strength.hpp"
#include "engine/arrest_force.hpp"
#include "engine/arrest_in_time.hpp"
#include "engine/capstan.hpp"
#include "engine/change_datum.hpp"
#include "engine/clearance.hpp"
#include "engine/clearance_check.hpp"
#include "engine/eave_swing.hpp"
#include "engine/edge_fall.hpp"
#include "engine/elastic_line.hpp"
#include "engine/free_fall_motion.hpp"
#include "engine/free_fall_rule.hpp"
#include "engine/gear_check.hpp"
#include "engine/hip_length.hpp"
#include "engine/holes_to_patch.hpp"
#include "engine/horizontal_line.hpp"
#include "engine/knot_strength.hpp"
#include "engine/ladder.hpp"
#include "engine/ladder_for_landing.hpp"
#include "engine/largest_slack.hpp"
#include "engine/line_then_absorber.hpp"
#include "engine/missed_rafter.hpp"
#include "engine/nail_combined.hpp"
#include "engine/nail_lateral.hpp"
#include "engine/nail_penetration.hpp"
#include "engine/nail_withdrawal.hpp"
#include "engine/nails_needed.hpp"
#include "engine/overhead_swing.hpp"
#include "engine/rafters.hpp"
#include "engine/rake_swing.hpp"
#include "engine/ridge_layout.hpp"
#include "engine/roof.hpp"
#include "engine/roof_area.hpp"
#include "engine/roof_slide.hpp"
#include "engine/roof_swing.hpp"
#include "engine/rope_passes.hpp"
#include "engine/sag_angle.hpp"
#include "engine/told_refusal.hpp"
#include "engine/travel_restraint_length.hpp"
#include "engine/user_mass.hpp"

namespace footroom::engine {
namespace {

template <class Entries>
auto find_by_id(const Entries& entries, std::string_view id) -> decltype(entries.data()) {
  const auto found =
      std::find_if(entries.begin(), entries.end(), [&](const auto& e) { return e.id == id; });
  return found == entries.end() ? nullptr : &*found;
}

bool has_shape(const Input& input, const Value& value) {
  if (!input.word_example.empty()) {
    const auto* words = std::get_if<Words>(&value);
    return words && (input.choices.empty() ||
                     std::all_of(words->begin(), words->end(), [&](const Word& word) {
                       return find_by_id(input.choices, word.id);
                     }));
  }
  if (!input.choices.empty()) {
    const auto* word = std::get_if<Word>(&value);
    return word && find_by_id(input.choices, word->id);
  }
  const auto* quantity = std::get_if<Quantity>(&value);
  return quantity && quantity->dimension == input.dimension;
}

std::string shape_in_words(const Input& input) {
  if (!input.word_example.empty()) return "expected words like " + std::string(input.word_example);
  if (input.choices.empty()) return "has another dimension than this input";
  std::string all = "expected one of";
  for (const Choice& choice : input.choices) all.append(" ").append(choice.id);
  return all;
}

}  // namespace

const Input* Calculation::find_input(std::string_view name) const {
  return find_by_id(inputs, name);
}
const Output* Calculation::find_output(std::string_view name) const {
  return find_by_id(outputs, name);
}

void refuse_mismatch(const Calculation& calculation, const Values& given) {
  for (const auto& [id, value] : given) {
    const Input* input = calculation.find_input(id);
    if (!input) throw Refusal(std::string(calculation.id), id, "is not an input");
    if (!has_shape(*input, value))
      throw Refusal(std::string(calculation.id), id, shape_in_words(*input));
  }
  for (const Input& input : calculation.inputs)
    if (!input.fallback && !given.contains(input.id))
      throw Refusal(std::string(calculation.id), std::string(input.id), "is missing");
}

void refuse_broken_count(const Calculation& calculation, const Input& input, Quantity given) {
  std::ostringstream number;
  number.imbue(std::locale::classic());
  number << given.si;
  throw ToldRefusal(std::string(calculation.id), std::string(input.id),
                    "is " + number.str() + ", expected a whole number",
                    "es " + number.str() + "; se espera un número entero");
}

const std::vector<const Calculation*>& catalogue() {
  static const std::vector<const Calculation*> all = {
      &roof_calculation(),
      &roof_area_calculation(),
      &rafters_calculation(),
      &roof_slide_calculation(),
      &edge_fall_calculation(),
      &largest_slack_calculation(),
      &eave_swing_calculation(),
      &roof_swing_calculation(),
      &rake_swing_calculation(),
      &overhead_swing_calculation(),
      &free_fall_rule_calculation(),
      &free_fall_motion_calculation(),
      &absorber_calculation(),
      &arrest_force_calculation(),
      &elastic_line_calculation(),
      &line_then_absorber_calculation(),
      &clearance_calculation(),
      &clearance_check_calculation(),
      &change_datum_calculation(),
      &ladder_calculation(),
      &ladder_for_landing_calculation(),
      &anchor_strength_calculation(),
      &gear_check_calculation(),
      &rope_passes_calculation(),
      &nail_penetration_calculation(),
      &nail_withdrawal_calculation(),
      &nail_lateral_calculation(),
      &nail_combined_calculation(),
      &nails_needed_calculation(),
      &missed_rafter_calculation(),
      &holes_to_patch_calculation(),
      &ridge_layout_calculation(),
      &anchor_reach_calculation(),
      &arrest_in_time_calculation(),
      &horizontal_line_calculation(),
      &sag_angle_calculation(),
      &capstan_calculation(),
      &knot_strength_calculation(),
      &travel_restraint_length_calculation(),
      &user_mass_calculation(),
      &hip_length_calculation(),
  };
  return all;
}

const Calculation* find_calculation(std::string_view id) {
  const auto& all = catalogue();
  const auto found = std::find_if(all.begin(), all.end(), [&](auto* c) { return c->id == id; });
  return found == all.end() ? nullptr : *found;
}

}  // namespace footroom::engine
