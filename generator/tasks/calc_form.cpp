#include "tasks/calc_form.hpp"

#include <algorithm>
#include <cmath>

#include "engine/word_list.hpp"
#include "grade/reading.hpp"
#include "tasks/calc_page.hpp"
#include "tasks/examples.hpp"
#include "tasks/responses.hpp"
#include "tasks/text.hpp"

namespace footroom::tasks {
namespace {

using engine::Input;
using engine::Text;
using notation::Unit;

std::string say(const CalcSetting& setting, Text text) {
  return std::string(text.in(setting.style.language));
}

bool is_list(const Input& input) {
  return !input.word_example.empty() && !input.choices.empty();
}

bool has_choice(const Input& input, std::string_view id) {
  return std::any_of(input.choices.begin(), input.choices.end(),
                     [&](const engine::Choice& choice) { return choice.id == id; });
}

std::string unit_beside(const Unit& unit, notation::Style style) {
  const std::string_view printed = unit.printed.in(style.language);
  return std::string(printed.substr(std::min(printed.find_first_not_of(' '), printed.size())));
}

std::string number_in(const Unit& unit, double number, notation::Style style) {
  return plain(notation::write_quantity_shortest(number, unit, style));
}

/// A fallback is a round number of SI units, so it is shown to a place more than results are.
std::string fallback_text(const Input& input, const CalcSetting& setting) {
  if (const auto* word = std::get_if<engine::Word>(&*input.fallback))
    return word_text(input.choices, *word, setting.style.language);
  const auto* quantity = std::get_if<engine::Quantity>(&*input.fallback);
  if (!quantity) return {};
  const Unit& unit = shown_unit(input.show, setting.system);
  const double scale = std::pow(10.0, shown_places(input.show, setting.system) + 1);
  return number_in(unit, std::round(unit.from_si(quantity->si) * scale) / scale, setting.style);
}

class Filler {
 public:
  Filler(CalcForm& form, const CalcSetting& setting) : form_(form), setting_(setting) {}

  void fill(CalcField& field, const Typed& typed) {
    const Input& input = *field.input;
    const auto [begin, end] = typed.equal_range(std::string(input.id));
    for (auto one = begin; one != end; ++one) field.ticked.insert(one->second);
    if (begin != end) field.typed = begin->second;
    if (is_list(input))
      list(field);
    else if (!input.choices.empty())
      choice(field);
    else if (field.typed.find_first_not_of(' ') == std::string::npos)
      nothing(field);
    else if (!input.word_example.empty())
      words(field);
    else
      number(field);
  }

 private:
  void take(const CalcField& field, engine::Value value, std::string text) {
    form_.given.inputs[std::string(field.input->id)] = {std::move(value), std::move(text), {}};
  }

  void list(CalcField& field) {
    engine::Words all;
    std::string text;
    for (const auto& choice : field.input->choices) {
      if (field.ticked.count(choice.id) == 0) continue;
      all.push_back({std::string(choice.id)});
      text += (text.empty() ? "" : ", ") + std::string(choice.id);
    }
    if (all.size() < field.ticked.size()) field.fault = say(setting_, one_of_these);
    take(field, all, text);
  }

  void choice(CalcField& field) {
    const Input& input = *field.input;
    if (field.typed.empty() && input.fallback)
      field.typed = std::get<engine::Word>(*input.fallback).id;
    if (!has_choice(input, field.typed)) {
      field.fault = say(setting_, one_of_these);
      return;
    }
    take(field, engine::Word{field.typed},
         word_text(input.choices, {field.typed}, setting_.style.language));
  }

  void words(CalcField& field) {
    if (fault_of(field.typed)) {
      field.fault = say(setting_, {"Expected plain text.", "Se espera texto sin más."});
      return;
    }
    take(field, engine::split_words(field.typed), field.typed);
  }

  void number(CalcField& field) {
    const ReadInput read = read_input(*field.input, field.typed, setting_);
    if (!read.quantity) {
      field.fault = read.text;
      return;
    }
    if (!field.input->domain.contains(read.quantity->si)) {
      field.fault =
          outside_text(field.input->domain, read.quantity->si, *read.unit, setting_.style);
      return;
    }
    field.read = read.text;
    field.read_apart = read.with_unit;
    take(field, *read.quantity, number_in(*read.unit, read.number, setting_.style));
    form_.given.typed_units[std::string(field.input->id)] = read.unit;
  }

  void nothing(CalcField& field) {
    const Input& input = *field.input;
    if (input.fallback) {
      take(field, *input.fallback, fallback_text(input, setting_));
      return;
    }
    if (!input.fallback_limit.empty()) {
      if (const auto limit = limit_in_force(input.fallback_limit, input.dimension, setting_)) {
        take(field, limit->value, limit->text);
        form_.given.limits.push_back(limit->published);
        return;
      }
    }
    field.fault = say(setting_, {"Write a value.", "Escriba un valor."});
  }

  static constexpr Text one_of_these{"Choose one of these.", "Elija una de estas opciones."};

  CalcForm& form_;
  const CalcSetting& setting_;
};

CalcField empty_field(const Input& input, const CalcSetting& setting) {
  CalcField field;
  field.input = &input;
  field.name = say(setting, input.name);
  if (!input.word_example.empty()) {
    if (input.choices.empty())
      field.accepts =
          say(setting, {"words like ", "palabras como "}) + std::string(input.word_example);
    return field;
  }
  if (!input.choices.empty()) return field;
  const Unit& unit = shown_unit(input.show, setting.system);
  field.unit = unit_beside(unit, setting.style);
  field.accepts = plain(domain_text(input.domain, unit, setting.style));
  if (input.fallback) field.left_out = fallback_text(input, setting);
  if (!input.fallback_limit.empty())
    if (const auto limit = limit_in_force(input.fallback_limit, input.dimension, setting))
      field.left_out = limit->text + ", " + limit->name + " (" + limit->published->citation +
                       (limit->status.empty() ? "" : "; " + limit->status) + ")";
  return field;
}

}  // namespace

Typed typed_example(const engine::Calculation& calculation, const CalcSetting& setting) {
  Typed typed;
  for (const std::string& word : example_words(calculation.id, setting.system)) {
    const auto equals = word.find('=');
    const Input& input = *calculation.find_input(word.substr(0, equals));
    const std::string text = word.substr(equals + 1);
    const std::string id(input.id);
    if (is_list(input)) {
      for (const auto& one : engine::split_words(text)) typed.emplace(id, one.id);
      continue;
    }
    if (!input.choices.empty() || !input.word_example.empty()) {
      typed.emplace(id, text);
      continue;
    }
    const auto read = notation::read_quantity(text, input.dimension);
    const auto& quantity = std::get<notation::ReadQuantity>(read);
    const Unit& unit = shown_unit(input.show, setting.system);
    typed.emplace(id, quantity.unit == &unit && unit.name != "ft-in"
                          ? plain(notation::write_shortest(quantity.number, setting.style))
                          : number_in(*quantity.unit, quantity.number, setting.style));
  }
  return typed;
}

CalcForm fill_form(const engine::Calculation& calculation, const Typed& typed,
                   const CalcSetting& setting) {
  CalcForm form;
  form.given.calculation = &calculation;
  form.given.system = setting.system;
  form.given.style = setting.style;
  Filler filler(form, setting);
  for (const Input& input : calculation.inputs) {
    form.fields.push_back(empty_field(input, setting));
    filler.fill(form.fields.back(), typed);
  }
  const auto is_sound = [](const CalcField& field) { return field.fault.empty(); };
  if (!std::all_of(form.fields.begin(), form.fields.end(), is_sound)) return form;
  put_into_steps(form.given);
  auto tried = try_case(form.given, setting.style);
  if (auto* outputs = std::get_if<ShownValues>(&tried)) {
    form.outputs = std::move(*outputs);
    return form;
  }
  const auto& declined = std::get<Declined>(tried);
  for (CalcField& field : form.fields)
    if (field.input->id == declined.input) field.fault = declined.reason;
  return form;
}

ReadInput read_input(const Input& input, const std::string& text, const CalcSetting& setting) {
  const auto refused = [](const std::string& why) {
    ReadInput read;
    read.text = why;
    return read;
  };
  const Unit& asked = shown_unit(input.show, setting.system);
  if (fault_of(text)) return refused(say(setting, {"is no plain text", "no es texto"}));
  const auto read = grade::read_number(text, asked, setting.style);
  if (const auto* why = std::get_if<grade::Unreadable>(&read))
    return refused(say(setting, {"cannot be read: ", "no se puede leer: "}) + plain(why->reason));
  const auto& written = std::get<grade::WrittenNumber>(read);
  if (!written.comparable) {
    const std::string unit = unit_beside(asked, setting.style);
    std::string reason = say(setting, {"is read as ", "se lee como "}) + plain(written.text);
    reason +=
        unit.empty()
            ? say(setting, {"; expected a number without unit", "; se espera un número sin unidad"})
            : say(setting, {"; expected a value in ", "; se espera un valor en "}) + unit;
    return refused(reason);
  }
  const Unit& unit = written.unit ? *written.unit : asked;
  double si = unit.to_si(written.number);
  if (unit.dimension == engine::dimension::mass && input.dimension == engine::dimension::force)
    si *= engine::standard_gravity.value();  // the weight of that mass
  return {engine::Quantity{input.dimension, si}, &unit, written.number, written.unit != nullptr,
          written.unit ? plain(written.text) : number_in(unit, written.number, setting.style)};
}

std::optional<LimitInForce> limit_in_force(std::string_view id, engine::Dimension dimension,
                                           const CalcSetting& setting) {
  const auto found = setting.rules.limits.find(id);
  if (found == setting.rules.limits.end()) return std::nullopt;
  const bank::Limit& limit = found->second;
  const auto read = notation::read_quantity(
      setting.system == notation::System::us ? limit.us : limit.si, dimension);
  const auto* quantity = std::get_if<notation::ReadQuantity>(&read);
  if (!quantity) return std::nullopt;
  const auto language = setting.style.language;
  return LimitInForce{
      &limit, quantity->quantity, in_language(limit.name, language),
      number_in(*quantity->unit, quantity->number, setting.style),
      limit.status == "read" ? "" : std::string(status_text(limit.status).in(language))};
}

std::optional<LimitInForce> limit_on(const engine::Output& output, const CalcSetting& setting) {
  struct Row {
    std::string_view output;
    std::string_view limit;
  };
  constexpr Row rows[] = {{"free-fall", "free-fall"}, {"peak-force", "arrest-force"}};
  for (const Row& row : rows)
    if (row.output == output.id) return limit_in_force(row.limit, output.dimension, setting);
  return std::nullopt;
}

std::vector<LimitMet> limits_met(const CalcForm& form, const CalcSetting& setting) {
  std::vector<LimitMet> all;
  for (const Input& input : form.given.calculation->inputs) {
    if (input.fallback_limit.empty()) continue;
    const auto limit = limit_in_force(input.fallback_limit, input.dimension, setting);
    const auto taken = std::find(form.given.limits.begin(), form.given.limits.end(),
                                 limit ? limit->published : nullptr);
    if (limit && taken != form.given.limits.end())
      all.push_back({limit->name, limit->text, limit->published->citation, limit->status, {}});
  }
  for (const engine::Output& output : form.given.calculation->outputs) {
    const auto limit = limit_on(output, setting);
    if (!limit) continue;
    const ShownValue& shown = form.outputs->find(output.id)->second;
    const double value = std::get<engine::Quantity>(shown.value).si;
    // A binary number is no decimal one: what equals the limit keeps it.
    all.push_back({limit->name, limit->text, limit->published->citation, limit->status,
                   std::string(output.name.in(setting.style.language)) + ": " + shown.in_step,
                   value > limit->value.si * (1 + 1e-9)});
  }
  return all;
}

bool is_end_of(const engine::Domain& domain, double value) {
  return value == domain.lowest || value == domain.highest;
}

}  // namespace footroom::tasks
