#pragma once
// What an instructor wants to know of a class, worked out from its results.

#include <string>
#include <vector>

#include "figure/drawing.hpp"
#include "grade/marking.hpp"
#include "grade/results.hpp"

namespace footroom::grade {

/// All questions from one item: the same question with other numbers.
struct ItemLine {
  std::string item;
  std::string title;
  std::string topic_title;
  int level = 1;
  int asked = 0;
  int right = 0;  ///< the answer itself was right
  Points points;
  Points possible;
};

/// A mistake that several made, or one.
struct MistakeLine {
  std::string item;
  std::string title;
  std::string mistake;
  std::string says;  ///< Markdown
  int made = 0;      ///< by so many
  int asked = 0;     ///< of so many who had the item
  Points lost;
  std::string example_seat;  ///< the first who made it
  std::string example_read;
  std::string example_right;
};

/// An answer that a person has to look at.
struct ToCheck {
  std::string seat;
  std::string name;
  int number = 0;
  std::string title;
  std::string typed;
  std::string reason;
};

struct ClassReport {
  const Results& results;
  Credit credit;
  std::vector<ItemLine> items;        ///< the hardest first, equal ones in the order of the sheets
  std::vector<MistakeLine> mistakes;  ///< the most frequent first, then by points lost
  std::vector<ToCheck> to_check;
  /// Of the seats' scores in percent, as text; empty where nobody answered.
  std::string mean;
  std::string median;
  std::string lowest;
  std::string highest;
  figure::Drawing distribution;  ///< how many seats reached which tenth of the points
};

/// In the language given; numbers in the style of the results.
ClassReport class_report(const Results& results, const Credit& credit, engine::Language language);

/// "69.4%": what part the points are, to a tenth. Of none possible: "0%".
std::string percent_text(Points points, Points possible, notation::Style style);

}  // namespace footroom::grade
