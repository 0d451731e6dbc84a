#include "quiz/limits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace footroom::quiz {
namespace {

/// A limit does not say its dimension; it is that of the unit it is published in.
std::optional<notation::ReadQuantity> read_published(const std::string& text) {
  for (const notation::Unit& unit : notation::all_units()) {
    const auto read = notation::read_quantity(text, unit.dimension);
    const auto* quantity = std::get_if<notation::ReadQuantity>(&read);
    // A mass reads as the force of its weight too; that is not what was published.
    if (quantity && quantity->unit && quantity->unit->dimension == unit.dimension) return *quantity;
  }
  return std::nullopt;
}

template <class Map>
std::string did_you_mean(const std::string& misspelt, const Map& map) {
  std::vector<std::string> names;
  for (const auto& [name, entry] : map) names.push_back(name);
  const auto near = notation::suggest(misspelt, names);
  return near ? fmt::format("; did you mean \"{}\"?", *near) : "";
}

}  // namespace

std::variant<LimitInForce, bank::Defect> limit_in_force(const bank::Bank& bank,
                                                        const bank::Item& item,
                                                        const Settings& settings,
                                                        const std::string& id) {
  const auto rules = bank.rules.find(settings.rules);
  if (rules == bank.rules.end())
    return bank::Defect{item.at, fmt::format("unknown rule set \"{}\"{}", settings.rules,
                                             did_you_mean(settings.rules, bank.rules))};
  const auto& limits = rules->second.limits;
  const auto found = limits.find(id);
  if (found == limits.end())
    return bank::Defect{item.at, fmt::format("the rule set \"{}\" has no limit \"{}\"{}",
                                             settings.rules, id, did_you_mean(id, limits))};
  const bank::Limit& limit = found->second;
  const bool us = settings.system == notation::System::us;
  const std::string& text = us ? limit.us : limit.si;
  if (text.empty())
    return bank::Defect{
        item.at, fmt::format("the limit \"{}\" of the rule set \"{}\" has no value in {} "
                             "units ({}:{})",
                             id, settings.rules, us ? "US" : "SI", limit.at.file, limit.at.line)};
  if (const auto quantity = read_published(text))
    return LimitInForce{
        &limit, *quantity,
        notation::write_quantity_shortest(quantity->number, *quantity->unit, settings.style)};
  return bank::Defect{limit.at, fmt::format("the limit \"{}\" is \"{}\", expected a number with "
                                            "its unit",
                                            id, text)};
}

std::vector<std::string> limits_needed(const bank::Item& item) {
  std::vector<std::string> ids = item.limits;
  for (const auto& derivation : item.derivations) {
    if (!derivation.calculation) continue;
    const bank::CalculationUse& use = *derivation.calculation;
    const engine::Calculation* calculation = engine::find_calculation(use.calculation);
    if (!calculation) continue;  // refused where the item is compiled
    for (const engine::Input& input : calculation->inputs) {
      if (input.fallback_limit.empty()) continue;
      const bool given =
          std::any_of(use.arguments.begin(), use.arguments.end(),
                      [&](const bank::Argument& argument) { return argument.input == input.id; });
      const std::string id(input.fallback_limit);
      if (!given && std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
    }
  }
  return ids;
}

bool belongs_to(const bank::Item& item, const std::string& rules) {
  return item.rules.empty() ||
         std::find(item.rules.begin(), item.rules.end(), rules) != item.rules.end();
}

bool has_limits(const bank::Bank& bank, const bank::Item& item, const Settings& settings) {
  for (const std::string& id : limits_needed(item))
    if (!std::holds_alternative<LimitInForce>(limit_in_force(bank, item, settings, id)))
      return false;
  return true;
}

bool can_be_asked(const bank::Bank& bank, const bank::Item& item, const Settings& settings) {
  return belongs_to(item, settings.rules) && has_limits(bank, item, settings);
}

}  // namespace footroom::quiz
