#include "tasks/manual.hpp"

#include "notation/formula.hpp"
#include "tasks/calc_page.hpp"
#include "tasks/examples.hpp"
#include "tasks/text.hpp"

namespace footroom::tasks {
namespace {

using engine::Calculation;

std::optional<notation::Math> symbol_of(std::string_view symbol) {
  if (symbol.empty()) return std::nullopt;
  return notation::symbol(symbol);
}

/// The unit without the space before it; what is not a quantity has none.
std::string unit_name(const engine::Show& show, const CalcCase& given) {
  const auto* unit = notation::find_unit(given.system == notation::System::us ? show.us : show.si);
  if (!unit) return {};
  std::string name = plain(std::string(unit->printed.in(given.style.language)));
  return name.substr(std::min(name.find_first_not_of(' '), name.size()));
}

template <class Entry>
render::ManualQuantity quantity(const Entry& entry, const CalcCase& given,
                                const ShownValues& values) {
  return {std::string(entry.id),
          symbol_of(entry.symbol),
          std::string(entry.name.in(given.style.language)),
          unit_name(entry.show, given),
          {},
          values.find(entry.id)->second.text};
}

std::string command(const Calculation& calculation, const std::vector<std::string>& words,
                    notation::System system) {
  std::string text = "footroom calc " + std::string(calculation.id);
  for (const std::string& word : words) {
    const auto equals = word.find('=') + 1;
    const bool spaces = word.find(' ') != std::string::npos;
    text += " " + (spaces ? word.substr(0, equals) + "\"" + word.substr(equals) + "\"" : word);
  }
  return text + (system == notation::System::si ? " --units si" : "");
}

render::ManualEntry entry(const Calculation& calculation, const bank::RuleSet& rules,
                          notation::System system, notation::Style style) {
  const auto words = example_words(calculation.id, system);
  const CalcCase given =
      read_case(calculation, words, system, style, [&]() -> const bank::RuleSet& { return rules; });
  const ShownValues outputs = run_case(given);
  const auto say = [&](engine::Text text) { return std::string(text.in(style.language)); };

  render::ManualEntry made;
  made.id = calculation.id;
  made.title = say(calculation.title);
  made.purpose = say(calculation.purpose);
  made.command = command(calculation, words, system);
  made.drawing = drawing_of(given, outputs);
  for (const auto& input : calculation.inputs) {
    made.inputs.push_back(quantity(input, given, given.inputs));
    made.inputs.back().accepts = plain(accepted_text(input, system, style));
  }
  for (const auto& output : calculation.outputs)
    made.outputs.push_back(quantity(output, given, outputs));
  const auto set_name = [&](std::string_view name) {
    return name_in_formula(calculation, name, style);
  };
  for (const auto& step : calculation.steps) {
    render::ManualStep one{say(step.says), equation_of(calculation, step, style), {}};
    if (!step.when.empty())
      one.when = notation::typeset(notation::Formula::parse(step.when), set_name, style);
    made.steps.push_back(std::move(one));
  }
  for (const auto& step : taken_steps(given, outputs))
    made.example_steps.push_back(
        notation::equation(notation::equation(set_name(step.output), "=", step.numbers_set), "=",
                           notation::number(step.result)));
  for (const auto& source : cited(given))
    made.sources.push_back({source.citation, say(status_text(source.status)), source.supports});
  for (const auto& caution : calculation.cautions) made.cautions.push_back(say(caution));
  return made;
}

}  // namespace

render::Manual make_manual(const bank::RuleSet& rules, notation::System system,
                           notation::Style style, const Told& worked_out) {
  render::Manual manual{style.language, in_language(rules.title, style.language), {}};
  for (const auto* calculation : engine::catalogue()) {
    manual.entries.push_back(entry(*calculation, rules, system, style));
    worked_out(manual.entries.size());
  }
  return manual;
}

}  // namespace footroom::tasks
