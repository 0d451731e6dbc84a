#pragma once
// What must hold of every question, whatever item it came from.

#include <string>
#include <vector>

#include "quiz/question.hpp"

namespace footroom::quiz {

/// What is wrong with a question, or nothing: a text that is empty or has a brace left; other than
/// exactly one right option for one-of and verdict, no right one for several-of; places of an order
/// that are not 1, 2, 3 ...; options that read the same; a mistake's number within the tolerance of
/// the answer or of another mistake; no source.
std::vector<std::string> faults_of(const Question& question);

/// Where two languages ask different things: other answers, mistakes, or options (ids and which are
/// right, in the order shown).
bool ask_the_same(const Question& one, const Question& other);

}  // namespace footroom::quiz
