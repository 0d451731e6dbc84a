// Formulas: read or refused with a place in the text; one value, finite, however often and however
// the same formula is written; set as mathematics that is well-formed.

#include <fmt/format.h>

#include <cmath>

#include "fuzz/markup.hpp"
#include "fuzz/target.hpp"
#include "notation/formula.hpp"
#include "notation/typeset.hpp"
#include "render/escape.hpp"
#include "render/render.hpp"

namespace footroom::fuzz {
namespace {

using notation::Formula;
using notation::FormulaError;

std::optional<notation::Result> value_of(std::string_view name) {
  using engine::Quantity;
  if (name == "slope-length") return Quantity{engine::dimension::length, 4.8768};
  if (name == "slack") return Quantity{engine::dimension::length, 0};
  if (name == "fall.speed") return Quantity{engine::dimension::speed, 6.2};
  if (name == "pitch") return Quantity{engine::dimension::angle, 0.4636};
  if (name == "force") return Quantity{engine::dimension::force, 4003.4};
  if (name == "mass") return Quantity{engine::dimension::mass, 100};
  if (name == "nails") return Quantity{engine::dimension::ratio, 6};
  if (name == "end") return engine::Word{"below-edge"};
  if (name == "steep") return true;
  return std::nullopt;
}

/// The value as text, or why there is none.
std::string outcome(const Formula& formula, const notation::Lookup& lookup) {
  try {
    const auto result = formula.evaluate(lookup);
    if (const auto* quantity = std::get_if<engine::Quantity>(&result)) {
      require(std::isfinite(quantity->si), "a value is finite");
      return fmt::format("{} {}", quantity->si, notation::dimension_in_words(quantity->dimension));
    }
    if (const auto* word = std::get_if<engine::Word>(&result)) return word->id;
    return std::get<bool>(result) ? "true" : "false";
  } catch (const FormulaError& error) {
    require(error.column >= 1 && *error.what() != '\0', "a refusal names a place and a reason");
    require(static_cast<std::size_t>(error.column) <= formula.text().size() + 1,
            "a refusal names a place within the formula");
    return error.what();
  }
}

void try_typesetting(const Formula& formula) {
  const auto by_name = [](std::string_view name) { return notation::symbol(name); };
  for (const auto language : {engine::Language::english, engine::Language::spanish}) {
    const auto math = notation::typeset(formula, by_name, {language, ','});
    const auto& root = formula.root();
    const bool empty_word = root.kind == notation::Node::Kind::word && root.text.empty();
    require(notation::to_text(math).empty() == empty_word, "a formula has a text");
    const auto markup = read_markup(render::mathml(math));
    require(markup.wrong.empty(), "MathML is well-formed: " + markup.wrong);
  }
}

}  // namespace

void try_input(std::string_view input) {
  try {
    const auto formula = Formula::parse(input);
    const std::string value = outcome(formula, value_of);
    require(value == outcome(formula, value_of), "a formula has one value");
    require(value == outcome(Formula::parse(formula.text()), value_of),
            "a formula reads again as it was read");
    for (const std::string& name : formula.names())
      require(input.find(name) != std::string_view::npos, "names stand in the formula");
    const auto same = formula.rescaled({1, 1});
    require(same.names() == formula.names(), "rescaling keeps the names");
    require(outcome(same, value_of) == value, "rescaling by one keeps the value");
    const auto unknown = [](std::string_view) { return std::nullopt; };
    if (!formula.names().empty()) outcome(formula, unknown);
    // Formulas come out of XML, which holds text alone.
    if (read_markup(render::escape_xml(input)).wrong.empty()) try_typesetting(formula);
  } catch (const FormulaError& error) {
    require(error.column >= 1 && static_cast<std::size_t>(error.column) <= input.size() + 1,
            "a refusal names a place within the formula");
  }
}

}  // namespace footroom::fuzz
