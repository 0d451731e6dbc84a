#pragma once
// What the rooms of a quiz share: its files, and where a page stands in the week.

#include <filesystem>
#include <memory>
#include <string>

#include "desk/room.hpp"
#include "grade/quiz_file.hpp"
#include "grade/results.hpp"

namespace footroom::desk {

std::string address_of(int quiz);  ///< "/quizzes/3"
std::string work_about(int quiz);  ///< as Work names it

/// `file`, where it is there; else throws NotThere.
std::filesystem::path there(const Call& call, const std::filesystem::path& file);
/// A page that another part wrote: it brings its style with it.
Response printed_page(const std::filesystem::path& file);

/// Throws NotThere where there is no such quiz.
std::shared_ptr<const grade::Quiz> quiz_of(const Call& call, int quiz);
bool is_graded(const Call& call, int quiz);
/// Throws NotThere where it is not graded.
grade::Results results_of(const Call& call, int quiz);
std::filesystem::path responses_file(const Call& call, int quiz);
/// Of the first seat's sheet.
std::filesystem::path figure_file(const Call& call, int quiz, int question);

/// The letters of a kind order, in the right order: "B, A, C".
std::string order_of(const quiz::Question& question);

/// How many seats have an answer.
std::size_t answered_seats(const Call& call, int quiz, const grade::Quiz& of);

/// A line of a list of quizzes: address, title, class, date and what comes next.
mustache::data quiz_row(const Call& call, int quiz);
/// The same of one that was begun and has no files.
mustache::data unfinished_row(const Call& call, int quiz);

/// The steps of a quiz's week (see, answers, results) with the one that is `here`.
void set_steps(const Call& call, int quiz, const std::string& here, mustache::data& data);

Pages::Frame quiz_frame(const Call& call, int quiz, const grade::Quiz& of);

}  // namespace footroom::desk
