#include "quiz/worked_steps.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "notation/typeset.hpp"

namespace footroom::quiz {
namespace {

using notation::Math;

class Solver {
 public:
  Solver(const CompiledItem& item, const Sample& sample, const std::string& answer)
      : item_(item), sample_(sample), answer_(answer) {
    if (item.answer) asked_ = bare_name(item.answer->formula);
  }

  WorkedSolution work_out() {
    for (const CompiledStep& step : item_.steps) add(step);
    if (item_.answer && asked_.empty())
      solution_.steps.push_back({{}, line("answer", {}, item_.answer->formula, answer_)});
    return std::move(solution_);
  }

 private:
  void add(const CompiledStep& step) {
    at_ = step.step->at;
    const std::string& of = step.step->of;
    std::string says =
        step.says.fill([&](const std::string& name) { return item_.text_of(name, sample_, at_); });
    if (const CompiledLet* let = item_.find_let(of)) return add_let(of, *let, std::move(says));
    const auto dot = of.find('.');
    const CompiledCalculation* calculation = item_.find_calculation(of.substr(0, dot));
    if (calculation && dot != of.npos) return add_output(*calculation, of, std::move(says));
    if (!says.empty()) solution_.steps.push_back({std::move(says), std::nullopt});
    if (calculation) add_calculation(*calculation);
  }

  void add_let(const std::string& name, const CompiledLet& let, std::string says) {
    const std::string result = name == asked_ ? answer_ : item_.text_of(name, sample_, let.let->at);
    solution_.names_shown.push_back(name);
    solution_.steps.push_back(
        {std::move(says), line(name, let.let->symbol, let.value.formula, result)});
  }

  void add_output(const CompiledCalculation& calculation, const std::string& name,
                  std::string says) {
    const std::string output = name.substr(name.find('.') + 1);
    for (const auto& step : calculation.steps)
      if (step.step->output == output && holds(calculation, step))
        return add_step(calculation, step, std::move(says));
    if (!says.empty()) solution_.steps.push_back({std::move(says), std::nullopt});
  }

  /// The steps that hold in this draw, as far as what is asked rests on them.
  void add_calculation(const CompiledCalculation& calculation) {
    std::vector<const CompiledCalculation::Step*> holding;
    for (const auto& step : calculation.steps)
      if (holds(calculation, step)) holding.push_back(&step);
    std::set<std::string, std::less<>> needed = calculation.asked_outputs;
    const bool any_asked = std::any_of(holding.begin(), holding.end(), [&](const auto* step) {
      return needed.contains(step->step->output);
    });
    for (auto step = holding.rbegin(); step != holding.rend(); ++step)
      if (!any_asked || needed.contains((*step)->step->output))
        for (const std::string& used : (*step)->formula.names()) needed.insert(used);
    for (const auto* step : holding)
      if (!any_asked || needed.contains(step->step->output)) add_step(calculation, *step, {});
  }

  void add_step(const CompiledCalculation& calculation, const CompiledCalculation::Step& step,
                std::string says) {
    const std::string output(step.step->output);
    const std::string name = calculation.use->name + "." + output;
    const bool seen = std::find(solution_.names_shown.begin(), solution_.names_shown.end(), name) !=
                      solution_.names_shown.end();
    if (seen && says.empty()) return;
    if (says.empty()) says = item_.text_in_language(step.step->says);
    const auto symbol_of = [&](std::string_view id) { return symbol(calculation, id); };
    const auto number_of = [&](std::string_view id) { return put_in(calculation, id); };
    WorkedStep::Line made{
        name,
        notation::equation(symbol(calculation, output), "=",
                           notation::typeset(step.formula, symbol_of, item_.settings.style)),
        notation::typeset(step.formula, number_of, item_.settings.style),
        name == asked_ ? answer_ : fine_text(name)};
    solution_.steps.push_back({std::move(says), std::move(made)});
    solution_.shown.push_back({calculation.calculation, step.step});
    solution_.names_shown.push_back(name);
  }

  bool holds(const CompiledCalculation& calculation, const CompiledCalculation::Step& step) const {
    if (!step.when) return true;
    const Sample::Run& run = sample_.runs.find(calculation.use->name)->second;
    return step.when->truth([&](std::string_view id) -> std::optional<notation::Result> {
      for (const engine::Values* values : {&run.outputs, &run.inputs}) {
        const auto found = values->find(id);
        if (found == values->end()) continue;
        if (const auto* quantity = std::get_if<engine::Quantity>(&found->second)) return *quantity;
        if (const auto* word = std::get_if<engine::Word>(&found->second)) return *word;
      }
      return std::nullopt;
    });
  }

  // ---- A formula of the item: lets and the answer

  WorkedStep::Line line(const std::string& name, const std::string& symbol_of_name,
                        const notation::Formula& formula, const std::string& result) const {
    const auto symbol_of = [&](std::string_view used) { return symbol(used); };
    const auto number_of = [&](std::string_view used) { return put_in(std::string(used)); };
    Math symbols = notation::typeset(formula, symbol_of, item_.settings.style);
    if (!symbol_of_name.empty())
      symbols = notation::equation(notation::symbol(symbol_of_name), "=", std::move(symbols));
    return {name, std::move(symbols), notation::typeset(formula, number_of, item_.settings.style),
            result};
  }

  Math symbol(std::string_view name) const {
    const Named& named = *item_.find(name);
    if (!named.symbol.empty()) return notation::symbol(named.symbol);
    if (name.starts_with("limit.")) return put_in(std::string(name));
    return {Math::Kind::identifier, named.meaning.empty() ? std::string(name) : named.meaning, {}};
  }

  Math put_in(const std::string& name) const { return notation::number(put_in_text(name)); }

  std::string put_in_text(const std::string& name) const {
    const auto found = sample_.values.find(name);
    const auto* quantity =
        found == sample_.values.end() ? nullptr : std::get_if<engine::Quantity>(&found->second);
    if (quantity && quantity->dimension == engine::dimension::angle)
      return degrees(*quantity, name);
    if (name.find('.') == name.npos || name.starts_with("limit."))
      return item_.text_of(name, sample_, at_);
    return fine_text(name);
  }

  // ---- A formula of a calculation

  Math symbol(const CompiledCalculation& calculation, std::string_view id) const {
    const auto* output = calculation.calculation->find_output(id);
    const auto* input = calculation.calculation->find_input(id);
    const std::string_view symbol = output ? output->symbol : input->symbol;
    if (!symbol.empty()) return notation::symbol(symbol);
    return {Math::Kind::identifier,
            std::string(item_.text_in_language(output ? output->name : input->name)),
            {}};
  }

  Math put_in(const CompiledCalculation& calculation, std::string_view id) const {
    const std::string& use = calculation.use->name;
    if (calculation.calculation->find_output(id)) return put_in(use + "." + std::string(id));
    return notation::number(input_text(calculation, *calculation.calculation->find_input(id)));
  }

  std::string input_text(const CompiledCalculation& calculation, const engine::Input& input) const {
    const std::string name = calculation.use->name + "." + std::string(input.id);
    const auto argument = calculation.arguments.find(input.id);
    const bool given = argument != calculation.arguments.end();
    if (given && !bare_name(argument->second.formula).empty())
      return put_in_text(bare_name(argument->second.formula));
    if (!given && !input.fallback_limit.empty())
      return item_.find_limit(input.fallback_limit)->text;
    const Sample::Run& run = sample_.runs.find(calculation.use->name)->second;
    const engine::Value& value = run.inputs.find(input.id)->second;
    if (const auto* quantity = std::get_if<engine::Quantity>(&value)) {
      if (quantity->dimension == engine::dimension::angle) return degrees(*quantity, name);
      const ShownAs as = fine(item_.shown_as(input.show));
      return shortest_or(item_.number_in(*quantity, *as.unit, name, at_), as, name);
    }
    const auto& word = std::get<engine::Word>(value);
    for (const engine::Choice& choice : input.choices)
      if (choice.id == word.id) return std::string(item_.text_in_language(choice.name));
    return word.id;
  }

  // ---- Numbers

  static ShownAs fine(ShownAs as) {
    const bool whole = as.unit->name.empty() && as.places == 0;
    if (!whole && as.unit->name != "ft-in" && as.places) ++*as.places;
    return as;
  }

  /// An output in the places of a worked step.
  std::string fine_text(const std::string& name) const {
    const Named& named = *item_.find(name);
    const auto found = sample_.values.find(name);
    if (found != sample_.values.end())
      if (const auto* quantity = std::get_if<engine::Quantity>(&found->second)) {
        const ShownAs as = fine(named.shown_as);
        return item_.write(item_.number_in(*quantity, *as.unit, name, at_), as, name, at_);
      }
    return item_.text_of(name, sample_, at_);
  }

  std::string degrees(const engine::Quantity& angle, const std::string& name) const {
    const ShownAs as{notation::find_unit("deg"), 2};
    return shortest_or(as.unit->from_si(angle.si), as, name);
  }

  /// Without trailing zeros where the number is one of few decimals, as a given number is.
  std::string shortest_or(double number, const ShownAs& as, const std::string& name) const {
    double scale = 1;
    for (int i = 0; i < as.places.value_or(0); ++i) scale *= 10;
    const double rounded = std::round(number * scale) / scale;
    if (as.unit->name != "ft-in" && std::abs(number - rounded) <= 1e-9 * std::abs(number))
      return item_.write_anyway(rounded, {as.unit, std::nullopt});
    return item_.write(number, as, name, at_);
  }

  const CompiledItem& item_;
  const Sample& sample_;
  const std::string& answer_;
  std::string asked_;  ///< the name that is asked for, if the answer is one
  bank::Position at_;  ///< of the step being worked out
  WorkedSolution solution_;
};

}  // namespace

std::string bare_name(const notation::Formula& formula) {
  const notation::Node& root = formula.root();
  return root.kind == notation::Node::Kind::name ? root.text : "";
}

WorkedSolution work_out(const CompiledItem& item, const Sample& sample, const std::string& answer) {
  return Solver(item, sample, answer).work_out();
}

}  // namespace footroom::quiz
