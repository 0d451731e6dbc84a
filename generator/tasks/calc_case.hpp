#pragma once
// From the words of a command line, "slack=4 ft", to the values a calculation takes, and from what
// it gives to text.

#include <functional>
#include <map>
#include <string>
#include <variant>
#include <vector>

#include "bank/item.hpp"
#include "engine/catalogue.hpp"
#include "notation/quantity_text.hpp"

namespace footroom::tasks {

/// A value and how it is shown.
struct ShownValue {
  engine::Value value;
  std::string text;     ///< as typed, or in the places of the catalogue
  std::string in_step;  ///< put into a formula: an angle in degrees, an output with a place more
};
using ShownValues = std::map<std::string, ShownValue, std::less<>>;

struct CalcCase {
  const engine::Calculation* calculation = nullptr;
  notation::System system;
  notation::Style style;
  ShownValues inputs;  ///< each as typed, or its fallback
  std::map<std::string, const notation::Unit*, std::less<>> typed_units;
  std::vector<const bank::Limit*> limits;  ///< of the rule set, where one was taken
};

/// Where a calculation finds the limits that were not given; asked only if there is one.
using FindRules = std::function<const bank::RuleSet&()>;

/// Reads `words`. Throws Failure with a line for each word that is wrong and each that is missing.
CalcCase read_case(const engine::Calculation& calculation, const std::vector<std::string>& words,
                   notation::System system, notation::Style style, const FindRules& find_rules);

/// Sets how the inputs stand in steps, once all of them are there.
void put_into_steps(CalcCase& made);

/// An input that the calculation does not take, and why, in the words of a style.
struct Declined {
  std::string input;
  std::string reason;  ///< "is -1 ft, expected 0 ft to 98.4 ft", in the unit that was typed
};
std::variant<ShownValues, Declined> try_case(const CalcCase& given, notation::Style told_in);

/// "is -1 ft, expected 0 ft to 98.4 ft", of a value outside a domain.
std::string outside_text(const engine::Domain& domain, double si, const notation::Unit& unit,
                         notation::Style style);

/// Runs the calculation. Throws Failure "slack: is -1 ft, expected 0 ft to 98.4 ft".
ShownValues run_case(const CalcCase& given);

/// The unit and the decimal places in which the catalogue shows a value.
const notation::Unit& shown_unit(const engine::Show& show, notation::System system);
int shown_places(const engine::Show& show, notation::System system);
/// What a word is called, with its source where it has one; an unknown one as it is.
std::string word_text(const std::vector<engine::Choice>& choices, const engine::Word& word,
                      engine::Language language);

/// What an input accepts and what it is if left out: "0 ft to 98.4 ft", "us or si; left out: us".
std::string accepted_text(const engine::Input& input, notation::System system,
                          notation::Style style);

/// "0 ft to 98.4 ft", "more than 0 ft"; bounds are rounded inwards to three digits, so that every
/// value within what is printed is taken.
std::string domain_text(const engine::Domain& domain, const notation::Unit& unit,
                        notation::Style style);

}  // namespace footroom::tasks
