#pragma once
// Formulas of the catalogue's steps and of bank items: read once, evaluated with dimensions,
// typeset with symbols or with numbers put in.
//
//   names         slope-length, fall.free-fall, limit.free-fall: lower case, hyphens inside
//   numbers       12, 0.5, 2 ft, 900 lbf, 26.57 deg, 6 pitch   (a unit of notation/unit.hpp, after
//   a space) operators     ^   -x   * /   + -   < <= > >= == !=   not   and   or words         end
//   == "below-edge" functions     sqrt hypot abs min max floor ceil round sin cos tan asin acos
//   atan exp log
//                 if(condition, a, b)   number-of(quantity, "ft")
//   constants     g (standard gravity), pi, true, false
// A minus between two names is written with spaces, since names contain hyphens.

#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/catalogue.hpp"
#include "notation/quantity_text.hpp"

namespace footroom::notation {

/// A formula that cannot be read or evaluated; `column` is the 1-based place in its text.
class FormulaError : public std::runtime_error {
 public:
  FormulaError(const std::string& message, int at_column)
      : std::runtime_error(message), column(at_column) {}
  int column;
};

struct Node {
  enum class Kind {
    number,
    name,
    word,
    truth,
    negate,
    add,
    subtract,
    multiply,
    divide,
    power,
    less,
    less_or_equal,
    greater,
    greater_or_equal,
    equal,
    not_equal,
    logical_not,
    logical_and,
    logical_or,
    call,
  };
  Kind kind = Kind::number;
  std::string text = {};           ///< name, word or function
  engine::Quantity quantity = {};  ///< of a number
  const Unit* unit = nullptr;      ///< a number's, as written; null for a plain number
  double as_written = 0;
  bool truth = false;
  std::vector<Node> operands = {};
  int column = 0;
};

using Result = std::variant<engine::Quantity, engine::Word, bool>;
/// The value of a name, or nothing where the name is unknown.
using Lookup = std::function<std::optional<Result>(std::string_view name)>;

class Formula {
 public:
  /// Throws FormulaError. Refuses more than 2,000 characters or 64 levels of nesting.
  static Formula parse(std::string_view text);

  /// Throws FormulaError for an unknown name, unlike dimensions, a division by zero, or a result
  /// that is not finite.
  Result evaluate(const Lookup& lookup) const;
  /// As evaluate, where the formula must give a quantity of this kind, or a truth.
  engine::Quantity quantity(const Lookup& lookup) const;
  bool truth(const Lookup& lookup) const;

  /// Every name it mentions, each once, in order of first mention (without constants).
  std::vector<std::string> names() const;

  const Node& root() const { return root_; }
  const std::string& text() const { return text_; }

 private:
  Node root_;
  std::string text_;
};

}  // namespace footroom::notation
