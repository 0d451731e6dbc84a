#pragma once
// From bank, blueprint and seed to sheets. Sheets are made one at a time, so that a class of a
// hundred thousand takes no more memory than a class of twelve.

#include <cstdint>
#include <map>
#include <memory>
#include <set>
#include <stdexcept>
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "draw/stream.hpp"
#include "notation/quantity_text.hpp"
#include "quiz/question.hpp"

namespace footroom::quiz {

enum class Paper { letter, a4 };

/// A quiz that the class had before.
struct EarlierQuiz {
  std::string code;
  std::string date;  ///< YYYY-MM-DD; may be empty
  std::set<std::string, std::less<>> items;
};

/// One question of a quiz changed for another, in every sheet. They take effect in turn.
struct Swap {
  int number = 1;    ///< of the question
  std::string item;  ///< to ask instead; empty: the same item with other values
};

/// What several swaps of a question come to.
struct Swapped {
  std::string item;        ///< that stands in; empty: the one that was chosen
  std::uint32_t draw = 0;  ///< how many times that item was drawn anew
};

/// By number of the question.
std::map<int, Swapped> outcome_of(const std::vector<Swap>& swaps,
                                  std::map<int, Swapped> before = {});

struct Settings {
  std::uint64_t seed = 0;
  /// 32 random hexadecimal digits beside the seed, from which both draws and code follow. Empty:
  /// they follow from the seed alone, and whoever guesses it can make the keys.
  std::string secret;
  int sheets = 1;
  std::vector<std::string> names;              ///< by seat; may be shorter than sheets
  std::vector<Accommodations> accommodations;  ///< by seat; may be shorter than sheets
  notation::System system = notation::System::us;
  notation::Style style;
  std::string rules = "us-construction";
  Paper paper = Paper::letter;
  std::string date;                 ///< YYYY-MM-DD
  std::string program;              ///< version, for quiz.json
  std::vector<EarlierQuiz> before;  ///< whose families stand back; the last quiz first
  std::vector<std::string> topics;  ///< the only ones to ask of the blueprint's; empty: all
  std::string course_plan;          ///< id, where the quiz is one of a course plan
  int week = 0;                     ///< of that plan
  /// By item id: what stands in for the item's own level when the quiz is filled. Of items that
  /// the bank has.
  std::map<std::string, int, std::less<>> levels;
  std::vector<Swap> swaps;
};

/// What holds for every sheet of a quiz.
struct Header {
  /// "7K3QX": five digits of base 32 (without I, L, O, U) from SHA-256 over what makes the quiz,
  /// whatever the program's version. It tells quizzes apart. With a secret nothing can be tried
  /// against it; without one, whoever has the bank can try seeds.
  std::string code;
  std::string program;
  std::string bank_digest;
  std::string blueprint;
  std::string title;
  std::string course;
  std::uint64_t seed = 0;
  std::string secret;  ///< empty: none
  std::string date;
  notation::System system;
  notation::Style style;
  std::string rules;
  std::string rules_title;
  Paper paper;
  int sheets = 0;
  int minutes = 0;
  std::string course_plan;          ///< id; empty: none
  int week = 0;                     ///< of that plan
  std::vector<std::string> topics;  ///< empty: all of the blueprint's
  std::vector<std::string> after;   ///< codes of the quizzes whose families stood back
  std::map<std::string, int, std::less<>> levels;  ///< as in the settings
  std::map<int, Swapped> swaps;                    ///< by number of the question
  /// By seat; may be shorter than sheets, or missing. Shared, since each sheet has a header.
  std::shared_ptr<const std::vector<Accommodations>> accommodations;
};

/// The header of this sheet: in its language.
Header header_of(const Header& header, const Sheet& sheet);

/// A quiz that cannot be made, or an item that cannot be asked. `where` is a file and line.
class CannotMake : public std::runtime_error {
 public:
  CannotMake(bank::Position at, const std::string& message)
      : std::runtime_error(at.file + ":" + std::to_string(at.line) + ": " + message),
        where(std::move(at)) {}
  bank::Position where;
};

/// A swap that cannot be made: "question 3: what is wrong, what was expected".
class CannotSwap : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// How often a draw may be thrown away (a condition does not hold, a value stands on a rounding
/// boundary, two answers fall together) before the item is refused.
inline constexpr std::uint32_t most_attempts = 1000;

/// One question from an item. Deterministic in key (attempt is counted from key.attempt upwards)
/// and settings. Throws CannotMake.
Question make_question(const bank::Bank& bank, const bank::Item& item, const Settings& settings,
                       draw::Key key);

struct AskedItem;
struct ChosenFamily;

/// A quiz that cannot be made again from what was recorded of it.
class CannotMakeAgain : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

class Maker {
 public:
  /// Chooses the items. Throws CannotMake where the blueprint asks for what the bank cannot give
  /// (see choose_families()), a name is unknown, or a rule set lacks a limit. Throws CannotSwap.
  Maker(const bank::Bank& bank, const bank::Blueprint& blueprint, Settings settings);

  /// As it was made before: `made` tells items, points, names and accommodations of each sheet.
  /// Without swaps the same code and sheets come out; with swaps, a quiz with a code of its own.
  /// Throws CannotMakeAgain where the bank or its digest is another or `made` is no such quiz, and
  /// CannotSwap.
  Maker(const bank::Bank& bank, Header header, const std::vector<Sheet>& made,
        const std::vector<Swap>& swaps);

  const Header& header() const { return header_; }
  /// What an instructor should know of the choice (see remarks_on()); where each seat has families
  /// of its own, of the first seat's.
  const std::vector<std::string>& remarks() const { return remarks_; }
  /// Sheet `index`, from 0. The same whatever was made before.
  Sheet sheet(int index) const;

 private:
  struct Plan;

  /// Of a sheet, or those of all sheets where they have the same.
  std::vector<ChosenFamily> families_of(std::uint32_t sheet) const;
  std::vector<AskedItem> asked_on(std::uint32_t sheet) const;
  void compile(const bank::Item& item);

  const bank::Bank& bank_;
  bank::Blueprint blueprint_;
  Settings settings_;
  std::uint64_t draw_seed_ = 0;  ///< what seed and secret come to
  Header header_;
  std::vector<std::string> remarks_;
  std::shared_ptr<Plan> plan_;
};

/// "A" ... "Z", "AA", "AB" ...
std::string seat_name(int index);

}  // namespace footroom::quiz
