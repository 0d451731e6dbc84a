#include "quiz/scaling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace footroom::quiz {
namespace {

/// What integration over time leaves open (arrest-in-time) is about 1e-8.
constexpr double closeness = 1e-6;

class Comparison {
 public:
  void add(const std::string& name, const notation::Result& here, const notation::Result& there) {
    if (!fault_.empty() || agree(here, there)) return;
    fault_ = fmt::format(
        "\"{}\" does not scale with the base units: it is {}, and {} where "
        "lengths are {} and masses {} times the number",
        name, in_words(here), in_words(there), other_units.length, other_units.mass);
  }
  std::string fault() { return std::move(fault_); }

 private:
  static bool agree(const notation::Result& here, const notation::Result& there) {
    const auto* before = std::get_if<engine::Quantity>(&here);
    const auto* after = std::get_if<engine::Quantity>(&there);
    if (!before || !after) return here == there;
    const double expected = before->si * other_units.factor(before->dimension);
    // Of a difference of two like values only rounding is left where they are equal.
    return before->dimension == after->dimension &&
           std::abs(after->si - expected) <= closeness * std::max(std::abs(expected), 1e-3);
  }
  static std::string in_words(const notation::Result& result) {
    if (const auto* quantity = std::get_if<engine::Quantity>(&result))
      return fmt::format("{:.9g} in SI", quantity->si);
    if (const auto* word = std::get_if<engine::Word>(&result)) return word->id;
    return std::get<bool>(result) ? "true" : "false";
  }

  std::string fault_;
};

}  // namespace

std::string scaling_fault(const CompiledItem& item, const CompiledItem& rescaled,
                          const draw::Key& key) {
  draw::Stream stream(key);
  const Drawn drawn = item.draw(stream);
  Comparison comparison;
  try {
    const Sample here = item.evaluate(drawn);
    const Sample there = rescaled.evaluate(drawn);
    // A word that nothing asks about may stand on its edge.
    for (const auto& [name, value] : here.values)
      if (std::holds_alternative<engine::Quantity>(value))
        comparison.add(name, value, there.values.at(name));
    const auto compare = [&](const std::string& name, const Expression& mine,
                             const Expression& other) {
      comparison.add(name, item.result(mine, here), rescaled.result(other, there));
    };
    if (item.answer) compare("answer", *item.answer, *rescaled.answer);
    for (std::size_t i = 0; i < item.mistakes.size(); ++i)
      compare("mistake " + item.mistakes[i].mistake->id, item.mistakes[i].formula,
              rescaled.mistakes[i].formula);
    for (std::size_t i = 0; i < item.options.size(); ++i)
      for (const auto member :
           {&CompiledOption::right, &CompiledOption::rank, &CompiledOption::when})
        if (item.options[i].*member)
          compare("option " + item.options[i].option->id, *(item.options[i].*member),
                  *(rescaled.options[i].*member));
  } catch (const ThrownAway&) {
    return {};
  }
  return comparison.fault();
}

}  // namespace footroom::quiz
