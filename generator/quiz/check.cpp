#include "quiz/check.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "figure/figure.hpp"
#include "quiz/item_demands.hpp"
#include "quiz/question_check.hpp"
#include "quiz/readability.hpp"
#include "quiz/scaling.hpp"

namespace footroom::quiz {
namespace {

bool is_numeric(const bank::Item& item) {
  return item.answer.has_value();
}

double combinations(const CompiledItem& compiled) {
  double all = 1;
  for (const bank::Draw& draw : compiled.item.draws) {
    const bank::Grid& grid = compiled.is_us() ? draw.us : draw.si;
    all *= draw::grid_points(grid.from, grid.to, grid.step);
  }
  for (const bank::Pick& pick : compiled.item.picks)
    if (pick.pool.empty()) all *= static_cast<double>(pick.choices.size());
  return all;
}

class Check {
 public:
  Check(const bank::Bank& bank, const bank::Item& item, const CheckSettings& how)
      : bank_(bank),
        item_(item),
        how_(how),
        english_(bank.trade_terms, engine::Language::english),
        spanish_(bank.trade_terms, engine::Language::spanish) {}

  ItemReport run() {
    report_.defects = unmet_demands(item_);
    if (!item_.figure_of.empty()) check_figure();
    report_.possible = -1;
    for (const auto system : {notation::System::us, notation::System::si}) {
      system_ = system;
      try {
        check_system();
      } catch (const CannotMake& refusal) {
        // what() repeats the position in front of the message
        const std::string before = fmt::format("{}:{}: ", refusal.where.file, refusal.where.line);
        add(refusal.where, std::string(refusal.what()).substr(before.size()));
      }
    }
    report_.possible = std::max(report_.possible, 0.0);
    return std::move(report_);
  }

 private:
  void check_figure() {
    for (const auto& derivation : item_.derivations)
      if (derivation.calculation && derivation.calculation->name == item_.figure_of &&
          !figure::has_drawing(derivation.calculation->calculation))
        report_.defects.push_back(
            {item_.at, fmt::format("the calculation \"{}\" has no drawing, expected no <figure>",
                                   derivation.calculation->calculation)});
  }

  Settings settings(engine::Language language) const {
    Settings made;
    made.seed = how_.seed;
    made.system = system_;
    made.style.language = language;
    made.rules = how_.rules;
    return made;
  }

  void check_system() {
    const CompiledItem english(bank_, item_, settings(engine::Language::english));
    const CompiledItem spanish(bank_, item_, settings(engine::Language::spanish));
    const CompiledItem rescaled = english.rescaled(other_units);
    Tally thrown_away;
    different_.clear();
    offered_.clear();
    right_.clear();
    for (draw_ = 0; draw_ < how_.draws; ++draw_) {
      const draw::Key key{how_.seed, static_cast<std::uint32_t>(draw_), 0, 0};
      const Figures figures = draw_ % 100 == 0 ? Figures::drawn : Figures::left_out;
      const Made made = english.make(key, &thrown_away, figures);
      const Question& in_english = made.question;
      const Question in_spanish = spanish.make(key, nullptr, figures).question;
      check_question(in_english);
      check_question(in_spanish);
      if (draw_ % 100 == 0) check_readability(in_english.stem, in_spanish.stem);
      if (!ask_the_same(in_english, in_spanish))
        add(item_.at, "the languages ask different questions");
      note_options(in_english);
      count(in_english);
      check_steps(in_english);
      if (const std::string fault = scaling_fault(english, rescaled, made.key); !fault.empty())
        add(item_.at, fault);
      ++report_.draws;
    }
    draw_ = -1;
    check_options_over_all();
    int thrown = 0;
    for (const auto& [reason, entry] : thrown_away.reasons) {
      thrown += entry.count;
      auto& sum = report_.thrown_away.reasons[reason];
      sum.count += entry.count;
      sum.at = entry.at;
    }
    const double possible = combinations(english) * how_.draws / (how_.draws + thrown);
    report_.possible = report_.possible < 0 ? possible : std::min(report_.possible, possible);
    if (is_numeric(item_) && possible < questions_wanted)
      add(item_.at, fmt::format("about {:.0f} different questions, expected {:.0f} or more",
                                possible, questions_wanted));
    const auto seen = static_cast<int>(different_.size());
    const int wanted = std::min(choices_wanted, how_.draws / 4);
    if (!is_numeric(item_) && seen < wanted)
      add(item_.at, fmt::format("different questions: {}, expected {} or more", seen, wanted));
  }

  void check_question(const Question& question) {
    for (const std::string& fault : faults_of(question)) add(item_.at, fault);
  }

  /// The first stem too hard in a unit system stands for all.
  void check_readability(const std::string& english, const std::string& spanish) {
    const double grade = school_grade(english_.size(english));
    if (!(grade <= highest_grade) && hard_.insert({system_, engine::Language::english}).second)
      add(item_.stem.at, fmt::format("the English stem reads at US grade {:.1f} (Flesch-Kincaid), "
                                     "expected {:.1f} or less",
                                     grade, highest_grade));
    const double ease = reading_ease(spanish_.size(spanish));
    if (!(ease >= lowest_ease) && hard_.insert({system_, engine::Language::spanish}).second)
      add(item_.stem.at, fmt::format("the Spanish stem has a reading ease of {:.1f} (Fernández "
                                     "Huerta), expected {:.1f} or more",
                                     ease, lowest_ease));
  }

  /// Stops counting at what is wanted.
  void count(const Question& question) {
    if (different_.size() >= static_cast<std::size_t>(choices_wanted)) return;
    std::vector<std::string> texts;
    for (const Option& option : question.options) texts.push_back(option.text);
    std::sort(texts.begin(), texts.end());
    texts.push_back(question.stem);
    different_.insert(fmt::format("{}", fmt::join(texts, "\n")));
  }

  void note_options(const Question& question) {
    for (const Option& option : question.options) {
      offered_.insert(option.id);
      if (option.right) right_.insert(option.id);
    }
  }

  void check_options_over_all() {
    if (how_.draws < draws_for_every_option) return;
    for (const bank::Option& option : item_.options)
      if (!offered_.contains(option.id))
        add(option.at, fmt::format("the option \"{}\" is never offered", option.id));
    if (item_.kind == bank::Kind::verdict && right_.size() == 1)
      add(item_.at, fmt::format("the verdict is always \"{}\"", *right_.begin()));
  }

  void check_steps(const Question& question) {
    if (!is_numeric(item_)) return;
    std::string text = question.answer ? question.answer->text : "";
    for (const Option& option : question.options)
      if (option.right) text = option.text;
    const bool arrives =
        std::any_of(question.steps.begin(), question.steps.end(),
                    [&](const WorkedStep& step) { return step.line && step.line->result == text; });
    if (!arrives) add(item_.at, "no worked step arrives at the answer");
  }

  void add(const bank::Position& at, const std::string& message) {
    if (!known_.insert(fmt::format("{}:{}", at.line, message)).second) return;
    const std::string_view units = system_ == notation::System::us ? "US" : "SI";
    const std::string where =
        draw_ < 0 ? fmt::format(" ({} units, seed {}, {} draws)", units, how_.seed, how_.draws)
                  : fmt::format(" ({} units, seed {}, draw {})", units, how_.seed, draw_);
    report_.defects.push_back({at, message + where});
  }

  const bank::Bank& bank_;
  const bank::Item& item_;
  const CheckSettings& how_;
  Readability english_;
  Readability spanish_;
  std::set<std::pair<notation::System, engine::Language>> hard_;
  notation::System system_ = notation::System::us;
  int draw_ = -1;                    ///< the one being checked; -1: none
  std::set<std::string> different_;  ///< questions seen
  std::set<std::string> offered_;
  std::set<std::string> right_;
  std::set<std::string> known_;
  ItemReport report_;
};

}  // namespace

ItemReport check_item(const bank::Bank& bank, const bank::Item& item, const CheckSettings& how) {
  return Check(bank, item, how).run();
}

}  // namespace footroom::quiz
