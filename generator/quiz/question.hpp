#pragma once
// The model between stages: everything a renderer or grader needs, worked out and put into words.
// Renderers read it and compute nothing.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "engine/catalogue.hpp"
#include "figure/drawing.hpp"
#include "notation/typeset.hpp"

namespace footroom::quiz {

enum class Kind { number, one_of, several_of, order, verdict };

/// A value as a question shows it.
struct Shown {
  std::string name;     ///< "slope-length", "fall.free-fall"
  std::string symbol;   ///< "L", "d_0"; may be empty
  std::string meaning;  ///< in the quiz's language; may be empty
  engine::Value value;
  std::string unit;   ///< name of notation/unit.hpp; empty for plain numbers and words
  double number = 0;  ///< in that unit
  std::string text;   ///< "16 ft"
};

struct CalculationRecord {
  std::string id;    ///< of the catalogue
  std::string name;  ///< in the item
  std::string title;
  std::vector<Shown> inputs;
  std::vector<Shown> outputs;
};

struct NumberAnswer {
  engine::Quantity quantity;
  std::string unit;
  double number = 0;      ///< in that unit, not rounded
  double tolerance = 0;   ///< in that unit
  std::string text;       ///< rounded, with unit: "9.5 ft"
  std::string unit_text;  ///< "ft", behind the answer line
};

struct Option {
  std::string letter;  ///< "A", "B" ... in the order shown
  std::string id;      ///< in the item
  std::string text;    ///< Markdown
  bool right = false;
  int place = 0;     ///< kind order: 1 is first
  std::string says;  ///< Markdown: why right, or what the choice shows; may be empty
};

struct Mistake {
  std::string id;
  std::optional<double> number;       ///< in the answer's unit
  std::string text;                   ///< that number with unit, or the option's letter
  std::optional<std::string> letter;  ///< where options are offered
  std::string says;                   ///< Markdown
};

/// One line of a worked solution.
struct WorkedStep {
  std::string says;  ///< Markdown; may be empty
  /// symbol = formula (symbols) and = numbers = result; absent for a step in words only.
  struct Line {
    std::string name;        ///< of the value it gives
    notation::Math symbols;  ///< "d₀ = √(...)"
    notation::Math numbers;  ///< "√((16 ft · cos 26.57°)² + ...)"
    std::string result;      ///< "14.5 ft"
  };
  std::optional<Line> line;
};

struct SourceLine {
  std::string citation;  ///< or what it is, in the quiz's language
  std::string supports;  ///< what rests on it; may be empty
  std::string status;    ///< read, second-hand, from-memory, computed, common-practice
};

/// A limit of the rule set that a question uses.
struct LimitLine {
  std::string id;
  std::string name;
  std::string text;  ///< as published, in the quiz's units: "6 ft"
  std::string citation;
  std::string status;
};

/// The words of a question in the language of the class, where its sheet is in another one: for
/// reports on the class.
struct ClassWords {
  std::string title;
  std::string topic_title;
  std::string answer;                                    ///< kind number: with unit
  std::map<std::string, std::string, std::less<>> says;  ///< by mistake or option
};

struct Question {
  int number = 0;
  std::string item;
  std::string topic;        ///< its id
  std::string topic_title;  ///< in the quiz's language
  int level = 1;
  Kind kind = Kind::number;
  std::string title;
  std::string stem;  ///< Markdown
  std::vector<Shown> givens;
  std::vector<CalculationRecord> calculations;
  std::vector<Shown> lets;
  std::optional<NumberAnswer> answer;  ///< kind number
  std::vector<Option> options;         ///< the other kinds
  std::vector<Mistake> mistakes;
  std::vector<WorkedStep> steps;
  std::optional<figure::Drawing> sheet_figure;
  std::optional<figure::Drawing> key_figure;
  std::vector<LimitLine> limits;
  std::vector<SourceLine> sources;
  std::vector<std::string> cautions;
  int points = 1;
  int minutes = 3;
  std::optional<ClassWords> class_words = {};
};

/// The box on a sheet: what its questions need, each once.
struct FormulaLine {
  notation::Math formula;
};
struct SymbolLine {
  notation::Math symbol;
  std::string meaning;
};
/// Symbols stand with their formulas: two calculations may use one letter for two things.
struct FormulaGroup {
  std::string title;  ///< of the calculation
  std::vector<FormulaLine> lines;
  std::vector<SymbolLine> symbols = {};
};
struct ReferenceBox {
  std::vector<FormulaGroup> formulas;
  std::vector<LimitLine> limits;
};

/// What a seat has otherwise than the rest of the class.
struct Accommodations {
  std::optional<engine::Language> language;  ///< of sheet, key and feedback; empty: the quiz's
  bool large_print = false;
  bool without_figures = false;  ///< figures are told in words
  int extra_percent = 0;         ///< of the sheet's minutes, beside extra_minutes
  int extra_minutes = 0;
  bool operator==(const Accommodations&) const = default;
};

/// Words of the quiz's header in the language of a sheet.
struct HeaderWords {
  std::string title;
  std::string course;
  std::string rules_title;
};

struct Sheet {
  std::string seat;  ///< "A" ... "Z", "AA" ...
  std::string name;  ///< from the roster; empty: a line to write on
  std::string code;  ///< names quiz and seat, "7K3QX-A"; gives no answer away
  std::vector<Question> questions;
  ReferenceBox box;
  int points = 0;
  int minutes = 0;
  Accommodations accommodations;          ///< extra_minutes with what extra_percent comes to
  std::optional<HeaderWords> words = {};  ///< where its language is not the quiz's
};

}  // namespace footroom::quiz
