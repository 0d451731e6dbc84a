#pragma once
// What `footroom calc` prints: a page to read, or JSON.

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "figure/drawing.hpp"
#include "notation/typeset.hpp"
#include "tasks/calc_case.hpp"

namespace footroom::tasks {

/// A step that was taken, with symbols and with the numbers put in.
struct TakenStep {
  std::string output;
  std::string says;
  std::string symbols;  ///< "d_0 = ..."
  std::string numbers;
  std::string result;
  notation::Math symbols_set;  ///< `symbols` and `numbers`, before they became text
  notation::Math numbers_set;
};

/// A name as formulas show it: its symbol, or its meaning where it has none.
notation::Math name_in_formula(const engine::Calculation& calculation, std::string_view name,
                               notation::Style style);
/// The formula of a step with symbols: "d_0 = ...".
notation::Math equation_of(const engine::Calculation& calculation, const engine::Step& step,
                           notation::Style style);

/// A source of the calculation, or a limit that was taken.
struct Cited {
  std::string citation;
  std::string supports;
  std::string_view status;  ///< by its name in the bank
};
std::vector<Cited> cited(const CalcCase& given);

/// The steps whose condition holds.
std::vector<TakenStep> taken_steps(const CalcCase& given, const ShownValues& outputs);

/// The scene of the calculation with every number beside its line, or nothing where it has none.
/// What was left to its fallback is not labelled.
std::optional<figure::Drawing> drawing_of(const CalcCase& given, const ShownValues& outputs);

/// Of a source or a limit, by its name in the bank: "second hand".
engine::Text status_text(std::string_view status);

std::string calc_page(const CalcCase& given, const ShownValues& outputs);
nlohmann::ordered_json calc_json(const CalcCase& given, const ShownValues& outputs);

/// Of `footroom calc --list`: all calculations, or one with its inputs and outputs.
std::string catalogue_page(notation::Style style);
std::string calculation_page(const engine::Calculation& calculation, notation::System system,
                             notation::Style style);
nlohmann::ordered_json catalogue_json(const std::vector<const engine::Calculation*>& listed,
                                      notation::System system, notation::Style style);

}  // namespace footroom::tasks
