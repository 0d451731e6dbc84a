#pragma once
// Draws named values for any calculation of the catalogue, over its whole domain.

#include <sstream>
#include <string>

#include "draw/stream.hpp"
#include "engine/catalogue.hpp"

namespace footroom::engine {

class Draws {
 public:
  explicit Draws(std::uint64_t seed) : stream_({.seed = seed}) {}

  /// Between 0 and 1, both excluded.
  double share() { return (stream_.next() + 0.5) / 4294967296.0; }
  std::uint32_t below(std::size_t count) {
    return stream_.below(static_cast<std::uint32_t>(count));
  }

  double within(double lowest, double highest) { return lowest + (highest - lowest) * share(); }
  /// Also crowded towards the lower end, where wide domains have their usual values, and at the
  /// ends themselves.
  double within(const Domain& domain) {
    const std::uint32_t way = below(16);
    if (way == 0 && domain.includes_lowest) return domain.lowest;
    if (way == 1 && domain.includes_highest) return domain.highest;
    const double part = way < 8 ? share() : std::pow(share(), 4);
    return domain.lowest + (domain.highest - domain.lowest) * part;
  }

  Value value_for(const Input& input) {
    if (!input.word_example.empty()) return words_for(input);
    if (!input.choices.empty())
      return Word{std::string(input.choices[below(input.choices.size())].id)};
    const double drawn = within(input.domain);
    return Quantity{input.dimension, is_count(input) ? std::round(drawn) : drawn};
  }
  Values values_for(const Calculation& calculation) {
    Values all;
    for (const Input& input : calculation.inputs)
      all.emplace(std::string(input.id), value_for(input));
    return all;
  }

 private:
  static bool is_count(const Input& input) {
    return input.dimension == dimension::ratio && input.show.us.empty() &&
           input.show.us_places == 0;
  }
  Words words_for(const Input& input) {
    Words words;
    if (input.choices.empty()) {
      std::istringstream example{std::string(input.word_example)};
      for (std::string word; example >> word;) words.push_back({word});
    } else {
      for (const Choice& choice : input.choices)
        if (below(8) == 0) words.push_back({std::string(choice.id)});
    }
    return words;
  }

  draw::Stream stream_;
};

/// Every value, for the message of a failing case.
inline std::string in_words(const Values& values) {
  std::ostringstream out;
  out.precision(17);
  for (const auto& [name, value] : values) {
    out << name << '=';
    if (const auto* quantity = std::get_if<Quantity>(&value)) out << quantity->si;
    if (const auto* word = std::get_if<Word>(&value)) out << word->id;
    if (const auto* list = std::get_if<Quantities>(&value))
      for (const Quantity& one : *list) out << one.si << ' ';
    if (const auto* list = std::get_if<Words>(&value))
      for (const Word& one : *list) out << one.id << ' ';
    out << "; ";
  }
  return out.str();
}

}  // namespace footroom::engine
