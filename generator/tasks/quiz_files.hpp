#pragma once
// The files of a quiz: which they are, and writing them sheet by sheet.

#include <array>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>

#include "quiz/maker.hpp"
#include "quiz/seat_range.hpp"
#include "render/render.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/told.hpp"

namespace footroom::tasks {

/// True for a path inside an output folder that write_quiz() may have written.
bool is_quiz_file(const std::string& path);

/// The seat that a path inside an output folder belongs to, a page's or a figure's; empty for other
/// files.
std::string seat_of_file(const std::string& path);

/// Writes sheet-A.md, sheet-A.html, key-A.md, key-A.html ..., figures/, all-sheets.html,
/// all-keys.html, quiz.json and responses.csv, as a whole or not at all (see output_folder.hpp), on
/// `jobs` threads: the bytes are the same for any number of them. Throws Failure, and refuses a
/// folder whose responses.csv has been filled in.
void write_quiz(const quiz::Maker& maker, const render::Templates& templates,
                const std::filesystem::path& folder, const Told& sheets_written = tell_nobody,
                std::size_t jobs = 1);

/// Throws Failure where a responses.csv has been filled in: a class's answers are not written over.
void refuse_filled_in(const std::filesystem::path& responses);

/// The files that hold all seats of a quiz, each written seat by seat.
inline constexpr std::array<const char*, 4> files_of_all{"all-sheets.html", "all-keys.html",
                                                         "quiz.json", "responses.csv"};

/// Writes the pages and figures of these seats into `out`, and their share of the files of all into
/// the folder `shares` in it: what stands before the first seat and behind the last goes with those
/// seats, so that the shares of all seats in order are the whole files. Where `digests` is given,
/// each page and figure is told to it as "name", "SHA-256".
void write_seats(const quiz::Maker& maker, const render::Templates& templates,
                 const OutputFolder& out, const std::string& shares, quiz::SeatRange seats,
                 const Told& sheets_written, std::size_t jobs,
                 const std::function<void(std::string_view, std::string_view)>& digests = {});

/// Writes the files of one seat alone, sheet-A.md, sheet-A.html, key-A.md, key-A.html and its
/// figures, and leaves all others in the folder as they are. Throws Failure.
void write_sheet(const quiz::Header& header, const quiz::Sheet& sheet,
                 const render::Templates& templates, const std::filesystem::path& folder);

}  // namespace footroom::tasks
