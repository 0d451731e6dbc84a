#include "quiz/compiled_item.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/word_list.hpp"

namespace footroom::quiz {
namespace {

std::string expected_or_near(std::string_view misspelt, const std::vector<std::string>& names,
                             std::string_view otherwise) {
  const auto near = notation::suggest(misspelt, names);
  return near ? fmt::format("; did you mean \"{}\"?", *near)
              : fmt::format(", expected {}", otherwise);
}

template <class Entries>
std::vector<std::string> ids_of(const Entries& entries) {
  std::vector<std::string> ids;
  for (const auto& entry : entries) ids.emplace_back(entry.id);
  return ids;
}

/// Formulas have no lists: one word holds the words of a list, with blanks between.
engine::Value to_value(const notation::Result& result, const engine::Input& input,
                       const Expression& from) {
  if (const auto* quantity = std::get_if<engine::Quantity>(&result)) return *quantity;
  if (const auto* word = std::get_if<engine::Word>(&result)) {
    if (!input.word_example.empty()) return engine::split_words(word->id);
    return *word;
  }
  throw CannotMake(from.at, fmt::format("\"{}\" is a truth, expected a quantity or a word",
                                        from.formula.text()));
}

std::optional<notation::Result> to_result(const engine::Value& value) {
  if (const auto* quantity = std::get_if<engine::Quantity>(&value)) return *quantity;
  if (const auto* word = std::get_if<engine::Word>(&value)) return *word;
  return std::nullopt;  // formulas have no lists
}

/// Runs a part of a formula's evaluation; what is wrong gets file and line.
template <class Evaluate>
auto at_its_line(const Expression& expression, Evaluate evaluate) {
  try {
    return evaluate(expression.formula);
  } catch (const notation::FormulaError& error) {
    throw CannotMake(expression.at, fmt::format("\"{}\", column {}: {}", expression.formula.text(),
                                                error.column, error.what()));
  }
}

std::map<std::string, std::string, std::less<>> words_of(const std::vector<engine::Choice>& choices,
                                                         engine::Language language) {
  std::map<std::string, std::string, std::less<>> words;
  for (const engine::Choice& choice : choices) words.emplace(choice.id, choice.name.in(language));
  return words;
}

/// A number with a unit other than an angle's or none; zero is zero in all units.
bool has_constant(const notation::Node& node) {
  using NodeKind = notation::Node::Kind;
  if (node.kind == NodeKind::number && node.quantity.si != 0)
    return notation::Rescaling{2, 3}.factor(node.quantity.dimension) != 1;
  if (node.kind == NodeKind::call && node.text == "number-of") return true;
  return std::any_of(node.operands.begin(), node.operands.end(), has_constant);
}

engine::Value converted(engine::Value value, const notation::Rescaling& by) {
  const auto convert = [&](engine::Quantity& quantity) {
    quantity.si *= by.factor(quantity.dimension);
  };
  if (auto* quantity = std::get_if<engine::Quantity>(&value)) convert(*quantity);
  if (auto* quantities = std::get_if<engine::Quantities>(&value))
    for (engine::Quantity& quantity : *quantities) convert(quantity);
  return value;
}

}  // namespace

double last_place(const notation::Unit& unit, int places) {
  if (unit.name == "ft-in") return places == 0 ? 1.0 / 12 : 1.0 / 96;
  double scale = 1;
  for (int i = 0; i < places; ++i) scale *= 10;
  return 1 / scale;
}

notation::Lookup Sample::lookup() const {
  return [this](std::string_view name) -> std::optional<notation::Result> {
    const auto found = values.find(name);
    if (found == values.end()) return std::nullopt;
    return found->second;
  };
}

void Tally::add(const ThrownAway& thrown) {
  Entry& entry = reasons[thrown.what()];
  if (entry.count++ == 0) entry.at = thrown.at;
}

// ---- Compiling ---------------------------------------------------------------------------------

CompiledItem::CompiledItem(const bank::Bank& bank, const bank::Item& of_item,
                           const Settings& with_settings)
    : item(of_item), settings(with_settings) {
  for (const bank::Topic& topic : bank.topics)
    if (topic.id == item.topic) topic_title = text_in_language(topic.title);
  add_draws_and_picks(bank);
  add_limits(bank);
  for (const auto& derivation : item.derivations) {
    if (derivation.calculation) add_calculation(*derivation.calculation);
    if (derivation.let) add_let(*derivation.let);
  }
  add_keeps();
  add_asked();
  note_what_is_asked();
}

void CompiledItem::name(const std::string& name, Named named) {
  named_.emplace(name, std::move(named));
  names_.push_back(name);
}

const std::string& CompiledItem::text_in_language(const bank::Text& text) const {
  return settings.style.language == engine::Language::english ? text.english : text.spanish;
}

const notation::Unit* CompiledItem::unit(const std::string& name, const bank::Position& at) const {
  const notation::Unit* found = notation::find_unit(name);
  if (found) return found;
  const auto near = notation::suggest_unit(name);
  throw CannotMake(at, fmt::format("unknown unit \"{}\"{}", name,
                                   near ? fmt::format("; did you mean \"{}\"?", *near) : ""));
}

void CompiledItem::add_draws_and_picks(const bank::Bank& bank) {
  for (const bank::Draw& draw : item.draws) {
    const bank::Grid& grid = is_us() ? draw.us : draw.si;
    draw_units.push_back(unit(grid.unit, grid.at));
    name(draw.name, {draw.symbol, text_in_language(draw.meaning), {draw_units.back(), {}}, {}});
  }
  for (const bank::Pick& pick : item.picks) {
    const std::vector<bank::PickChoice>* choices = &pick.choices;
    if (!pick.pool.empty()) {
      const auto pool = bank.pools.find(pick.pool);
      if (pool == bank.pools.end())
        throw CannotMake(pick.at,
                         fmt::format("unknown pool \"{}\", expected a file in pools/", pick.pool));
      choices = &pool->second.choices;
      const auto same_pool = std::count_if(item.picks.begin(), item.picks.end(),
                                           [&](const auto& p) { return p.pool == pick.pool; });
      if (static_cast<std::size_t>(same_pool) > choices->size())
        throw CannotMake(pick.at, fmt::format("{} picks from the pool \"{}\", which has {} choices",
                                              same_pool, pick.pool, choices->size()));
    }
    pick_choices.push_back(choices);
    Named named;
    for (const bank::PickChoice& choice : *choices)
      named.words.emplace(choice.id, text_in_language(choice.text));
    name(pick.name, std::move(named));
  }
}

void CompiledItem::add_limits(const bank::Bank& bank) {
  for (const std::string& id : limits_needed(item)) {
    auto limit = limit_in_force(bank, item, settings, id);
    if (const auto* defect = std::get_if<bank::Defect>(&limit))
      throw CannotMake(defect->at, defect->message);
    limits.emplace(id, std::get<LimitInForce>(limit));
  }
  for (const std::string& id : item.limits) {
    const LimitInForce& limit = limits.at(id);
    name("limit." + id, {{}, text_in_language(limit.published->name), {limit.value.unit, {}}, {}});
  }
}

Expression CompiledItem::compile(const bank::FormulaText& text) const {
  try {
    Expression made{notation::Formula::parse(text.text), text.at};
    for (const std::string& used : made.formula.names()) {
      if (named_.contains(used)) continue;
      if (used.starts_with("limit."))
        throw CannotMake(text.at, fmt::format("\"{}\" is not declared, expected "
                                              "<limit name=\"{}\"/> before",
                                              used, used.substr(6)));
      throw CannotMake(text.at, fmt::format("unknown name \"{}\" in \"{}\"{}", used, text.text,
                                            expected_or_near(used, names_, "a name given before")));
    }
    check_words(made.formula.root(), text.at);
    return made;
  } catch (const notation::FormulaError& error) {
    throw CannotMake(text.at,
                     fmt::format("\"{}\", column {}: {}", text.text, error.column, error.what()));
  }
}

TemplateText CompiledItem::compile(const bank::Text& text) const {
  return {text_in_language(text), text.at, names_};
}

/// A misspelt word would compare unequal for ever, silently.
void CompiledItem::check_words(const notation::Node& node, const bank::Position& at) const {
  using NodeKind = notation::Node::Kind;
  if (node.kind == NodeKind::equal || node.kind == NodeKind::not_equal) {
    for (const std::size_t side : {std::size_t{0}, std::size_t{1}}) {
      const notation::Node& name = node.operands[side];
      const notation::Node& word = node.operands[1 - side];
      if (name.kind != NodeKind::name || word.kind != NodeKind::word) continue;
      const auto& words = find(name.text)->words;
      if (words.contains(word.text)) continue;
      std::vector<std::string> ids;
      for (const auto& [id, text] : words) ids.push_back(id);
      throw CannotMake(at, fmt::format("\"{}\" is never \"{}\"{}", name.text, word.text,
                                       expected_or_near(word.text, ids, "one of its words")));
    }
  }
  for (const notation::Node& operand : node.operands) check_words(operand, at);
}

void CompiledItem::add_calculation(const bank::CalculationUse& use) {
  CompiledCalculation made;
  made.use = &use;
  made.calculation = engine::find_calculation(use.calculation);
  if (!made.calculation) {
    std::vector<std::string> ids;
    for (const auto* one : engine::catalogue()) ids.emplace_back(one->id);
    throw CannotMake(
        use.at, fmt::format("unknown calculation \"{}\"{}", use.calculation,
                            expected_or_near(use.calculation, ids, "one of footroom calc --list")));
  }
  const engine::Calculation& calculation = *made.calculation;
  for (const bank::Argument& argument : use.arguments) {
    if (!calculation.find_input(argument.input))
      throw CannotMake(argument.at,
                       fmt::format("\"{}\" has no input \"{}\"{}", use.calculation, argument.input,
                                   expected_or_near(argument.input, ids_of(calculation.inputs),
                                                    "one of its inputs")));
    made.arguments.emplace(argument.input, compile(argument.value));
  }
  for (const engine::Input& input : calculation.inputs)
    if (!input.fallback && input.fallback_limit.empty() && !made.arguments.contains(input.id))
      throw CannotMake(use.at,
                       fmt::format("\"{}\" lacks the input \"{}\"", use.calculation, input.id));
  for (const engine::Step& step : calculation.steps)
    made.steps.push_back(
        {&step, std::make_shared<notation::Formula>(notation::Formula::parse(step.formula)),
         step.when.empty() ? std::nullopt : std::optional(notation::Formula::parse(step.when))});
  made.has_constants = std::any_of(made.steps.begin(), made.steps.end(), [](const auto& step) {
    return has_constant(step.formula->root()) || (step.when && has_constant(step.when->root()));
  });
  for (const engine::Output& output : calculation.outputs)
    name(use.name + "." + std::string(output.id),
         {std::string(output.symbol), std::string(text_in_language(output.name)),
          output.choices.empty() ? shown_as(output.show) : ShownAs{},
          words_of(output.choices, settings.style.language)});
  calculations.emplace(use.name, std::move(made));
}

ShownAs CompiledItem::shown_as(const engine::Show& show) const {
  const notation::Unit* found = notation::find_unit(is_us() ? show.us : show.si);
  return {found, is_us() ? show.us_places : show.si_places};
}

void CompiledItem::add_let(const bank::Let& let) {
  lets.emplace(let.name, CompiledLet{&let, compile(let.value)});
  const bank::Shown& shown = is_us() ? let.us : let.si;
  name(let.name,
       {let.symbol, text_in_language(let.meaning), {unit(shown.unit, let.at), shown.places}, {}});
}

/// A condition is tried as soon as what it names is known, so that it can guard what comes after.
void CompiledItem::add_keeps() {
  for (const bank::FormulaText& text : item.keeps) {
    Keep keep{compile(text), 0};
    for (const std::string& used : keep.condition.formula.names())
      for (std::size_t i = 0; i < item.derivations.size(); ++i) {
        const auto& [calculation, let] = item.derivations[i];
        if (calculation ? used.starts_with(calculation->name + ".") : used == let->name)
          keep.after = std::max(keep.after, i + 1);
      }
    keeps_.push_back(std::move(keep));
  }
}

void CompiledItem::check_change(const bank::Mistake& mistake) const {
  const std::string& change = mistake.change;
  std::vector<std::string> changeable;
  for (const bank::Draw& draw : item.draws) changeable.push_back(draw.name);
  for (const auto& [let_name, let] : lets) changeable.push_back(let_name);
  for (const auto& [use, compiled] : calculations)
    for (const engine::Input& input : compiled.calculation->inputs)
      changeable.push_back(use + "." + std::string(input.id));
  if (std::find(changeable.begin(), changeable.end(), change) == changeable.end())
    throw CannotMake(
        mistake.at, fmt::format("change=\"{}\"{}", change,
                                expected_or_near(change, changeable, "a draw, a let or an input")));
}

void CompiledItem::add_asked() {
  title = compile(item.title);
  stem = compile(item.stem);
  if (item.answer) {
    answer = compile(item.answer->value);
    const bank::Shown& shown = is_us() ? item.answer->us : item.answer->si;
    const double half = last_place(*unit(shown.unit, item.answer->at), shown.places) / 2;
    if (shown.tolerance && *shown.tolerance < half)
      throw CannotMake(item.answer->at,
                       fmt::format("the tolerance {} is less than half of the last place shown, "
                                   "expected {} or more",
                                   *shown.tolerance, half));
  }
  for (const bank::Mistake& mistake : item.mistakes) {
    if (!mistake.change.empty()) check_change(mistake);
    mistakes.push_back(
        {&mistake, compile(mistake.value ? *mistake.value : *mistake.to), compile(mistake.says)});
  }
  const auto compile_optional = [&](const std::optional<bank::FormulaText>& text) {
    return text ? std::optional(compile(*text)) : std::nullopt;
  };
  for (const bank::Option& option : item.options) {
    CompiledOption made{&option,
                        {},
                        compile_optional(option.rank),
                        compile_optional(option.when),
                        compile(option.text),
                        compile(option.says)};
    if (item.kind != bank::Kind::order) made.right = compile(option.right);
    options.push_back(std::move(made));
  }
  for (const bank::Step& step : item.steps) {
    const bool known = step.of.empty() || find(step.of) || find_calculation(step.of);
    if (!known || (find(step.of) && !find_let(step.of) && step.of.find('.') == step.of.npos)) {
      std::vector<std::string> steppable;
      for (const auto& [use, compiled] : calculations) steppable.push_back(use);
      for (const auto& [let_name, let] : lets) steppable.push_back(let_name);
      throw CannotMake(step.at, fmt::format("step of=\"{}\"{}", step.of,
                                            expected_or_near(step.of, steppable,
                                                             "a calculation, one of its outputs "
                                                             "or a let")));
    }
    steps.push_back({&step, compile(step.text)});
  }
  if (!item.figure_of.empty() && !find_calculation(item.figure_of))
    throw CannotMake(item.at, fmt::format("figure of=\"{}\", expected a calculation of this item",
                                          item.figure_of));
}

/// Follows the names from the answer (or the options) back through lets and inputs.
void CompiledItem::note_what_is_asked() {
  std::vector<std::string> open;
  const auto add = [&](const std::vector<std::string>& more) {
    open.insert(open.end(), more.begin(), more.end());
  };
  if (answer) add(answer->formula.names());
  for (const CompiledOption& option : options) {
    if (option.right) add(option.right->formula.names());
    if (option.rank) add(option.rank->formula.names());
    add(option.text.names());
  }
  std::set<std::string, std::less<>> seen;
  while (!open.empty()) {
    const std::string name = open.back();
    open.pop_back();
    if (!seen.insert(name).second) continue;
    if (const CompiledLet* let = find_let(name)) add(let->value.formula.names());
    const auto dot = name.find('.');
    const auto use = calculations.find(name.substr(0, dot));
    if (dot == name.npos || use == calculations.end()) continue;
    use->second.asked_outputs.insert(name.substr(dot + 1));
    for (const auto& [input, argument] : use->second.arguments) add(argument.formula.names());
  }
}

const Named* CompiledItem::find(std::string_view name) const {
  const auto found = named_.find(name);
  return found == named_.end() ? nullptr : &found->second;
}
Named CompiledItem::named(const engine::Input& input) const {
  const bool has_words = !input.choices.empty() || !input.word_example.empty();
  return {std::string(input.symbol), std::string(text_in_language(input.name)),
          has_words ? ShownAs{} : shown_as(input.show),
          words_of(input.choices, settings.style.language)};
}
const CompiledCalculation* CompiledItem::find_calculation(std::string_view name) const {
  const auto found = calculations.find(name);
  return found == calculations.end() ? nullptr : &found->second;
}
const CompiledLet* CompiledItem::find_let(std::string_view name) const {
  const auto found = lets.find(name);
  return found == lets.end() ? nullptr : &found->second;
}
const LimitInForce* CompiledItem::find_limit(std::string_view id) const {
  const auto found = limits.find(id);
  return found == limits.end() ? nullptr : &found->second;
}

// ---- Evaluating --------------------------------------------------------------------------------

Drawn CompiledItem::draw(draw::Stream& stream) const {
  Drawn drawn;
  for (const bank::Draw& draw : item.draws) {
    const bank::Grid& grid = is_us() ? draw.us : draw.si;
    const std::uint32_t points = draw::grid_points(grid.from, grid.to, grid.step);
    drawn.numbers.push_back(draw::grid_point(grid.from, grid.step, stream.below(points)));
  }
  for (std::size_t i = 0; i < item.picks.size(); ++i) {
    const auto count = static_cast<std::uint32_t>(pick_choices[i]->size());
    std::set<std::uint32_t> taken;
    for (std::size_t before = 0; before < i; ++before)
      if (!item.picks[i].pool.empty() && item.picks[before].pool == item.picks[i].pool)
        taken.insert(drawn.picks[before]);
    std::uint32_t choice = stream.below(count - static_cast<std::uint32_t>(taken.size()));
    for (const std::uint32_t one : taken)
      if (one <= choice) ++choice;
    drawn.picks.push_back(choice);
  }
  return drawn;
}

Sample CompiledItem::evaluate(const Drawn& drawn, const Change* change) const {
  Sample sample;
  const auto set = [&](const std::string& name, const notation::Result& value) {
    sample.values.insert_or_assign(name, change && change->name == name ? change->to : value);
  };
  for (std::size_t i = 0; i < item.draws.size(); ++i)
    set(item.draws[i].name,
        in_scale({draw_units[i]->dimension, draw_units[i]->to_si(drawn.numbers[i])}));
  for (std::size_t i = 0; i < item.picks.size(); ++i)
    set(item.picks[i].name, engine::Word{(*pick_choices[i])[drawn.picks[i]].id});
  for (const std::string& id : item.limits)
    set("limit." + id, in_scale(limits.at(id).value.quantity));

  const auto refuse_unkept = [&](std::size_t derived) {
    if (change) return;
    for (const Keep& keep : keeps_)
      if (keep.after == derived && !truth(keep.condition, sample))
        throw ThrownAway(keep.condition.at, fmt::format("the condition \"{}\" does not hold",
                                                        keep.condition.formula.text()));
  };
  refuse_unkept(0);
  for (std::size_t i = 0; i < item.derivations.size(); ++i) {
    const auto& [calculation, let] = item.derivations[i];
    if (calculation) run(calculations.at(calculation->name), sample, change);
    if (let) set(let->name, result(lets.at(let->name).value, sample));
    refuse_unkept(i + 1);
  }
  return sample;
}

void CompiledItem::run(const CompiledCalculation& compiled, Sample& sample,
                       const Change* change) const {
  const std::string& use = compiled.use->name;
  const std::string of_use = use + ".";
  Sample::Run run;
  for (const engine::Input& input : compiled.calculation->inputs) {
    const std::string id(input.id);
    const auto argument = compiled.arguments.find(id);
    if (change && change->name == of_use + id)
      run.inputs.emplace(id, to_value(change->to, input, change->formula));
    else if (argument != compiled.arguments.end())
      run.inputs.emplace(id, to_value(result(argument->second, sample), input, argument->second));
    else if (!input.fallback_limit.empty())
      run.inputs.emplace(id, in_scale(find_limit(input.fallback_limit)->value.quantity));
    else
      run.inputs.emplace(id, converted(*input.fallback, scale_));
  }
  try {
    run.outputs = run_in_scale(compiled, run.inputs);
  } catch (const engine::Refusal& refusal) {
    throw ThrownAway(
        compiled.use->at,
        fmt::format("the calculation \"{}\" refuses its input \"{}\"", use, refusal.quantity));
  }
  for (const auto& [id, value] : run.outputs)
    if (auto single = to_result(value)) sample.values.insert_or_assign(of_use + id, *single);
  sample.runs.insert_or_assign(use, std::move(run));
}

engine::Quantity CompiledItem::in_scale(const engine::Quantity& quantity) const {
  return {quantity.dimension, quantity.si * scale_.factor(quantity.dimension)};
}

engine::Values CompiledItem::run_in_scale(const CompiledCalculation& compiled,
                                          const engine::Values& inputs) const {
  if (!compiled.has_constants || scale_ == notation::Rescaling{})
    return compiled.calculation->run(inputs);
  const notation::Rescaling back{1 / scale_.length, 1 / scale_.mass};
  engine::Values unscaled = inputs;
  for (auto& [id, value] : unscaled) value = converted(std::move(value), back);
  engine::Values outputs = compiled.calculation->run(unscaled);
  for (auto& [id, value] : outputs) value = converted(std::move(value), scale_);
  return outputs;
}

CompiledItem CompiledItem::rescaled(const notation::Rescaling& by) const {
  CompiledItem made = *this;
  made.scale_ = by;
  const auto convert = [&](Expression& expression) {
    expression.formula = expression.formula.rescaled(by);
  };
  for (auto& [use, compiled] : made.calculations)
    for (auto& [input, argument] : compiled.arguments) convert(argument);
  for (auto& [name, let] : made.lets) convert(let.value);
  for (Keep& keep : made.keeps_) convert(keep.condition);
  if (made.answer) convert(*made.answer);
  for (CompiledMistake& mistake : made.mistakes) convert(mistake.formula);
  for (CompiledOption& option : made.options)
    for (auto* condition : {&option.right, &option.rank, &option.when})
      if (*condition) convert(**condition);
  return made;
}

engine::Quantity CompiledItem::quantity(const Expression& expression, const Sample& sample) const {
  return at_its_line(expression,
                     [&](const auto& formula) { return formula.quantity(sample.lookup()); });
}
bool CompiledItem::truth(const Expression& expression, const Sample& sample) const {
  return at_its_line(expression,
                     [&](const auto& formula) { return formula.truth(sample.lookup()); });
}
notation::Result CompiledItem::result(const Expression& expression, const Sample& sample) const {
  return at_its_line(expression,
                     [&](const auto& formula) { return formula.evaluate(sample.lookup()); });
}

// ---- Writing -----------------------------------------------------------------------------------

double CompiledItem::number_in(const engine::Quantity& quantity, const notation::Unit& unit,
                               const std::string& name, const bank::Position& at) const {
  if (quantity.dimension != unit.dimension)
    throw CannotMake(at, fmt::format("\"{}\" is {}, which \"{}\" does not measure", name,
                                     notation::dimension_in_words(quantity.dimension), unit.name));
  return unit.from_si(quantity.si);
}

std::string CompiledItem::write(double number, const ShownAs& as, const std::string& name,
                                const bank::Position& at) const {
  if (as.places && notation::near_rounding_boundary(number, *as.unit, *as.places))
    throw ThrownAway(at, fmt::format("\"{}\" stands on a rounding boundary", name));
  return write_anyway(number, as);
}

std::string CompiledItem::write_anyway(double number, const ShownAs& as) const {
  // What stands on a rounding boundary goes away from zero, whatever its last bit.
  if (as.places && notation::near_rounding_boundary(number, *as.unit, *as.places))
    number += std::copysign(last_place(*as.unit, *as.places) / 4, number);
  return as.places ? notation::write_quantity(number, *as.unit, *as.places, settings.style)
                   : notation::write_quantity_shortest(number, *as.unit, settings.style);
}

std::string CompiledItem::text_of(const std::string& name, const Sample& sample,
                                  const bank::Position& at) const {
  const Named& named = *find(name);
  const auto found = sample.values.find(name);
  if (found == sample.values.end()) {  // a list: no formula knows it
    const auto dot = name.find('.');
    const engine::Values& outputs = sample.runs.find(name.substr(0, dot))->second.outputs;
    return describe(name, named, outputs.find(name.substr(dot + 1))->second).text;
  }
  if (const auto* word = std::get_if<engine::Word>(&found->second)) {
    const auto text = named.words.find(word->id);
    return text == named.words.end() ? word->id : text->second;
  }
  const auto* quantity = std::get_if<engine::Quantity>(&found->second);
  if (!quantity) throw CannotMake(at, fmt::format("\"{}\" is a truth, expected a quantity", name));
  return write(number_in(*quantity, *named.shown_as.unit, name, at), named.shown_as, name, at);
}

Shown CompiledItem::describe(const std::string& name, const Named& named,
                             const engine::Value& value) const {
  Shown shown{name, named.symbol, named.meaning, value, {}, 0, {}};
  const auto add = [&](const std::string& text) {
    if (!shown.text.empty()) shown.text += ", ";
    shown.text += text;
  };
  const auto add_word = [&](const engine::Word& word) {
    const auto text = named.words.find(word.id);
    add(text == named.words.end() ? word.id : text->second);
  };
  const auto add_quantity = [&](const engine::Quantity& quantity) {
    shown.unit = named.shown_as.unit->name;
    shown.number = number_in(quantity, *named.shown_as.unit, name, item.at);
    add(write_anyway(shown.number, named.shown_as));
  };
  if (const auto* quantity = std::get_if<engine::Quantity>(&value)) add_quantity(*quantity);
  if (const auto* word = std::get_if<engine::Word>(&value)) add_word(*word);
  if (const auto* quantities = std::get_if<engine::Quantities>(&value))
    for (const engine::Quantity& quantity : *quantities) add_quantity(quantity);
  if (const auto* words = std::get_if<engine::Words>(&value))
    for (const engine::Word& word : *words) add_word(word);
  return shown;
}

}  // namespace footroom::quiz
