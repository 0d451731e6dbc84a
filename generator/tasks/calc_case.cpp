#include "tasks/calc_case.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/told_refusal.hpp"
#include "engine/word_list.hpp"
#include "render/json_value.hpp"
#include "tasks/choices.hpp"
#include "tasks/failure.hpp"
#include "tasks/text.hpp"

namespace footroom::tasks {
namespace {

using engine::Input;
using engine::Value;
using notation::Unit;

template <class Entries>
std::vector<std::string> ids_of(const Entries& entries) {
  std::vector<std::string> ids;
  for (const auto& entry : entries) ids.emplace_back(entry.id);
  return ids;
}

/// A value in words, each quantity written by `write`.
template <class Write>
std::string value_text(const Value& value, const std::vector<engine::Choice>& choices,
                       engine::Language language, const Write& write) {
  if (const auto* quantity = std::get_if<engine::Quantity>(&value)) return write(*quantity);
  if (const auto* word = std::get_if<engine::Word>(&value))
    return word_text(choices, *word, language);
  std::string all;
  const auto add = [&all](const std::string& one) { all += (all.empty() ? "" : "; ") + one; };
  if (const auto* list = std::get_if<engine::Quantities>(&value))
    for (const auto& one : *list) add(write(one));
  else
    for (const auto& one : std::get<engine::Words>(value)) add(word_text(choices, one, language));
  return all;
}

/// An input that was not typed, in the units of the command line, with all its digits.
std::string input_text(const Input& input, const Value& value, notation::System system,
                       notation::Style style) {
  return plain(value_text(value, input.choices, style.language, [&](engine::Quantity q) {
    const Unit& unit = shown_unit(input.show, system);
    return notation::write_quantity_shortest(unit.from_si(q.si), unit, style);
  }));
}

/// An output in the places of the catalogue, or more; counts and inches stay as they are.
std::string output_text(const engine::Output& output, const Value& value, const CalcCase& given,
                        int more_places) {
  return plain(value_text(value, output.choices, given.style.language, [&](engine::Quantity q) {
    const Unit& unit = shown_unit(output.show, given.system);
    const int places = shown_places(output.show, given.system);
    const bool fixed = unit.name == "ft-in" || (unit.name.empty() && places == 0);
    return notation::write_quantity(unit.from_si(q.si), unit, fixed ? places : places + more_places,
                                    given.style);
  }));
}

/// An angle is put into formulas in degrees, with two places.
void put_in_degrees(ShownValue& shown, notation::Style style) {
  const auto* quantity = std::get_if<engine::Quantity>(&shown.value);
  if (!quantity || quantity->dimension != engine::dimension::angle) return;
  const Unit& degree = *notation::find_unit("deg");
  shown.in_step = plain(notation::write_quantity(degree.from_si(quantity->si), degree, 2, style));
}

/// A problem with the words typed; collected, so that all are told at once.
struct Wrong {
  ExitCode code;
  std::string message;
};

class Reader {
 public:
  explicit Reader(CalcCase& made) : made_(made), calculation_(*made.calculation) {}

  void read(const std::string& word) {
    const auto equals = word.find('=');
    const std::string name = word.substr(0, equals);
    const Input* input = calculation_.find_input(name);
    if (equals == std::string::npos) {
      refuse(ExitCode::wrong_command_line, word + ": expected NAME=VALUE");
    } else if (!input) {
      refuse(ExitCode::wrong_command_line, name + ": is no input of " +
                                               std::string(calculation_.id) +
                                               did_you_mean(name, ids_of(calculation_.inputs)));
    } else if (made_.inputs.contains(name)) {
      refuse(ExitCode::wrong_command_line, name + ": is given twice");
    } else {
      read_value(*input, word.substr(equals + 1));
    }
  }

  void fill(const FindRules& find_rules) {
    for (const Input& input : calculation_.inputs) {
      const std::string name(input.id);
      if (made_.inputs.contains(name) || refused_.contains(name)) continue;
      if (input.fallback) {
        made_.inputs[name] = {
            *input.fallback, input_text(input, *input.fallback, made_.system, made_.style), {}};
      } else if (!input.fallback_limit.empty()) {
        fill_from_limit(input, find_rules());
      } else {
        refuse(ExitCode::wrong_command_line,
               name + ": is missing; it is the " +
                   std::string(input.name.in(engine::Language::english)));
      }
    }
  }

  /// Throws where anything was wrong.
  void finish() const {
    if (wrong_.empty()) return;
    std::string all;
    ExitCode code = ExitCode::input_faulty;
    for (const Wrong& one : wrong_) {
      if (one.code == ExitCode::wrong_command_line) code = one.code;
      all += (all.empty() ? "" : "\n") + one.message;
    }
    throw Failure(code, all);
  }

 private:
  void refuse(ExitCode code, const std::string& message) {
    wrong_.push_back({code, message});
    refused_.insert(message.substr(0, message.find(':')));
  }

  void read_value(const Input& input, const std::string& text) {
    const std::string name(input.id);
    if (!input.word_example.empty()) {
      made_.inputs[name] = {engine::split_words(text), text, {}};
    } else if (!input.choices.empty()) {
      const auto ids = ids_of(input.choices);
      if (std::find(ids.begin(), ids.end(), text) == ids.end())
        return refuse(ExitCode::input_faulty,
                      name + ": is " + text + ", expected " + alternatives(ids));
      made_.inputs[name] = {
          engine::Word{text}, word_text(input.choices, {text}, made_.style.language), {}};
    } else {
      const auto read = notation::read_quantity(text, input.dimension);
      if (const auto* error = std::get_if<notation::ReadError>(&read))
        return refuse(ExitCode::input_faulty, name + ": " + error->message);
      const auto& quantity = std::get<notation::ReadQuantity>(read);
      made_.inputs[name] = {
          quantity.quantity,
          plain(notation::write_quantity_shortest(quantity.number, *quantity.unit, made_.style)),
          {}};
      made_.typed_units[name] = quantity.unit;
    }
  }

  void fill_from_limit(const Input& input, const bank::RuleSet& rules) {
    const auto found = rules.limits.find(input.fallback_limit);
    const bool us = made_.system == notation::System::us;
    if (found == rules.limits.end() || (us ? found->second.us : found->second.si).empty())
      return refuse(ExitCode::input_faulty,
                    std::string(input.id) + ": is missing, and the rule set " + rules.id +
                        " has no limit " + std::string(input.fallback_limit) +
                        (us ? " in US units" : " in SI units"));
    const bank::Limit& limit = found->second;
    const auto before = wrong_.size();
    read_value(input, us ? limit.us : limit.si);
    if (wrong_.size() > before)
      wrong_.back().message =
          limit.at.file + ":" + std::to_string(limit.at.line) + ": " + wrong_.back().message;
    made_.limits.push_back(&limit);
  }

  CalcCase& made_;
  const engine::Calculation& calculation_;
  std::vector<Wrong> wrong_;
  std::set<std::string> refused_;
};

/// The digit that counts: `number` to three digits, upwards or downwards.
double three_digits(double number, bool upwards) {
  if (number == 0) return 0;
  const double scale = std::pow(10.0, 2 - std::floor(std::log10(std::fabs(number))));
  const double scaled = render::twelve_digits(number * scale);
  return render::twelve_digits((upwards ? std::ceil(scaled) : std::floor(scaled)) / scale);
}

}  // namespace

const Unit& shown_unit(const engine::Show& show, notation::System system) {
  const auto name = system == notation::System::us ? show.us : show.si;
  const Unit* unit = notation::find_unit(name);
  if (!unit) throw std::logic_error("the catalogue shows the unknown unit " + std::string(name));
  return *unit;
}

int shown_places(const engine::Show& show, notation::System system) {
  return system == notation::System::us ? show.us_places : show.si_places;
}

std::string word_text(const std::vector<engine::Choice>& choices, const engine::Word& word,
                      engine::Language language) {
  for (const auto& choice : choices) {
    if (choice.id != word.id) continue;
    std::string text(choice.name.in(language));
    if (!choice.source.citation.english.empty())
      text += " (" + std::string(choice.source.citation.in(language)) + ")";
    return text;
  }
  return word.id;
}

CalcCase read_case(const engine::Calculation& calculation, const std::vector<std::string>& words,
                   notation::System system, notation::Style style, const FindRules& find_rules) {
  CalcCase made{&calculation, system, style, {}, {}, {}};
  Reader reader(made);
  for (const auto& word : words) reader.read(word);
  reader.fill(find_rules);
  reader.finish();
  put_into_steps(made);
  return made;
}

void put_into_steps(CalcCase& made) {
  for (auto& [name, shown] : made.inputs) {
    shown.in_step = shown.text;
    put_in_degrees(shown, made.style);
  }
}

std::variant<ShownValues, Declined> try_case(const CalcCase& given, notation::Style told_in) {
  engine::Values values;
  for (const auto& [name, shown] : given.inputs) values.emplace(name, shown.value);
  ShownValues outputs;
  try {
    for (auto& [name, value] : given.calculation->run(values)) {
      const engine::Output& output = *given.calculation->find_output(name);
      outputs[name] = {value, output_text(output, value, given, 0),
                       output_text(output, value, given, 1)};
      put_in_degrees(outputs[name], given.style);
    }
  } catch (const engine::OutOfDomain& out) {
    const Input& input = *given.calculation->find_input(out.quantity);
    const auto typed = given.typed_units.find(out.quantity);
    const Unit& unit =
        typed == given.typed_units.end() ? shown_unit(input.show, given.system) : *typed->second;
    return Declined{out.quantity, outside_text(out.domain, out.value.si, unit, told_in)};
  } catch (const engine::Refusal& refusal) {
    return Declined{refusal.quantity, engine::reason_in(refusal, told_in.language)};
  }
  return outputs;
}

std::string outside_text(const engine::Domain& domain, double si, const Unit& unit,
                         notation::Style style) {
  const double number = render::twelve_digits(unit.from_si(si));
  const bool english = style.language == engine::Language::english;
  return (english ? "is " : "es ") + plain(notation::write_quantity_shortest(number, unit, style)) +
         (english ? ", expected " : "; se espera ") + domain_text(domain, unit, style);
}

ShownValues run_case(const CalcCase& given) {
  auto tried = try_case(given, {engine::Language::english, given.style.decimal_mark});
  if (const auto* declined = std::get_if<Declined>(&tried))
    throw Failure(ExitCode::input_faulty, declined->input + ": " + declined->reason);
  return std::get<ShownValues>(std::move(tried));
}

std::string domain_text(const engine::Domain& domain, const Unit& unit, notation::Style style) {
  const auto say = [&](engine::Text text) { return std::string(text.in(style.language)); };
  const auto bound = [&](double si, bool upwards) {
    return plain(
        notation::write_quantity_shortest(three_digits(unit.from_si(si), upwards), unit, style));
  };
  const std::string lowest = bound(domain.lowest, true);
  const std::string from =
      (domain.includes_lowest ? say({"at least ", "al menos "}) : say({"more than ", "más de "})) +
      lowest;
  if (!std::isfinite(domain.highest)) return from;
  const std::string highest = bound(domain.highest, false);
  if (domain.includes_lowest && domain.includes_highest)
    return lowest + say({" to ", " a "}) + highest;
  return from +
         (domain.includes_highest ? say({" and at most ", " y a lo más "})
                                  : say({" and less than ", " y menos de "})) +
         highest;
}

std::string accepted_text(const Input& input, notation::System system, notation::Style style) {
  const auto say = [&](engine::Text text) { return std::string(text.in(style.language)); };
  const std::string or_word = say({" or ", " o "});
  std::string text;
  if (!input.choices.empty())
    text = alternatives(ids_of(input.choices), or_word);
  else if (!input.word_example.empty())
    text = say({"words like ", "palabras como "}) + std::string(input.word_example);
  else
    text = domain_text(input.domain, shown_unit(input.show, system), style);
  if (input.fallback)
    text +=
        say({"; left out: ", "; si falta: "}) + input_text(input, *input.fallback, system, style);
  if (!input.fallback_limit.empty())
    text += say({"; left out: the limit ", "; si falta: el límite "}) +
            std::string(input.fallback_limit);
  return text;
}

}  // namespace footroom::tasks
