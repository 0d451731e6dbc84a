#pragma once
// Formulas of the catalogue's steps and of bank items: read once, evaluated with dimensions,
// typeset with symbols or with numbers put in.
//
//   names       slope-length, fall.free-fall, limit.free-fall: lower case, hyphens inside
//   numbers     12, 0.5, 2 ft, 900 lbf, 26.57 deg, 6 pitch (a unit's name behind the number)
//   words       end == "below-edge"
//   operators   by how tightly they bind, the tightest first:
//               ^ (from the right), -x, * and /, + and -, < <= > >= == !=, not, and, or;
//               -x^2 is -(x^2), and comparisons do not chain
//   functions   sqrt hypot abs min max floor ceil round sin cos tan asin acos atan exp log
//               if(condition, a, b), number-of(quantity, "ft")
//   constants   g (standard gravity), pi, true, false
//
// sqrt and ^ must leave whole exponents of every dimension; sin, cos and tan take an angle, and
// their inverses give one; floor, ceil, round, exp and log (natural) take plain numbers; floor and
// ceil take what lies within 1e-9 of a whole number for it, and round takes halves away from zero.
// A branch of `if`, `and` and `or` that does not count is checked for its names and dimensions too,
// but may have no value there (a division by zero).
//
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

/// Other base units of length and mass; that of time goes with the square root of the length, so
/// that standard gravity keeps its number. Angles stay. A number in the old units, times `factor`
/// of its dimension, is the same quantity in the new ones.
struct Rescaling {
  double length = 1;
  double mass = 1;
  double factor(engine::Dimension dimension) const;
  friend bool operator==(const Rescaling&, const Rescaling&) = default;
};

class Formula {
 public:
  /// Throws FormulaError. Refuses more than 2,000 characters, 64 levels of nesting, or 64
  /// operators in a row.
  static Formula parse(std::string_view text);

  /// Throws FormulaError for an unknown name, unlike dimensions, a division by zero, or a result
  /// that is not finite. `known` are the names to suggest for an unknown one.
  Result evaluate(const Lookup& lookup, const std::vector<std::string>& known = {}) const;
  /// As evaluate, where the formula must give a quantity, or a truth.
  engine::Quantity quantity(const Lookup& lookup, const std::vector<std::string>& known = {}) const;
  bool truth(const Lookup& lookup, const std::vector<std::string>& known = {}) const;

  /// Every name it mentions, each once, in order of first mention (without constants).
  std::vector<std::string> names() const;

  /// The same formula where all base units are others: its numbers with a unit are converted, and
  /// number-of still counts the units named. Given rescaled names, a formula whose dimensions are
  /// right gives its value times the factor of its dimension.
  Formula rescaled(const Rescaling& by) const;

  const Node& root() const { return root_; }
  const std::string& text() const { return text_; }

 private:
  Node root_;
  std::string text_;
};

}  // namespace footroom::notation
