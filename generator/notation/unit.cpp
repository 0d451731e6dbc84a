#include "notation/unit.hpp"

#include <algorithm>
#include <cmath>

namespace footroom::notation {
namespace {

namespace dimension = engine::dimension;

// Exact by definition: foot and pound by the international agreement of 1959 (1 ft = 0.3048 m,
// 1 lb = 0.45359237 kg); pound-force with standard gravity, 9.80665 m/s2.
constexpr double foot = 0.3048;
constexpr double inch = foot / 12;
constexpr double pound = 0.45359237;
constexpr double pound_force = pound * 9.80665;
constexpr double degree = 3.14159265358979323846 / 180;
constexpr double pitch_run = 12;

/// Distance by insertions, deletions, exchanges and swaps of neighbours.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> rows(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) rows[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j) rows[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t exchange = rows[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      rows[i][j] = std::min({rows[i - 1][j] + 1, rows[i][j - 1] + 1, exchange});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        rows[i][j] = std::min(rows[i][j], rows[i - 2][j - 2] + 1);
    }
  }
  return rows[a.size()][b.size()];
}

}  // namespace

double Unit::to_si(double number) const {
  return name == "pitch" ? std::atan(number / pitch_run) : number * factor;
}

double Unit::from_si(double si) const {
  return name == "pitch" ? std::tan(si) * pitch_run : si / factor;
}

const std::vector<Unit>& all_units() {
  static const std::vector<Unit> units = {
      {"", {"", ""}, dimension::ratio, 1},
      {"percent", {"%", "%"}, dimension::ratio, 0.01, {"%"}},
      {"ft", {" ft", " ft"}, dimension::length, foot, {"feet", "foot", "'", "′", "pies", "pie"}},
      {"ft-in", {" ft", " ft"}, dimension::length, foot},
      {"in",
       {" in", " in"},
       dimension::length,
       inch,
       {"in.", "inch", "inches", "\"", "″", "pulgadas", "pulgada"}},
      {"m", {" m", " m"}, dimension::length, 1, {"metre", "metres", "meter", "meters", "metros"}},
      {"cm", {" cm", " cm"}, dimension::length, 0.01},
      {"mm", {" mm", " mm"}, dimension::length, 0.001},
      {"ft2", {" ft²", " ft²"}, dimension::area, foot * foot, {"ft²", "sq ft", "sqft"}},
      {"in2", {" in²", " in²"}, dimension::area, inch * inch, {"in²", "sq in"}},
      {"m2", {" m²", " m²"}, dimension::area, 1, {"m²", "sq m"}},
      {"pitch", {":12", ":12"}, dimension::angle, 1, {":12", "in 12"}},
      {"deg", {"°", "°"}, dimension::angle, degree, {"°", "degree", "degrees", "grados"}},
      {"rad", {" rad", " rad"}, dimension::angle, 1, {"radian", "radians"}},
      {"lb", {" lb", " lb"}, dimension::mass, pound, {"lbs", "pound", "pounds", "libras"}},
      {"kg", {" kg", " kg"}, dimension::mass, 1, {"kilogram", "kilograms", "kilogramos"}},
      {"lbf", {" lbf", " lbf"}, dimension::force, pound_force},
      {"N", {" N", " N"}, dimension::force, 1, {"newton", "newtons"}},
      {"kN", {" kN", " kN"}, dimension::force, 1000},
      {"s", {" s", " s"}, dimension::time, 1, {"sec", "second", "seconds", "segundos"}},
      {"ft/s", {" ft/s", " ft/s"}, dimension::speed, foot, {"fps"}},
      {"m/s", {" m/s", " m/s"}, dimension::speed, 1},
      {"ft/s2", {" ft/s²", " ft/s²"}, dimension::acceleration, foot, {"ft/s²"}},
      {"m/s2", {" m/s²", " m/s²"}, dimension::acceleration, 1, {"m/s²"}},
      {"ft-lbf",
       {" ft·lbf", " ft·lbf"},
       dimension::energy,
       foot * pound_force,
       {"ft·lbf", "ft-lb"}},
      {"J", {" J", " J"}, dimension::energy, 1, {"joule", "joules"}},
      {"kJ", {" kJ", " kJ"}, dimension::energy, 1000},
      {"lbf/ft", {" lbf/ft", " lbf/ft"}, dimension::stiffness, pound_force / foot, {"lb/ft"}},
      {"lbf/in", {" lbf/in", " lbf/in"}, dimension::stiffness, pound_force / inch, {"lb/in"}},
      {"N/m", {" N/m", " N/m"}, dimension::stiffness, 1},
      {"kN/m", {" kN/m", " kN/m"}, dimension::stiffness, 1000},
      {"psi", {" psi", " psi"}, dimension::pressure, pound_force / (inch * inch)},
      {"MPa", {" MPa", " MPa"}, dimension::pressure, 1e6},
      {"Pa", {" Pa", " Pa"}, dimension::pressure, 1},
      {"lbf-s/ft",
       {" lbf·s/ft", " lbf·s/ft"},
       dimension::damping,
       pound_force / foot,
       {"lbf·s/ft"}},
      {"N-s/m", {" N·s/m", " N·s/m"}, dimension::damping, 1, {"N·s/m"}},
  };
  return units;
}

const Unit* find_unit(std::string_view name_or_spelling) {
  for (const Unit& unit : all_units())
    if (unit.name == name_or_spelling ||
        std::find(unit.also.begin(), unit.also.end(), name_or_spelling) != unit.also.end())
      return &unit;
  return nullptr;
}

std::optional<std::string> suggest(std::string_view misspelt,
                                   const std::vector<std::string>& names) {
  const std::string* nearest = nullptr;
  std::size_t least = misspelt.size() <= 2 ? 1 : misspelt.size() <= 5 ? 2 : 3;
  for (const std::string& name : names) {
    const std::size_t distance = edit_distance(misspelt, name);
    // A name that shares no letter is no suggestion, however short it is.
    if (distance > least || distance >= std::max(misspelt.size(), name.size())) continue;
    if (nearest && distance == least) continue;
    nearest = &name;
    least = distance;
  }
  if (!nearest) return std::nullopt;
  return *nearest;
}

std::optional<std::string_view> suggest_unit(std::string_view misspelt) {
  std::vector<std::string> names;
  for (const Unit& unit : all_units()) {
    names.emplace_back(unit.name);
    for (const std::string_view spelling : unit.also) names.emplace_back(spelling);
  }
  const auto near = suggest(misspelt, names);
  if (!near) return std::nullopt;
  return find_unit(*near)->name;
}

}  // namespace footroom::notation
