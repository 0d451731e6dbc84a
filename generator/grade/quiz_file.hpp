#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "quiz/maker.hpp"
#include "quiz/question.hpp"

namespace footroom::grade {

/// A quiz as quiz.json tells it: all that stands in the file but givens and calculations, which
/// neither grading nor making it again needs. Figures and reference boxes are not in the file.
struct Quiz {
  quiz::Header header;
  std::vector<quiz::Sheet> sheets;
};

/// Throws FaultyFile (json_reader.hpp) for what quiz.schema.json does not allow and for what cannot
/// be graded: an unknown unit, a choice without exactly one right option, places that are no order,
/// a seat that stands twice.
Quiz read_quiz(std::string_view json, const std::string& file);

}  // namespace footroom::grade
