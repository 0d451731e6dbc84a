#include "notation/formula.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <numbers>
#include <random>
#include <string>
#include <vector>

namespace {

using namespace footroom;
using namespace footroom::notation;
using engine::Quantity;
using engine::Word;
namespace dimension = engine::dimension;

const std::map<std::string, Result, std::less<>> values = {
    {"slope-length", Quantity{dimension::length, 5}},
    {"slack", Quantity{dimension::length, 1.25}},
    {"pitch", Quantity{dimension::angle, std::numbers::pi / 6}},
    {"weight", Quantity{dimension::force, 980}},
    {"mass", Quantity{dimension::mass, 100}},
    {"area", Quantity{dimension::area, 9}},
    {"friction", Quantity{dimension::ratio, 0.5}},
    {"zero", Quantity{dimension::ratio, 0}},
    {"fall.free-fall", Quantity{dimension::length, 2}},
    {"limit.free-fall", Quantity{dimension::length, 1.8288}},
    {"end", Word{"below-edge"}},
    {"other-end", Word{"on-the-roof"}},
    {"guarded", true},
};

std::optional<Result> look_up(std::string_view name) {
  const auto found = values.find(name);
  if (found == values.end()) return std::nullopt;
  return found->second;
}

const std::vector<std::string> known = {"slope-length", "slack", "pitch", "weight"};

Quantity quantity(std::string_view text) {
  return Formula::parse(text).quantity(look_up, known);
}
double ratio(std::string_view text) {
  const Quantity q = quantity(text);
  EXPECT_EQ(q.dimension, dimension::ratio) << text;
  return q.si;
}
bool truth(std::string_view text) {
  return Formula::parse(text).truth(look_up, known);
}

// ---- Values

struct Computes {
  const char* text;
  double value;
};
class Arithmetic : public testing::TestWithParam<Computes> {};
TEST_P(Arithmetic, GivesTheNumber) {
  EXPECT_DOUBLE_EQ(ratio(GetParam().text), GetParam().value) << GetParam().text;
}
INSTANTIATE_TEST_SUITE_P(
    Precedence, Arithmetic,
    testing::Values(Computes{"1 + 2 * 3", 7}, Computes{"(1 + 2) * 3", 9}, Computes{"10 - 4 - 3", 3},
                    Computes{"10 - (4 - 3)", 9}, Computes{"24 / 4 / 2", 3},
                    Computes{"24 / (4 / 2)", 12}, Computes{"24 / 4 * 2", 12},
                    Computes{"2 ^ 3 ^ 2", 512}, Computes{"(2 ^ 3) ^ 2", 64}, Computes{"-2 ^ 2", -4},
                    Computes{"(-2) ^ 2", 4}, Computes{"2 ^ -1", 0.5}, Computes{"-2 * 3", -6},
                    Computes{"2 * -3", -6}, Computes{"2 - -3", 5}, Computes{"--2", 2},
                    Computes{"2 * 3 ^ 2", 18}, Computes{"-3 + 5", 2}, Computes{"1.5+.5", 2},
                    Computes{"2*3", 6}, Computes{" \t\n7 ", 7}));
INSTANTIATE_TEST_SUITE_P(
    Functions, Arithmetic,
    testing::Values(Computes{"sqrt(9)", 3}, Computes{"hypot(3, 4)", 5}, Computes{"abs(-2)", 2},
                    Computes{"min(3, 2)", 2}, Computes{"max(3, 2)", 3}, Computes{"min(3, 1, 2)", 1},
                    Computes{"max(3, 1, 7, 2)", 7}, Computes{"floor(-1.5)", -2},
                    Computes{"ceil(1.2)", 2}, Computes{"floor(2.9999999999)", 3},
                    Computes{"ceil(3.0000000001)", 3}, Computes{"floor(2.9999)", 2},
                    Computes{"ceil(3.0001)", 4}, Computes{"round(2.5)", 3},
                    Computes{"round(-2.5)", -3}, Computes{"round(0.49999999999999994)", 0},
                    Computes{"sin(30 deg)", 0.5}, Computes{"cos(60 deg)", 0.5000000000000001},
                    Computes{"tan(45 deg)", 1}, Computes{"tan(12 pitch)", 1}, Computes{"exp(0)", 1},
                    Computes{"log(exp(2))", 2}, Computes{"if(friction > 0.4, 1, 2)", 1},
                    Computes{"if(false, 1, 2)", 2}, Computes{"number-of(slope-length, \"m\")", 5},
                    Computes{"number-of(3 ft, \"in\")", 36},
                    Computes{"number-of(6 pitch, \"pitch\")", 6}, Computes{"pi", std::numbers::pi},
                    Computes{"slope-length / slack", 4}, Computes{"50 percent", 0.5},
                    Computes{"2 ft / 3 in", 8}, Computes{"sin(pitch) ^ 2 + cos(pitch) ^ 2", 1}));

struct Measures {
  const char* text;
  engine::Dimension dimension;
  double si;
};
class Dimensions : public testing::TestWithParam<Measures> {};
TEST_P(Dimensions, AreCarried) {
  const Quantity q = quantity(GetParam().text);
  EXPECT_EQ(q.dimension, GetParam().dimension);
  EXPECT_NEAR(q.si, GetParam().si, 1e-12 * std::fabs(GetParam().si));
}
INSTANTIATE_TEST_SUITE_P(
    Of, Dimensions,
    testing::Values(Measures{"2 ft", dimension::length, 0.6096},
                    Measures{"900 lbf", dimension::force, 4003.39945373445},
                    Measures{"slope-length + slack", dimension::length, 6.25},
                    Measures{"fall.free-fall - limit.free-fall", dimension::length, 0.1712},
                    Measures{"slope-length ^ 2", dimension::area, 25},
                    Measures{"slope-length * slack", dimension::area, 6.25},
                    Measures{"sqrt(area)", dimension::length, 3},
                    Measures{"area ^ 0.5", dimension::length, 3},
                    Measures{"area ^ (1 / 2)", dimension::length, 3},
                    Measures{"area ^ 1.5", {3, 0, 0, 0}, 27},
                    Measures{"slope-length ^ -1", {-1, 0, 0, 0}, 0.2},
                    Measures{"slope-length ^ zero", dimension::ratio, 1},
                    Measures{"mass * g", dimension::force, 980.665},
                    Measures{"sqrt(2 * g * slope-length)", dimension::speed, std::sqrt(98.0665)},
                    Measures{"weight * slope-length", dimension::energy, 4900},
                    Measures{"hypot(slope-length, 12 m)", dimension::length, 13},
                    Measures{"max(slack, 2 m)", dimension::length, 2},
                    Measures{"abs(-slack)", dimension::length, 1.25},
                    Measures{"-slack", dimension::length, -1.25},
                    Measures{"asin(0.5)", dimension::angle, std::numbers::pi / 6},
                    Measures{"acos(friction)", dimension::angle, std::numbers::pi / 3},
                    Measures{"atan(1)", dimension::angle, std::numbers::pi / 4},
                    Measures{"6 pitch", dimension::angle, std::atan(0.5)},
                    Measures{"26.57 deg", dimension::angle, 26.57 * std::numbers::pi / 180},
                    Measures{"2 ft-lbf", dimension::energy, 2 * 0.3048 * 4.4482216152605},
                    Measures{"3 lbf/ft", dimension::stiffness, 3 * 4.4482216152605 / 0.3048},
                    Measures{"2 ft / 4 s", dimension::speed, 0.1524},
                    Measures{"2 ft/s", dimension::speed, 0.6096},
                    Measures{"2 ft/slack", dimension::ratio, 0.6096 / 1.25},
                    Measures{"3 ft2", dimension::area, 3 * 0.3048 * 0.3048},
                    Measures{"weight / (2 psi)", dimension::area,
                             980 / (2 * 4.4482216152605 / (0.0254 * 0.0254))}));

TEST(Formulas, OfTheEdgeFallGiveItsTautLine) {
  const auto taut = quantity("hypot(slope-length * cos(pitch), 1.5 m - slope-length * sin(pitch))");
  EXPECT_DOUBLE_EQ(taut.si, std::sqrt(18.75 + 1.0));
}

// ---- Truths and words

struct Holds {
  const char* text;
  bool value;
};
class Truths : public testing::TestWithParam<Holds> {};
TEST_P(Truths, AreDecided) {
  EXPECT_EQ(truth(GetParam().text), GetParam().value) << GetParam().text;
}
INSTANTIATE_TEST_SUITE_P(
    Of, Truths,
    testing::Values(Holds{"slack < slope-length", true}, Holds{"slack >= 1.25 m", true},
                    Holds{"slack > 1.25 m", false}, Holds{"slack <= 1.25 m", true},
                    Holds{"slack == 1.25 m", true}, Holds{"slack != 1.25 m", false},
                    Holds{"end == \"below-edge\"", true}, Holds{"end != \"below-edge\"", false},
                    Holds{"end == other-end", false}, Holds{"\"a\" == \"a\"", true},
                    Holds{"guarded", true}, Holds{"guarded == false", false},
                    Holds{"not guarded", false}, Holds{"not slack > 2 m", true},
                    Holds{"not not true", true}, Holds{"true or false and false", true},
                    Holds{"(true or false) and false", false}, Holds{"not true or true", true},
                    Holds{"not (true or true)", false}, Holds{"1 + 1 > 1 and 2 < 3", true},
                    Holds{"if(guarded, end, other-end) == \"below-edge\"", true}));

TEST(Words, CanBeTheResult) {
  const Result result = Formula::parse("if(slack > 1 m, \"too-long\", \"fits\")").evaluate(look_up);
  EXPECT_EQ(std::get<Word>(result).id, "too-long");
}

// A branch that is not taken may have no value, but its dimensions count.
TEST(Branches, ThatDoNotCountMayHaveNoValue) {
  EXPECT_EQ(ratio("if(zero == 0, 7, 1 / zero)"), 7);
  EXPECT_EQ(ratio("if(zero != 0, sqrt(-1), 7)"), 7);
  EXPECT_FALSE(truth("zero > 0 and 1 / zero > 2"));
  EXPECT_TRUE(truth("zero == 0 or 1 / zero > 2"));
}

// ---- Errors, word for word

struct Fault {
  const char* text;
  int column;
  const char* message;
};
class Faults : public testing::TestWithParam<Fault> {};
TEST_P(Faults, AreNamedWithTheirPlace) {
  const auto& row = GetParam();
  try {
    Formula::parse(row.text).evaluate(look_up, known);
    FAIL() << row.text << " has a value";
  } catch (const FormulaError& error) {
    EXPECT_STREQ(error.what(), row.message) << row.text;
    EXPECT_EQ(error.column, row.column) << row.text;
  }
}
INSTANTIATE_TEST_SUITE_P(
    Reading, Faults,
    testing::Values(
        Fault{"", 1, "expected a value before the end"},
        Fault{"1 +", 4, "expected a value before the end"},
        Fault{"(1 + 2", 7, "expected ')' before the end"},
        Fault{"1 + 2)", 6, "expected an operator before ')'"},
        Fault{"1 2", 3, "expected an operator before '2'"},
        Fault{"slack slack", 7, "expected an operator before 'slack'"},
        Fault{"* 2", 1, "expected a value before '*'"},
        Fault{"and", 1, "expected a value before 'and'"},
        Fault{"a < b < c", 7, "comparisons cannot be chained, join them with 'and'"},
        Fault{"a == b != c", 8, "comparisons cannot be chained, join them with 'and'"},
        Fault{"a = b", 3, "cannot read '='"}, Fault{"2 $", 3, "cannot read '$'"},
        Fault{"slack × 2", 7, "cannot read '×'"}, Fault{"end == \"é\" × 2", 12, "cannot read '×'"},
        Fault{"Slack", 1, "cannot read 'Slack', expected a name in lower case"},
        Fault{"end == \"open", 8, "a quote is not closed"},
        Fault{"2 feet", 1, "unknown unit 'feet' behind the number 2, did you mean 'ft'?"},
        Fault{"1 + 2 Lbf", 5, "unknown unit 'Lbf' behind the number 2, did you mean 'lbf'?"},
        Fault{"2 slack", 1, "unknown unit 'slack' behind the number 2"},
        Fault{"1e3", 1, "unknown unit 'e' behind the number 1"},
        Fault{"sine(pitch)", 1, "unknown function 'sine', did you mean 'sin'?"},
        Fault{"frobnicate(1)", 1, "unknown function 'frobnicate'"},
        Fault{"sin()", 5, "expected a value before ')'"},
        Fault{"sin(1, 2)", 1, "'sin' takes 1 argument, got 2"},
        Fault{"hypot(1)", 1, "'hypot' takes 2 arguments, got 1"},
        Fault{"min(1)", 1, "'min' takes 2 or more arguments, got 1"},
        Fault{"if(true, 1)", 1, "'if' takes 3 arguments, got 2"},
        Fault{"number-of(slack, slack)", 18, "'number-of' takes a unit in quotes"},
        Fault{"number-of(slack, \"feets\")", 18, "unknown unit 'feets', did you mean 'ft'?"}));
INSTANTIATE_TEST_SUITE_P(
    Evaluating, Faults,
    testing::Values(
        Fault{"slop-length + 1 m", 1, "unknown name 'slop-length', did you mean 'slope-length'?"},
        Fault{"1 + unheard-of", 5, "unknown name 'unheard-of'"},
        Fault{"slope-length-slack", 1, "unknown name 'slope-length-slack'"},
        Fault{"weight + slack", 8, "adds a length to a force"},
        Fault{"weight - slack", 8, "subtracts a length from a force"},
        Fault{"pitch + 0.5", 7, "adds a plain number to an angle"},
        Fault{"weight < slack", 8, "compares a force with a length"},
        Fault{"weight == slack", 8, "compares a force with a length"},
        Fault{"end == slack", 5, "compares a word with a length"},
        Fault{"guarded == 1", 9, "compares a truth with a plain number"},
        Fault{"end < \"a\"", 1, "expected a quantity, got a word"},
        Fault{"guarded + 1", 1, "expected a quantity, got a truth"},
        Fault{"slack and guarded", 1, "expected a condition, got a length"},
        Fault{"guarded and end", 13, "expected a condition, got a word"},
        Fault{"not slack", 5, "expected a condition, got a length"},
        Fault{"if(slack, 1, 2)", 4, "expected a condition, got a length"},
        Fault{"if(guarded, slack, weight)", 1,
              "'if' gives a length or a force, expected the same kind twice"},
        Fault{"if(not guarded, slack, weight)", 1,
              "'if' gives a length or a force, expected the same kind twice"},
        Fault{"if(guarded, 1, unheard-of)", 16, "unknown name 'unheard-of'"},
        Fault{"not guarded and weight + slack > 1 m", 24, "adds a length to a force"},
        Fault{"hypot(slack, weight)", 1, "'hypot' combines a length with a force"},
        Fault{"min(slack, 1)", 1, "'min' combines a length with a plain number"},
        Fault{"sqrt(slack)", 1, "takes the square root of a length"},
        Fault{"slack ^ 0.5", 7, "takes the square root of a length"},
        Fault{"slack ^ 0.3", 7, "raises a dimension to a power that is not whole"},
        Fault{"2 ^ slack", 3, "an exponent is a plain number, got a length"},
        Fault{"sin(0.5)", 1, "'sin' takes an angle, got a plain number"},
        Fault{"asin(pitch)", 1, "'asin' takes a plain number, got an angle"},
        Fault{"floor(slack)", 1, "'floor' takes a plain number, got a length"},
        Fault{"exp(slack)", 1, "'exp' takes a plain number, got a length"},
        Fault{"number-of(slack, \"lbf\")", 1, "'number-of' asks for a force of a length"},
        Fault{"1 / zero", 3, "divides by zero"}, Fault{"slack / (1 m - 1 m)", 7, "divides by zero"},
        Fault{"asin(2)", 1, "the result is not a finite number"},
        Fault{"log(0)", 1, "the result is not a finite number"},
        Fault{"sqrt(-1)", 1, "the result is not a finite number"},
        Fault{"10 ^ 400", 4, "the result is not a finite number"},
        Fault{"(-8) ^ (1 / 3)", 6, "the result is not a finite number"}));

TEST(Faults, NameANumberThatIsFiniteInItsUnitAlone) {
  EXPECT_THROW(Formula::parse("1" + std::string(307, '0') + " kN").evaluate(look_up), FormulaError);
}

TEST(Faults, NameNoSuggestionWithoutAList) {
  try {
    Formula::parse("slop-length").evaluate(look_up);
    FAIL();
  } catch (const FormulaError& error) {
    EXPECT_STREQ(error.what(), "unknown name 'slop-length'");
  }
}

TEST(Kinds, AreHeldToWhatIsAskedFor) {
  EXPECT_THROW(Formula::parse("slack > 1 m").quantity(look_up), FormulaError);
  EXPECT_THROW(Formula::parse("end").quantity(look_up), FormulaError);
  EXPECT_THROW(Formula::parse("slack").truth(look_up), FormulaError);
}

TEST(Limits, OfLengthAndDepth) {
  const std::string spaces(2000 - 1, ' ');
  EXPECT_EQ(ratio(spaces + "1"), 1);
  EXPECT_THROW(Formula::parse(spaces + "12"), FormulaError);
  EXPECT_EQ(ratio(std::string(60, '(') + "1" + std::string(60, ')')), 1);
  for (const char* opening : {"(", "-", "sqrt(", "2^", "not ", "1-(", "if(true,1,"}) {
    std::string text;
    for (int i = 0; i < 70; ++i) text += opening;
    try {
      Formula::parse(text + "1");
      FAIL() << opening;
    } catch (const FormulaError& error) {
      EXPECT_STREQ(error.what(), "nested deeper than 64 levels") << opening;
    }
  }
  std::string sum = "1";
  for (int i = 0; i < 64; ++i) sum += "+1";
  EXPECT_EQ(ratio(sum), 65);
  EXPECT_THROW(Formula::parse(sum + "+1"), FormulaError);
}

// ---- Names and tree

TEST(Names, AreListedOnceInOrderWithoutConstants) {
  const auto formula =
      Formula::parse("slack + fall.free-fall * sin(pitch) + slack * g / pi + if(true, 1, slack)");
  EXPECT_EQ(formula.names(), (std::vector<std::string>{"slack", "fall.free-fall", "pitch"}));
  EXPECT_TRUE(Formula::parse("2 ft").names().empty());
}

TEST(Names, OfConstantsCannotBeTaken) {
  const auto shadow = [](std::string_view) -> std::optional<Result> {
    return Quantity{dimension::ratio, 1};
  };
  EXPECT_EQ(Formula::parse("g").quantity(shadow).si, 9.80665);
  EXPECT_EQ(Formula::parse("pi").quantity(shadow).si, std::numbers::pi);
}

TEST(Tree, KeepsNumbersAsWritten) {
  const auto formula = Formula::parse("12.50 ft");
  EXPECT_EQ(formula.root().kind, Node::Kind::number);
  EXPECT_EQ(formula.root().as_written, 12.5);
  EXPECT_EQ(formula.root().unit, find_unit("ft"));
  EXPECT_EQ(formula.text(), "12.50 ft");
}

TEST(Tree, OutlivesTheTextItWasReadFrom) {
  std::string text = "slack + slope-length";
  const auto formula = Formula::parse(text);
  text.assign(text.size(), '?');
  EXPECT_EQ(formula.quantity(look_up).si, 6.25);
}

// ---- Any text

TEST(AnyText, IsReadOrRefused) {
  const std::vector<std::string> pieces = {
      "slack", "weight", "pitch", "end",        "1",      "2.5",    "2 ft", " ",    " + ",
      " - ",   "*",      "/",     "^",          "(",      ")",      "sin(", "if(",  ",",
      "<",     "<=",     "==",    "!=",         "and ",   "or ",    "not ", "true", "\"",
      "\"a\"", "-",      ".",     "sqrt(",      "min(",   "max(",   "g",    "pi",   "abs(",
      "\xc3",  "é",      "A",     "number-of(", "\"ft\"", "hypot(", "=",    "!"};
  std::mt19937_64 random(6);
  int evaluated = 0;
  for (int i = 0; i < 60000; ++i) {
    std::string text;
    for (auto count = random() % 14; count > 0; --count) text += pieces[random() % pieces.size()];
    try {
      const auto formula = Formula::parse(text);
      formula.names();
      formula.evaluate(look_up, known);
      ++evaluated;
    } catch (const FormulaError& error) {
      ASSERT_GE(error.column, 1) << text;
      ASSERT_LE(error.column, static_cast<int>(text.size()) + 1) << text;
      ASSERT_STRNE(error.what(), "") << text;
    }
  }
  EXPECT_GT(evaluated, 300);
  for (int i = 0; i < 20000; ++i) {
    std::string text(random() % 40, ' ');
    for (char& c : text) c = static_cast<char>(random() % 256);
    try {
      Formula::parse(text).evaluate(look_up);
    } catch (const FormulaError&) {  // refused, as most are
    }
  }
}

}  // namespace
