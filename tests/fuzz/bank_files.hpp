#pragma once
// The project's own files, read once.

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include "bank/read.hpp"
#include "grade/quiz_file.hpp"

namespace footroom::fuzz {

inline std::filesystem::path project() {
  return FOOTROOM_SOURCE_DIR;
}

inline std::string file_text(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

inline const bank::Bank& the_bank() {
  static const bank::Bank bank = bank::read_bank(project() / "questionbank").bank;
  return bank;
}

/// A quiz with every kind of question.
inline const grade::Quiz& the_quiz() {
  static const grade::Quiz quiz =
      grade::read_quiz(file_text(project() / "tests/golden/us-english/quiz.json"), "quiz.json");
  return quiz;
}

}  // namespace footroom::fuzz
