#pragma once
// What people write as an answer, understood by fixed rules. Nothing is guessed: what a rule does
// not cover is unreadable, with the reason.
//
// Numbers
//   - Behind the last equals sign stands the answer: "x = 12 ft". Words for "about" (about,
//   approx.,
//     around, ca., aprox., unos ...) and ≈ and ~ in front are left out. Other words are refused.
//   - The decimal mark of the quiz is one wherever it stands once in a number: "1.800" is 1.8 where
//     the quiz prints points. The other mark (comma or point) parts thousands where exactly three
//     digits stand behind it and one to three before it, not beginning with 0: "1,800" is 1800;
//     else it is a decimal mark: "12,5", "0,125", "1234,567". A mark that stands more than once
//     parts thousands, and every group must have three digits. Where both stand in one number, the
//     last is the decimal mark: "1,800.5" and "1.800,5". Spaces part thousands: "1 800".
//   - Units as notation::read_quantity takes them, with further spellings of sheets filled in by
//     hand: "12' 6", "12 ft 6", "12 pies y 6 pulg.", "6 M". A number followed by k is that many
//     thousands ("1.8k"), unless the answer's own unit begins with k and no unit is written.
//   - No unit: the number is in the answer's unit, which the sheet prints behind the line.
//   - Where a plain number is asked, one word behind it is left out: "12 nails".
//
// Letters
//   - Upper and lower case are alike; spaces, commas, brackets, full stops, slashes, dashes, > and
//     "and" part them or stand around them; "AC" is A and C where both are offered and no letter
//     stands twice. "option", "letter" in front are left out.
//   - For one right option, "yes" or "no" (sí, no) counts where exactly one option begins with that
//     word, and so does the whole text of an option.
//   - "none" leaves all options of several unmarked.
//   - An order may carry numbers, "1 B, 2 A", that count up from 1.

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "notation/quantity_text.hpp"
#include "quiz/question.hpp"

namespace footroom::grade {

inline constexpr std::size_t longest_answer = 200;  ///< bytes

struct Unreadable {
  std::string reason;  ///< in the style's language
};

struct WrittenNumber {
  double number = 0;                     ///< in `unit`
  const notation::Unit* unit = nullptr;  ///< as written; null: none
  bool comparable = true;                ///< the unit measures what is asked
  double value = 0;                      ///< in the asked unit; only where comparable
  std::string text;                      ///< "12.5 ft", "12 ft 6 in"
};

using ReadNumber = std::variant<WrittenNumber, Unreadable>;
using ReadLetters = std::variant<std::vector<std::string>, Unreadable>;

/// True for what stands for no answer: nothing, spaces, dashes, question marks.
bool is_no_answer(std::string_view typed);

ReadNumber read_number(std::string_view typed, const notation::Unit& asked, notation::Style style);

/// The letters chosen, each once; for kind order all of them, in the order written.
ReadLetters read_letters(std::string_view typed, const quiz::Question& question,
                         notation::Style style);

}  // namespace footroom::grade
