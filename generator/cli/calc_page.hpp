#pragma once
// What `footroom calc` prints: a page to read, or JSON.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "cli/calc_case.hpp"

namespace footroom::cli {

/// A step that was taken, with symbols and with the numbers put in.
struct TakenStep {
  std::string output;
  std::string says;
  std::string symbols;  ///< "d_0 = ..."
  std::string numbers;
  std::string result;
};

/// The steps whose condition holds.
std::vector<TakenStep> taken_steps(const CalcCase& given, const ShownValues& outputs);

std::string calc_page(const CalcCase& given, const ShownValues& outputs);
nlohmann::ordered_json calc_json(const CalcCase& given, const ShownValues& outputs);

/// Of `footroom calc --list`: all calculations, or one with its inputs and outputs.
std::string catalogue_page(notation::Style style);
std::string calculation_page(const engine::Calculation& calculation, notation::System system,
                             notation::Style style);
nlohmann::ordered_json catalogue_json(const std::vector<const engine::Calculation*>& listed,
                                      notation::System system, notation::Style style);

}  // namespace footroom::cli
