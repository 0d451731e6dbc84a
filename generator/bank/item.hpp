#pragma once
// What the bank's XML files say, with file and line, and nothing derived from it. The format is
// documented in questionbank/README.md and questionbank/bank.xsd.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace footroom::bank {

struct Position {
  std::string file;
  int line = 0;
};

/// A text in both languages: Markdown, with {name} where a value goes.
struct Text {
  std::string english;
  std::string spanish;
  Position at;
};

/// A formula as written (see generator/notation/formula.hpp).
struct FormulaText {
  std::string text;
  Position at;
};

struct Grid {
  std::string unit;
  double from = 0;
  double to = 0;
  double step = 0;
  Position at;
};

/// A value drawn on a grid, in the unit system of the quiz.
struct Draw {
  std::string name;
  std::string symbol;
  Text meaning;
  Grid us;
  Grid si;
  Position at;
};

struct PickChoice {
  std::string id;
  Text text;
  Position at;
};

/// A word or phrase drawn from a list; the list stands here or in a pool file.
struct Pick {
  std::string name;
  std::string pool;  ///< empty where the choices stand in the item
  std::vector<PickChoice> choices;
  Position at;
};

/// How a derived value is shown in one unit system.
struct Shown {
  std::string unit;
  int places = 0;
  std::optional<double> tolerance;  ///< answers only, in that unit; else one unit of the last place
};

struct Let {
  std::string name;
  std::string symbol;
  Text meaning;
  FormulaText value;
  Shown us;
  Shown si;
  Position at;
};

struct Argument {
  std::string input;
  FormulaText value;
  Position at;
};

/// A calculation of the catalogue, called under a name; its outputs are `name.output`.
struct CalculationUse {
  std::string calculation;
  std::string name;
  std::vector<Argument> arguments;
  Position at;
};

struct Answer {
  FormulaText value;
  Shown us;
  Shown si;
  Position at;
};

/// A number that a likely mistake gives. Either the answer is computed again with `change` (a draw,
/// a let or a calculation's input, "fall.slack") set to `to`, or `value` is computed instead.
struct Mistake {
  std::string id;
  std::string change;
  std::optional<FormulaText> to;
  std::optional<FormulaText> value;
  Text says;
  Position at;
};

struct Option {
  std::string id;
  FormulaText right;                ///< a truth; empty for kind order
  std::optional<FormulaText> rank;  ///< kind order: sorted by this, ascending
  std::optional<FormulaText> when;  ///< may be offered only where this holds
  Text text;
  Text says;  ///< why it is right, or what choosing it shows; may be empty for kind order
  Position at;
};

struct Step {
  std::string of;  ///< "fall", "fall.free-fall" or the name of a let; empty: only the text
  Text text;
  Position at;
};

struct SourceText {
  std::string citation;  ///< where it stands, the same in all languages; may be empty
  std::string status;
  Position at;
  Text about = {};  ///< what rests on it, or what it is where nothing is cited; may be empty
};

enum class Kind { number, one_of, several_of, order, verdict };

struct Item {
  std::string id;
  std::string topic;
  std::string
      training;  ///< which of 29 CFR 1926.503(a)(2)(i)-(viii), as "i" ... "viii"; may be empty
  int level = 1;
  Kind kind = Kind::number;
  Text title;
  std::vector<Draw> draws;
  std::vector<Pick> picks;
  std::vector<std::string> rules;   ///< ids of the rule sets it belongs to; empty: to all
  std::vector<std::string> limits;  ///< ids in the rule set; usable as limit.ID
  /// Calculations and lets in the order of the file: each may use what stands before it.
  struct Derivation {
    std::optional<CalculationUse> calculation;
    std::optional<Let> let;
  };
  std::vector<Derivation> derivations;
  std::vector<FormulaText> keeps;
  Text stem;
  std::optional<Answer> answer;
  std::vector<Mistake> mistakes;
  std::vector<Option> options;
  int options_shown = 0;  ///< 0: all of them
  std::vector<Step> steps;
  std::string figure_of;  ///< the name of a calculation use; empty: no figure
  std::vector<SourceText> sources;
  int points = 1;
  int minutes = 3;
  Position at;
};

struct Limit {
  std::string id;
  Text name;
  std::string us;  ///< as published, "6 ft"; empty where the rule publishes none
  std::string si;
  std::string citation;
  std::string status;  ///< read, second-hand, from-memory, common-practice
  Position at;
};

struct RuleSet {
  std::string id;
  Text title;
  std::map<std::string, Limit, std::less<>> limits;
  Position at;
};

struct Topic {
  std::string id;
  Text title;
};

struct Section {
  std::string topic;
  int questions = 0;        ///< 0 where the section has a share
  std::vector<int> levels;  ///< empty: any
  Position at;
  std::optional<int> share = {};  ///< weight among the sections of a blueprint with a total
  int points = 0;                 ///< each question's; 0: the item's own
};

/// What a blueprint asks of one level: a share of all questions, or bounds on their number.
struct LevelRule {
  int level = 1;
  std::optional<int> share;  ///< weight among the levels; levels without a rule get nothing
  int at_least = 0;
  std::optional<int> at_most;
  Position at;
};

struct Blueprint {
  std::string id;
  Text title;
  Text course;
  int minutes = 0;
  bool same_items = true;  ///< every seat gets the same families with its own numbers
  std::vector<Section> sections;
  Position at;
  int questions = 0;  ///< the total that shares are taken of; 0: sections have numbers
  std::vector<LevelRule> levels = {};  ///< all with a share or none
  int points = 0;                      ///< of the whole quiz; 0: the sum of the questions' own
  int topic_at_most = 0;  ///< questions a topic has where a quiz is restricted to topics; 0: any
  std::optional<int> minutes_over = {};  ///< percent by which the questions may exceed `minutes`
};

struct NewTopic {
  std::string topic;
  Position at;
};

/// A week of a course: what it teaches, and its quiz where that does not follow from the course.
struct Week {
  int number = 1;
  std::vector<NewTopic> topics;
  std::string blueprint;          ///< id; empty: sections, or as the course plans it
  std::vector<Section> sections;  ///< empty: as the course plans it
  int questions = 0;              ///< 0: the course's
  int minutes = 0;                ///< 0: the course's
  Position at;
};

/// A course plan: in which week each topic is new, and how it returns.
struct Course {
  std::string id;
  Text title;
  int questions = 0;         ///< a week
  int minutes = 0;           ///< a week
  int new_percent = 60;      ///< of a week's questions, for its new topics
  std::vector<int> spacing;  ///< weeks from one time a topic is asked to the next, growing
  std::optional<int> minutes_over;
  std::vector<LevelRule> levels;
  std::vector<Week> weeks;  ///< in ascending order
  Position at;
};

struct Defect {
  Position at;
  std::string message;  ///< what is wrong, what was expected
  std::string text() const { return at.file + ":" + std::to_string(at.line) + ": " + message; }
};

struct Bank {
  std::vector<Topic> topics;
  std::vector<Item> items;
  std::map<std::string, Pick, std::less<>> pools;
  std::map<std::string, Blueprint, std::less<>> blueprints;
  std::map<std::string, Course, std::less<>> courses;
  std::map<std::string, RuleSet, std::less<>> rules;
  std::vector<Text> trade_terms;  ///< plain words to a worker, however long
  std::string digest;             ///< SHA-256 over the names and bytes of all files, in name order
};

}  // namespace footroom::bank
