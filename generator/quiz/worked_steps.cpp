#include "quiz/worked_steps.hpp"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

#include "notation/typeset.hpp"

namespace footroom::quiz {
namespace {

using notation::Math;

/// A value as it stands in a worked step.
struct PutIn {
  std::string text;
  std::optional<notation::Result> value;  ///< what the text says, rounding included
};

class Solver {
 public:
  Solver(const CompiledItem& item, const Sample& sample, const std::optional<NumberAnswer>& answer)
      : item_(item), sample_(sample), answer_(answer) {
    if (item.answer) asked_ = bare_name(item.answer->formula);
  }

  WorkedSolution work_out() {
    for (const CompiledStep& step : item_.steps) add(step);
    if (item_.answer && asked_.empty())
      add_line({}, "answer", {}, item_.answer->formula, answer_->text);
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
    const std::string result =
        name == asked_ ? answer_->text : item_.text_of(name, sample_, let.let->at);
    solution_.names_shown.push_back(name);
    add_line(std::move(says), name, let.let->symbol, let.value.formula, result);
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
        for (const std::string& used : (*step)->formula->names()) needed.insert(used);
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
    if (says.empty() && said_.insert(step.step).second)
      says = item_.text_in_language(step.step->says);
    const auto put_in_here = [&](std::string_view id) { return put_in(calculation, id); };
    if (name == asked_) refuse_if_missed(*step.formula, put_in_here);
    const auto symbol_of = [&](std::string_view id) { return symbol(calculation, id); };
    solution_.steps.push_back(
        {std::move(says),
         WorkedStep::Line{
             name,
             notation::equation(symbol(calculation, output), "=",
                                notation::typeset(*step.formula, symbol_of, item_.settings.style)),
             set_numbers(*step.formula, put_in_here),
             name == asked_ ? answer_->text : fine(name).text}});
    solution_.shown.push_back({calculation.calculation, step.step, step.formula});
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

  template <class Put>
  Math set_numbers(const notation::Formula& formula, const Put& put) const {
    return notation::typeset(
        formula, [&](std::string_view name) { return notation::number(put(name).text); },
        item_.settings.style);
  }

  /// Works the last line out with the numbers that stand in it.
  template <class Put>
  void refuse_if_missed(const notation::Formula& formula, const Put& put) const {
    const auto shown = [&](std::string_view name) { return put(name).value; };
    const engine::Quantity worked_out = formula.quantity(shown);
    const notation::Unit& unit = *notation::find_unit(answer_->unit);
    if (!(std::abs(unit.from_si(worked_out.si) - answer_->number) <= answer_->tolerance))
      throw ThrownAway(at_, "the numbers in the worked steps are rounded too much for the answer");
  }

  // ---- A formula of the item: lets and the answer

  void add_line(std::string says, const std::string& name, const std::string& symbol_of_name,
                const notation::Formula& formula, const std::string& result) {
    const auto put_in_here = [&](std::string_view used) { return put_in(std::string(used)); };
    if (name == asked_ || name == "answer") refuse_if_missed(formula, put_in_here);
    Math symbols = notation::typeset(
        formula, [&](std::string_view used) { return symbol(used); }, item_.settings.style);
    if (!symbol_of_name.empty())
      symbols = notation::equation(notation::symbol(symbol_of_name), "=", std::move(symbols));
    solution_.steps.push_back(
        {std::move(says),
         WorkedStep::Line{name, std::move(symbols), set_numbers(formula, put_in_here), result}});
  }

  Math symbol(std::string_view name) const {
    const Named& named = *item_.find(name);
    if (!named.symbol.empty()) return notation::symbol(named.symbol);
    if (name.starts_with("limit.")) return notation::number(put_in(std::string(name)).text);
    return {Math::Kind::identifier, named.meaning.empty() ? std::string(name) : named.meaning, {}};
  }

  PutIn put_in(const std::string& name) const {
    const auto found = sample_.values.find(name);
    const auto* quantity =
        found == sample_.values.end() ? nullptr : std::get_if<engine::Quantity>(&found->second);
    if (!quantity) {
      std::optional<notation::Result> value;
      if (found != sample_.values.end()) value = found->second;
      return {item_.text_of(name, sample_, at_), value};
    }
    if (quantity->dimension == engine::dimension::angle) return degrees(*quantity, name);
    if (item_.find_let(name)) {
      const ShownAs as = item_.find(name)->shown_as;
      return {item_.text_of(name, sample_, at_), rounded(*quantity, as, name)};
    }
    if (name.find('.') == name.npos || name.starts_with("limit."))
      return {item_.text_of(name, sample_, at_), *quantity};
    return fine(name);
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

  PutIn put_in(const CompiledCalculation& calculation, std::string_view id) const {
    const std::string name = calculation.use->name + "." + std::string(id);
    if (calculation.calculation->find_output(id)) return put_in(name);
    const engine::Input& input = *calculation.calculation->find_input(id);
    const auto argument = calculation.arguments.find(id);
    const bool given = argument != calculation.arguments.end();
    if (given && !bare_name(argument->second.formula).empty())
      return put_in(bare_name(argument->second.formula));
    const Sample::Run& run = sample_.runs.find(calculation.use->name)->second;
    const engine::Value& value = run.inputs.find(id)->second;
    if (const auto* quantity = std::get_if<engine::Quantity>(&value)) {
      if (!given && !input.fallback_limit.empty())
        return {item_.find_limit(input.fallback_limit)->text, *quantity};
      if (quantity->dimension == engine::dimension::angle) return degrees(*quantity, name);
      return write(*quantity, one_place_more(item_.shown_as(input.show)), name);
    }
    const auto& word = std::get<engine::Word>(value);
    for (const engine::Choice& choice : input.choices)
      if (choice.id == word.id) return {std::string(item_.text_in_language(choice.name)), word};
    return {word.id, word};
  }

  // ---- Numbers

  static ShownAs one_place_more(ShownAs as) {
    const bool whole = as.unit->name.empty() && as.places == 0;
    if (!whole && as.unit->name != "ft-in" && as.places) ++*as.places;
    return as;
  }

  /// An output as worked steps show it.
  PutIn fine(const std::string& name) const {
    const auto found = sample_.values.find(name);
    if (found != sample_.values.end())
      if (const auto* quantity = std::get_if<engine::Quantity>(&found->second))
        return write(*quantity, one_place_more(item_.find(name)->shown_as), name);
    return {item_.text_of(name, sample_, at_), std::nullopt};
  }

  PutIn degrees(const engine::Quantity& angle, const std::string& name) const {
    return write(angle, {notation::find_unit("deg"), 2}, name);
  }

  /// Without trailing zeros where the number is whole in fewer places, as a given number is.
  PutIn write(const engine::Quantity& quantity, const ShownAs& as, const std::string& name) const {
    const engine::Quantity value = rounded(quantity, as, name);
    const double number = item_.number_in(quantity, *as.unit, name, at_);
    const double shown = as.unit->from_si(value.si);
    if (as.unit->name != "ft-in" && std::abs(number - shown) <= 1e-9 * std::abs(number))
      return {item_.write_anyway(shown, {as.unit, std::nullopt}), value};
    return {item_.write(number, as, name, at_), value};
  }

  /// The quantity that a text with these places says.
  engine::Quantity rounded(const engine::Quantity& quantity, const ShownAs& as,
                           const std::string& name) const {
    const double place = last_place(*as.unit, as.places.value_or(0));
    const double number = item_.number_in(quantity, *as.unit, name, at_);
    return {quantity.dimension, as.unit->to_si(std::round(number / place) * place)};
  }

  const CompiledItem& item_;
  const Sample& sample_;
  const std::optional<NumberAnswer>& answer_;
  std::string asked_;  ///< the name that is asked for, if the answer is one
  bank::Position at_;  ///< of the step being worked out
  std::set<const engine::Step*> said_;
  WorkedSolution solution_;
};

}  // namespace

std::string bare_name(const notation::Formula& formula) {
  const notation::Node& root = formula.root();
  return root.kind == notation::Node::Kind::name ? root.text : "";
}

WorkedSolution work_out(const CompiledItem& item, const Sample& sample,
                        const std::optional<NumberAnswer>& answer) {
  return Solver(item, sample, answer).work_out();
}

}  // namespace footroom::quiz
