#include "notation/quantity_text.hpp"

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <stdexcept>

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

void refuse_not_finite(double number) {
  if (!std::isfinite(number))
    throw std::domain_error("a number that is not finite cannot be written");
}

constexpr int inches_per_foot = 12;
constexpr int finest_parts_per_inch = 16;  // the finest marks of a tape measure
int parts_per_inch(int places) {
  return places == 0 ? 1 : 8;
}

/// "4 ft 6-1/2 in", to the nearest part of an inch; "6 in" below a foot, "4 ft" without inches.
std::string feet_and_inches(double feet, int per_inch, Style style) {
  const double all_parts = std::abs(feet) * inches_per_foot * per_inch;
  constexpr double most_parts = 1e15;  // above, no double tells parts of an inch apart
  if (!(all_parts < most_parts)) return write_shortest(feet, style).append(no_break_space) + "ft";
  const long long parts = std::llround(all_parts);
  const long long whole_feet = parts / per_inch / inches_per_foot;
  const long long inches = parts / per_inch % inches_per_foot;
  long long numerator = parts % per_inch;
  std::string out(feet < 0 && parts > 0 ? minus_sign : std::string_view());
  const bool any_inches = inches > 0 || numerator > 0;
  if (whole_feet > 0 || !any_inches)
    out += write_number(static_cast<double>(whole_feet), 0, style).append(no_break_space) + "ft";
  if (!any_inches) return out;
  if (whole_feet > 0) out += no_break_space;
  if (inches > 0) out += fmt::format("{}", inches);
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

/// Where the tape has no mark for it: "4 ft 6.3 in".
std::string feet_and_decimal_inches(double feet, Style style) {
  const double all_inches = std::abs(feet) * inches_per_foot;
  const double whole_feet = std::floor(all_inches / inches_per_foot);
  std::string out(feet < 0 ? minus_sign : std::string_view());
  if (whole_feet > 0)
    out.append(write_number(whole_feet, 0, style))
        .append(no_break_space)
        .append("ft")
        .append(no_break_space);
  return out.append(write_shortest(all_inches - whole_feet * inches_per_foot, style))
      .append(no_break_space)
      .append("in");
}

double times_power_of_ten(double number, int places) {
  for (; places > 0; --places) number *= 10;
  return number;
}

// ---- Reading -----------------------------------------------------------------------------------

constexpr std::size_t longest_text = 200;

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/// Spaces of any width become plain ones, the minus sign a hyphen, and the fractions that ///
/// letter of their own are written out.
std::string plain_characters(std::string_view text) {
  struct Exchange {
    std::string_view from;
    std::string_view to;
  };
  constexpr std::array exchanges = {
      Exchange{"\u00a0", " "},    Exchange{"\u202f", " "},    Exchange{"\u2009", " "},
      Exchange{"\t", " "},        Exchange{"\u2212", "-"},    Exchange{"\u00bd", " 1/2"},
      Exchange{"\u00bc", " 1/4"}, Exchange{"\u00be", " 3/4"}, Exchange{"\u215b", " 1/8"},
      Exchange{"\u215c", " 3/8"}, Exchange{"\u215d", " 5/8"}, Exchange{"\u215e", " 7/8"},
  };
  std::string plain;
  while (!text.empty()) {
    const auto found = std::find_if(exchanges.begin(), exchanges.end(),
                                    [&](const Exchange& e) { return text.starts_with(e.from); });
    if (found != exchanges.end()) {
      plain += found->to;
      text.remove_prefix(found->from.size());
    } else {
      plain += text.front();
      text.remove_prefix(1);
    }
  }
  return plain;
}

/// Walks over the text of a quantity.
class Cursor {
 public:
  explicit Cursor(std::string_view text) : rest_(text) {}

  void skip_space() { drop(std::min(rest_.find_first_not_of(' '), rest_.size())); }
  bool at_end() {
    skip_space();
    return rest_.empty();
  }
  bool take(std::string_view token) {
    if (!rest_.starts_with(token)) return false;
    drop(token.size());
    return true;
  }
  std::string_view rest() const { return rest_; }
  char at(std::size_t i) const { return i < rest_.size() ? rest_[i] : '\0'; }
  std::size_t digits_from(std::size_t start) const {
    std::size_t end = start;
    while (is_digit(at(end))) ++end;
    return end - start;
  }
  void drop(std::size_t count) { rest_.remove_prefix(count); }

 private:
  std::string_view rest_;
};

/// How many characters the groups of thousands take that stand here, "1,800" or "1 800"; 0 for
/// none. One to three digits lead, not all of them zero, and every group has three.
std::size_t grouped_thousands(const Cursor& cursor, char separator) {
  const std::size_t leading = cursor.digits_from(0);
  if (leading == 0 || leading > 3) return 0;
  if (cursor.rest().substr(0, leading).find_first_not_of('0') == std::string_view::npos) return 0;
  std::size_t end = leading;
  while (cursor.at(end) == separator && cursor.digits_from(end + 1) == 3) end += 4;
  const bool fraction_follows = cursor.at(end) == '/';  // "1 800/1000" has no groups
  return end == leading || fraction_follows ? 0 : end;
}

/// Digits with a decimal mark and grouped thousands. A comma with exactly three digits behind it
/// groups thousands, and is a decimal mark elsewhere: "1,800" and "12,5" and "0,125".
std::optional<double> read_decimal(Cursor& cursor) {
  std::string plain;
  std::size_t end = 0;
  char decimal_mark = '\0';
  if (const std::size_t commas = grouped_thousands(cursor, ','); commas > 0) {
    end = commas;
    decimal_mark = '.';
  } else if (const std::size_t spaces = grouped_thousands(cursor, ' '); spaces > 0) {
    end = spaces;
  } else {
    end = cursor.digits_from(0);
  }
  for (const char c : cursor.rest().substr(0, end))
    if (is_digit(c)) plain += c;
  const char mark = cursor.at(end);
  const std::size_t decimals = cursor.digits_from(end + 1);
  if ((mark == '.' || (mark == ',' && decimal_mark != '.')) && decimals > 0) {
    plain += '.';
    plain += cursor.rest().substr(end + 1, decimals);
    end += 1 + decimals;
  }
  if (plain.empty()) return std::nullopt;
  double number = 0;
  const auto read = fast_float::from_chars(plain.data(), plain.data() + plain.size(), number,
                                           fast_float::chars_format::fixed);
  if (read.ec != std::errc() || !std::isfinite(number)) return std::nullopt;
  cursor.drop(end);
  return number;
}

struct Number {
  double value;
  bool over_twelve = false;  ///< written n/12, as a pitch may be
  double numerator = 0;
};

/// A number as people write it: "12", "12.5", "1/2", "12 1/2", "6-1/2".
std::optional<Number> read_number(Cursor& cursor) {
  cursor.skip_space();
  const auto fraction = [](Cursor& at) -> std::optional<Number> {
    const auto numerator = read_decimal(at);
    if (!numerator || !at.take("/")) return std::nullopt;
    const auto denominator = read_decimal(at);
    if (!denominator || !(*denominator > 0)) return std::nullopt;
    return Number{*numerator / *denominator, *denominator == 12, *numerator};
  };
  Cursor after = cursor;
  if (const auto alone = fraction(after)) {
    cursor = after;
    return alone;
  }
  const auto whole = read_decimal(cursor);
  if (!whole || cursor.at(0) == '/') return std::nullopt;
  after = cursor;
  if (!after.take("-")) after.skip_space();
  if (const auto part = fraction(after); part && part->value < 1) {
    cursor = after;
    return Number{*whole + part->value};
  }
  return Number{*whole};
}

/// Takes the longest spelling of a unit that stands here.
const Unit* read_unit(Cursor& cursor) {
  cursor.skip_space();
  const Unit* best = nullptr;
  std::size_t length = 0;
  const auto consider = [&](const Unit& unit, std::string_view spelling) {
    if (spelling.size() <= length ||
        !same_spelling(cursor.rest().substr(0, spelling.size()), spelling))
      return;
    // "in" must not be cut out of "inx": a word has to end where the spelling ends.
    if (is_letter(spelling.back()) && is_letter(cursor.at(spelling.size()))) return;
    best = &unit;
    length = spelling.size();
  };
  for (const Unit& unit : all_units()) {
    if (unit.name != "ft-in") consider(unit, unit.name);
    for (const std::string_view spelling : unit.also) consider(unit, spelling);
  }
  cursor.drop(length);
  return best;
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

std::string expected_in_words(engine::Dimension dimension) {
  const std::string units = unit_names(dimension);
  return "expected " + dimension_in_words(dimension) + (units.empty() ? "" : " (" + units + ")");
}

/// A quantity in `unit` as one of the expected dimension.
std::variant<ReadQuantity, ReadError> made(double number, const Unit& unit,
                                           engine::Dimension expected, const std::string& shown) {
  double si = unit.to_si(number);
  if (unit.dimension == engine::dimension::mass && expected == engine::dimension::force)
    si *= engine::standard_gravity.value();  // the weight of that mass
  else if (unit.dimension != expected)
    return ReadError{shown + " is " + dimension_in_words(unit.dimension) + ", " +
                     expected_in_words(expected)};
  if (!std::isfinite(si)) return ReadError{shown + " is too large a number"};
  return ReadQuantity{{expected, si}, &unit, number};
}

}  // namespace

std::string write_number(double number, int places, Style style) {
  refuse_not_finite(number);
  return styled(fmt::format("{:.{}f}", number, places), style);
}

std::string write_shortest(double number, Style style) {
  refuse_not_finite(number);
  // Mantissa and exponent of 12 significant digits, then the point put where it belongs, since a
  // sheet shows no exponents.
  const std::string scientific = fmt::format("{:.11e}", std::abs(number));
  const std::size_t e = scientific.find('e');
  std::string digits = scientific.substr(0, 1) + scientific.substr(2, e - 2);
  digits.erase(digits.find_last_not_of('0') + 1);
  if (digits.empty()) return "0";
  const int point = std::atoi(scientific.c_str() + e + 1) + 1;  // digits before the point
  const int count = static_cast<int>(digits.size());
  if (point <= 0)
    digits = "0." + std::string(static_cast<std::size_t>(-point), '0') + digits;
  else if (point >= count)
    digits.append(static_cast<std::size_t>(point - count), '0');
  else
    digits.insert(static_cast<std::size_t>(point), ".");
  return styled(number < 0 ? "-" + digits : digits, style);
}

std::string write_quantity(double number, const Unit& unit, int places, Style style) {
  refuse_not_finite(number);
  if (unit.name == "ft-in") return feet_and_inches(number, parts_per_inch(places), style);
  return with_unit(write_number(number, places, style), unit, style);
}

std::string write_quantity_shortest(double number, const Unit& unit, Style style) {
  refuse_not_finite(number);
  if (unit.name != "ft-in") return with_unit(write_shortest(number, style), unit, style);
  const double parts = number * inches_per_foot * finest_parts_per_inch;
  const bool on_the_tape =
      std::abs(parts - std::round(parts)) <= 1e-9 * std::max(1.0, std::abs(parts));
  return on_the_tape ? feet_and_inches(number, finest_parts_per_inch, style)
                     : feet_and_decimal_inches(number, style);
}

bool near_rounding_boundary(double number, int places) {
  if (!std::isfinite(number)) return true;
  const double scaled = times_power_of_ten(std::abs(number), places);
  if (scaled == std::floor(scaled)) return false;  // on the printed grid
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
  if (text.size() > longest_text)
    return ReadError{"longer than 200 characters, " + expected_in_words(expected)};
  const std::string plain = plain_characters(text);
  const std::string shown = "'" + std::string(text) + "'";
  Cursor cursor(plain);
  cursor.skip_space();
  const bool negative = cursor.take("-");
  if (!negative) cursor.take("+");
  const auto signed_number = [negative](double number) { return negative ? -number : number; };
  const auto first = read_number(cursor);
  if (!first) return ReadError{shown + " is not a quantity, " + expected_in_words(expected)};

  const Unit& pitch = *find_unit("pitch");
  const bool wants_angle = expected == engine::dimension::angle;
  if (cursor.at_end()) {
    if (wants_angle && first->over_twelve)
      return made(signed_number(first->numerator), pitch, expected, shown);
    if (expected != engine::dimension::ratio)
      return ReadError{shown + " has no unit, " + expected_in_words(expected)};
    return made(signed_number(first->value), *find_unit(""), expected, shown);
  }

  double number = first->value;
  const Unit* unit = nullptr;
  if (cursor.take(":")) {  // a pitch, rise to run
    const auto run = read_number(cursor);
    unit = &pitch;
    if (!run || !(run->value > 0) || (!cursor.at_end() && read_unit(cursor) != unit))
      return ReadError{shown + " is no pitch, expected rise and run, as 6:12"};
    number *= 12 / run->value;
  } else {
    unit = read_unit(cursor);
    if (unit == &pitch && first->over_twelve) number = first->numerator;  // "6/12 pitch"
  }
  if (!unit) {
    const std::string name(cursor.rest().substr(0, cursor.rest().find(' ')));
    const auto near = suggest_unit(name);
    return ReadError{"unknown unit '" + name + "'" +
                     (near ? ", did you mean '" + std::string(*near) + "'?"
                           : ", " + expected_in_words(expected))};
  }
  // Feet and inches: "4' 6\"", "4 ft 6 in", "4 ft 6-1/2 in", "4'-6\"".
  if (unit->name == "ft" && cursor.at(0) == '-' && is_digit(cursor.at(1))) cursor.drop(1);
  if (unit->name == "ft" && !cursor.at_end()) {
    const auto inches = read_number(cursor);
    const Unit* second = inches ? read_unit(cursor) : nullptr;
    if (!second || second->name != "in" || !(inches->value < inches_per_foot) ||
        number != std::floor(number))
      return ReadError{shown + " cannot be read, expected feet and inches, as 4 ft 6 in"};
    number += inches->value / inches_per_foot;
  }
  if (!cursor.at_end())
    return ReadError{shown + " goes on with '" + std::string(cursor.rest()) +
                     "' after the quantity, expected its end"};
  return made(signed_number(number), *unit, expected, shown);
}

}  // namespace footroom::notation
