#pragma once
#include <string>

#include "bank/item.hpp"
#include "grade/marking.hpp"
#include "grade/quiz_file.hpp"
#include "practice/result_file.hpp"

namespace footroom::cli {

struct GradedPractice {
  grade::Quiz quiz;  ///< one sheet, with the questions made again
  grade::Results results;
};

/// Makes each question of a saved practice again and marks what was typed. An answer with worked
/// steps on view earns nothing. Throws Failure where the file is faulty, or was saved from another
/// bank: then nobody can tell what was asked.
GradedPractice grade_practice(const std::string& text, const std::string& file,
                              const bank::Bank& bank, const grade::Credit& credit);

}  // namespace footroom::cli
