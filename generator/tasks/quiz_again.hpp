#pragma once
// Making a quiz, or one of its sheets, again from its quiz.json.

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "grade/quiz_file.hpp"
#include "quiz/maker.hpp"

namespace footroom::tasks {

class QuizAgain {
 public:
  /// `place` is a quiz.json or the folder with one. Throws Failure.
  explicit QuizAgain(const std::filesystem::path& place);

  const grade::Quiz& quiz() const { return quiz_; }

  /// The index of the sheet that a code names, "7K3QX-B", in capitals or not. Throws Failure.
  int sheet_named(const std::string& code) const;

  /// Throws Failure where the bank is another one.
  quiz::Maker maker(const bank::Bank& bank, const std::vector<quiz::Swap>& swaps = {}) const;

  /// Throws Failure where `sheet` is not what the file says, to the last digit; `program` is the
  /// version that runs.
  void check(const quiz::Sheet& sheet, int index, const std::string& program) const;

 private:
  std::string file_;
  grade::Quiz quiz_;
  nlohmann::json json_;
};

}  // namespace footroom::tasks
