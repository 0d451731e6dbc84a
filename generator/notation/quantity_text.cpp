#include "notation/quantity_text.hpp"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace footroom::notation {
namespace {

constexpr std::string_view minus_sign = "\u2212";
constexpr std::string_view no_break_space = "\u00a0";

/// Digits with a point to the form of a style: thousands grouped, decimal mark, real minus.
std::string styled(std::string_view digits, Style style) {
  std::string out;
  if (!digits.empty() && digits.front() == '-') {
    digits.remove_prefix(1);
    if (digits.find_first_not_of("0.") != std::string_view::npos) out += minus_sign;
  }
  const std::size_t whole = std::min(digits.find('.'), digits.size());
  for (std::size_t i = 0; i < whole; ++i) {
    if (i > 0 && (whole - i) % 3 == 0) {
      if (style.decimal_mark == '.')
        out += ',';
      else
        out += no_break_space;
    }
    out += digits[i];
  }
  if (whole < digits.size()) {
    out += style.decimal_mark;
    out += digits.substr(whole + 1);
  }
  return out;
}

std::string with_unit(std::string number, const Unit& unit, Style style) {
  const std::string_view printed = unit.printed.in(style.language);
  if (!printed.empty() && printed.front() == ' ')
    return number.append(no_break_space).append(printed.substr(1));
  return number.append(printed);
}

constexpr int inches_per_foot = 12;
int parts_per_inch(int places) {
  return places == 0 ? 1 : 8;
}

std::string feet_and_inches(double feet, int places) {
  const int per_inch = parts_per_inch(places);
  long long parts = std::llround(std::abs(feet) * inches_per_foot * per_inch);
  std::string out(feet < 0 && parts > 0 ? minus_sign : std::string_view());
  const long long whole_feet = parts / (inches_per_foot * per_inch);
  parts %= inches_per_foot * per_inch;
  long long numerator = parts % per_inch;
  const long long inches = parts / per_inch;
  out += fmt::format("{}{}ft", whole_feet, no_break_space);
  if (inches == 0 && numerator == 0) return out;
  out += no_break_space;
  if (inches > 0 || numerator == 0) out += fmt::format("{}", inches);
  if (numerator > 0) {
    int denominator = per_inch;
    while (numerator % 2 == 0) {
      numerator /= 2;
      denominator /= 2;
    }
    out += fmt::format("{}{}/{}", inches > 0 ? "-" : "", numerator, denominator);
  }
  return out.append(no_break_space).append("in");
}

// ---- Reading -----------------------------------------------------------------------------------

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Walks over the text of a quantity.
class Cursor {
 public:
  explicit Cursor(std::string_view text) : rest_(text) {}

  bool at_end() {
    skip_space();
    return rest_.empty();
  }
  void skip_space() {
    for (;;) {
      if (!rest_.empty() && (rest_.front() == ' ' || rest_.front() == '\t'))
        rest_.remove_prefix(1);
      else if (rest_.starts_with(no_break_space))
        rest_.remove_prefix(no_break_space.size());
      else
        return;
    }
  }
  bool take(std::string_view token) {
    skip_space();
    if (!rest_.starts_with(token)) return false;
    rest_.remove_prefix(token.size());
    return true;
  }
  bool at_digit() {
    skip_space();
    return !rest_.empty() &&
           (is_digit(rest_.front()) || ((rest_.front() == '.' || rest_.front() == ',') &&
                                        rest_.size() > 1 && is_digit(rest_[1])));
  }
  std::string_view rest() const { return rest_; }
  void drop(std::size_t count) { rest_.remove_prefix(count); }

 private:
  std::string_view rest_;
};

/// A comma groups thousands where exactly three digits follow and one to three precede, and is a
/// decimal mark elsewhere: "1,800" and "12,5".
std::optional<double> read_decimal(Cursor& cursor) {
  cursor.skip_space();
  const std::string_view rest = cursor.rest();
  std::string plain;
  std::size_t i = 0;
  bool point = false;
  while (i < rest.size()) {
    const char c = rest[i];
    if (is_digit(c)) {
      plain += c;
    } else if (c == ',' && !point) {
      std::size_t after = i + 1;
      while (after < rest.size() && is_digit(rest[after])) ++after;
      const std::size_t digits = after - i - 1;
      if (digits == 0) break;
      const bool groups = digits == 3 && !plain.empty() && plain != "0";
      if (!groups) {
        plain += '.';
        point = true;
      }
    } else if (c == '.' && !point && i + 1 < rest.size() && is_digit(rest[i + 1])) {
      plain += '.';
      point = true;
    } else if (c == '.' && !point && !plain.empty()) {
      point = true;  // "12." is 12
    } else {
      break;
    }
    ++i;
  }
  if (plain.empty()) return std::nullopt;
  if ((i < rest.size()) && (rest[i] == 'e' || rest[i] == 'E')) {
    std::size_t after = i + 1;
    if (after < rest.size() && (rest[after] == '-' || rest[after] == '+')) ++after;
    const std::size_t first = after;
    while (after < rest.size() && is_digit(rest[after])) ++after;
    if (after > first) {
      std::string exponent(rest.substr(i, after - i));
      exponent.erase(std::remove(exponent.begin(), exponent.end(), '+'), exponent.end());
      plain += exponent;
      i = after;
    }
  }
  double number = 0;
  const auto read = fast_float::from_chars(plain.data(), plain.data() + plain.size(), number);
  if (read.ec != std::errc() || !std::isfinite(number)) return std::nullopt;
  cursor.drop(i);
  return number;
}

/// A number as people write it: "12", "12.5", "1/2", "12 1/2", "6-1/2".
std::optional<double> read_number(Cursor& cursor) {
  const auto first = read_decimal(cursor);
  if (!first) return std::nullopt;
  if (cursor.rest().starts_with("/")) {
    Cursor after = cursor;
    after.take("/");
    const auto denominator = read_decimal(after);
    if (!denominator || !(*denominator > 0)) return std::nullopt;
    cursor = after;
    return *first / *denominator;
  }
  Cursor after = cursor;
  after.take("-");
  if (after.at_digit()) {
    const auto numerator = read_decimal(after);
    if (numerator && after.rest().starts_with("/")) {
      after.take("/");
      const auto denominator = read_decimal(after);
      if (denominator && *denominator > *numerator) {
        cursor = after;
        return *first + *numerator / *denominator;
      }
    }
  }
  return first;
}

/// Takes the longest spelling of a unit that stands here.
const Unit* read_unit(Cursor& cursor) {
  cursor.skip_space();
  const Unit* best = nullptr;
  std::size_t length = 0;
  const auto consider = [&](const Unit& unit, std::string_view spelling) {
    if (spelling.size() > length && cursor.rest().starts_with(spelling)) {
      // "in" must not be cut out of "inx": a word has to end where the spelling ends.
      const std::string_view after = cursor.rest().substr(spelling.size());
      const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
      if (letter(spelling.back()) && !after.empty() && letter(after.front())) return;
      best = &unit;
      length = spelling.size();
    }
  };
  for (const Unit& unit : all_units()) {
    if (unit.name != "ft-in") consider(unit, unit.name);
    for (const std::string_view spelling : unit.also) consider(unit, spelling);
  }
  if (best) cursor.drop(length);
  return best;
}

ReadError unknown_unit(std::string_view rest) {
  const std::string name(rest.substr(0, rest.find(' ')));
  std::string message = "unknown unit '" + name + "'";
  if (const auto near = suggest_unit(name))
    message += ", did you mean '" + std::string(*near) + "'?";
  return {message};
}

std::string unit_names(engine::Dimension dimension) {
  std::string all;
  for (const Unit& unit : all_units()) {
    if (unit.dimension != dimension || unit.name.empty() || unit.name == "ft-in") continue;
    if (!all.empty()) all += ", ";
    all += unit.name;
  }
  return all;
}

}  // namespace

std::string write_number(double number, int places, Style style) {
  return styled(fmt::format("{:.{}f}", number, places), style);
}

std::string write_shortest(double number, Style style) {
  std::string digits = fmt::format("{:.12g}", number);
  if (digits.find('e') == std::string::npos) return styled(digits, style);
  digits = fmt::format("{:.12f}", number);  // small or large: no exponent on a sheet
  while (digits.back() == '0') digits.pop_back();
  if (digits.back() == '.') digits.pop_back();
  return styled(digits, style);
}

std::string write_quantity(double number, const Unit& unit, int places, Style style) {
  if (unit.name == "ft-in") return feet_and_inches(number, places);
  return with_unit(write_number(number, places, style), unit, style);
}

std::string write_quantity_shortest(double number, const Unit& unit, Style style) {
  if (unit.name == "ft-in") return feet_and_inches(number, 1);
  return with_unit(write_shortest(number, style), unit, style);
}

bool near_rounding_boundary(double number, int places) {
  const double scaled = std::abs(number) * std::pow(10.0, places);
  const double from_half = std::abs(scaled - std::floor(scaled) - 0.5);
  return !(from_half > 1e-9 * std::max(1.0, scaled));
}

bool near_rounding_boundary(double number, const Unit& unit, int places) {
  if (unit.name == "ft-in")
    return near_rounding_boundary(number * inches_per_foot * parts_per_inch(places), 0);
  return near_rounding_boundary(number, places);
}

std::string dimension_in_words(engine::Dimension d) {
  namespace dimension = engine::dimension;
  if (d == dimension::ratio) return "a plain number";
  if (d == dimension::length) return "a length";
  if (d == dimension::area) return "an area";
  if (d == dimension::angle) return "an angle";
  if (d == dimension::mass) return "a mass";
  if (d == dimension::time) return "a time";
  if (d == dimension::speed) return "a speed";
  if (d == dimension::acceleration) return "an acceleration";
  if (d == dimension::force) return "a force";
  if (d == dimension::energy) return "an energy";
  if (d == dimension::stiffness) return "a stiffness";
  if (d == dimension::pressure) return "a pressure";
  if (d == dimension::damping) return "a damping";
  std::string all;
  const auto add = [&all](std::string_view base, int exponent) {
    if (exponent == 0) return;
    if (!all.empty()) all += ' ';
    all += base;
    if (exponent != 1) all += std::to_string(exponent);
  };
  add("m", d.length);
  add("kg", d.mass);
  add("s", d.time);
  add("rad", d.angle);
  return all;
}

std::variant<ReadQuantity, ReadError> read_quantity(std::string_view text,
                                                    engine::Dimension expected) {
  Cursor cursor(text);
  const std::string shown = "'" + std::string(text) + "'";
  bool negative = false;
  if (cursor.take("-") || cursor.take(minus_sign))
    negative = true;
  else
    cursor.take("+");
  const auto first = read_number(cursor);
  if (!first)
    return ReadError{shown + " is not a quantity, expected a number with a unit (" +
                     unit_names(expected) + ")"};

  if (cursor.at_end()) {
    if (expected != engine::dimension::ratio)
      return ReadError{shown + " has no unit, expected " + dimension_in_words(expected) + " (" +
                       unit_names(expected) + ")"};
    const double number = negative ? -*first : *first;
    return ReadQuantity{{expected, number}, find_unit(""), number};
  }

  const Unit* unit = nullptr;
  if (cursor.take(":")) {  // a pitch, rise to run
    const auto run = read_number(cursor);
    if (!run || !(*run > 0))
      return ReadError{shown + " is no pitch, expected rise and run, as 6:12"};
    unit = find_unit("pitch");
    const double rise = *first * 12 / *run;
    if (!cursor.at_end()) return unknown_unit(cursor.rest());
    if (expected != engine::dimension::angle)
      return ReadError{shown + " is an angle, expected " + dimension_in_words(expected)};
    const double number = negative ? -rise : rise;
    return ReadQuantity{{expected, unit->to_si(number)}, unit, number};
  }

  unit = read_unit(cursor);
  if (!unit) return unknown_unit(cursor.rest());
  double number = *first;
  // Feet and inches: "4' 6\"", "4 ft 6 in", "4 ft 6-1/2 in".
  if (unit->name == "ft" && !cursor.at_end()) {
    cursor.take("-");
    const auto inches = read_number(cursor);
    const Unit* second = inches ? read_unit(cursor) : nullptr;
    if (!second || second->name != "in" || !(*inches < inches_per_foot))
      return ReadError{shown + " cannot be read, expected feet and inches, as 4 ft 6 in"};
    number += *inches / inches_per_foot;
  }
  if (!cursor.at_end())
    return ReadError{shown + " goes on with '" + std::string(cursor.rest()) +
                     "' after the quantity, expected its end"};
  if (negative) number = -number;

  double si = unit->to_si(number);
  if (unit->dimension == engine::dimension::mass && expected == engine::dimension::force)
    si *= engine::standard_gravity.value();  // the weight of that mass
  else if (unit->dimension != expected)
    return ReadError{shown + " is " + dimension_in_words(unit->dimension) + ", expected " +
                     dimension_in_words(expected) + " (" + unit_names(expected) + ")"};
  if (!std::isfinite(si)) return ReadError{shown + " is too large a number"};
  return ReadQuantity{{expected, si}, unit, number};
}

}  // namespace footroom::notation
