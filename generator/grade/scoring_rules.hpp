#pragma once
// How answers are judged, as rules that another program can follow: they say what mark()
// (marking.hpp) does with the usual credit, for numbers in the unit that is asked.

#include <string>
#include <vector>

#include "grade/results.hpp"
#include "quiz/question.hpp"

namespace footroom::grade {

/// Numbers that are judged alike, both ends included.
struct NumberRange {
  std::string mistake;  ///< its id; empty: the right answer
  double from = 0;
  double to = 0;
};

/// Of a question of kind number: the right answer, then its mistakes. The first that holds a number
/// counts; a number in none is wrong.
std::vector<NumberRange> number_ranges(const quiz::Question& question);

/// What is earned from so many marks on.
struct MarksStep {
  int marks = 0;
  Points points;
};

/// The most first; below the last step nothing is earned. Marks are: of several-of, right letters
/// less wrong ones; of order, pairs of letters in the right order.
std::vector<MarksStep> marks_steps(const quiz::Question& question);

}  // namespace footroom::grade
