#pragma once
// From a formula to mathematics as a book sets it. The result is a small tree of boxes that a
// renderer only has to write out (as MathML, or as a line of text).

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "notation/formula.hpp"

namespace footroom::notation {

struct Math {
  enum class Kind {
    row,         ///< parts side by side
    identifier,  ///< text, italic where a single letter: "L", "θ", "FF"; or words for a quantity
                 ///< that has no symbol
    number,      ///< text, upright, the unit included: "16 ft"
    sign,  ///< text: "+", "−", "·", "=", "≤", "cos"; U+2062 (invisible times) between close
           ///< factors, U+2061 (function application) behind a function
    fraction,   ///< parts[0] over parts[1]
    root,       ///< square root of parts[0]
    power,      ///< parts[0] to the parts[1]
    subscript,  ///< parts[0] with index parts[1]
    fence,      ///< parts in parentheses; text "|" for an absolute value
  };
  Kind kind = Kind::row;
  std::string text = {};
  std::vector<Math> parts = {};
};

/// How a name is set: as its symbol, or as its number with unit.
using SetName = std::function<Math(std::string_view name)>;

/// Sets a formula. hypot(a, b) becomes the root of the sum of squares, a / b a fraction, x * y
/// "x y" between letters and behind a plain number ("2 g H", "L cos θ"), else "x · y"; a negative
/// number put in gets parentheses unless it stands first in a sum. Words ("if", "round up") are in
/// the style's language.
Math typeset(const Formula& formula, const SetName& set_name, Style style);

/// The symbol of a catalogue entry or draw: "d_0", "theta", "F_max", "delta_s" (Greek names become
/// letters; behind an underscore stands the index).
Math symbol(std::string_view symbol);

/// A number with unit, ready to be put in.
Math number(std::string text);
Math equation(Math left, std::string_view sign, Math right);

/// One line of plain text: "d₀ = √((L cos θ)² + (h − L sin θ)²)". Used in Markdown and terminals.
std::string to_text(const Math& math);

}  // namespace footroom::notation
