#pragma once
// The inputs of a calculation as the fields of a form: what each takes, what was typed, how that is
// understood and what is wrong with it, in the language of the form. Numbers are read as answers on
// a sheet are (grade/reading.hpp).

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "tasks/calc_case.hpp"

namespace footroom::tasks {

/// What a form sent, by input; of a list of words each one that was ticked.
using Typed = std::multimap<std::string, std::string, std::less<>>;

/// For whom a calculation is worked out.
struct CalcSetting {
  notation::System system;
  notation::Style style;
  const bank::RuleSet& rules;
};

struct CalcField {
  const engine::Input* input = nullptr;
  std::string name;      ///< "slack in the line"
  std::string unit;      ///< of a number without one; may be empty
  std::string accepts;   ///< "0 ft to 98.4 ft"; of words: an example
  std::string left_out;  ///< what is taken for an empty field; may be empty
  std::string typed;     ///< as it stands in the field
  std::set<std::string, std::less<>> ticked;
  std::string read;         ///< as it is understood; empty: it is not
  bool read_apart = false;  ///< it is understood otherwise than as a number in the unit beside it
  std::string fault;        ///< what is wrong; empty: nothing
};

struct CalcForm {
  std::vector<CalcField> fields;       ///< in the order of the catalogue
  CalcCase given;                      ///< what could be read
  std::optional<ShownValues> outputs;  ///< where nothing is wrong
};

/// The fields with what was typed, worked out where it can be.
CalcForm fill_form(const engine::Calculation& calculation, const Typed& typed,
                   const CalcSetting& setting);

/// The manual's example as it would be typed: a number alone where it is in the field's unit.
Typed typed_example(const engine::Calculation& calculation, const CalcSetting& setting);

/// How a text in a field is understood.
struct ReadInput {
  std::optional<engine::Quantity> quantity;
  const notation::Unit* unit = nullptr;  ///< as typed, else that of the field
  double number = 0;                     ///< in it
  bool with_unit = false;                ///< a unit was typed
  std::string text;                      ///< "4 ft 6 in"; or what is wrong
};
ReadInput read_input(const engine::Input& input, const std::string& text,
                     const CalcSetting& setting);

/// The limit of the rule set, where it has one in these units.
struct LimitInForce {
  const bank::Limit* published = nullptr;
  engine::Quantity value;
  std::string name;
  std::string text;    ///< "6 ft"
  std::string status;  ///< in words; empty where the source was read
};
std::optional<LimitInForce> limit_in_force(std::string_view id, engine::Dimension dimension,
                                           const CalcSetting& setting);

/// The limit that the rule set puts on a result, by what the result is: free fall, greatest force.
std::optional<LimitInForce> limit_on(const engine::Output& output, const CalcSetting& setting);

/// A limit that a case took for an input left out, or that is set on one of its results.
struct LimitMet {
  std::string name;
  std::string text;
  std::string citation;
  std::string status;  ///< in words; empty where the source was read
  std::string value;   ///< of the result; empty: the limit was taken for an input
  bool broken = false;
};
std::vector<LimitMet> limits_met(const CalcForm& form, const CalcSetting& setting);

/// Whether a value is one of the two ends of a domain, also where it does not include it.
bool is_end_of(const engine::Domain& domain, double value);

}  // namespace footroom::tasks
