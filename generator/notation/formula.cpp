#include "notation/formula.hpp"

#include <fast_float/fast_float.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace footroom::notation {
namespace {

using engine::Dimension;
using engine::Quantity;
namespace dimension = engine::dimension;
using Kind = Node::Kind;

constexpr std::size_t most_characters = 2000;
constexpr int deepest_nesting = 64;
/// floor and ceil take 2.9999999999 for 3: it came from values that were printed.
constexpr double whole_within = 1e-9;

struct Function {
  std::string_view name;
  std::size_t arguments;
  bool or_more = false;
};
constexpr std::array functions = {
    Function{"sqrt", 1},      Function{"hypot", 2},     Function{"abs", 1},
    Function{"min", 2, true}, Function{"max", 2, true}, Function{"floor", 1},
    Function{"ceil", 1},      Function{"round", 1},     Function{"sin", 1},
    Function{"cos", 1},       Function{"tan", 1},       Function{"asin", 1},
    Function{"acos", 1},      Function{"atan", 1},      Function{"exp", 1},
    Function{"log", 1},       Function{"if", 3},        Function{"number-of", 2},
};

std::vector<std::string> function_names() {
  std::vector<std::string> all;
  for (const Function& f : functions) all.emplace_back(f.name);
  return all;
}

bool is_letter(char c) {
  return c >= 'a' && c <= 'z';
}
bool is_capital(char c) {
  return c >= 'A' && c <= 'Z';
}
bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// ---- Tokens ------------------------------------------------------------------------------------

struct Token {
  enum class Kind { number, name, word, sign, end } kind;
  std::string_view text;
  int column;
  double number = 0;
};

class Lexer {
 public:
  explicit Lexer(std::string_view text) : text_(text) {}

  Token next() {
    while (at_ < text_.size() &&
           (text_[at_] == ' ' || text_[at_] == '\n' || text_[at_] == '\t' || text_[at_] == '\r'))
      ++at_;
    const std::size_t start = at_;
    const int column = column_of(start);
    if (at_ == text_.size()) return {Token::Kind::end, "the end", column};
    const char c = text_[at_];
    if (is_digit(c) || (c == '.' && at_ + 1 < text_.size() && is_digit(text_[at_ + 1])))
      return number(start, column);
    if (is_letter(c)) return name(start, column);
    if (c == '"') {
      const std::size_t close = text_.find('"', at_ + 1);
      if (close == std::string_view::npos) throw FormulaError("a quote is not closed", column);
      at_ = close + 1;
      return {Token::Kind::word, text_.substr(start + 1, close - start - 1), column};
    }
    for (const std::string_view sign : {"<=", ">=", "==", "!="})
      if (text_.substr(at_).starts_with(sign)) {
        at_ += 2;
        return {Token::Kind::sign, sign, column};
      }
    if (std::string_view("+-*/^<>(),").find(c) != std::string_view::npos) {
      ++at_;
      return {Token::Kind::sign, text_.substr(start, 1), column};
    }
    if (is_capital(c))
      throw FormulaError(
          "cannot read '" + std::string(word_from(start)) + "', expected a name in lower case",
          column);
    throw FormulaError("cannot read '" + std::string(character_from(start)) + "'", column);
  }

  /// A unit directly behind a number ("2 ft", "12 lbf/ft"); nothing where no unit stands there.
  const Unit* unit() {
    std::size_t start = at_;
    while (start < text_.size() && text_[start] == ' ') ++start;
    const std::string_view rest = text_.substr(start);
    const Unit* best = nullptr;
    for (const Unit& candidate : all_units()) {
      const std::string_view name = candidate.name;
      if (name.empty() || !rest.starts_with(name) || (best && best->name.size() >= name.size()))
        continue;
      const char after = rest.size() > name.size() ? rest[name.size()] : ' ';
      if (is_letter(after) || is_digit(after) || after == '-' || after == '.') continue;
      best = &candidate;
    }
    if (best) at_ = start + best->name.size();
    return best;
  }

  /// The letters, digits and signs of units that stand here, for messages.
  std::string_view word_here() const {
    std::size_t start = at_;
    while (start < text_.size() && text_[start] == ' ') ++start;
    return word_from(start);
  }

 private:
  static bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xc0) == 0x80; }

  /// 1-based, in characters of UTF-8.
  int column_of(std::size_t place) {
    for (; counted_ < place; ++counted_)
      if (!continues_character(text_[counted_])) ++column_;
    return column_;
  }
  std::string_view character_from(std::size_t start) const {
    std::size_t end = start + 1;
    while (end < text_.size() && continues_character(text_[end])) ++end;
    return text_.substr(start, end - start);
  }
  std::string_view word_from(std::size_t start) const {
    std::size_t end = start;
    while (end < text_.size() && (is_letter(text_[end]) || is_capital(text_[end]))) ++end;
    return text_.substr(start, end - start);
  }

  Token number(std::size_t start, int column) {
    double value = 0;
    const auto read = fast_float::from_chars(text_.data() + start, text_.data() + text_.size(),
                                             value, fast_float::chars_format::fixed);
    if (read.ec != std::errc() || !std::isfinite(value))
      throw FormulaError("a number cannot be read", column);
    at_ = static_cast<std::size_t>(read.ptr - text_.data());
    return {Token::Kind::number, text_.substr(start, at_ - start), column, value};
  }

  /// Letters and digits, joined by single hyphens and dots: "fall.free-fall".
  Token name(std::size_t start, int column) {
    while (at_ < text_.size()) {
      const char c = text_[at_];
      const char after = at_ + 1 < text_.size() ? text_[at_ + 1] : ' ';
      const bool joins =
          (c == '-' && (is_letter(after) || is_digit(after))) || (c == '.' && is_letter(after));
      if (!is_letter(c) && !is_digit(c) && !joins) break;
      ++at_;
    }
    return {Token::Kind::name, text_.substr(start, at_ - start), column};
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t counted_ = 0;  ///< bytes before this place are counted in column_
  int column_ = 1;
};

// ---- Parser: precedence climbing ---------------------------------------------------------------

struct Binary {
  std::string_view sign;
  Kind kind;
  int precedence;
};
constexpr int comparison = 3;
constexpr int product = 5;
constexpr int power = 7;
constexpr std::array binaries = {
    Binary{"or", Kind::logical_or, 1},
    Binary{"and", Kind::logical_and, 2},
    Binary{"<", Kind::less, comparison},
    Binary{"<=", Kind::less_or_equal, comparison},
    Binary{">", Kind::greater, comparison},
    Binary{">=", Kind::greater_or_equal, comparison},
    Binary{"==", Kind::equal, comparison},
    Binary{"!=", Kind::not_equal, comparison},
    Binary{"+", Kind::add, 4},
    Binary{"-", Kind::subtract, 4},
    Binary{"*", Kind::multiply, product},
    Binary{"/", Kind::divide, product},
    Binary{"^", Kind::power, power},
};
/// -x^2 is -(x^2), and -x * y is (-x) * y.
constexpr int negation = 6;

class Parser {
 public:
  explicit Parser(std::string_view text) : lexer_(text), token_(lexer_.next()) {}

  Node whole() {
    Node node = expression(0);
    if (token_.kind != Token::Kind::end)
      throw FormulaError("expected an operator before " + here(), token_.column);
    return node;
  }

 private:
  std::string here() const {
    return token_.kind == Token::Kind::end ? "the end" : "'" + std::string(token_.text) + "'";
  }
  void advance() { token_ = lexer_.next(); }
  bool at(std::string_view text) const {
    return (token_.kind == Token::Kind::sign || token_.kind == Token::Kind::name) &&
           token_.text == text;
  }
  void expect(std::string_view sign) {
    if (!at(sign))
      throw FormulaError("expected '" + std::string(sign) + "' before " + here(), token_.column);
    advance();
  }

  const Binary* binary_here() const {
    for (const Binary& b : binaries)
      if (at(b.sign)) return &b;
    return nullptr;
  }

  Node expression(int weakest) {
    if (++depth_ > deepest_nesting)
      throw FormulaError("nested deeper than 64 levels", token_.column);
    Node left = operand();
    int chain = 0;  // a tree leans as deep as its chain of operators is long
    while (const Binary* b = binary_here()) {
      if (b->precedence < weakest) break;
      if (++chain > deepest_nesting)
        throw FormulaError("more than 64 operators in a row", token_.column);
      const int column = token_.column;
      advance();
      // ^ groups from the right; the others from the left; comparisons do not chain.
      Node right = expression(b->precedence == power ? power : b->precedence + 1);
      const Binary* following = binary_here();
      if (b->precedence == comparison && following && following->precedence == comparison)
        throw FormulaError("comparisons cannot be chained, join them with 'and'", token_.column);
      Node node{b->kind};
      node.column = column;
      node.operands = {std::move(left), std::move(right)};
      left = std::move(node);
    }
    --depth_;
    return left;
  }

  Node unary(Kind kind, int precedence) {
    Node node{kind};
    node.column = token_.column;
    advance();
    node.operands.push_back(expression(precedence));
    return node;
  }

  Node operand() {
    if (at("-")) return unary(Kind::negate, negation);
    if (at("not")) return unary(Kind::logical_not, comparison);
    if (at("(")) {
      advance();
      Node inside = expression(0);
      expect(")");
      return inside;
    }
    Node node{Kind::number};
    node.column = token_.column;
    switch (token_.kind) {
      case Token::Kind::number:
        node.as_written = token_.number;
        node.unit = lexer_.unit();
        node.quantity = node.unit ? Quantity{node.unit->dimension, node.unit->to_si(token_.number)}
                                  : Quantity{dimension::ratio, token_.number};
        if (!node.unit) refuse_unknown_unit();
        advance();
        return node;
      case Token::Kind::word:
        node.kind = Kind::word;
        node.text = token_.text;
        advance();
        return node;
      case Token::Kind::name:
        return named(std::move(node));
      default:
        throw FormulaError("expected a value before " + here(), token_.column);
    }
  }

  /// "2 feet": behind a number stands a unit of the table, or an operator.
  void refuse_unknown_unit() const {
    const std::string word(lexer_.word_here());
    if (word.empty() || word == "and" || word == "or") return;
    const auto near = suggest_unit(word);
    throw FormulaError("unknown unit '" + word + "' behind the number " + std::string(token_.text) +
                           (near ? ", did you mean '" + std::string(*near) + "'?" : ""),
                       token_.column);
  }

  Node named(Node node) {
    node.text = token_.text;
    if (node.text == "true" || node.text == "false") {
      node.kind = Kind::truth;
      node.truth = node.text == "true";
      advance();
      return node;
    }
    if (node.text == "and" || node.text == "or")
      throw FormulaError("expected a value before " + here(), token_.column);
    advance();
    node.kind = at("(") ? Kind::call : Kind::name;
    if (node.kind == Kind::call) call(node);
    return node;
  }

  void call(Node& node) {
    const auto found = std::find_if(functions.begin(), functions.end(),
                                    [&](const Function& f) { return f.name == node.text; });
    if (found == functions.end()) {
      std::string message = "unknown function '" + node.text + "'";
      if (const auto near = suggest(node.text, function_names()))
        message += ", did you mean '" + *near + "'?";
      throw FormulaError(message, node.column);
    }
    expect("(");
    node.operands.push_back(expression(0));
    while (at(",")) {
      advance();
      node.operands.push_back(expression(0));
    }
    expect(")");
    const std::size_t count = node.operands.size();
    if (count < found->arguments || (count > found->arguments && !found->or_more))
      throw FormulaError("'" + node.text + "' takes " + std::to_string(found->arguments) +
                             (found->or_more          ? " or more arguments"
                              : found->arguments == 1 ? " argument"
                                                      : " arguments") +
                             ", got " + std::to_string(count),
                         node.column);
    if (node.text == "number-of") require_unit(node.operands[1]);
  }

  static void require_unit(const Node& node) {
    if (node.kind != Kind::word)
      throw FormulaError("'number-of' takes a unit in quotes", node.column);
    if (find_unit(node.text)) return;
    const auto near = suggest_unit(node.text);
    throw FormulaError("unknown unit '" + node.text + "'" +
                           (near ? ", did you mean '" + std::string(*near) + "'?" : ""),
                       node.column);
  }

  Lexer lexer_;
  Token token_;
  int depth_ = 0;
};

// ---- Evaluation --------------------------------------------------------------------------------

/// No value exists, though names and dimensions are right: a division by zero, an infinite result.
/// In a branch that is not taken this is no fault.
class NoValue : public FormulaError {
  using FormulaError::FormulaError;
};

std::string in_words(const Result& result) {
  if (const auto* q = std::get_if<Quantity>(&result)) return dimension_in_words(q->dimension);
  return std::holds_alternative<bool>(result) ? "a truth" : "a word";
}

class Evaluation {
 public:
  Evaluation(const Lookup& lookup, const std::vector<std::string>& known)
      : lookup_(lookup), known_(known) {}

  Result value(const Node& node) const {
    switch (node.kind) {
      case Kind::number:  // as large as can be, in a larger unit
        return finite(node.quantity, node);
      case Kind::truth:
        return node.truth;
      case Kind::word:
        return engine::Word{node.text};
      case Kind::name:
        return name(node);
      case Kind::logical_not:
        return !truth(node.operands[0]);
      case Kind::logical_and:
      case Kind::logical_or: {
        const bool first = truth(node.operands[0]);
        const bool decided = first == (node.kind == Kind::logical_or);
        if (!decided) return truth(node.operands[1]);
        if_it_has_a_value([&] { truth(node.operands[1]); });
        return first;
      }
      case Kind::equal:
        return equal(node);
      case Kind::not_equal:
        return !equal(node);
      case Kind::less:
      case Kind::less_or_equal:
      case Kind::greater:
      case Kind::greater_or_equal:
        return compare(node);
      case Kind::call:
        if (node.text == "if") return choice(node);
        return finite(call(node), node);
      default:
        return finite(arithmetic(node), node);
    }
  }

  Quantity quantity(const Node& node) const {
    const Result result = value(node);
    if (const auto* q = std::get_if<Quantity>(&result)) return *q;
    throw FormulaError("expected a quantity, got " + in_words(result), node.column);
  }

  bool truth(const Node& node) const {
    const Result result = value(node);
    if (const auto* b = std::get_if<bool>(&result)) return *b;
    throw FormulaError("expected a condition, got " + in_words(result), node.column);
  }

 private:
  Result name(const Node& node) const {
    if (node.text == "g")
      return Quantity{dimension::acceleration, engine::standard_gravity.value()};
    if (node.text == "pi") return Quantity{dimension::ratio, std::numbers::pi};
    if (auto found = lookup_(node.text)) return *found;
    const auto near = suggest(node.text, known_);
    throw FormulaError(
        "unknown name '" + node.text + "'" + (near ? ", did you mean '" + *near + "'?" : ""),
        node.column);
  }

  /// A branch that is not taken is checked as well, as far as it has a value.
  template <class Check>
  static void if_it_has_a_value(const Check& check) {
    try {
      check();
    } catch (const NoValue&) {  // the condition guards against it
    }
  }

  Result choice(const Node& node) const {
    const bool first = truth(node.operands[0]);
    const Result taken = value(node.operands[first ? 1 : 2]);
    if_it_has_a_value([&] {
      const Result other = value(node.operands[first ? 2 : 1]);
      if (in_words(taken) != in_words(other))
        throw FormulaError("'if' gives " + in_words(first ? taken : other) + " or " +
                               in_words(first ? other : taken) + ", expected the same kind twice",
                           node.column);
    });
    return taken;
  }

  static Quantity finite(Quantity q, const Node& node) {
    if (!std::isfinite(q.si)) throw NoValue("the result is not a finite number", node.column);
    return q;
  }

  /// "adds a length to a force"
  static void require_alike(const Quantity& a, const char* verb, const Quantity& b,
                            const char* preposition, const Node& node) {
    if (a.dimension != b.dimension)
      throw FormulaError(std::string(verb) + " " + dimension_in_words(a.dimension) + " " +
                             preposition + " " + dimension_in_words(b.dimension),
                         node.column);
  }

  bool equal(const Node& node) const {
    const Result a = value(node.operands[0]);
    const Result b = value(node.operands[1]);
    if (a.index() != b.index())
      throw FormulaError("compares " + in_words(a) + " with " + in_words(b), node.column);
    if (const auto* q = std::get_if<Quantity>(&a))
      require_alike(*q, "compares", std::get<Quantity>(b), "with", node);
    return a == b;
  }

  bool compare(const Node& node) const {
    const Quantity a = quantity(node.operands[0]);
    const Quantity b = quantity(node.operands[1]);
    require_alike(a, "compares", b, "with", node);
    // Values on a grid meet a bound exactly; then no last bit may decide: it differs where sine and
    // cosine come from another library.
    const bool meet = std::abs(a.si - b.si) <= 1e-9 * std::max(std::abs(a.si), std::abs(b.si));
    switch (node.kind) {
      case Kind::less:
        return a.si < b.si && !meet;
      case Kind::less_or_equal:
        return a.si <= b.si || meet;
      case Kind::greater:
        return a.si > b.si && !meet;
      default:
        return a.si >= b.si || meet;
    }
  }

  Quantity arithmetic(const Node& node) const {
    const Quantity a = quantity(node.operands[0]);
    if (node.kind == Kind::negate) return {a.dimension, -a.si};
    const Quantity b = quantity(node.operands[1]);
    switch (node.kind) {
      case Kind::add:
        require_alike(b, "adds", a, "to", node);
        return {a.dimension, a.si + b.si};
      case Kind::subtract:
        require_alike(b, "subtracts", a, "from", node);
        return {a.dimension, a.si - b.si};
      case Kind::multiply:
        return {a.dimension + b.dimension, a.si * b.si};
      case Kind::divide:
        if (b.si == 0) throw NoValue("divides by zero", node.column);
        return {a.dimension - b.dimension, a.si / b.si};
      default:
        return raised(a, b, node);
    }
  }

  static int scaled(int exponent, double by, const Node& node) {
    const double product_of = exponent * by;
    const double whole = std::nearbyint(product_of);
    if (std::abs(product_of - whole) > 1e-12 || std::abs(whole) > 64)
      throw FormulaError("raises a dimension to a power that is not whole", node.column);
    return static_cast<int>(whole);
  }

  static bool has_square_root(Dimension d) {
    return d.length % 2 == 0 && d.mass % 2 == 0 && d.time % 2 == 0 && d.angle % 2 == 0;
  }

  static Quantity raised(const Quantity& a, const Quantity& b, const Node& node) {
    if (b.dimension != dimension::ratio)
      throw FormulaError("an exponent is a plain number, got " + dimension_in_words(b.dimension),
                         node.column);
    if (b.si == 0.5 && !has_square_root(a.dimension))
      throw FormulaError("takes the square root of " + dimension_in_words(a.dimension),
                         node.column);
    const Dimension d{scaled(a.dimension.length, b.si, node), scaled(a.dimension.mass, b.si, node),
                      scaled(a.dimension.time, b.si, node), scaled(a.dimension.angle, b.si, node)};
    return {d, b.si == 2 ? a.si * a.si : b.si == 0.5 ? std::sqrt(a.si) : std::pow(a.si, b.si)};
  }

  Quantity call(const Node& node) const {
    const std::string& f = node.text;
    if (f == "number-of") return number_of(node);
    const Quantity a = quantity(node.operands[0]);
    const auto needs = [&](Dimension expected) {
      if (a.dimension != expected)
        throw FormulaError("'" + f + "' takes " + dimension_in_words(expected) + ", got " +
                               dimension_in_words(a.dimension),
                           node.column);
    };
    if (node.operands.size() > 1) {
      Quantity all = a;
      for (std::size_t i = 1; i < node.operands.size(); ++i) {
        const Quantity b = quantity(node.operands[i]);
        require_alike(a, ("'" + f + "' combines").c_str(), b, "with", node);
        all.si = f == "hypot" ? std::hypot(all.si, b.si)
                 : f == "min" ? std::min(all.si, b.si)
                              : std::max(all.si, b.si);
      }
      return all;
    }
    if (f == "sqrt") return raised(a, {dimension::ratio, 0.5}, node);
    if (f == "abs") return {a.dimension, std::abs(a.si)};
    if (f == "sin" || f == "cos" || f == "tan") {
      needs(dimension::angle);
      return {dimension::ratio, f == "sin"   ? std::sin(a.si)
                                : f == "cos" ? std::cos(a.si)
                                             : std::tan(a.si)};
    }
    needs(dimension::ratio);
    if (f == "asin") return {dimension::angle, std::asin(a.si)};
    if (f == "acos") return {dimension::angle, std::acos(a.si)};
    if (f == "atan") return {dimension::angle, std::atan(a.si)};
    if (f == "exp") return {dimension::ratio, std::exp(a.si)};
    if (f == "log") return {dimension::ratio, std::log(a.si)};
    if (f == "floor") return {dimension::ratio, std::floor(a.si + whole_within)};
    if (f == "ceil") return {dimension::ratio, std::ceil(a.si - whole_within)};
    return {dimension::ratio, std::round(a.si)};  // halves go away from zero
  }

  Quantity number_of(const Node& node) const {
    const Quantity a = quantity(node.operands[0]);
    const Unit* unit = find_unit(node.operands[1].text);
    if (unit->dimension != a.dimension)
      throw FormulaError("'number-of' asks for " + dimension_in_words(unit->dimension) + " of " +
                             dimension_in_words(a.dimension),
                         node.column);
    return {dimension::ratio, unit->from_si(a.si)};
  }

  const Lookup& lookup_;
  const std::vector<std::string>& known_;
};

void collect_names(const Node& node, std::vector<std::string>& names) {
  const bool constant = node.text == "g" || node.text == "pi";
  if (node.kind == Kind::name && !constant &&
      std::find(names.begin(), names.end(), node.text) == names.end())
    names.push_back(node.text);
  for (const Node& operand : node.operands) collect_names(operand, names);
}

void rescale(Node& node, const Rescaling& by) {
  for (Node& operand : node.operands) rescale(operand, by);
  if (node.kind == Kind::number) node.quantity.si *= by.factor(node.quantity.dimension);
  if (node.kind != Kind::call || node.text != "number-of") return;
  const Dimension counted = find_unit(node.operands[1].text)->dimension;
  Node divided{Kind::divide};
  divided.column = node.column;
  divided.operands = {node.operands[0], {Kind::number, {}, {dimension::ratio, by.factor(counted)}}};
  node.operands[0] = std::move(divided);
}

}  // namespace

double Rescaling::factor(Dimension dimension) const {
  return std::pow(length, dimension.length + dimension.time / 2.0) * std::pow(mass, dimension.mass);
}

Formula Formula::parse(std::string_view text) {
  if (text.size() > most_characters)
    throw FormulaError("longer than 2,000 characters", static_cast<int>(most_characters));
  Formula formula;
  formula.text_ = text;
  formula.root_ = Parser(text).whole();
  return formula;
}

Result Formula::evaluate(const Lookup& lookup, const std::vector<std::string>& known) const {
  return Evaluation(lookup, known).value(root_);
}
Quantity Formula::quantity(const Lookup& lookup, const std::vector<std::string>& known) const {
  return Evaluation(lookup, known).quantity(root_);
}
bool Formula::truth(const Lookup& lookup, const std::vector<std::string>& known) const {
  return Evaluation(lookup, known).truth(root_);
}

Formula Formula::rescaled(const Rescaling& by) const {
  Formula made = *this;
  rescale(made.root_, by);
  return made;
}

std::vector<std::string> Formula::names() const {
  std::vector<std::string> names;
  collect_names(root_, names);
  return names;
}

}  // namespace footroom::notation
