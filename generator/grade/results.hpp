#pragma once
// What a class answered and what that earned: the model that feedback, reports, statistics and
// records read. As a file it is results.json (questionbank/results.schema.json).

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "notation/quantity_text.hpp"
#include "quiz/question.hpp"

namespace footroom::grade {

enum class Outcome {
  right,
  right_in_other_unit,    ///< "3.8 m" where 12.5 ft is right
  right_without_unit,     ///< "12.5"
  right_with_wrong_unit,  ///< "12.5 m": the number is right, the quantity is not
  partly_right,           ///< several-of and order
  named_mistake,          ///< one that the item names; an option that is wrong is named too
  general_mistake,        ///< one that any item may meet: the sign, the unit of the number
  wrong,
  empty,
  unreadable,  ///< could not be read as one answer: someone has to look at it
};

/// "right", "right-in-other-unit" ... as files name it.
std::string_view name_of(Outcome outcome);
std::optional<Outcome> find_outcome(std::string_view name);
/// The answer itself was right, whatever its credit.
bool is_right(Outcome outcome);

/// Exact points: hundredths of a point.
struct Points {
  std::int64_t hundredths = 0;

  static Points whole(int points) { return {std::int64_t{100} * points}; }
  /// This part of them, rounded to a hundredth, halves upwards. 0 <= numerator <= denominator.
  Points share(std::int64_t numerator, std::int64_t denominator) const;
  /// "1", "0.5", "0.67" with the style's decimal mark.
  std::string text(notation::Style style) const;

  friend Points operator+(Points a, Points b) { return {a.hundredths + b.hundredths}; }
  friend Points operator-(Points a, Points b) { return {a.hundredths - b.hundredths}; }
  Points& operator+=(Points other) { return *this = *this + other; }
  friend constexpr auto operator<=>(Points, Points) = default;
};

/// One question of one seat.
struct QuestionResult {
  int number = 0;
  std::string item;
  std::string topic;  ///< its id
  std::string topic_title;
  int level = 1;
  quiz::Kind kind = quiz::Kind::number;
  std::string title;
  Outcome outcome = Outcome::empty;
  /// Of a named or general mistake: its id in the item, "sign", or "unit-NAME". Of a choice: the id
  /// of the first wrong option chosen. Else empty.
  std::string mistake;
  std::string says;    ///< Markdown: what went wrong; may be empty
  std::string typed;   ///< as it stood in the form, at most 200 characters of it
  std::string read;    ///< how it was understood: "12.5 ft", "A, C"; empty where it was not
  std::string reason;  ///< of an unreadable answer, in the quiz's language
  std::optional<double> value;      ///< kind number: what was read, in the answer's unit
  std::vector<std::string> chosen;  ///< ids of the options chosen, in the order written
  std::string right;                ///< the right answer as text: "12.5 ft", "B", "A, C"
  Points points;
  Points possible;
};

struct SeatResult {
  std::string seat;
  std::string name;  ///< of the form, else of the quiz; may be empty
  std::string code;
  std::vector<QuestionResult> questions;  ///< all of the sheet, in its order
  Points points;
  Points possible;
};

struct Results {
  std::string quiz;  ///< code
  std::string title;
  std::string course;
  std::string date;       ///< of the quiz, YYYY-MM-DD
  std::string blueprint;  ///< id
  std::string bank;       ///< digest
  std::string program;    ///< version that graded
  std::string rules;      ///< id of the rule set
  bool practice = false;  ///< handed in by the student from a practice; never a test
  notation::System system = notation::System::us;
  notation::Style style;
  std::vector<SeatResult> seats;    ///< who answered, in the order of the quiz
  std::vector<std::string> absent;  ///< seats whose row is empty or missing
};

/// results.json. Bytes that are not UTF-8 become U+FFFD.
std::string results_json(const Results& results);
/// Throws FaultyFile ("results.json: seats/0/points: is missing").
Results read_results(std::string_view json, const std::string& file);

}  // namespace footroom::grade
