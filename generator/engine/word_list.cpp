#include "engine/word_list.hpp"

#include <utility>

namespace footroom::engine {

Words split_words(std::string_view text) {
  Words words;
  std::string word;
  for (const char c : text) {
    if (c != ' ' && c != ',') {
      word += c;
    } else if (!word.empty()) {
      words.push_back({std::exchange(word, {})});
    }
  }
  if (!word.empty()) words.push_back({word});
  return words;
}

}  // namespace footroom::engine
