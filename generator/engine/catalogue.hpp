#pragma once
// The catalogue names each calculation once. The command line, the item bank, the practice page
// and the reference manual read it, so a calculation added here is usable everywhere.
//
// A calculation is a typed pure function `Result f(const Case&)`. Its Definition binds each field
// of Case and Result to a name, and make_calculation() turns the two into a Calculation that takes
// and gives named values.

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/quantity.hpp"
#include "engine/refusal.hpp"
#include "engine/text.hpp"

namespace footroom::engine {

/// One of a closed list of words, e.g. "steep"; the texts stand in the Input's or Output's choices.
struct Word {
  std::string id;
  friend bool operator==(const Word&, const Word&) = default;
};
using Quantities = std::vector<Quantity>;
using Words = std::vector<Word>;
using Value = std::variant<Quantity, Word, Quantities, Words>;
using Values = std::map<std::string, Value, std::less<>>;

/// The units a value is shown in by default (names of generator/notation/unit.cpp) and the decimal
/// places of a computed value.
struct Show {
  std::string_view us;
  int us_places;
  std::string_view si;
  int si_places;
};

/// How far a published value was verified.
enum class Status { read, second_hand, from_memory, computed, common_practice };

/// Most citations read the same in every language; one that is words has both.
struct Citation : Text {
  constexpr Citation() = default;
  constexpr Citation(const char* in_every_language) : Text{in_every_language, in_every_language} {}
  constexpr Citation(std::string_view in_english, std::string_view in_spanish)
      : Text{in_english, in_spanish} {}
};

struct Source {
  Citation citation;
  Status status;
  Text supports = {};  ///< what of the calculation rests on it
};

struct Choice {
  std::string_view id;
  Text name;
  Source source = {Citation(), Status::read};  ///< of a reason; an empty citation: none needed
};

struct Input {
  std::string_view id;
  std::string_view symbol;  ///< "L", "theta", "d_0", "F_max": base and an optional subscript
  Text name;
  Dimension dimension;
  Domain domain;
  Show show;
  std::vector<Choice> choices = {};      ///< not empty: the value is a Word
  std::optional<Value> fallback = {};    ///< taken where the caller gives none
  std::string_view fallback_limit = {};  ///< or: the limit of the rule set in force
  std::string_view word_example = {};    ///< not empty: the value is Words, written like this;
                                         ///< with choices, of those only
};

struct Output {
  std::string_view id;
  std::string_view symbol;
  Text name;
  Dimension dimension;
  Show show;
  std::vector<Choice> choices = {};
};

/// How `output` follows from the inputs and the outputs of earlier steps. `formula` and `when` are
/// in the notation of generator/notation/formula.hpp and name inputs and outputs by id. A test
/// evaluates every formula against the function's own result, so a key cannot show another formula
/// than the one that was computed. An empty `when` holds always.
struct Step {
  std::string_view output;
  std::string_view formula;
  std::string_view when;
  Text says;
};

struct Calculation {
  std::string_view id;
  Text title;
  Text purpose;
  std::vector<Input> inputs;
  std::vector<Output> outputs;
  std::vector<Step> steps;
  std::vector<Source> sources;
  std::vector<Text> cautions;
  /// Takes a value for every input (fallbacks filled in) and gives one for every output.
  /// Throws Refusal, or OutOfDomain, naming the input.
  std::function<Values(const Values&)> run;

  const Input* find_input(std::string_view name) const;
  const Output* find_output(std::string_view name) const;
};

/// All calculations, in the order of the manual.
const std::vector<const Calculation*>& catalogue();
const Calculation* find_calculation(std::string_view id);

// ---- Definitions: binding the fields of a Case and a Result ------------------------------------

template <class Case>
struct Field {
  Input input;
  std::function<Value(const Case&)> get;
  std::function<void(Case&, const Value&)> set;
};

template <class Result>
struct ResultField {
  Output output;
  std::function<Value(const Result&)> get;
};

template <class Case, class Result>
struct Definition {
  std::string_view id;
  Text title;
  Text purpose;
  std::vector<Field<Case>> inputs;
  std::vector<ResultField<Result>> outputs;
  std::vector<Step> steps;
  std::vector<Source> sources;
  std::vector<Text> cautions;
};

/// How a field of type T travels as a Value. Specialise for enumerations (see word_bridge).
template <class T>
struct Bridge {
  static Value to_value(const T& typed) { return erase_type(typed); }
  static T from_value(const Value& value) { return T::from_value(std::get<Quantity>(value).si); }
};
template <>
struct Bridge<int> {
  static Value to_value(int count) { return Quantity{dimension::ratio, double(count)}; }
  static int from_value(const Value& value) {
    return static_cast<int>(std::lround(std::get<Quantity>(value).si));
  }
};
template <class Typed>
struct Bridge<std::vector<Typed>> {
  static Value to_value(const std::vector<Typed>& list) {
    Quantities all;
    for (const Typed& one : list) all.push_back(std::get<Quantity>(Bridge<Typed>::to_value(one)));
    return all;
  }
};

template <class T>
constexpr Dimension field_dimension() {
  if constexpr (requires { DimensionOf<T>::value; }) {
    return DimensionOf<T>::value;
  } else if constexpr (requires {
                         typename T::value_type;
                         DimensionOf<typename T::value_type>::value;
                       }) {
    return DimensionOf<typename T::value_type>::value;
  } else {
    return dimension::ratio;
  }
}

/// A required input.
template <class Case, class T>
Field<Case> input(std::string_view id, std::string_view symbol, Text name, T Case::*field,
                  Domain domain, Show show) {
  return {{id, symbol, name, field_dimension<T>(), domain, show},
          [field](const Case& c) { return Bridge<T>::to_value(c.*field); },
          [field](Case& c, const Value& v) { c.*field = Bridge<T>::from_value(v); }};
}

/// An input with a fallback: the value that a fresh Case{} holds.
template <class Case, class T>
Field<Case> optional_input(std::string_view id, std::string_view symbol, Text name, T Case::*field,
                           Domain domain, Show show) {
  auto made = input(id, symbol, name, field, domain, show);
  made.input.fallback = made.get(Case{});
  return made;
}

/// An input whose fallback is a limit of the rule set in force.
template <class Case, class T>
Field<Case> limit_input(std::string_view id, std::string_view symbol, Text name, T Case::*field,
                        Domain domain, Show show, std::string_view limit) {
  auto made = input(id, symbol, name, field, domain, show);
  made.input.fallback_limit = limit;
  return made;
}

/// Enumerations travel as words; `names` lists id and texts in the order of the enumerators.
template <class Case, class Enum>
Field<Case> word_input(std::string_view id, Text name, Enum Case::*field,
                       std::vector<Choice> names) {
  Field<Case> made;
  made.input = {id, {}, name, dimension::ratio, {0, 0}, {}, names};
  made.get = [field, names](const Case& c) -> Value {
    return Word{std::string(names.at(static_cast<std::size_t>(c.*field)).id)};
  };
  made.set = [field, names](Case& c, const Value& v) {
    const auto& word = std::get<Word>(v).id;
    for (std::size_t i = 0; i < names.size(); ++i)
      if (names[i].id == word) c.*field = static_cast<Enum>(i);
  };
  return made;
}

/// A list of words in an open notation, e.g. the passes of ropes; the Bridge of T reads and
/// refuses.
template <class Case, class T>
Field<Case> words_input(std::string_view id, Text name, T Case::*field, std::string_view example) {
  Field<Case> made;
  made.input = {id, {}, name, dimension::ratio, {0, 0}, {}};
  made.input.word_example = example;
  made.get = [field](const Case& c) { return Bridge<T>::to_value(c.*field); };
  made.set = [field](Case& c, const Value& v) { c.*field = Bridge<T>::from_value(v); };
  return made;
}

template <class Case, class Enum>
Field<Case> optional_word_input(std::string_view id, Text name, Enum Case::*field,
                                std::vector<Choice> names) {
  auto made = word_input(id, name, field, std::move(names));
  made.input.fallback = made.get(Case{});
  return made;
}

template <class Result, class T>
ResultField<Result> output(std::string_view id, std::string_view symbol, Text name,
                           T Result::*field, Show show) {
  return {{id, symbol, name, field_dimension<T>(), show},
          [field](const Result& r) { return Bridge<T>::to_value(r.*field); }};
}

template <class Result, class Enum>
ResultField<Result> word_output(std::string_view id, Text name, Enum Result::*field,
                                std::vector<Choice> names) {
  return {{id, {}, name, dimension::ratio, {}, names}, [field, names](const Result& r) -> Value {
            return Word{std::string(names.at(static_cast<std::size_t>(r.*field)).id)};
          }};
}

/// Throws OutOfDomain for the first input outside its domain (NaN and infinities included). Every
/// typed function calls it first, so that no route into a calculation goes unchecked.
template <class Case, class Result>
void refuse_outside_domain(const Definition<Case, Result>& definition, const Case& c) {
  for (const auto& field : definition.inputs) {
    const Value value = field.get(c);
    const auto* quantity = std::get_if<Quantity>(&value);
    if (quantity && !field.input.domain.contains(quantity->si))
      throw OutOfDomain(std::string(definition.id), std::string(field.input.id), *quantity,
                        field.input.domain);
  }
}

/// Throws Refusal where a named value is missing, unknown, of another dimension or another word.
void refuse_mismatch(const Calculation& calculation, const Values& given);

/// Throws Refusal: a count was given that is no whole number.
[[noreturn]] void refuse_broken_count(const Calculation& calculation, const Input& input,
                                      Quantity given);

template <class Case, class Result>
Calculation make_calculation(const Definition<Case, Result>& definition,
                             Result (*function)(const Case&)) {
  Calculation made{definition.id,    definition.title,   definition.purpose,  {}, {},
                   definition.steps, definition.sources, definition.cautions, {}};
  for (const auto& field : definition.inputs) made.inputs.push_back(field.input);
  for (const auto& field : definition.outputs) made.outputs.push_back(field.output);
  auto frame = made;  // what refuse_mismatch needs; without `run`, so that it holds no cycle
  made.run = [definition, function, frame = std::move(frame)](const Values& given) {
    refuse_mismatch(frame, given);
    Case c{};
    for (const auto& field : definition.inputs) {
      const auto found = given.find(field.input.id);
      const Value& value = found != given.end() ? found->second : *field.input.fallback;
      const auto* quantity = std::get_if<Quantity>(&value);
      if (quantity && !field.input.domain.contains(quantity->si))
        throw OutOfDomain(std::string(definition.id), std::string(field.input.id), *quantity,
                          field.input.domain);
      field.set(c, value);
      if (quantity && !(field.get(c) == value)) refuse_broken_count(frame, field.input, *quantity);
    }
    const Result result = function(c);
    Values all;
    for (const auto& field : definition.outputs)
      all.emplace(std::string(field.output.id), field.get(result));
    return all;
  };
  return made;
}

}  // namespace footroom::engine
