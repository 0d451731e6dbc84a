#pragma once
#include <string>
#include <vector>

#include "quiz/question.hpp"

namespace footroom::quiz {

/// The letters of the right options; for kind order, all letters in the right order.
std::vector<std::string> right_letters(const Question& question);

}  // namespace footroom::quiz
