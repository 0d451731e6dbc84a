#pragma once
// An item with its formulas read, its names resolved and its units found: made once, drawn from
// often.

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "bank/item.hpp"
#include "draw/stream.hpp"
#include "engine/catalogue.hpp"
#include "notation/formula.hpp"
#include "quiz/limits.hpp"
#include "quiz/maker.hpp"
#include "quiz/template_text.hpp"

namespace footroom::quiz {

struct Expression {
  notation::Formula formula;
  bank::Position at;
};

/// How a value is shown. Without `places`: the shortest decimal, for what stands on a grid or was
/// published.
struct ShownAs {
  const notation::Unit* unit = nullptr;
  std::optional<int> places;
};

/// What one more in the last printed place is worth, in the unit.
double last_place(const notation::Unit& unit, int places);

/// What an item knows under a name: a draw, a pick, a limit, a let or a calculation's output.
struct Named {
  std::string symbol;
  std::string meaning;
  ShownAs shown_as;
  std::map<std::string, std::string, std::less<>> words;  ///< id to text, where it is a word
};

struct CompiledCalculation {
  const bank::CalculationUse* use = nullptr;
  const engine::Calculation* calculation = nullptr;
  std::map<std::string, Expression, std::less<>> arguments;
  struct Step {
    const engine::Step* step;
    std::shared_ptr<const notation::Formula> formula;
    std::optional<notation::Formula> when;
  };
  std::vector<Step> steps;
  /// A step has a number with a unit, as published formulas for nails have: only in the units they
  /// were published for do they hold.
  bool has_constants = false;
  /// The outputs that what is asked rests on; empty: all.
  std::set<std::string, std::less<>> asked_outputs;
};

struct CompiledLet {
  const bank::Let* let = nullptr;
  Expression value;
};

struct CompiledMistake {
  const bank::Mistake* mistake = nullptr;
  Expression formula;  ///< `to` where something changes, else `value`
  TemplateText says;
};

struct CompiledOption {
  const bank::Option* option = nullptr;
  std::optional<Expression> right;
  std::optional<Expression> rank;
  std::optional<Expression> when;
  TemplateText text;
  TemplateText says;
};

struct CompiledStep {
  const bank::Step* step = nullptr;
  TemplateText says;
};

/// The words and numbers of one draw.
struct Drawn {
  std::vector<double> numbers;       ///< by draw, in its unit
  std::vector<std::uint32_t> picks;  ///< by pick
};

/// A draw with everything that follows from it.
struct Sample {
  std::map<std::string, notation::Result, std::less<>> values;
  struct Run {
    engine::Values inputs;  ///< all of them, fallbacks included
    engine::Values outputs;
  };
  std::map<std::string, Run, std::less<>> runs;  ///< by the calculation's name in the item

  notation::Lookup lookup() const;
};

/// A draw, a let or a calculation's input ("fall.slack") that a mistake takes to be another value.
struct Change {
  std::string name;
  notation::Result to;
  const Expression& formula;  ///< that gave it
};

/// A draw that cannot be asked. The reason is the same for all draws thrown away alike.
class ThrownAway : public std::runtime_error {
 public:
  ThrownAway(bank::Position because_of, const std::string& reason)
      : std::runtime_error(reason), at(std::move(because_of)) {}
  bank::Position at;
};

/// How many draws were thrown away, by reason.
struct Tally {
  struct Entry {
    int count = 0;
    bank::Position at;
  };
  std::map<std::string, Entry> reasons;

  void add(const ThrownAway& thrown);
};

/// A calculation's step that a question's worked solution shows; the reference box prints it.
struct StepShown {
  const engine::Calculation* calculation;
  const engine::Step* step;
  std::shared_ptr<const notation::Formula> formula;  ///< of the step
};

/// Drawing takes most of the time of a question; a check over many draws leaves it out.
enum class Figures { drawn, left_out };

struct Made {
  Question question;
  std::vector<StepShown> steps;
  draw::Key key;  ///< of the draw, whose attempt was the first usable one
};

class CompiledItem {
 public:
  /// Keeps references to bank and item. Throws CannotMake where a name, unit, calculation, limit
  /// or formula is not right, with file and line.
  CompiledItem(const bank::Bank& bank, const bank::Item& item, const Settings& settings);

  /// The first usable draw at key.attempt or above. Throws CannotMake; counts in `tally`, if given,
  /// what was thrown away.
  Made make(draw::Key key, Tally* tally = nullptr, Figures figures = Figures::drawn) const;

  // ---- What the parts that compose a question read ----

  /// Draws in the order of the file, then picks, each from its own place in the stream.
  Drawn draw(draw::Stream& stream) const;
  /// Throws ThrownAway where a calculation refuses or a kept condition fails. With a change:
  /// without conditions, which are about the question and not about the mistake.
  Sample evaluate(const Drawn& drawn, const Change* change = nullptr) const;

  /// This item where all base units are others (see notation::Rescaling): draws, limits, fallbacks
  /// and the numbers in formulas are converted. Only for evaluate() and what evaluates a sample.
  CompiledItem rescaled(const notation::Rescaling& by) const;

  engine::Quantity quantity(const Expression& expression, const Sample& sample) const;
  bool truth(const Expression& expression, const Sample& sample) const;
  notation::Result result(const Expression& expression, const Sample& sample) const;

  const std::string& text_in_language(const bank::Text& text) const;
  std::string_view text_in_language(const engine::Text& text) const {
    return text.in(settings.style.language);
  }
  const Named* find(std::string_view name) const;
  Named named(const engine::Input& input) const;
  /// A number in its unit, as text. A value on a rounding boundary throws the draw away.
  std::string write(double number, const ShownAs& as, const std::string& name,
                    const bank::Position& at) const;
  std::string write_anyway(double number, const ShownAs& as) const;
  /// Throws CannotMake where the unit measures something else.
  double number_in(const engine::Quantity& quantity, const notation::Unit& unit,
                   const std::string& name, const bank::Position& at) const;
  /// As a text of the bank shows the value under this name.
  std::string text_of(const std::string& name, const Sample& sample,
                      const bank::Position& at) const;
  /// The value with its text, which may stand on a rounding boundary: for records, not for sheets.
  Shown describe(const std::string& name, const Named& named, const engine::Value& value) const;
  const CompiledCalculation* find_calculation(std::string_view name) const;
  const CompiledLet* find_let(std::string_view name) const;
  const LimitInForce* find_limit(std::string_view id) const;
  ShownAs shown_as(const engine::Show& show) const;
  bool is_us() const { return settings.system == notation::System::us; }

  const bank::Item& item;
  Settings settings;
  std::map<std::string, LimitInForce, std::less<>> limits;  ///< by id; fallbacks included
  std::map<std::string, CompiledCalculation, std::less<>> calculations;
  std::map<std::string, CompiledLet, std::less<>> lets;
  std::optional<Expression> answer;
  std::vector<CompiledMistake> mistakes;
  std::vector<CompiledOption> options;
  std::vector<CompiledStep> steps;
  std::string topic_title;
  TemplateText title;
  TemplateText stem;
  std::vector<const notation::Unit*> draw_units;
  std::vector<const std::vector<bank::PickChoice>*> pick_choices;

 private:
  void add_draws_and_picks(const bank::Bank& bank);
  void add_limits(const bank::Bank& bank);
  void add_calculation(const bank::CalculationUse& use);
  void add_let(const bank::Let& let);
  void add_keeps();
  void add_asked();
  void note_what_is_asked();
  void name(const std::string& name, Named named);
  Expression compile(const bank::FormulaText& text) const;
  TemplateText compile(const bank::Text& text) const;
  const notation::Unit* unit(const std::string& name, const bank::Position& at) const;
  void check_words(const notation::Node& node, const bank::Position& at) const;
  void check_change(const bank::Mistake& mistake) const;

  void run(const CompiledCalculation& compiled, Sample& sample, const Change* change) const;
  engine::Values run_in_scale(const CompiledCalculation& compiled,
                              const engine::Values& inputs) const;
  engine::Quantity in_scale(const engine::Quantity& quantity) const;

  std::map<std::string, Named, std::less<>> named_;
  std::vector<std::string> names_;  ///< the keys of named_, for suggestions
  struct Keep {
    Expression condition;
    std::size_t after;  ///< so many derivations are needed first
  };
  std::vector<Keep> keeps_;
  notation::Rescaling scale_;
};

}  // namespace footroom::quiz
