#include "notation/typeset.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <random>
#include <regex>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace footroom;
using namespace footroom::notation;
using engine::Language;
namespace dimension = engine::dimension;

const Style english{Language::english, '.'};
const Style spanish{Language::spanish, '.'};
const Style decimal_comma{Language::spanish, ','};

struct Named {
  const char* symbol;
  const char* number;
};
const std::map<std::string, Named, std::less<>> names = {
    {"slope-length", {"L", "16 ft"}},
    {"pitch", {"theta", "26.57°"}},
    {"d-ring-height", {"h", "5 ft"}},
    {"taut-line", {"d_0", "14.3 ft"}},
    {"slack", {"sigma", "4 ft"}},
    {"free-fall", {"FF", "6 ft"}},
    {"weight", {"W", "220 lbf"}},
    {"force", {"F", "900 lbf"}},
    {"greatest-force", {"F_max", "1,800 lbf"}},
    {"drop", {"H", "5 ft"}},
    {"friction", {"mu", "0.5"}},
    {"below-edge", {"b", "−2 ft"}},
    {"ratio", {"k_1", "−0.5"}},
    {"a", {"a", "2"}},
    {"b", {"b", "3"}},
    {"c", {"c", "4"}},
    {"d", {"d", "5"}},
};

Math by_symbol(std::string_view name) {
  return symbol(names.find(name)->second.symbol);
}
Math by_number(std::string_view name) {
  return number(names.find(name)->second.number);
}
Math in_words(std::string_view) {
  return {Math::Kind::identifier, "slope length", {}};
}

/// A no-break space is written _ here.
std::string plain(std::string text) {
  const std::string space = "\u00a0";
  for (std::size_t at; (at = text.find(space)) != text.npos;) text.replace(at, space.size(), "_");
  return text;
}

std::string set(std::string_view formula, const SetName& set_name, Style style = english) {
  return plain(to_text(typeset(Formula::parse(formula), set_name, style)));
}

struct Line {
  const char* formula;
  const char* symbols;
  const char* numbers;
};
class Lines : public testing::TestWithParam<Line> {};
TEST_P(Lines, AreSetAsInABook) {
  const auto& row = GetParam();
  EXPECT_EQ(set(row.formula, by_symbol), row.symbols);
  EXPECT_EQ(set(row.formula, by_number), row.numbers);
}
INSTANTIATE_TEST_SUITE_P(
    OfCalculations, Lines,
    testing::Values(
        Line{"hypot(slope-length * cos(pitch), d-ring-height - slope-length * sin(pitch))",
             "√((L cos θ)² + (h − L sin θ)²)",
             "√((16 ft · cos 26.57°)² + (5 ft − 16 ft · sin 26.57°)²)"},
        Line{"sqrt(2 * g * drop)", "√(2 g H)", "√(2 g · 5 ft)"},
        Line{"weight * free-fall / (force - weight)", "W · FF / (F − W)",
             "220 lbf · 6 ft / (900 lbf − 220 lbf)"},
        Line{"d-ring-height + below-edge", "h + b", "5 ft + (−2 ft)"},
        Line{"d-ring-height - below-edge", "h − b", "5 ft − (−2 ft)"},
        Line{"below-edge + d-ring-height", "b + h", "−2 ft + 5 ft"},
        Line{"-below-edge", "−b", "−(−2 ft)"},
        Line{"g * (sin(pitch) - friction * cos(pitch))", "g (sin θ − μ cos θ)",
             "g (sin 26.57° − 0.5 cos 26.57°)"},
        Line{"weight + sqrt(weight ^ 2 + 2 * weight * force * free-fall)", "W + √(W² + 2 W F · FF)",
             "220 lbf + √((220 lbf)² + 2 · 220 lbf · 900 lbf · 6 ft)"},
        Line{"2 ft * cos(pitch)", "2_ft · cos θ", "2_ft · cos 26.57°"},
        Line{"1380 psi * a ^ 2.5 * drop", "1,380_psi · a^2.5 H", "1,380_psi · 2^2.5 · 5 ft"},
        Line{"max(slack, free-fall, 2 ft)", "max(σ, FF, 2_ft)", "max(4 ft, 6 ft, 2_ft)"}));
INSTANTIATE_TEST_SUITE_P(
    OfProducts, Lines,
    testing::Values(Line{"a * b", "a b", "2 · 3"}, Line{"2 * a", "2 a", "2 · 2"},
                    Line{"a * 2", "a · 2", "2 · 2"}, Line{"a * b * c", "a b c", "2 · 3 · 4"},
                    Line{"a * (b * c)", "a b c", "2 · 3 · 4"},
                    Line{"a * (b + c)", "a (b + c)", "2 (3 + 4)"},
                    Line{"(a + b) * c", "(a + b) · c", "(2 + 3) · 4"},
                    Line{"(a + b) * (c + d)", "(a + b) · (c + d)", "(2 + 3) · (4 + 5)"},
                    Line{"sin(pitch) * a", "sin θ · a", "sin 26.57° · 2"},
                    Line{"a * sin(pitch) * b", "a sin θ · b", "2 sin 26.57° · 3"},
                    Line{"a * sqrt(b)", "a √(b)", "2 √(3)"},
                    Line{"2 * free-fall", "2 FF", "2 · 6 ft"},
                    Line{"greatest-force * a", "F_max a", "1,800 lbf · 2"},
                    Line{"a * taut-line ^ 2", "a d₀²", "2 · (14.3 ft)²"},
                    Line{"a * -b", "a (−b)", "2 (−3)"}, Line{"-a * b", "−a b", "−2 · 3"},
                    Line{"-(a * b)", "−a b", "−2 · 3"}, Line{"-(a + b)", "−(a + b)", "−(2 + 3)"},
                    Line{"--a", "−(−a)", "−(−2)"}, Line{"a * ratio", "a k₁", "2 (−0.5)"},
                    Line{"ratio * a", "k₁ a", "(−0.5) · 2"}, Line{"pi * a ^ 2", "π a²", "π · 2²"}));
INSTANTIATE_TEST_SUITE_P(OfSums, Lines,
                         testing::Values(Line{"a - b - c", "a − b − c", "2 − 3 − 4"},
                                         Line{"a - (b - c)", "a − (b − c)", "2 − (3 − 4)"},
                                         Line{"a - (b + c)", "a − (b + c)", "2 − (3 + 4)"},
                                         Line{"a + (b + c)", "a + b + c", "2 + 3 + 4"},
                                         Line{"a + (b - c)", "a + b − c", "2 + 3 − 4"},
                                         Line{"a + -b", "a + (−b)", "2 + (−3)"},
                                         Line{"a - -b * c", "a − (−b c)", "2 − (−3 · 4)"},
                                         Line{"a + ratio * b", "a + k₁ b", "2 + (−0.5) · 3"},
                                         Line{"-a + b", "−a + b", "−2 + 3"},
                                         Line{"a * b + c", "a b + c", "2 · 3 + 4"},
                                         Line{"ratio", "k₁", "−0.5"}));
INSTANTIATE_TEST_SUITE_P(
    OfFractionsAndPowers, Lines,
    testing::Values(
        Line{"a / b", "a / b", "2 / 3"}, Line{"a / b / c", "(a / b) / c", "(2 / 3) / 4"},
        Line{"a / (b / c)", "a / (b / c)", "2 / (3 / 4)"},
        Line{"a / (b * c)", "a / (b c)", "2 / (3 · 4)"}, Line{"a * b / c", "a b / c", "2 · 3 / 4"},
        Line{"a / b * c", "(a / b) · c", "(2 / 3) · 4"},
        Line{"c * (a / b)", "c · (a / b)", "4 · (2 / 3)"},
        Line{"(a + b) / (c - d)", "(a + b) / (c − d)", "(2 + 3) / (4 − 5)"},
        Line{"a / sin(pitch)", "a / sin θ", "2 / sin 26.57°"},
        Line{"a + b / c", "a + b / c", "2 + 3 / 4"}, Line{"-(a / b)", "−a / b", "−2 / 3"},
        Line{"a ^ 2", "a²", "2²"}, Line{"a ^ 12", "a¹²", "2¹²"}, Line{"a ^ -1", "a⁻¹", "2⁻¹"},
        Line{"a ^ b", "a^b", "2³"}, Line{"a ^ (b + c)", "a^(b + c)", "2^(3 + 4)"},
        Line{"(a + b) ^ 2", "(a + b)²", "(2 + 3)²"}, Line{"(-a) ^ 2", "(−a)²", "(−2)²"},
        Line{"-a ^ 2", "−a²", "−2²"}, Line{"(a / b) ^ 2", "(a / b)²", "(2 / 3)²"},
        Line{"(a ^ 2) ^ 3", "(a²)³", "(2²)³"}, Line{"ratio ^ 2", "k₁²", "(−0.5)²"},
        Line{"drop ^ 2", "H²", "(5 ft)²"}, Line{"sin(pitch) ^ 2", "(sin θ)²", "(sin 26.57°)²"},
        Line{"a ^ 0.5", "√(a)", "√(2)"}, Line{"sqrt(a + b)", "√(a + b)", "√(2 + 3)"},
        Line{"abs(a - b)", "|a − b|", "|2 − 3|"}, Line{"exp(-a)", "e^−a", "e⁻²"}));
INSTANTIATE_TEST_SUITE_P(
    OfFunctions, Lines,
    testing::Values(Line{"cos(pitch)", "cos θ", "cos 26.57°"},
                    Line{"cos(pitch + 5 deg)", "cos(θ + 5°)", "cos(26.57° + 5°)"},
                    Line{"cos(2 * pitch)", "cos(2 θ)", "cos(2 · 26.57°)"},
                    Line{"sin(-pitch)", "sin(−θ)", "sin(−26.57°)"},
                    Line{"asin(ratio)", "arcsin k₁", "arcsin(−0.5)"},
                    Line{"atan(a / b)", "arctan(a / b)", "arctan(2 / 3)"},
                    Line{"acos(a)", "arccos a", "arccos 2"},
                    Line{"tan(6 pitch)", "tan 6:12", "tan 6:12"}, Line{"log(a)", "ln a", "ln 2"},
                    Line{"min(a, b + c)", "min(a, b + c)", "min(2, 3 + 4)"},
                    Line{"floor(drop / slack)", "round down(H / σ)", "round down(5 ft / 4 ft)"},
                    Line{"ceil(a) + 1", "round up(a) + 1", "round up(2) + 1"},
                    Line{"round(a)", "round(a)", "round(2)"},
                    Line{"number-of(drop, \"in\") + 0.5", "H / 1_in + 0.5", "5 ft / 1_in + 0.5"},
                    Line{"10 * number-of(drop, \"in\")", "10 · (H / 1_in)", "10 · (5 ft / 1_in)"}));
INSTANTIATE_TEST_SUITE_P(
    OfConditions, Lines,
    testing::Values(
        Line{"a <= b", "a ≤ b", "2 ≤ 3"}, Line{"a >= b + 1", "a ≥ b + 1", "2 ≥ 3 + 1"},
        Line{"a < b and b < c or a == 1", "a < b and b < c or a = 1", "2 < 3 and 3 < 4 or 2 = 1"},
        Line{"(a < b or b > c) and a != 1", "(a < b or b > c) and a ≠ 1",
             "(2 < 3 or 3 > 4) and 2 ≠ 1"},
        Line{"not (a < b)", "not (a < b)", "not (2 < 3)"}, Line{"a > -3", "a > −3", "2 > −3"},
        Line{"a == \"wet\"", "a = wet", "2 = wet"},
        Line{"if(a > b, a, b)", "a if a > b, otherwise b", "2 if 2 > 3, otherwise 3"},
        Line{"2 * if(a > b, a, b)", "2 (a if a > b, otherwise b)", "2 (2 if 2 > 3, otherwise 3)"},
        Line{"if(a > b, if(b > c, 1, 2), c)", "(1 if b > c, otherwise 2) if a > b, otherwise c",
             "(1 if 3 > 4, otherwise 2) if 2 > 3, otherwise 4"},
        Line{"if(a > b, 1, if(b > c, 2, 3))", "1 if a > b, otherwise 2 if b > c, otherwise 3",
             "1 if 2 > 3, otherwise 2 if 3 > 4, otherwise 3"},
        Line{"true", "true", "true"}));

TEST(Spanish, HasItsWords) {
  EXPECT_EQ(set("if(a > b and not (b > c), a, b)", by_symbol, spanish),
            "a si a > b y no (b > c), si no b");
  EXPECT_EQ(set("a > b or false", by_symbol, spanish), "a > b o falso");
  EXPECT_EQ(set("ceil(a)", by_symbol, spanish), "redondear hacia arriba(a)");
  EXPECT_EQ(set("floor(a)", by_symbol, spanish), "redondear hacia abajo(a)");
  EXPECT_EQ(set("round(a)", by_symbol, spanish), "redondear(a)");
}

TEST(Style, HasItsDecimalMark) {
  EXPECT_EQ(set("1380.5 psi * a", by_symbol, decimal_comma), "1_380,5_psi · a");
}

TEST(NamesWithoutSymbol, AreSetAsWords) {
  EXPECT_EQ(set("a * sin(b)", in_words), "slope length · sin(slope length)");
  EXPECT_EQ(set("a ^ 2", in_words), "(slope length)²");
  EXPECT_EQ(set("2 * a", in_words), "2 slope length");
}

TEST(Symbols, HaveGreekLettersAndIndices) {
  const std::pair<const char*, const char*> rows[] = {{"L", "L"},
                                                      {"FF", "FF"},
                                                      {"theta", "θ"},
                                                      {"d_0", "d₀"},
                                                      {"x_12", "x₁₂"},
                                                      {"F_max", "F_max"},
                                                      {"delta_s", "δ_s"},
                                                      {"Z_alpha", "Z_α"},
                                                      {"Delta_h", "Δ_h"},
                                                      {"sigma_max", "σ_max"},
                                                      {"", ""}};
  for (const auto& [spelt, printed] : rows) EXPECT_EQ(to_text(symbol(spelt)), printed);
}

TEST(Symbols, AreSubscriptsWithNumbersOrIdentifiers) {
  const Math d = symbol("d_0");
  ASSERT_EQ(d.kind, Math::Kind::subscript);
  EXPECT_EQ(d.parts[0].kind, Math::Kind::identifier);
  EXPECT_EQ(d.parts[1].kind, Math::Kind::number);
  EXPECT_EQ(symbol("K_D").parts[1].kind, Math::Kind::identifier);
}

TEST(Equation, JoinsBothSides) {
  EXPECT_EQ(
      to_text(equation(symbol("d_0"), "=", typeset(Formula::parse("a / b"), by_symbol, english))),
      "d₀ = a / b");
  EXPECT_EQ(to_text(equation(symbol("theta"), "≈", number("26.6°"))), "θ ≈ 26.6°");
}

TEST(Boxes, SayHowFactorsStandTogether) {
  const Math close = typeset(Formula::parse("a * b"), by_symbol, english);
  ASSERT_EQ(close.parts.size(), 3u);
  EXPECT_EQ(close.parts[1].text, "\u2062");
  const Math cosine = typeset(Formula::parse("cos(pitch)"), by_symbol, english);
  ASSERT_EQ(cosine.parts.size(), 3u);
  EXPECT_EQ(cosine.parts[1].text, "\u2061");
}

TEST(Boxes, OfHypotAreARootOfASumOfSquares) {
  const Math root = typeset(Formula::parse("hypot(a, b)"), by_symbol, english);
  ASSERT_EQ(root.kind, Math::Kind::root);
  const Math& sum = root.parts.at(0);
  ASSERT_EQ(sum.kind, Math::Kind::row);
  ASSERT_EQ(sum.parts.size(), 3u);
  EXPECT_EQ(sum.parts[0].kind, Math::Kind::power);
  EXPECT_EQ(sum.parts[1].text, "+");
}

// ---- The line of text says what the formula says: it is read again and evaluated.

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != text.npos; at += to.size())
    text.replace(at, from.size(), to);
}

/// From the line of text back to the notation of formulas, by the rules a reader of mathematics
/// uses: what stands close together is a product, √ a root, raised digits a power.
std::string as_formula(std::string text) {
  static const std::regex raised_run("\\^([-0-9])\\^([0-9])");
  static const std::regex bars("\\|([^|]*)\\|");
  static const std::regex bare_argument("(sin|cos) ([a-z0-9._°-]+)");
  static const std::regex close_factors("([a-z0-9)]) (?=[a-z(])");
  replace_all(text, "\u00a0", "_");
  const std::pair<const char*, const char*> raised[] = {
      {"⁰", "0"}, {"¹", "1"}, {"²", "2"}, {"³", "3"}, {"⁴", "4"}, {"⁵", "5"},
      {"⁶", "6"}, {"⁷", "7"}, {"⁸", "8"}, {"⁹", "9"}, {"⁻", "-"}};
  for (const auto& [letter, digit] : raised) replace_all(text, letter, std::string("^") + digit);
  text = std::regex_replace(text, raised_run, "^$1$2");
  replace_all(text, "√(", "sqrt(");
  replace_all(text, "·", "*");
  replace_all(text, "−", "-");
  text = std::regex_replace(text, bars, "abs($1)");
  text = std::regex_replace(text, bare_argument, "$1($2)");
  // A function binds its argument, then factors stand close: "a sin(t) b", "2 (a + b)".
  std::string before;
  while (before != text) {
    before = text;
    text = std::regex_replace(text, close_factors, "$1 * ");
  }
  replace_all(text, "°", " deg");
  return text;
}

/// A random formula over a, b, c, d (plain numbers) and t (an angle), with parentheses everywhere.
std::string random_formula(std::mt19937_64& random, int depth) {
  const auto inner = [&] { return "(" + random_formula(random, depth - 1) + ")"; };
  const std::vector<std::string> atoms = {"a", "b", "c", "d", "2", "0.5", "3"};
  if (depth == 0) return atoms[random() % atoms.size()];
  switch (random() % 16) {
    case 0:
    case 1:
      return inner() + " + " + inner();
    case 2:
    case 3:
      return inner() + " - " + inner();
    case 4:
    case 5:
    case 6:
      return inner() + " * " + inner();
    case 7:
    case 8:
      return inner() + " / " + inner();
    case 9:
      return "-" + inner();
    case 10:
      return inner() + " ^ " +
             std::vector<std::string>{"2", "3", "(-1)", "0.5", "12"}[random() % 5];
    case 11:
      return "sqrt" + inner();
    case 12:
      return "hypot(" + inner() + ", " + inner() + ")";
    case 13:
      return random() % 2 ? "sin(t)" : "cos(2 * t)";
    case 14:
      return (random() % 2 ? "min(" : "max(") + inner() + ", " + inner() + ")";
    default:
      return random() % 4 ? random_formula(random, depth - 1) : "abs(a - b)";
  }
}

const std::map<std::string, double, std::less<>> plain_values = {
    {"a", 1.75}, {"b", -2.5}, {"c", 0.625}, {"d", 14}};

std::optional<Result> plain_value(std::string_view name) {
  if (name == "t") return engine::Quantity{dimension::angle, find_unit("deg")->to_si(26.5)};
  const auto found = plain_values.find(name);
  if (found == plain_values.end()) return std::nullopt;
  return engine::Quantity{dimension::ratio, found->second};
}

Math letter(std::string_view name) {
  return symbol(name);
}
Math put_in(std::string_view name) {
  if (name == "t") return number(write_quantity_shortest(26.5, *find_unit("deg"), english));
  return number(write_shortest(plain_values.find(name)->second, english));
}

TEST(LineOfText, EvaluatesToTheSameNumber) {
  std::mt19937_64 random(7);
  int compared = 0;
  for (int i = 0; i < 1500; ++i) {
    const std::string text = random_formula(random, 1 + static_cast<int>(random() % 4));
    const Formula formula = Formula::parse(text);
    double expected = 0;
    try {
      expected = formula.quantity(plain_value).si;
    } catch (const FormulaError&) {
      continue;  // no value: a root of a negative number, a division by zero
    }
    if (std::fabs(expected) < 1e-6 || std::fabs(expected) > 1e9) continue;
    for (const SetName& set_name : {SetName(letter), SetName(put_in)}) {
      const std::string line = to_text(typeset(formula, set_name, english));
      const std::string again = as_formula(line);
      try {
        ASSERT_NEAR(Formula::parse(again).quantity(plain_value).si, expected,
                    1e-9 * std::fabs(expected))
            << text << "\n"
            << line << "\n"
            << again;
      } catch (const FormulaError& error) {
        FAIL() << text << "\n" << line << "\n" << again << "\n" << error.what();
      }
      ++compared;
    }
  }
  EXPECT_GT(compared, 1200);
}

}  // namespace
