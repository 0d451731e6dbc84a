#include "quiz/reference_box.hpp"

#include <algorithm>
#include <set>
#include <utility>
#include <variant>

namespace footroom::quiz {
namespace {

struct Described {
  std::string_view symbol;
  std::string_view name;
};

Described describe(const engine::Calculation& calculation, std::string_view id,
                   engine::Language language) {
  if (const auto* output = calculation.find_output(id))
    return {output->symbol, output->name.in(language)};
  const auto* input = calculation.find_input(id);
  return {input->symbol, input->name.in(language)};
}

class Box {
 public:
  explicit Box(const Settings& settings) : settings_(settings) {}

  void add(const StepShown& shown) {
    const engine::Calculation& calculation = *shown.calculation;
    const notation::Formula& formula = *shown.formula;
    const auto set_name = [&](std::string_view id) { return symbol(calculation, id); };
    notation::Math line = notation::equation(set_name(shown.step->output), "=",
                                             notation::typeset(formula, set_name, settings_.style));
    if (!formulas_.insert(notation::to_text(line)).second) return;
    group(calculation).lines.push_back({std::move(line)});
    add_symbol(calculation, shown.step->output);
    for (const std::string& name : formula.names()) add_symbol(calculation, name);
  }

  void add(const LimitLine& limit) {
    const auto& all = box_.limits;
    if (std::none_of(all.begin(), all.end(), [&](const auto& l) { return l.id == limit.id; }))
      box_.limits.push_back(limit);
  }

  ReferenceBox take() { return std::move(box_); }

 private:
  notation::Math symbol(const engine::Calculation& calculation, std::string_view id) const {
    const auto [symbol, name] = describe(calculation, id, settings_.style.language);
    if (!symbol.empty()) return notation::symbol(symbol);
    return {notation::Math::Kind::identifier, std::string(name), {}};
  }

  void add_symbol(const engine::Calculation& calculation, std::string_view id) {
    const auto [symbol, name] = describe(calculation, id, settings_.style.language);
    if (symbol.empty() || !symbols_.emplace(calculation.id, id).second) return;
    group(calculation).symbols.push_back({notation::symbol(symbol), std::string(name)});
  }

  FormulaGroup& group(const engine::Calculation& calculation) {
    const std::string title(calculation.title.in(settings_.style.language));
    for (FormulaGroup& one : box_.formulas)
      if (one.title == title) return one;
    box_.formulas.push_back({title, {}, {}});
    return box_.formulas.back();
  }

  const Settings& settings_;
  ReferenceBox box_;
  std::set<std::string> formulas_;
  std::set<std::pair<std::string_view, std::string>> symbols_;  ///< calculation and name
};

}  // namespace

std::vector<LimitLine> limits_told(const Question& question) {
  const bool reckons = std::any_of(
      question.givens.begin(), question.givens.end(),
      [](const Shown& given) { return std::holds_alternative<engine::Quantity>(given.value); });
  return reckons ? question.limits : std::vector<LimitLine>{};
}

ReferenceBox make_reference_box(const std::vector<Made>& questions, const Settings& settings) {
  Box box(settings);
  for (const Made& made : questions) {
    for (const StepShown& shown : made.steps) box.add(shown);
    for (const LimitLine& limit : limits_told(made.question)) box.add(limit);
  }
  return box.take();
}

}  // namespace footroom::quiz
