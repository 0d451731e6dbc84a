#pragma once
// The files of a quiz: which they are, and writing them sheet by sheet.

#include <filesystem>
#include <string>

#include "quiz/maker.hpp"
#include "render/render.hpp"
#include "tasks/told.hpp"

namespace footroom::tasks {

/// True for a path inside an output folder that write_quiz() may have written.
bool is_quiz_file(const std::string& path);

/// Writes sheet-A.md, sheet-A.html, key-A.md, key-A.html ..., figures/, all-sheets.html,
/// all-keys.html, quiz.json and responses.csv, as a whole or not at all (see output_folder.hpp).
/// Throws Failure, and refuses a folder whose responses.csv has been filled in.
void write_quiz(const quiz::Maker& maker, const render::Templates& templates,
                const std::filesystem::path& folder, const Told& sheets_written = tell_nobody);

/// Writes the files of one seat alone, sheet-A.md, sheet-A.html, key-A.md, key-A.html and its
/// figures, and leaves all others in the folder as they are. Throws Failure.
void write_sheet(const quiz::Header& header, const quiz::Sheet& sheet,
                 const render::Templates& templates, const std::filesystem::path& folder);

}  // namespace footroom::tasks
