#include "notation/typeset.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace footroom::notation {
namespace {

using Kind = Node::Kind;
using Box = Math::Kind;

constexpr std::string_view minus_sign = "\u2212";
constexpr std::string_view dot_operator = "\u00b7";
constexpr std::string_view function_application = "\u2061";  // invisible; a line of text drops it
constexpr std::string_view invisible_times = "\u2062";

constexpr std::array<std::pair<std::string_view, std::string_view>, 33> greek = {{
    {"alpha", "α"},  {"beta", "β"},   {"gamma", "γ"}, {"delta", "δ"},   {"epsilon", "ε"},
    {"zeta", "ζ"},   {"eta", "η"},    {"theta", "θ"}, {"iota", "ι"},    {"kappa", "κ"},
    {"lambda", "λ"}, {"mu", "μ"},     {"nu", "ν"},    {"xi", "ξ"},      {"pi", "π"},
    {"rho", "ρ"},    {"sigma", "σ"},  {"tau", "τ"},   {"upsilon", "υ"}, {"phi", "φ"},
    {"chi", "χ"},    {"psi", "ψ"},    {"omega", "ω"}, {"Gamma", "Γ"},   {"Delta", "Δ"},
    {"Theta", "Θ"},  {"Lambda", "Λ"}, {"Xi", "Ξ"},    {"Pi", "Π"},      {"Sigma", "Σ"},
    {"Phi", "Φ"},    {"Psi", "Ψ"},    {"Omega", "Ω"},
}};

Math box(Box kind, std::string text) {
  return {kind, std::move(text), {}};
}
Math box(Box kind, std::vector<Math> parts) {
  return {kind, {}, std::move(parts)};
}
Math sign(std::string_view text) {
  return box(Box::sign, std::string(text));
}

// How tightly a node binds; an operand that binds less than its place asks for gets a fence.
enum Binding { loosest, disjunction, conjunction, comparing, sum, product, negative, raised, atom };

Binding binding(const Node& node) {
  switch (node.kind) {
    case Kind::logical_or:
      return disjunction;
    case Kind::logical_and:
    case Kind::logical_not:
      return conjunction;
    case Kind::less:
    case Kind::less_or_equal:
    case Kind::greater:
    case Kind::greater_or_equal:
    case Kind::equal:
    case Kind::not_equal:
      return comparing;
    case Kind::add:
    case Kind::subtract:
      return sum;
    case Kind::multiply:
      return product;
    case Kind::negate:
      return negative;
    case Kind::power:
      return raised;
    case Kind::call:
      return node.text == "if" ? loosest : atom;
    default:
      return atom;  // a fraction sets its own bounds
  }
}

/// What stands first in set mathematics.
const Math& first_box(const Math& math) {
  return math.kind == Box::row && !math.parts.empty() ? first_box(math.parts.front()) : math;
}

bool is_symbol(const Math& math) {
  if (math.kind == Box::identifier) return true;
  if ((math.kind == Box::subscript || math.kind == Box::power) && !math.parts.empty())
    return is_symbol(math.parts.front());
  return false;
}

/// A symbol of one letter, which may stand close to another: "g H", but "W · FF".
bool is_letter_symbol(const Math& math) {
  if (!is_symbol(math)) return false;
  if (math.kind != Box::identifier) return is_letter_symbol(math.parts.front());
  const auto begins_character = [](char c) {
    return (static_cast<unsigned char>(c) & 0xc0) != 0x80;
  };
  return std::count_if(math.text.begin(), math.text.end(), begins_character) == 1;
}

bool is_plain_number(const Math& math) {
  return math.kind == Box::number &&
         math.text.find_first_not_of("0123456789.,") == std::string::npos;
}

/// "cos θ", "min(a, b)"
bool is_application(const Math& math) {
  return math.kind == Box::row && math.parts.size() == 3 && math.parts[1].kind == Box::sign &&
         math.parts[1].text == function_application;
}

bool starts_with_minus(const Math& math) {
  const Math& first = first_box(math);
  return (first.kind == Box::number || first.kind == Box::sign) &&
         first.text.starts_with(minus_sign);
}

struct Words {
  std::string_view if_, otherwise, and_, or_, not_, true_, false_, round, round_down, round_up;
};
constexpr Words english = {"if",   ", otherwise", "and",   "or",         "not",
                           "true", "false",       "round", "round down", "round up"};
constexpr Words spanish = {"si",
                           ", si no",
                           "y",
                           "o",
                           "no",
                           "verdadero",
                           "falso",
                           "redondear",
                           "redondear hacia abajo",
                           "redondear hacia arriba"};

std::string_view sign_of(Kind kind) {
  switch (kind) {
    case Kind::less:
      return "<";
    case Kind::less_or_equal:
      return "≤";
    case Kind::greater:
      return ">";
    case Kind::greater_or_equal:
      return "≥";
    case Kind::equal:
      return "=";
    case Kind::not_equal:
      return "≠";
    case Kind::add:
      return "+";
    case Kind::subtract:
      return minus_sign;
    default:
      return "";
  }
}

class Setter {
 public:
  Setter(const SetName& set_name, Style style)
      : set_name_(set_name),
        style_(style),
        words_(style.language == engine::Language::english ? english : spanish) {}

  Math set(const Node& node) const {
    switch (node.kind) {
      case Kind::number:
        return number_of(node);
      case Kind::name:
        return node.text == "pi"  ? box(Box::identifier, "π")
               : node.text == "g" ? box(Box::identifier, "g")
                                  : set_name_(node.text);
      case Kind::word:
        return box(Box::number, node.text);
      case Kind::truth:
        return sign(node.truth ? words_.true_ : words_.false_);
      case Kind::negate:
        return box(Box::row, {sign(minus_sign), placed(node.operands[0], product)});
      case Kind::logical_not:
        return box(Box::row, {sign(words_.not_), placed(node.operands[0], atom)});
      case Kind::multiply:
        return times(first_of_product(node.operands[0]), placed(node.operands[1], product));
      case Kind::divide:
        return box(Box::fraction, {set(node.operands[0]), set(node.operands[1])});
      case Kind::power:
        return power(node);
      case Kind::call:
        return call(node);
      case Kind::subtract:
        return infix(node, sum, sign(minus_sign), product);  // a − (b + c)
      case Kind::logical_and:
        return infix(node, conjunction, sign(words_.and_), conjunction);
      case Kind::logical_or:
        return infix(node, disjunction, sign(words_.or_), disjunction);
      case Kind::add:
        return infix(node, sum, sign("+"), sum);
      default:
        return infix(node, sum, sign(sign_of(node.kind)), sum);
    }
  }

 private:
  static Math fenced(Math inside) { return box(Box::fence, {std::move(inside)}); }

  /// An operand, fenced where it binds less than its place asks for. A negative number put in gets
  /// a fence too, except where the place takes a sum.
  Math placed(const Node& node, Binding weakest) const {
    Math math = set(node);
    const bool fence = binding(node) < weakest || (weakest > sum && starts_with_minus(math));
    return fence ? fenced(std::move(math)) : math;
  }

  /// "−a b" needs no fence, "(−2 ft) · 3" is easier to read with one.
  Math first_of_product(const Node& node) const {
    return node.kind == Kind::negate ? set(node) : placed(node, product);
  }

  Math infix(const Node& node, Binding left, Math between, Binding right) const {
    Math second = placed(node.operands[1], right);
    if (left == sum && binding(node) == sum && starts_with_minus(second))
      second = fenced(std::move(second));
    return row(placed(node.operands[0], left), std::move(between), std::move(second));
  }

  /// A row in a row is one row: "a + b − c". An application and what begins with a minus stay
  /// whole.
  static Math row(Math a, Math between, Math b) {
    std::vector<Math> parts;
    const auto add = [&parts](Math part) {
      const bool whole = part.kind != Box::row || is_application(part) ||
                         (!parts.empty() && starts_with_minus(part));
      if (whole)
        parts.push_back(std::move(part));
      else
        for (Math& p : part.parts) parts.push_back(std::move(p));
    };
    add(std::move(a));
    parts.push_back(std::move(between));
    add(std::move(b));
    return box(Box::row, std::move(parts));
  }

  /// The last or first factor of a product that is set already.
  static const Math& last_factor(const Math& math) {
    return math.kind == Box::row && !is_application(math) && !math.parts.empty() ? math.parts.back()
                                                                                 : math;
  }
  static const Math& first_factor(const Math& math) {
    return math.kind == Box::row && !is_application(math) && !math.parts.empty()
               ? math.parts.front()
               : math;
  }

  /// "2 g H", "L cos θ", "16 ft · cos 26.57°", "3 · 4".
  static Math times(Math a, Math b) {
    const Math& left = last_factor(a);
    const Math& right = first_factor(b);
    const bool coefficient = is_letter_symbol(left) || is_plain_number(left);
    const bool close = coefficient && (is_letter_symbol(right) || is_application(right) ||
                                       right.kind == Box::fence || right.kind == Box::root ||
                                       (is_plain_number(left) && is_symbol(right)));
    return row(std::move(a), sign(close ? invisible_times : dot_operator), std::move(b));
  }

  Math power(const Node& node) const {
    const Node& exponent = node.operands[1];
    if (exponent.kind == Kind::number && exponent.as_written == 0.5 && !exponent.unit)
      return box(Box::root, {set(node.operands[0])});
    return raise(node.operands[0], set(exponent));
  }

  Math raise(const Node& base, Math exponent) const {
    Math set_base = placed(base, atom);
    const bool simple = set_base.kind == Box::subscript || set_base.kind == Box::fence ||
                        (set_base.kind == Box::identifier && !has_space(set_base)) ||
                        is_plain_number(set_base);
    if (!simple) set_base = fenced(std::move(set_base));
    return box(Box::power, {std::move(set_base), std::move(exponent)});
  }

  Math function(std::string_view name, const Node& argument) const {
    Math inside = set(argument);
    const bool one_word = (inside.kind == Box::identifier && !has_space(inside)) ||
                          inside.kind == Box::number || inside.kind == Box::subscript;
    const bool bare = one_word && !starts_with_minus(inside);
    return box(Box::row, {sign(name), sign(function_application),
                          bare ? std::move(inside) : fenced(std::move(inside))});
  }

  static bool has_space(const Math& math) { return math.text.find(' ') != std::string::npos; }

  Math listed(std::string_view name, const std::vector<Node>& arguments) const {
    std::vector<Math> inside;
    for (const Node& argument : arguments) {
      if (!inside.empty()) inside.push_back(sign(","));
      inside.push_back(set(argument));
    }
    return box(Box::row,
               {sign(name), sign(function_application), fenced(box(Box::row, std::move(inside)))});
  }

  Math call(const Node& node) const {
    const std::string& f = node.text;
    const auto& arguments = node.operands;
    if (f == "sqrt") return box(Box::root, {set(arguments[0])});
    if (f == "abs") {
      Math bars = fenced(set(arguments[0]));
      bars.text = "|";
      return bars;
    }
    if (f == "hypot") {
      const Math two = box(Box::number, "2");
      return box(Box::root,
                 {box(Box::row, {raise(arguments[0], two), sign("+"), raise(arguments[1], two)})});
    }
    if (f == "exp") return box(Box::power, {box(Box::identifier, "e"), set(arguments[0])});
    if (f == "number-of") {  // a quantity over its unit is the number: L / 1 ft
      const Unit& unit = *find_unit(arguments[1].text);
      if (unit.name.empty()) return set(arguments[0]);
      return box(Box::fraction,
                 {set(arguments[0]), number(write_quantity_shortest(1, unit, style_))});
    }
    if (f == "if")
      return box(Box::row,
                 {placed(arguments[1], disjunction), sign(words_.if_),
                  placed(arguments[0], disjunction), sign(words_.otherwise), set(arguments[2])});
    if (f == "min" || f == "max") return listed(f, arguments);
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 3> inverse = {
        {{"asin", "arcsin"}, {"acos", "arccos"}, {"atan", "arctan"}}};
    for (const auto& [name, printed] : inverse)
      if (f == name) return function(printed, arguments[0]);
    if (f == "log") return function("ln", arguments[0]);
    if (f == "floor") return listed(words_.round_down, arguments);
    if (f == "ceil") return listed(words_.round_up, arguments);
    if (f == "round") return listed(words_.round, arguments);
    return function(f, arguments[0]);
  }

  Math number_of(const Node& node) const {
    // Nothing is nothing in every unit, also where the formula's is not that of the sheet.
    if (node.unit && node.as_written != 0)
      return number(write_quantity_shortest(node.as_written, *node.unit, style_));
    return number(write_shortest(node.as_written, style_));
  }

  const SetName& set_name_;
  Style style_;
  const Words& words_;
};

// ---- One line of text --------------------------------------------------------------------------

constexpr std::array<std::string_view, 10> lower_digits = {"₀", "₁", "₂", "₃", "₄",
                                                           "₅", "₆", "₇", "₈", "₉"};
constexpr std::array<std::string_view, 10> upper_digits = {"⁰", "¹", "²", "³", "⁴",
                                                           "⁵", "⁶", "⁷", "⁸", "⁹"};

/// Digits in the letters that Unicode has for them, with a raised minus; anything else behind a
/// mark: "d₀", "F_max", "x²", "10⁻³", "G^2.5", "x^(a + b)".
std::string digits_or(std::string_view text, const std::array<std::string_view, 10>& digits,
                      char mark) {
  std::string_view rest = text;
  std::string out;
  if (mark == '^' && rest.starts_with(minus_sign)) {
    out = "⁻";
    rest.remove_prefix(minus_sign.size());
  }
  if (rest.empty() || rest.find_first_not_of("0123456789") != std::string_view::npos) {
    const bool one_word = text.find(' ') == std::string_view::npos;
    return one_word ? mark + std::string(text) : mark + ("(" + std::string(text) + ")");
  }
  for (const char c : rest) out += digits[static_cast<std::size_t>(c - '0')];
  return out;
}

bool is_times(const Math& math) {
  return math.kind == Box::sign && (math.text == invisible_times || math.text == dot_operator);
}

/// A product of powers and the like: what may stand above a slash without parentheses.
bool is_product(const Math& math) {
  if (is_application(math) || math.kind != Box::row) return true;
  for (const Math& part : math.parts)
    if (part.kind == Box::sign && !is_times(part)) return false;
  return true;
}

/// Numerator or denominator on one line.
std::string beside_slash(const Math& math, bool below) {
  const bool bare = math.kind != Box::fraction &&
                    (is_application(math) || math.kind != Box::row || (!below && is_product(math)));
  return bare ? to_text(math) : "(" + to_text(math) + ")";
}

}  // namespace

Math typeset(const Formula& formula, const SetName& set_name, Style style) {
  return Setter(set_name, style).set(formula.root());
}

Math symbol(std::string_view symbol) {
  const auto letter = [](std::string_view name) {
    for (const auto& [spelt, printed] : greek)
      if (spelt == name) return std::string(printed);
    return std::string(name);
  };
  const std::size_t underscore = symbol.find('_');
  Math base = box(Box::identifier, letter(symbol.substr(0, underscore)));
  if (underscore == std::string_view::npos) return base;
  const std::string_view index = symbol.substr(underscore + 1);
  const bool digits = index.find_first_not_of("0123456789") == std::string_view::npos;
  return box(Box::subscript,
             {std::move(base), box(digits ? Box::number : Box::identifier, letter(index))});
}

Math number(std::string text) {
  return box(Box::number, std::move(text));
}

Math equation(Math left, std::string_view between, Math right) {
  return box(Box::row, {std::move(left), sign(between), std::move(right)});
}

std::string to_text(const Math& math) {
  switch (math.kind) {
    case Box::identifier:
    case Box::number:
    case Box::sign:
      return math.text;
    case Box::fraction:
      return beside_slash(math.parts[0], false) + " / " + beside_slash(math.parts[1], true);
    case Box::root:
      return "√(" + to_text(math.parts[0]) + ")";
    case Box::power:
      return to_text(math.parts[0]) + digits_or(to_text(math.parts[1]), upper_digits, '^');
    case Box::subscript:
      return to_text(math.parts[0]) + digits_or(to_text(math.parts[1]), lower_digits, '_');
    case Box::fence: {
      const std::string_view bar = math.text == "|" ? "|" : "";
      std::string inside;
      for (const Math& part : math.parts) inside += to_text(part);
      return fmt::format("{}{}{}", bar.empty() ? "(" : bar, inside, bar.empty() ? ")" : bar);
    }
    case Box::row:
      break;
  }
  std::string line;
  bool close = true;  // no space before what comes next
  for (std::size_t i = 0; i < math.parts.size(); ++i) {
    const Math& part = math.parts[i];
    if (part.kind == Box::sign && part.text == invisible_times) continue;
    if (part.kind == Box::sign && part.text == function_application) {
      // "cos θ", but "cos(a + b)".
      close = i + 1 < math.parts.size() && math.parts[i + 1].kind == Box::fence;
      continue;
    }
    const bool comma = part.kind == Box::sign && part.text.starts_with(',');
    if (!close && !comma) line += ' ';
    // A fraction among other factors keeps its bounds on one line.
    const bool factor =
        part.kind == Box::fraction && ((i > 0 && is_times(math.parts[i - 1])) ||
                                       (i + 1 < math.parts.size() && is_times(math.parts[i + 1])));
    line += factor ? "(" + to_text(part) + ")" : to_text(part);
    close = i == 0 && part.kind == Box::sign && part.text == minus_sign;
  }
  return line;
}

}  // namespace footroom::notation
