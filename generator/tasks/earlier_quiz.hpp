#pragma once
#include <filesystem>
#include <istream>
#include <string>
#include <vector>

#include "quiz/maker.hpp"

namespace footroom::tasks {

/// Which families a quiz.json asked, with its code and date. Reads it as a stream and keeps nothing
/// else, so a class of any size and nesting of any depth do no harm; what else the file holds is
/// not looked at. Throws Failure "FILE: what is wrong, what was expected"; the file's own text
/// never enters a message.
quiz::EarlierQuiz read_earlier_quiz(const std::filesystem::path& file);

/// The same from a stream; `file` is the name for messages.
quiz::EarlierQuiz read_earlier_quiz(std::istream& in, const std::string& file);

/// Several of them, the last quiz first: by date, and of one day (or where one has no date) what
/// stands later in `files` first. A quiz that stands twice counts once.
std::vector<quiz::EarlierQuiz> read_earlier_quizzes(const std::vector<std::string>& files);

}  // namespace footroom::tasks
