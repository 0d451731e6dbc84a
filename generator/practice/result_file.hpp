#pragma once
// A finished practice as a small file: what was asked and what was typed, and no outcome. Whoever
// grades it makes each question again from the bank and marks it, so that no outcome can be forged;
// what was typed, and by whom, nobody can vouch for, and so it counts as practice, never as a test.
// As a file it is practice.json (questionbank/practice.schema.json).

#include <string>
#include <string_view>

#include "practice/progress.hpp"

namespace footroom::practice {

struct ResultFile {
  Progress progress;    ///< only bank, rules, seed and sitting are in the file
  std::string name;     ///< what the student wrote; may be empty
  std::string date;     ///< YYYY-MM-DD
  std::string program;  ///< version
};

/// Of a name, bytes.
inline constexpr std::size_t longest_name = 200;

std::string result_json(const ResultFile& file);

/// True where the text is a JSON object that says it is a practice.
bool is_result(std::string_view json);

/// Throws grade::FaultyFile ("practice.json: questions/0/item: is missing").
ResultFile read_result(std::string_view json, const std::string& file);

}  // namespace footroom::practice
