#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "grade/marking.hpp"
#include "tasks/failure.hpp"

namespace footroom::tasks {

struct ReadResponses {
  std::vector<grade::Response> responses;  ///< in the order of the file
  std::vector<RowFault> defects;           ///< "COLUMN: what is wrong", and what follows
};

/// What keeps a field from being taken for text, or nothing. Line breaks and tabs may stand in it.
std::optional<engine::Wording> fault_of(const std::string& field);

/// Reads responses.csv filled in: CSV (see csv_rows.hpp) in UTF-8. The first row names the columns:
/// `seat` (or `puesto`) and the numbers of the questions; `name` (or `nombre`) and `code` (or
/// `código`) are read where they are there, other columns are left alone. A row that cannot be
/// taken for one seat of the quiz is left out. Throws Failure where the file cannot be read, and
/// FaultyRow where its first row is not that of a form.
ReadResponses read_responses(const std::filesystem::path& file, const grade::Quiz& quiz);

/// The same from memory; `file` is the name for messages.
ReadResponses read_responses(std::string_view bytes, const std::string& file,
                             const grade::Quiz& quiz);

/// The same back: a row for each seat of the quiz, empty where there is no response, so that
/// reading it gives the responses again.
std::string responses_text(const grade::Quiz& quiz, const std::vector<grade::Response>& responses);

/// As a file, whole or not at all.
void write_responses(const std::filesystem::path& file, const grade::Quiz& quiz,
                     const std::vector<grade::Response>& responses);

}  // namespace footroom::tasks
