#include "notation/unit.hpp"

#include <algorithm>
#include <cmath>

namespace footroom::notation {
namespace {

namespace dimension = engine::dimension;

// Exact by definition: foot and pound by the international agreement of 1959 (1 ft = 0.3048 m,
// 1 lb = 0.45359237 kg); pound-force with standard gravity, 9.80665 m/s2. Written out, so that
// each is the double nearest to its definition.
constexpr double foot = 0.3048;
constexpr double inch = 0.0254;
constexpr double pound = 0.45359237;
constexpr double pound_force = 4.4482216152605;
constexpr double degree = 3.14159265358979323846 / 180;
constexpr double pitch_run = 12;

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// Distance by insertions, deletions, exchanges and swaps of neighbours; upper and lower case
/// are alike.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  const std::size_t width = b.size() + 1;
  std::vector<std::size_t> distances((a.size() + 1) * width);
  const auto at = [&](std::size_t i, std::size_t j) -> std::size_t& {
    return distances[i * width + j];
  };
  for (std::size_t i = 0; i <= a.size(); ++i) at(i, 0) = i;
  for (std::size_t j = 0; j <= b.size(); ++j) at(0, j) = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t exchange = at(i - 1, j - 1) + (lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1);
      at(i, j) = std::min({at(i - 1, j) + 1, at(i, j - 1) + 1, exchange});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        at(i, j) = std::min(at(i, j), at(i - 2, j - 2) + 1);
    }
  }
  return distances.back();
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
      {"percent", {"%", "%"}, dimension::ratio, 0.01, {"%", "por ciento"}},
      {"ft",
       {" ft", " ft"},
       dimension::length,
       foot,
       {"ft.", "feet", "foot", "'", "′", "’", "pies", "pie"}},
      {"ft-in", {" ft", " ft"}, dimension::length, foot},
      {"in",
       {" in", " in"},
       dimension::length,
       inch,
       {"in.", "inch", "inches", "\"", "″", "”", "''", "pulgadas", "pulgada", "pulg"}},
      {"m",
       {" m", " m"},
       dimension::length,
       1,
       {"metre", "metres", "meter", "meters", "metros", "metro"}},
      {"cm",
       {" cm", " cm"},
       dimension::length,
       0.01,
       {"centimetre", "centimetres", "centimeter", "centimeters", "centímetro", "centímetros"}},
      {"mm",
       {" mm", " mm"},
       dimension::length,
       0.001,
       {"millimetre", "millimetres", "millimeter", "millimeters", "milímetro", "milímetros"}},
      {"ft2",
       {" ft²", " ft²"},
       dimension::area,
       foot * foot,
       {"ft²", "ft^2", "sq ft", "sq. ft.", "sqft", "square feet", "square foot", "pies cuadrados",
        "pie cuadrado"}},
      {"in2",
       {" in²", " in²"},
       dimension::area,
       inch * inch,
       {"in²", "in^2", "sq in", "sq. in.", "square inches", "square inch", "pulgadas cuadradas",
        "pulgada cuadrada"}},
      {"m2",
       {" m²", " m²"},
       dimension::area,
       1,
       {"m²", "m^2", "sq m", "square metres", "square metre", "square meters", "square meter",
        "metros cuadrados", "metro cuadrado"}},
      {"pitch", {":12", ":12"}, dimension::angle, 1, {":12", "/12", "in 12", "en 12"}},
      {"deg",
       {"°", "°"},
       dimension::angle,
       degree,
       {"°", "º", "degree", "degrees", "grado", "grados"}},
      {"rad", {" rad", " rad"}, dimension::angle, 1, {"radian", "radians", "radián", "radianes"}},
      {"lb",
       {" lb", " lb"},
       dimension::mass,
       pound,
       {"lb.", "lbs", "lbs.", "lbm", "pound", "pounds", "libra", "libras"}},
      {"kg",
       {" kg", " kg"},
       dimension::mass,
       1,
       {"kgs", "kilo", "kilos", "kilogram", "kilograms", "kilogramo", "kilogramos"}},
      {"lbf",
       {" lbf", " lbf"},
       dimension::force,
       pound_force,
       {"lbsf", "pound-force", "pounds-force", "pounds of force", "libra-fuerza", "libras-fuerza",
        "libras de fuerza"}},
      {"N", {" N", " N"}, dimension::force, 1, {"newton", "newtons"}},
      {"kN", {" kN", " kN"}, dimension::force, 1000, {"kilonewton", "kilonewtons"}},
      {"s",
       {" s", " s"},
       dimension::time,
       1,
       {"sec", "sec.", "seg", "second", "seconds", "segundo", "segundos"}},
      {"ft/s",
       {" ft/s", " ft/s"},
       dimension::speed,
       foot,
       {"fps", "ft/sec", "feet per second", "pies/s", "pies por segundo"}},
      {"m/s",
       {" m/s", " m/s"},
       dimension::speed,
       1,
       {"m/sec", "metres per second", "meters per second", "metros por segundo"}},
      {"ft/s2", {" ft/s²", " ft/s²"}, dimension::acceleration, foot, {"ft/s²", "ft/s^2"}},
      {"m/s2", {" m/s²", " m/s²"}, dimension::acceleration, 1, {"m/s²", "m/s^2"}},
      {"ft-lbf",
       {" ft·lbf", " ft·lbf"},
       dimension::energy,
       foot * pound_force,
       {"ft·lbf", "ft-lb", "ft-lbs", "ft lbf", "ft lb", "ft lbs", "foot-pounds", "foot-pound",
        "pies-libra", "pie-libra"}},
      {"J", {" J", " J"}, dimension::energy, 1, {"joule", "joules"}},
      {"kJ", {" kJ", " kJ"}, dimension::energy, 1000, {"kilojoule", "kilojoules"}},
      {"lbf/ft",
       {" lbf/ft", " lbf/ft"},
       dimension::stiffness,
       pound_force / foot,
       {"lb/ft", "lbs/ft"}},
      {"lbf/in",
       {" lbf/in", " lbf/in"},
       dimension::stiffness,
       pound_force / inch,
       {"lb/in", "lbs/in"}},
      {"N/m", {" N/m", " N/m"}, dimension::stiffness, 1},
      {"kN/m", {" kN/m", " kN/m"}, dimension::stiffness, 1000},
      {"psi",
       {" psi", " psi"},
       dimension::pressure,
       pound_force / (inch * inch),
       {"lbf/in2", "lbf/in²", "lb/in2", "lb/in²"}},
      {"MPa", {" MPa", " MPa"}, dimension::pressure, 1e6, {"N/mm2", "N/mm²"}},
      {"Pa", {" Pa", " Pa"}, dimension::pressure, 1, {"pascal", "pascals", "pascales"}},
      {"lbf-s/ft",
       {" lbf·s/ft", " lbf·s/ft"},
       dimension::damping,
       pound_force / foot,
       {"lbf·s/ft"}},
      {"N-s/m", {" N·s/m", " N·s/m"}, dimension::damping, 1, {"N·s/m"}},
  };
  return units;
}

bool same_spelling(std::string_view typed, std::string_view spelling) {
  if (typed == spelling) return true;
  // "FT", "Lbs", "kn": the case of letters is free, except where it tells mega from milli.
  constexpr std::size_t longest_symbol = 3;
  const bool symbol_of_one_letter = spelling.size() == 1;
  const bool milli_or_mega = spelling.size() <= longest_symbol && !spelling.empty() &&
                             (spelling.front() == 'm' || spelling.front() == 'M');
  if (typed.size() != spelling.size() || symbol_of_one_letter || milli_or_mega) return false;
  return std::equal(typed.begin(), typed.end(), spelling.begin(),
                    [&](char a, char b) { return lower(a) == lower(b); });
}

const Unit* find_unit(std::string_view name_or_spelling) {
  const auto is_it = [&](std::string_view one) { return same_spelling(name_or_spelling, one); };
  for (const Unit& unit : all_units())
    if (is_it(unit.name) || std::any_of(unit.also.begin(), unit.also.end(), is_it)) return &unit;
  return nullptr;
}

std::optional<std::string> suggest(std::string_view misspelt,
                                   const std::vector<std::string>& names) {
  const std::string* nearest = nullptr;
  std::size_t least = misspelt.size() <= 3 ? 1 : misspelt.size() <= 6 ? 2 : 3;
  for (const std::string& name : names) {
    const auto [shorter, longer] = std::minmax({misspelt.size(), name.size()});
    if (longer - shorter > least) continue;
    const std::size_t distance = edit_distance(misspelt, name);
    // A name that shares no letter is no suggestion, however short it is.
    if (distance > least || distance >= longer) continue;
    if (nearest && distance == least) continue;
    nearest = &name;
    least = distance;
  }
  if (!nearest) return std::nullopt;
  return *nearest;
}

std::optional<std::string_view> suggest_unit(std::string_view misspelt) {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const Unit& unit : all_units()) {
      all.emplace_back(unit.name);
      for (const std::string_view spelling : unit.also) all.emplace_back(spelling);
    }
    return all;
  }();
  const auto near = suggest(misspelt, names);
  if (!near) return std::nullopt;
  return find_unit(*near)->name;
}

}  // namespace footroom::notation
