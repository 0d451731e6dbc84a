#pragma once
// Practising: which question comes next, and what an answer does to the progress. Everything
// follows from bank, seed and history; no clock, no chance of its own.

#include <cstdint>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "bank/item.hpp"
#include "grade/results.hpp"
#include "practice/progress.hpp"
#include "quiz/compiled_item.hpp"

namespace footroom::practice {

/// What the student wants to be asked. Empty: all.
struct Choice {
  std::vector<std::string> topics;
  std::vector<int> levels;
};

/// What a student asks for and cannot have; the message is for them, in their language.
class CannotAsk : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

struct TopicCount {
  std::string id;
  std::string title;
  int families = 0;
  int asked = 0;  ///< questions
  int right = 0;
  int returning = 0;  ///< families that were missed and are to return
};

struct Marked {
  quiz::Question question;
  grade::QuestionResult result;
  bool counted = false;        ///< it was the first readable answer
  std::optional<int> returns;  ///< the family returns after so many other questions
};

class Sitting {
 public:
  /// Keeps a reference to the bank; the rule set is one of its.
  Sitting(const bank::Bank& bank, std::string rules) : bank_(bank), rules_(std::move(rules)) {}

  Progress begin() const;

  /// Puts the next question: of the families that are due, the one due longest; else at random one
  /// of those asked least that do not wait to return; never the last one where there is another,
  /// nor two that return in a row, so that whoever misses all still meets new ones. A
  /// question that stands open without an answer counts as left. `seed` is taken where the
  /// sitting has none yet. Throws CannotAsk.
  void next(Progress& progress, const Choice& choice, const Face& face, std::uint64_t seed) const;

  /// The open question in this style (its units stay).
  quiz::Made open_question(const Progress& progress, notation::Style style,
                           quiz::Figures figures = quiz::Figures::drawn) const;

  /// Marks what was typed for the open question; the first readable answer counts.
  Marked mark(Progress& progress, std::string_view typed, notation::Style style) const;

  /// Notes that one more worked step is on view, of those the question has, and returns its index.
  /// Throws CannotAsk where all are.
  std::size_t show_step(Progress& progress, const quiz::Question& question,
                        notation::Style style) const;

  /// The same answers no more, with what is to return.
  void begin_anew(Progress& progress) const;

  std::vector<TopicCount> topics(const Progress& progress, const Face& face) const;
  /// How many families the levels 1 to 4 have.
  std::vector<int> levels(const Face& face) const;

  const bank::Bank& bank() const { return bank_; }
  const std::string& rules() const { return rules_; }

 private:
  std::vector<const bank::Item*> askable(const Choice& choice, notation::System system) const;
  void count(Progress& progress, bool right) const;

  const bank::Bank& bank_;
  std::string rules_;
  /// Items whose limits the rule set has, by unit system; found when first needed.
  mutable std::map<notation::System, std::vector<const bank::Item*>> with_limits_;
};

/// The question that was asked, made again in a style. Throws quiz::CannotMake, and
/// std::out_of_range where the bank has no such item.
quiz::Made make_again(const bank::Bank& bank, const std::string& rules, std::uint64_t seed,
                      const Asked& asked, notation::Style style, quiz::Figures figures);

}  // namespace footroom::practice
