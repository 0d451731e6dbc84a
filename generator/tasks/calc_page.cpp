#include "tasks/calc_page.hpp"

#include <optional>

#include "figure/figure.hpp"
#include "notation/formula.hpp"
#include "notation/typeset.hpp"
#include "quiz/status_name.hpp"
#include "render/json_value.hpp"
#include "tasks/text.hpp"

namespace footroom::tasks {
namespace {

using engine::Calculation;
using engine::Language;
using engine::Status;
using engine::Text;
using Json = nlohmann::ordered_json;

constexpr Text inputs_title{"Inputs", "Datos"};
constexpr Text steps_title{"Steps", "Pasos"};
constexpr Text outputs_title{"Outputs", "Resultados"};
constexpr Text sources_title{"Sources", "Fuentes"};
constexpr Text cautions_title{"Cautions", "Precauciones"};

struct StatusName {
  std::string_view id;
  Text name;
};

StatusName status_name(Status status) {
  switch (status) {
    case Status::read:
      return {"read", {"read in the source", "leído en la fuente"}};
    case Status::second_hand:
      return {"second-hand", {"second hand", "de segunda mano"}};
    case Status::from_memory:
      return {"from-memory", {"from memory, not checked", "de memoria, sin comprobar"}};
    case Status::computed:
      return {"computed", {"computed", "calculado"}};
    case Status::common_practice:
      return {"common-practice", quiz::common_practice};
  }
  throw std::logic_error("a source has an unknown status");
}

std::string symbol_text(std::string_view symbol) {
  return symbol.empty() ? std::string() : plain(notation::to_text(notation::symbol(symbol)));
}

std::string section(Text title, Language language, const std::string& body) {
  return body.empty() ? "" : "\n" + std::string(title.in(language)) + "\n" + body;
}

}  // namespace

std::vector<Cited> cited(const CalcCase& given) {
  const Language language = given.style.language;
  std::vector<Cited> all;
  for (const auto& source : given.calculation->sources)
    all.push_back({std::string(source.citation.in(language)),
                   std::string(source.supports.in(language)), status_name(source.status).id});
  for (const bank::Limit* limit : given.limits)
    all.push_back({limit->citation, in_language(limit->name, language), limit->status});
  return all;
}

Text status_text(std::string_view id) {
  for (const Status status : {Status::read, Status::second_hand, Status::from_memory,
                              Status::computed, Status::common_practice})
    if (const auto name = status_name(status); name.id == id) return name.name;
  throw std::logic_error("a limit has the unknown status " + std::string(id));
}

notation::Math name_in_formula(const Calculation& calculation, std::string_view name,
                               notation::Style style) {
  const auto* input = calculation.find_input(name);
  const auto* output = calculation.find_output(name);
  const auto symbol = input ? input->symbol : output->symbol;
  if (!symbol.empty()) return notation::symbol(symbol);
  const Text meaning = input ? input->name : output->name;
  return {notation::Math::Kind::identifier, std::string(meaning.in(style.language)), {}};
}

notation::Math equation_of(const Calculation& calculation, const engine::Step& step,
                           notation::Style style) {
  const auto set_name = [&](std::string_view name) {
    return name_in_formula(calculation, name, style);
  };
  return notation::equation(
      set_name(step.output), "=",
      notation::typeset(notation::Formula::parse(step.formula), set_name, style));
}

std::vector<TakenStep> taken_steps(const CalcCase& given, const ShownValues& outputs) {
  const Calculation& calculation = *given.calculation;
  const auto find = [&](std::string_view name) -> const ShownValue* {
    if (const auto in = given.inputs.find(name); in != given.inputs.end()) return &in->second;
    if (const auto out = outputs.find(name); out != outputs.end()) return &out->second;
    return nullptr;
  };
  const notation::Lookup lookup = [&](std::string_view name) -> std::optional<notation::Result> {
    const ShownValue* found = find(name);
    if (!found) return std::nullopt;
    if (const auto* quantity = std::get_if<engine::Quantity>(&found->value)) return *quantity;
    if (const auto* word = std::get_if<engine::Word>(&found->value)) return *word;
    return std::nullopt;
  };
  const auto number_of = [&](std::string_view name) {
    return notation::number(find(name)->in_step);
  };

  std::vector<TakenStep> taken;
  for (const auto& step : calculation.steps) {
    if (!step.when.empty() && !notation::Formula::parse(step.when).truth(lookup)) continue;
    const auto formula = notation::Formula::parse(step.formula);
    const auto symbols = equation_of(calculation, step, given.style);
    const auto numbers = notation::typeset(formula, number_of, given.style);
    taken.push_back({std::string(step.output), std::string(step.says.in(given.style.language)),
                     plain(notation::to_text(symbols)), plain(notation::to_text(numbers)),
                     find(step.output)->in_step, symbols, numbers});
  }
  return taken;
}

std::optional<figure::Drawing> drawing_of(const CalcCase& given, const ShownValues& outputs) {
  figure::Request request;
  request.calculation = given.calculation->id;
  request.wanted = figure::Request::For::key;
  request.language = given.style.language;
  request.system = given.system;
  const auto take = [&](const auto& entries, const ShownValues& shown, engine::Values& values) {
    for (const auto& entry : entries) {
      const ShownValue& one = shown.find(entry.id)->second;
      values.emplace(std::string(entry.id), one.value);
      if (!std::holds_alternative<engine::Quantity>(one.value)) continue;
      if constexpr (requires { entry.fallback; })  // what was left alone
        if (entry.fallback == one.value) continue;
      const std::string symbol =
          entry.symbol.empty() ? std::string() : notation::to_text(notation::symbol(entry.symbol));
      request.labels[std::string(entry.id)] = {symbol, one.text};
    }
  };
  take(given.calculation->inputs, given.inputs, request.inputs);
  take(given.calculation->outputs, outputs, request.outputs);
  return figure::draw(request);
}

std::string calc_page(const CalcCase& given, const ShownValues& outputs) {
  const Calculation& calculation = *given.calculation;
  const Language language = given.style.language;
  const auto rows = [&](const auto& entries, const ShownValues& values) {
    std::vector<std::vector<std::string>> all;
    for (const auto& entry : entries)
      all.push_back({std::string(entry.id), symbol_text(entry.symbol),
                     values.find(entry.id)->second.text, std::string(entry.name.in(language))});
    return table(all);
  };
  std::string steps;
  for (const auto& step : taken_steps(given, outputs)) {
    const std::string indent(columns(step.symbols.substr(0, step.symbols.find(" = "))), ' ');
    steps += "  " + step.says + "\n    " + step.symbols + "\n    " + indent + " = " + step.numbers +
             "\n    " + indent + " = " + step.result + "\n";
  }
  std::string sources;
  for (const auto& source : cited(given)) {
    const std::string status(status_text(source.status).in(language));
    sources += "  " + source.citation + (status == source.citation ? "" : " (" + status + ")") +
               (source.supports.empty() ? "" : ": " + source.supports) + "\n";
  }
  std::string cautions;
  for (const auto& caution : calculation.cautions)
    cautions += "  " + std::string(caution.in(language)) + "\n";

  return std::string(calculation.title.in(language)) + " (" + std::string(calculation.id) + ")\n" +
         std::string(calculation.purpose.in(language)) + "\n" +
         section(inputs_title, language, rows(calculation.inputs, given.inputs)) +
         section(steps_title, language, steps) +
         section(outputs_title, language, rows(calculation.outputs, outputs)) +
         section(sources_title, language, sources) + section(cautions_title, language, cautions);
}

Json calc_json(const CalcCase& given, const ShownValues& outputs) {
  const Calculation& calculation = *given.calculation;
  const auto values = [](const auto& entries, const ShownValues& shown) {
    Json all = Json::object();
    for (const auto& entry : entries) {
      const ShownValue& one = shown.find(entry.id)->second;
      all[std::string(entry.id)] = render::json_value(one.value, one.text);
    }
    return all;
  };
  Json made;
  made["id"] = calculation.id;
  made["inputs"] = values(calculation.inputs, given.inputs);
  made["outputs"] = values(calculation.outputs, outputs);
  made["steps"] = Json::array();
  for (const auto& step : taken_steps(given, outputs))
    made["steps"].push_back({{"output", step.output},
                             {"says", step.says},
                             {"symbols", step.symbols},
                             {"numbers", step.numbers},
                             {"result", step.result}});
  made["sources"] = Json::array();
  for (const auto& source : cited(given))
    made["sources"].push_back(
        {{"citation", source.citation}, {"status", source.status}, {"supports", source.supports}});
  made["cautions"] = Json::array();
  for (const auto& caution : calculation.cautions)
    made["cautions"].push_back(caution.in(given.style.language));
  return made;
}

std::string catalogue_page(notation::Style style) {
  std::vector<std::vector<std::string>> rows;
  for (const auto* calculation : engine::catalogue())
    rows.push_back(
        {std::string(calculation->id), std::string(calculation->title.in(style.language))});
  return table(rows);
}

std::string calculation_page(const Calculation& calculation, notation::System system,
                             notation::Style style) {
  const Language language = style.language;
  std::vector<std::vector<std::string>> inputs;
  for (const auto& input : calculation.inputs)
    inputs.push_back({std::string(input.id), symbol_text(input.symbol),
                      std::string(input.name.in(language)),
                      plain(accepted_text(input, system, style))});
  std::vector<std::vector<std::string>> outputs;
  for (const auto& output : calculation.outputs)
    outputs.push_back({std::string(output.id), symbol_text(output.symbol),
                       std::string(output.name.in(language))});
  return std::string(calculation.title.in(language)) + " (" + std::string(calculation.id) + ")\n" +
         std::string(calculation.purpose.in(language)) + "\n" +
         section(inputs_title, language, table(inputs)) +
         section(outputs_title, language, table(outputs));
}

Json catalogue_json(const std::vector<const Calculation*>& listed, notation::System system,
                    notation::Style style) {
  Json all = Json::array();
  for (const auto* calculation : listed) {
    Json one;
    one["id"] = calculation->id;
    one["title"] = calculation->title.in(style.language);
    one["purpose"] = calculation->purpose.in(style.language);
    one["inputs"] = Json::array();
    for (const auto& input : calculation->inputs)
      one["inputs"].push_back({{"name", input.id},
                               {"symbol", input.symbol},
                               {"meaning", input.name.in(style.language)},
                               {"accepts", plain(accepted_text(input, system, style))}});
    one["outputs"] = Json::array();
    for (const auto& output : calculation->outputs)
      one["outputs"].push_back({{"name", output.id},
                                {"symbol", output.symbol},
                                {"meaning", output.name.in(style.language)}});
    all.push_back(std::move(one));
  }
  return all;
}

}  // namespace footroom::tasks
