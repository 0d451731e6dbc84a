// A calculation by its name, in the first line, and its inputs as on the command line, one a line:
// refused with a reason, or worked out to finite numbers with steps, the same each time.

#include <cmath>
#include <nlohmann/json.hpp>

#include "fuzz/bank_files.hpp"
#include "fuzz/target.hpp"
#include "tasks/calc_case.hpp"
#include "tasks/calc_page.hpp"
#include "tasks/failure.hpp"

namespace footroom::fuzz {
namespace {

void check(const std::string& name, const engine::Value& value) {
  const auto finite = [&](const engine::Quantity& quantity) {
    require(std::isfinite(quantity.si), name + " is finite");
  };
  if (const auto* quantity = std::get_if<engine::Quantity>(&value)) finite(*quantity);
  if (const auto* list = std::get_if<engine::Quantities>(&value))
    for (const auto& one : *list) finite(one);
}

/// What the program prints, or why it refuses.
std::string answer(const engine::Calculation& calculation, const std::vector<std::string>& words,
                   notation::System system, notation::Style style) {
  try {
    const auto given = tasks::read_case(calculation, words, system, style, [] {
      return std::cref(the_bank().rules.at("us-construction"));
    });
    const auto outputs = tasks::run_case(given);
    for (const auto& [name, shown] : outputs) check(name, shown.value);
    const auto json = tasks::calc_json(given, outputs);
    require(nlohmann::ordered_json::parse(json.dump()) == json, "JSON reads as it was written");
    return tasks::calc_page(given, outputs) + json.dump();
  } catch (const tasks::Failure& failure) {
    require(*failure.what() != '\0', "a refusal has a reason");
    return failure.what();
  }
}

}  // namespace

void try_input(std::string_view input) {
  if (input.find('\0') != std::string_view::npos) return;  // no command line holds one
  const auto* calculation = engine::find_calculation(take_line(input));
  if (!calculation) return;
  std::vector<std::string> words;
  while (!input.empty() && words.size() < 50) words.emplace_back(take_line(input));
  const std::string once = answer(*calculation, words, notation::System::us, {});
  require(once == answer(*calculation, words, notation::System::us, {}),
          "a calculation gives the same each time");
  answer(*calculation, words, notation::System::si, {engine::Language::spanish, ','});
}

}  // namespace footroom::fuzz
