#pragma once
// From what was typed to an outcome and points.
//
// A number is judged in this order; the first that holds counts:
//   1. within the answer's tolerance: right (in the asked unit, in another one, or without one);
//   2. the number is right and its unit is not: right with wrong unit;
//   3. within the tolerance of a mistake of the item: that mistake. Of several the nearest counts,
//      of equally near ones the one that stands first in the quiz;
//   4. within the tolerance with the other sign: the mistake "sign";
//   5. within the tolerance if the number, written in the asked unit or without one, were in
//   another
//      unit of what is asked: the mistake "unit-NAME" (a weight in kg is one too);
//   6. wrong.
// So a value that lies within the tolerance of the right answer and of a mistake is right: the key
// promises that. The tolerance is the key's, whatever the unit; a difference that exceeds it by
// less than a billionth counts as within.

#include <string>
#include <string_view>
#include <vector>

#include "grade/quiz_file.hpp"
#include "grade/results.hpp"

namespace footroom::grade {

/// What answers earn that are not simply right, as percent of the question's points. Choices of
/// several earn right marks less wrong marks, of all right options; orders earn pairs of letters in
/// the right order less pairs in the wrong order, of all pairs; both not below nothing.
struct Credit {
  int right_in_other_unit = 100;
  int right_without_unit = 100;  ///< the sheet prints the unit behind the line
  int right_with_wrong_unit = 50;
  int mistake = 0;
};

/// The tolerance around a value with what decimal numbers need that are no binary ones: 12.6 - 12.5
/// exceeds 0.1 in the last bit.
double widened(double tolerance, double value);

/// `typed` is valid UTF-8.
QuestionResult mark(const quiz::Question& question, std::string_view typed, const Credit& credit,
                    notation::Style style);

/// The answers of one seat.
struct Response {
  std::string seat;
  std::string name;                  ///< empty: as in the quiz
  std::vector<std::string> answers;  ///< by question of the sheet
};

/// Marks a sheet in its own language, for its feedback. The number of answers is that of its
/// questions.
SeatResult mark_sheet(const quiz::Sheet& sheet, const Response& response, const Credit& credit,
                      notation::Style style);

/// Marks every sheet of the quiz, all in the quiz's language: seats without a response, or with
/// empty ones only, are absent. The number of answers of a response is that of the sheet's
/// questions.
Results mark_class(const Quiz& quiz, const std::vector<Response>& responses, const Credit& credit,
                   const std::string& program);

}  // namespace footroom::grade
