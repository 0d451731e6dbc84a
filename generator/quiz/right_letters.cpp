#include "quiz/right_letters.hpp"

namespace footroom::quiz {

std::vector<std::string> right_letters(const Question& question) {
  std::vector<std::string> letters;
  if (question.kind != Kind::order) {
    for (const Option& option : question.options)
      if (option.right) letters.push_back(option.letter);
    return letters;
  }
  for (std::size_t place = 1; place <= question.options.size(); ++place)
    for (const Option& option : question.options)
      if (option.place == static_cast<int>(place)) letters.push_back(option.letter);
  return letters;
}

}  // namespace footroom::quiz
