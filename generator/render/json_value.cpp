#include "render/json_value.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>

namespace footroom::render {
namespace {

struct NamedUnit {
  engine::Dimension dimension;
  std::string_view name;
};

// Energy and moment share a dimension, and so a name.
constexpr std::array named_units{
    NamedUnit{engine::dimension::ratio, ""},
    NamedUnit{engine::dimension::length, "m"},
    NamedUnit{engine::dimension::area, "m2"},
    NamedUnit{engine::dimension::angle, "rad"},
    NamedUnit{engine::dimension::mass, "kg"},
    NamedUnit{engine::dimension::time, "s"},
    NamedUnit{engine::dimension::speed, "m/s"},
    NamedUnit{engine::dimension::acceleration, "m/s2"},
    NamedUnit{engine::dimension::force, "N"},
    NamedUnit{engine::dimension::energy, "J"},
    NamedUnit{engine::dimension::stiffness, "N/m"},
    NamedUnit{engine::dimension::pressure, "Pa"},
    NamedUnit{engine::dimension::damping, "N s/m"},
};

void add_power(std::string& unit, std::string_view base, int exponent) {
  if (exponent == 0) return;
  if (!unit.empty()) unit += ' ';
  unit += base;
  if (exponent != 1) unit += std::to_string(exponent);
}

double significant(double number, int digits) {
  if (!std::isfinite(number)) return number;
  constexpr double twelve_nines = 999'999'999'999;
  if (std::abs(number) <= twelve_nines && number == std::trunc(number))
    return number == 0 ? 0 : number;
  const std::string text = fmt::format("{:.{}g}", number, digits);
  double rounded = 0;
  std::from_chars(text.data(), text.data() + text.size(), rounded);
  return rounded == 0 ? 0 : rounded;  // no negative zero in a file
}

}  // namespace

double twelve_digits(double number) {
  return significant(number, 12);
}

double nine_digits(double number) {
  // Many are products of short decimals and end in a 5 after the ninth digit: they are rounded up,
  // whatever the last bit says.
  constexpr double last_bits = 1e-13;
  return number == std::trunc(number) ? significant(number, 9)
                                      : significant(number * (1 + last_bits), 9);
}

std::string base_unit_name(engine::Dimension dimension) {
  for (const NamedUnit& unit : named_units)
    if (unit.dimension == dimension) return std::string(unit.name);
  std::string product;
  add_power(product, "kg", dimension.mass);
  add_power(product, "m", dimension.length);
  add_power(product, "s", dimension.time);
  add_power(product, "rad", dimension.angle);
  return product;
}

nlohmann::ordered_json json_value(const engine::Value& value, std::string_view text) {
  nlohmann::ordered_json json;
  if (const auto* quantity = std::get_if<engine::Quantity>(&value)) {
    json["si"] = twelve_digits(quantity->si);
    json["unit"] = base_unit_name(quantity->dimension);
  } else if (const auto* list = std::get_if<engine::Quantities>(&value)) {
    json["si"] = nlohmann::ordered_json::array();
    for (const engine::Quantity& one : *list) json["si"].push_back(twelve_digits(one.si));
    json["unit"] = list->empty() ? std::string() : base_unit_name(list->front().dimension);
  } else if (const auto* word = std::get_if<engine::Word>(&value)) {
    json["word"] = word->id;
  } else {
    json["words"] = nlohmann::ordered_json::array();
    for (const engine::Word& one : std::get<engine::Words>(value)) json["words"].push_back(one.id);
  }
  json["text"] = text;
  return json;
}

}  // namespace footroom::render
