#include "notation/typeset.hpp"

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

constexpr std::array<std::pair<std::string_view, std::string_view>, 16> greek = {{
    {"alpha", "α"},
    {"beta", "β"},
    {"gamma", "γ"},
    {"delta", "δ"},
    {"Delta", "Δ"},
    {"epsilon", "ε"},
    {"eta", "η"},
    {"theta", "θ"},
    {"kappa", "κ"},
    {"lambda", "λ"},
    {"mu", "μ"},
    {"pi", "π"},
    {"rho", "ρ"},
    {"sigma", "σ"},
    {"phi", "φ"},
    {"omega", "ω"},
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
    default:
      return atom;  // a fraction sets its own bounds
  }
}

/// What stands at the left or right end of set mathematics, for the sign between two factors.
const Math& last_box(const Math& math) {
  return math.kind == Box::row && !math.parts.empty() ? last_box(math.parts.back()) : math;
}
const Math& first_box(const Math& math) {
  return math.kind == Box::row && !math.parts.empty() ? first_box(math.parts.front()) : math;
}

bool is_symbol(const Math& math) {
  if (math.kind == Box::identifier) return true;
  if ((math.kind == Box::subscript || math.kind == Box::power) && !math.parts.empty())
    return is_symbol(math.parts.front());
  return false;
}

bool is_plain_number(const Math& math) {
  return math.kind == Box::number &&
         math.text.find_first_not_of("0123456789.,") == std::string::npos;
}

bool is_function_word(const Math& math) {
  return math.kind == Box::sign && !math.text.empty() && math.text[0] >= 'a' && math.text[0] <= 'z';
}

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
    case Kind::logical_and:
      return "and";
    case Kind::logical_or:
      return "or";
    default:
      return "";
  }
}

class Setter {
 public:
  Setter(const SetName& set_name, Style style) : set_name_(set_name), style_(style) {}

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
        return sign(node.truth ? "true" : "false");
      case Kind::negate:
        return box(Box::row, {sign(minus_sign), placed(node.operands[0], product)});
      case Kind::logical_not:
        return box(Box::row, {sign("not"), placed(node.operands[0], comparing)});
      case Kind::multiply:
        return times(placed(node.operands[0], product), placed(node.operands[1], product));
      case Kind::divide:
        return box(Box::fraction, {set(node.operands[0]), set(node.operands[1])});
      case Kind::power:
        return power(node);
      case Kind::call:
        return call(node);
      case Kind::subtract:
        return infix(node, sum, product);  // a − (b + c)
      case Kind::add:
        return infix(node, sum, sum);
      default: {
        const auto own = binding(node);
        return infix(node, own, own);
      }
    }
  }

 private:
  static Math fenced(Math inside) { return box(Box::fence, {std::move(inside)}); }

  Math placed(const Node& node, Binding weakest) const {
    Math math = set(node);
    if (binding(node) < weakest) return fenced(std::move(math));
    const Math& first = first_box(math);
    // A negative number put in is set in parentheses, except where the place takes a sum.
    if (weakest > sum && first.kind == Box::number && first.text.starts_with(minus_sign))
      return fenced(std::move(math));
    return math;
  }

  Math infix(const Node& node, Binding left, Binding right) const {
    Math second = placed(node.operands[1], right);
    const Math& first = first_box(second);
    const bool negative_first = (first.kind == Box::number && first.text.starts_with(minus_sign)) ||
                                (first.kind == Box::sign && first.text == minus_sign);
    if (negative_first && (node.kind == Kind::add || node.kind == Kind::subtract))
      second = fenced(std::move(second));
    return box(Box::row,
               {placed(node.operands[0], left), sign(sign_of(node.kind)), std::move(second)});
  }

  /// "2 g H", "L cos θ", "16 ft · cos 26.57°", "3 · 4".
  static Math times(Math a, Math b) {
    const Math& left = last_box(a);
    const Math& right = first_box(b);
    const bool after_function =
        a.kind == Box::row && a.parts.size() == 3 && is_function_word(a.parts[0]);
    const bool close = (is_symbol(left) || is_plain_number(left)) && !after_function &&
                       (is_symbol(right) || is_function_word(right) || right.kind == Box::fence);
    std::vector<Math> parts;
    const auto add = [&parts](Math part) {
      if (part.kind == Box::row && !is_function_word(part.parts.front()))
        for (Math& p : part.parts) parts.push_back(std::move(p));
      else
        parts.push_back(std::move(part));
    };
    const std::string_view between = close ? invisible_times : dot_operator;
    add(std::move(a));
    parts.push_back(sign(between));
    add(std::move(b));
    return box(Box::row, std::move(parts));
  }

  Math power(const Node& node) const {
    const Node& exponent = node.operands[1];
    if (exponent.kind == Kind::number && exponent.as_written == 0.5 && !exponent.unit)
      return box(Box::root, {set(node.operands[0])});
    return raise(node.operands[0], set(exponent));
  }

  Math raise(const Node& base, Math exponent) const {
    Math set_base = placed(base, atom);
    const bool simple = set_base.kind == Box::identifier || set_base.kind == Box::subscript ||
                        set_base.kind == Box::fence || is_plain_number(set_base);
    if (!simple) set_base = fenced(std::move(set_base));
    return box(Box::power, {std::move(set_base), std::move(exponent)});
  }

  Math function(std::string_view name, const Node& argument) const {
    Math inside = set(argument);
    const bool bare = binding(argument) == atom && inside.kind != Box::fraction &&
                      inside.kind != Box::row && !inside.text.starts_with(minus_sign);
    return box(Box::row, {sign(name), sign(function_application),
                          bare ? std::move(inside) : fenced(std::move(inside))});
  }

  Math listed(std::string_view name, std::vector<Math> arguments) const {
    std::vector<Math> inside;
    for (Math& argument : arguments) {
      if (!inside.empty()) inside.push_back(sign(","));
      inside.push_back(std::move(argument));
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
    if (f == "number-of") return set(arguments[0]);
    if (f == "if")
      return box(Box::row, {set(arguments[1]), sign("if"), set(arguments[0]), sign(", else"),
                            set(arguments[2])});
    if (f == "min" || f == "max") return listed(f, {set(arguments[0]), set(arguments[1])});
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 3> inverse = {
        {{"asin", "arcsin"}, {"acos", "arccos"}, {"atan", "arctan"}}};
    for (const auto& [name, printed] : inverse)
      if (f == name) return function(printed, arguments[0]);
    if (f == "log") return function("ln", arguments[0]);
    if (f == "floor" || f == "ceil" || f == "round")
      return listed(f == "floor" ? "down" : f == "ceil" ? "up" : "round", {set(arguments[0])});
    return function(f, arguments[0]);
  }

  Math number_of(const Node& node) const {
    if (node.unit) return number(write_quantity_shortest(node.as_written, *node.unit, style_));
    return number(write_shortest(node.as_written, style_));
  }

  const SetName& set_name_;
  Style style_;
};

// ---- One line of text --------------------------------------------------------------------------

constexpr std::array<std::string_view, 10> lower_digits = {"₀", "₁", "₂", "₃", "₄",
                                                           "₅", "₆", "₇", "₈", "₉"};
constexpr std::array<std::string_view, 10> upper_digits = {"⁰", "¹", "²", "³", "⁴",
                                                           "⁵", "⁶", "⁷", "⁸", "⁹"};

std::string digits_or(std::string_view text, const std::array<std::string_view, 10>& digits,
                      std::string_view mark) {
  if (text.empty() || text.find_first_not_of("0123456789") != std::string_view::npos) {
    std::string marked(mark);
    const bool one_word = text.find(' ') == std::string_view::npos;
    return one_word ? marked.append(text) : marked.append("(").append(text).append(")");
  }
  std::string out;
  for (const char c : text) out += digits[static_cast<std::size_t>(c - '0')];
  return out;
}

bool needs_fence(const Math& math) {
  return math.kind == Box::row || math.kind == Box::fraction;
}

std::string in_text(const Math& math) {
  std::string text = to_text(math);
  return needs_fence(math) ? "(" + text + ")" : text;
}

}  // namespace

Math typeset(const Formula& formula, const SetName& set_name, Style style) {
  return Setter(set_name, style).set(formula.root());
}

Math symbol(std::string_view symbol) {
  const std::size_t underscore = symbol.find('_');
  const std::string_view base = symbol.substr(0, underscore);
  std::string letter(base);
  for (const auto& [name, printed] : greek)
    if (name == base) letter = printed;
  Math made = box(Box::identifier, std::move(letter));
  if (underscore == std::string_view::npos) return made;
  const std::string_view index = symbol.substr(underscore + 1);
  return box(Box::subscript, {std::move(made), box(Box::number, std::string(index))});
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
      return in_text(math.parts[0]) + " / " + in_text(math.parts[1]);
    case Box::root:
      return "√(" + to_text(math.parts[0]) + ")";
    case Box::power:
      return in_text(math.parts[0]) + digits_or(to_text(math.parts[1]), upper_digits, "^");
    case Box::subscript:
      return to_text(math.parts[0]) + digits_or(to_text(math.parts[1]), lower_digits, "_");
    case Box::fence: {
      const bool bars = math.text == "|";
      std::string inside;
      for (const Math& part : math.parts) inside += to_text(part);
      return (bars ? "|" : "(") + inside + (bars ? "|" : ")");
    }
    case Box::row:
      break;
  }
  std::string line;
  for (std::size_t i = 0; i < math.parts.size(); ++i) {
    const Math& part = math.parts[i];
    if (part.kind == Box::sign && part.text == invisible_times) continue;
    if (part.kind == Box::sign && part.text == function_application) {
      // "cos θ", but "cos(a + b)".
      if (i + 1 < math.parts.size() && math.parts[i + 1].kind == Box::fence) {
        line += to_text(math.parts[++i]);
      }
      continue;
    }
    const bool comma = part.kind == Box::sign && part.text.starts_with(",");
    const bool leading_minus =
        i == 1 && math.parts[0].kind == Box::sign && math.parts[0].text == minus_sign;
    if (!line.empty() && !comma && !leading_minus) line += ' ';
    // A fraction beside other factors needs its own bounds on one line.
    const bool factor = part.kind == Box::fraction && math.parts.size() > 1 &&
                        ((i > 0 && math.parts[i - 1].text != "=" && math.parts[i - 1].text != "+" &&
                          math.parts[i - 1].text != minus_sign) ||
                         (i + 1 < math.parts.size() && (math.parts[i + 1].text == invisible_times ||
                                                        math.parts[i + 1].text == dot_operator)));
    line += factor ? "(" + to_text(part) + ")" : to_text(part);
  }
  return line;
}

}  // namespace footroom::notation
