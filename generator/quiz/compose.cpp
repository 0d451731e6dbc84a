// One draw of an item, put into words: answer, mistakes, options, steps, figures.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "figure/figure.hpp"
#include "notation/unit_text.hpp"
#include "quiz/compiled_item.hpp"
#include "quiz/status_name.hpp"
#include "quiz/worked_steps.hpp"

namespace footroom::quiz {
namespace {

Kind kind_of(bank::Kind kind) {
  switch (kind) {
    case bank::Kind::number:
      return Kind::number;
    case bank::Kind::one_of:
      return Kind::one_of;
    case bank::Kind::several_of:
      return Kind::several_of;
    case bank::Kind::order:
      return Kind::order;
    case bank::Kind::verdict:
      break;
  }
  return Kind::verdict;
}

// What stands exactly at a limit is thrown away: else its last bit would decide, which differs
// between processors.
double last_bits(double a, double b) {
  return 1e-9 * std::max(std::abs(a), std::abs(b));
}

bool is_apart(double a, double b, double distance) {
  return std::abs(a - b) - distance > last_bits(a, b);
}

bool is_less(double a, double b) {
  return b - a > last_bits(a, b);
}

class Composer {
 public:
  Composer(const CompiledItem& item, const Drawn& drawn, const Sample& sample, draw::Stream& stream)
      : item_(item), drawn_(drawn), sample_(sample), stream_(stream) {}

  Made compose(Figures figures) {
    const bank::Item& from = item_.item;
    question_.item = from.id;
    question_.topic = from.topic;
    question_.topic_title = item_.topic_title;
    question_.level = from.level;
    question_.kind = kind_of(from.kind);
    question_.points = from.points;
    question_.minutes = from.minutes;
    question_.title = fill(item_.title);
    question_.stem = fill(item_.stem);
    add_givens();
    add_calculations();
    std::optional<NumberAnswer> answer;
    if (item_.answer) {
      answer = work_out_answer();
      add_mistakes(*answer);
      if (from.kind == bank::Kind::number)
        question_.answer = answer;
      else
        make_options_of_numbers(*answer);
    } else {
      refuse_unsteady_judgement();
      add_options();
    }
    WorkedSolution solution = work_out(item_, sample_, answer);
    question_.steps = std::move(solution.steps);
    add_limits(solution.shown);
    add_sources();
    if (figures == Figures::drawn) add_figures(solution.names_shown, answer ? answer->text : "");
    return {std::move(question_), std::move(solution.shown), {}};
  }

 private:
  std::string fill(const TemplateText& text) const {
    return text.fill(
        [&](const std::string& name) { return item_.text_of(name, sample_, text.at()); });
  }

  // ---- What is given and what follows

  engine::Value value_of(const std::string& name) const {
    const notation::Result& result = sample_.values.find(name)->second;
    if (const auto* word = std::get_if<engine::Word>(&result)) return *word;
    if (const auto* quantity = std::get_if<engine::Quantity>(&result)) return *quantity;
    return engine::Word{std::get<bool>(result) ? "true" : "false"};
  }

  Shown describe(const std::string& name) const {
    return item_.describe(name, *item_.find(name), value_of(name));
  }

  void add_givens() {
    for (std::size_t i = 0; i < item_.item.draws.size(); ++i) {
      question_.givens.push_back(describe(item_.item.draws[i].name));
      question_.givens.back().number = drawn_.numbers[i];  // as printed, not there and back
    }
    for (const bank::Pick& pick : item_.item.picks) question_.givens.push_back(describe(pick.name));
  }

  void add_calculations() {
    for (const auto& derivation : item_.item.derivations) {
      if (derivation.let) question_.lets.push_back(describe(derivation.let->name));
      if (derivation.calculation) add_record(derivation.calculation->name);
    }
  }

  void add_record(const std::string& use) {
    const engine::Calculation& calculation = *item_.find_calculation(use)->calculation;
    const Sample::Run& run = sample_.runs.find(use)->second;
    CalculationRecord record{std::string(calculation.id),
                             use,
                             std::string(item_.text_in_language(calculation.title)),
                             {},
                             {}};
    for (const engine::Input& input : calculation.inputs) {
      const Named named = item_.named(input);
      Shown shown = item_.describe(std::string(input.id), named, run.inputs.find(input.id)->second);
      if (const std::string given = given_text(use, input); !given.empty()) shown.text = given;
      record.inputs.push_back(std::move(shown));
    }
    for (const engine::Output& output : calculation.outputs) {
      const Named& named = *item_.find(use + "." + std::string(output.id));
      record.outputs.push_back(
          item_.describe(std::string(output.id), named, run.outputs.find(output.id)->second));
    }
    question_.calculations.push_back(std::move(record));
  }

  /// The text of an input whose value stands in the question as a draw or a limit; else empty.
  std::string given_text(const std::string& use, const engine::Input& input) const {
    const auto& arguments = item_.find_calculation(use)->arguments;
    const auto argument = arguments.find(input.id);
    if (argument == arguments.end()) {
      const LimitInForce* limit = item_.find_limit(input.fallback_limit);
      return limit ? limit->text : "";
    }
    const std::string name = bare_name(argument->second.formula);
    const auto& draws = item_.item.draws;
    const bool drawn = std::any_of(draws.begin(), draws.end(),
                                   [&](const bank::Draw& draw) { return draw.name == name; });
    return drawn || name.starts_with("limit.") ? describe(name).text : "";
  }

  // ---- Answer and mistakes

  const bank::Shown& answer_shown() const {
    return item_.is_us() ? item_.item.answer->us : item_.item.answer->si;
  }
  ShownAs answer_as() const {
    return {notation::find_unit(answer_shown().unit), answer_shown().places};
  }

  NumberAnswer work_out_answer() const {
    const ShownAs as = answer_as();
    const bank::Position& at = item_.item.answer->at;
    NumberAnswer answer;
    answer.quantity = item_.quantity(*item_.answer, sample_);
    answer.unit = as.unit->name;
    answer.number = item_.number_in(answer.quantity, *as.unit, "answer", at);
    answer.tolerance = answer_shown().tolerance.value_or(last_place(*as.unit, *as.places));
    answer.text = item_.write(answer.number, as, "answer", at);
    answer.unit_text = notation::unit_alone(*as.unit, item_.settings.style.language);
    return answer;
  }

  double mistaken_number(const CompiledMistake& mistake) const {
    const bank::Position& at = mistake.mistake->at;
    const std::string name = "mistake " + mistake.mistake->id;
    if (mistake.mistake->value)
      return item_.number_in(item_.quantity(mistake.formula, sample_), *answer_as().unit, name, at);
    const Change change{mistake.mistake->change, item_.result(mistake.formula, sample_),
                        mistake.formula};
    try {
      const Sample mistaken = item_.evaluate(drawn_, &change);
      return item_.number_in(item_.quantity(*item_.answer, mistaken), *answer_as().unit, name, at);
    } catch (const ThrownAway& thrown) {
      throw ThrownAway(at,
                       fmt::format("in the mistake \"{}\" {}", mistake.mistake->id, thrown.what()));
    }
  }

  /// A response counts as the answer within its tolerance. A mistake that is rounded to the
  /// answer's places must still lie outside, so that no mistake passes for right.
  void add_mistakes(const NumberAnswer& answer) {
    const ShownAs as = answer_as();
    const double too_near = answer.tolerance + last_place(*as.unit, *as.places) / 2;
    for (const CompiledMistake& mistake : item_.mistakes) {
      const bank::Mistake& from = *mistake.mistake;
      const double number = mistaken_number(mistake);
      if (!is_apart(number, answer.number, too_near))
        throw ThrownAway(from.at, fmt::format("the mistake \"{}\" comes within the tolerance of "
                                              "the answer",
                                              from.id));
      for (const Mistake& other : question_.mistakes)
        if (!is_apart(number, *other.number, too_near))
          throw ThrownAway(from.at, fmt::format("the mistakes \"{}\" and \"{}\" come within the "
                                                "tolerance of each other",
                                                other.id, from.id));
      question_.mistakes.push_back({from.id, number,
                                    item_.write(number, as, "mistake " + from.id, from.at),
                                    std::nullopt, fill(mistake.says)});
    }
  }

  /// In ascending order, as numbers to choose from commonly stand.
  void make_options_of_numbers(const NumberAnswer& answer) {
    std::vector<std::pair<double, Option>> numbered;
    numbered.push_back({answer.number, {{}, "answer", answer.text, true, 0, {}}});
    for (const Mistake& mistake : question_.mistakes)
      numbered.push_back({*mistake.number, {{}, mistake.id, mistake.text, false, 0, mistake.says}});
    std::sort(numbered.begin(), numbered.end(),
              [](const auto& a, const auto& b) { return a.first < b.first; });
    for (auto& [number, option] : numbered) question_.options.push_back(std::move(option));
    finish_options();
    for (Mistake& mistake : question_.mistakes)
      for (const Option& option : question_.options)
        if (option.id == mistake.id) mistake.letter = option.letter;
  }

  // ---- Options in words

  struct Judgement {
    std::vector<bool> offered;
    std::vector<bool> right;
    /// Kind order: options by ascending rank, those of equal rank together.
    std::vector<std::vector<std::size_t>> order;
    bool operator==(const Judgement&) const = default;
  };

  Judgement judge(const Sample& sample) const {
    Judgement made;
    std::vector<engine::Quantity> ranks;
    for (const CompiledOption& option : item_.options) {
      made.offered.push_back(!option.when || item_.truth(*option.when, sample));
      made.right.push_back(made.offered.back() && option.right &&
                           item_.truth(*option.right, sample));
      if (!option.rank) continue;
      ranks.push_back(item_.quantity(*option.rank, sample));
      if (ranks.back().dimension != ranks.front().dimension)
        throw CannotMake(option.rank->at,
                         fmt::format("rank is {}, expected {} as the first option's",
                                     notation::dimension_in_words(ranks.back().dimension),
                                     notation::dimension_in_words(ranks.front().dimension)));
    }
    made.order = by_rank(ranks);
    return made;
  }

  static std::vector<std::vector<std::size_t>> by_rank(const std::vector<engine::Quantity>& ranks) {
    std::vector<std::size_t> ascending(ranks.size());
    std::iota(ascending.begin(), ascending.end(), std::size_t{0});
    std::sort(ascending.begin(), ascending.end(),
              [&](std::size_t a, std::size_t b) { return ranks[a].si < ranks[b].si; });
    std::vector<std::vector<std::size_t>> groups;
    std::optional<double> before;
    for (const std::size_t i : ascending) {
      if (!before || is_less(*before, ranks[i].si)) groups.emplace_back();
      groups.back().push_back(i);
      before = ranks[i].si;
    }
    for (auto& equals : groups) std::sort(equals.begin(), equals.end());
    return groups;
  }

  /// No verdict on an edge: what is right stays right where any drawn value is off by half a
  /// percent. Counts are exact and stay.
  void refuse_unsteady_judgement() const {
    const Judgement here = judge(sample_);
    for (std::size_t i = 0; i < drawn_.numbers.size(); ++i) {
      const bank::Draw& draw = item_.item.draws[i];
      const bank::Grid& grid = item_.is_us() ? draw.us : draw.si;
      const bool counts = grid.unit.empty() && grid.from == std::round(grid.from) &&
                          grid.step == std::round(grid.step);
      if (counts) continue;
      for (const double sign : {-1.0, 1.0}) {
        Drawn moved = drawn_;
        moved.numbers[i] += sign * 0.005 * std::max(std::abs(moved.numbers[i]), grid.step);
        if (const auto there = judge_if_possible(moved); there && *there != here)
          throw ThrownAway(item_.item.at, fmt::format("what is right turns on half a percent of "
                                                      "\"{}\"",
                                                      draw.name));
      }
    }
  }

  std::optional<Judgement> judge_if_possible(const Drawn& drawn) const {
    try {
      return judge(item_.evaluate(drawn));
    } catch (const ThrownAway&) {
      return std::nullopt;  // beyond what can be calculated or is asked
    }
  }

  std::vector<std::size_t> shuffled(std::vector<std::size_t> list) const {
    std::vector<std::size_t> made;
    for (const std::uint32_t i : stream_.order(static_cast<std::uint32_t>(list.size())))
      made.push_back(list[i]);
    return made;
  }

  /// A one-of may have several right options, of which one is offered. The right options of a
  /// verdict are different outcomes: two at once contradict each other.
  void refuse_two_verdicts(const std::vector<std::size_t>& right) const {
    if (item_.item.kind != bank::Kind::verdict || right.size() < 2) return;
    throw CannotMake(
        item_.options[right[1]].option->at,
        fmt::format("the options \"{}\" and \"{}\" are right at once, expected "
                    "exactly one right option",
                    item_.options[right[0]].option->id, item_.options[right[1]].option->id));
  }

  /// Which options this draw offers: for one-of and verdict one right one, for several-of at least
  /// one right and, if there is any, one wrong.
  std::vector<std::size_t> choose_options(const Judgement& judgement) const {
    std::vector<std::size_t> right;
    std::vector<std::size_t> wrong;
    for (std::size_t i = 0; i < item_.options.size(); ++i)
      if (judgement.offered[i]) (judgement.right[i] ? right : wrong).push_back(i);
    refuse_two_verdicts(right);
    right = shuffled(right);
    wrong = shuffled(wrong);
    const bank::Position& at = item_.options.front().option->at;
    const auto shown = static_cast<std::size_t>(item_.item.options_shown);
    std::vector<std::size_t> chosen;
    std::vector<std::size_t> rest;
    if (item_.item.kind != bank::Kind::order) {
      if (right.empty()) throw ThrownAway(at, "no option is right");
      chosen.push_back(right.front());
      right.erase(right.begin());
    }
    if (item_.item.kind == bank::Kind::several_of && !wrong.empty()) {
      chosen.push_back(wrong.front());
      wrong.erase(wrong.begin());
    }
    rest = wrong;
    const bool one_right =
        item_.item.kind == bank::Kind::one_of || item_.item.kind == bank::Kind::verdict;
    if (!one_right) rest.insert(rest.end(), right.begin(), right.end());
    rest = shuffled(rest);
    const std::size_t possible = chosen.size() + rest.size();
    const std::size_t wanted = shown == 0 ? possible : shown;
    if (possible < std::max<std::size_t>(wanted, 2))
      throw ThrownAway(at, fmt::format("fewer than {} options can be offered",
                                       std::max<std::size_t>(wanted, 2)));
    while (chosen.size() < wanted) {
      chosen.push_back(rest.front());
      rest.erase(rest.begin());
    }
    return shuffled(chosen);
  }

  void add_options() {
    const Judgement judgement = judge(sample_);
    const std::vector<std::size_t> chosen = choose_options(judgement);
    for (const std::size_t i : chosen) {
      const CompiledOption& from = item_.options[i];
      question_.options.push_back(
          {{}, from.option->id, fill(from.text), judgement.right[i], 0, fill(from.says)});
    }
    if (item_.item.kind == bank::Kind::order) place(chosen, judgement.order);
    finish_options();
    if (item_.item.kind == bank::Kind::order) return;
    for (const Option& option : question_.options)
      if (!option.right)
        question_.mistakes.push_back(
            {option.id, std::nullopt, option.letter, option.letter, option.says});
  }

  void place(const std::vector<std::size_t>& chosen,
             const std::vector<std::vector<std::size_t>>& order) {
    int next = 1;
    for (const auto& equals : order) {
      std::optional<std::size_t> placed;
      for (const std::size_t i : equals) {
        const auto found = std::find(chosen.begin(), chosen.end(), i);
        if (found == chosen.end()) continue;
        if (placed)
          throw ThrownAway(
              item_.options[i].option->at,
              fmt::format("the options \"{}\" and \"{}\" have an equal rank",
                          item_.options[*placed].option->id, item_.options[i].option->id));
        question_.options[static_cast<std::size_t>(found - chosen.begin())].place = next++;
        placed = i;
      }
    }
  }

  void finish_options() {
    for (std::size_t i = 0; i < question_.options.size(); ++i) {
      Option& option = question_.options[i];
      option.letter = seat_name(static_cast<int>(i));
      for (std::size_t before = 0; before < i; ++before)
        if (question_.options[before].text == option.text) {
          const auto [first, second] = std::minmax(question_.options[before].id, option.id);
          throw ThrownAway(item_.item.at, fmt::format("the options \"{}\" and \"{}\" read the same",
                                                      first, second));
        }
    }
  }

  // ---- What the question rests on

  /// The declared limits, and those that a shown step takes without the item naming them.
  void add_limits(const std::vector<StepShown>& steps) {
    std::vector<std::string> ids = item_.item.limits;
    for (const auto& [use, compiled] : item_.calculations)
      for (const auto& step : compiled.steps) {
        const bool shown = std::any_of(steps.begin(), steps.end(),
                                       [&](const StepShown& s) { return s.step == step.step; });
        if (!shown) continue;
        for (const std::string& name : step.formula->names()) {
          const engine::Input* input = compiled.calculation->find_input(name);
          if (!input || input->fallback_limit.empty() || compiled.arguments.contains(name))
            continue;
          const std::string id(input->fallback_limit);
          if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
        }
      }
    for (const std::string& id : ids) {
      const LimitInForce& limit = *item_.find_limit(id);
      question_.limits.push_back({id, item_.text_in_language(limit.published->name), limit.text,
                                  limit.published->citation, limit.published->status});
    }
  }

  void add_source(SourceLine source) {
    const bool known = std::any_of(
        question_.sources.begin(), question_.sources.end(), [&](const SourceLine& other) {
          return other.citation == source.citation && other.supports == source.supports;
        });
    if (!known) question_.sources.push_back(std::move(source));
  }

  /// Where nothing is cited, the words stand for themselves, and common practice needs none.
  SourceLine in_words(const bank::SourceText& source) const {
    const std::string about(item_.text_in_language(source.about));
    if (!source.citation.empty()) return {source.citation, about, source.status};
    if (!about.empty()) return {about, {}, source.status};
    return {std::string(item_.text_in_language(common_practice)), {}, source.status};
  }

  void add_sources() {
    for (const auto& derivation : item_.item.derivations) {
      if (!derivation.calculation) continue;
      const auto& calculation = *item_.find_calculation(derivation.calculation->name)->calculation;
      for (const engine::Source& source : calculation.sources)
        add_source({std::string(item_.text_in_language(source.citation)),
                    std::string(item_.text_in_language(source.supports)),
                    status_name(source.status)});
      for (const engine::Text& caution : calculation.cautions) {
        const std::string text(item_.text_in_language(caution));
        auto& all = question_.cautions;
        if (std::find(all.begin(), all.end(), text) == all.end()) all.push_back(text);
      }
    }
    for (const LimitLine& limit : question_.limits)
      add_source({limit.citation, limit.name, limit.status});
    for (const bank::SourceText& source : item_.item.sources) add_source(in_words(source));
  }

  // ---- Figures

  /// False for a fallback that the question never mentions.
  bool told(const std::string& use, const engine::Input& input) const {
    const auto& declared = item_.item.limits;
    return item_.find_calculation(use)->arguments.contains(input.id) ||
           std::find(declared.begin(), declared.end(), input.fallback_limit) != declared.end();
  }

  void add_figures(const std::vector<std::string>& worked_out, const std::string& answer_text) {
    const std::string& use = item_.item.figure_of;
    if (use.empty()) return;
    const engine::Calculation& calculation = *item_.find_calculation(use)->calculation;
    const Sample::Run& run = sample_.runs.find(use)->second;
    const auto plain_symbol = [](std::string_view symbol) {
      return symbol.empty() ? std::string() : notation::to_text(notation::symbol(symbol));
    };
    figure::Request request{calculation.id,
                            run.inputs,
                            run.outputs,
                            {},
                            figure::Request::For::sheet,
                            item_.settings.style.language,
                            item_.settings.system};
    for (const engine::Input& input : calculation.inputs)
      if (const std::string given = given_text(use, input); !given.empty() && told(use, input))
        request.labels[std::string(input.id)] = {plain_symbol(input.symbol), given};
    const std::string asked = item_.answer ? bare_name(item_.answer->formula) : "";
    figure::Request key = request;
    key.wanted = figure::Request::For::key;
    for (const engine::Output& output : calculation.outputs) {
      const std::string name = use + "." + std::string(output.id);
      const std::string id(output.id);
      const std::string symbol = plain_symbol(output.symbol);
      if (name == asked) {
        request.labels[id] = {symbol, {}};
        key.labels[id] = {symbol, answer_text};
      } else if (std::find(worked_out.begin(), worked_out.end(), name) != worked_out.end()) {
        key.labels[id] = {symbol, item_.text_of(name, sample_, item_.item.at)};
      }
    }
    question_.sheet_figure = figure::draw(request);
    question_.key_figure = figure::draw(key);
  }

  const CompiledItem& item_;
  const Drawn& drawn_;
  const Sample& sample_;
  draw::Stream& stream_;
  Question question_;
};

}  // namespace

Made CompiledItem::make(draw::Key key, Tally* tally, Figures figures) const {
  Tally thrown_away;
  for (std::uint32_t attempt = 0; attempt < most_attempts; ++attempt, ++key.attempt) {
    try {
      draw::Stream stream(key);
      const Drawn drawn = draw(stream);
      const Sample sample = evaluate(drawn);
      Made made = Composer(*this, drawn, sample, stream).compose(figures);
      made.key = key;
      return made;
    } catch (const ThrownAway& thrown) {
      thrown_away.add(thrown);
      if (tally) tally->add(thrown);
    }
  }
  const auto worst = std::max_element(
      thrown_away.reasons.begin(), thrown_away.reasons.end(),
      [](const auto& a, const auto& b) { return a.second.count < b.second.count; });
  throw CannotMake(worst->second.at,
                   fmt::format("none of {} draws can be asked; {} were thrown away because {}",
                               most_attempts, worst->second.count, worst->first));
}

Question make_question(const bank::Bank& bank, const bank::Item& item, const Settings& settings,
                       draw::Key key) {
  return CompiledItem(bank, item, settings).make(key).question;
}

}  // namespace footroom::quiz
