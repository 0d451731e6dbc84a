#include "quiz/readability.hpp"

#include <algorithm>
#include <limits>

#include "quiz/syllables.hpp"

namespace footroom::quiz {
namespace {

/// Of a trade term, or a number with its unit.
constexpr int plain_syllables = 2;

struct Word {
  std::string text;  ///< in small letters (those of ASCII), without marks around it
  bool is_number = false;
  bool ends_sentence = false;
};

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// Marks around words beyond ASCII, all of two or three bytes.
constexpr std::string_view marks[] = {"¿", "¡", "«", "»", "“", "”", "‘", "’", "…", "–", "—", "−"};

/// Cuts marks off the front and back; true where one behind ends a sentence.
bool strip(std::string_view& token) {
  const auto is_mark = [](char c) {
    return static_cast<unsigned char>(c) < 0x80 && !is_digit(c) && !(c >= 'a' && c <= 'z') &&
           !(c >= 'A' && c <= 'Z');
  };
  bool ends = false;
  for (bool more = true; more && !token.empty();) {
    more = false;
    if (is_mark(token.front())) {
      token.remove_prefix(1);
      more = true;
    } else if (is_mark(token.back())) {
      ends = ends || std::string_view(".?!").find(token.back()) != std::string_view::npos;
      token.remove_suffix(1);
      more = true;
    }
    for (const std::string_view mark : marks) {
      if (token.starts_with(mark)) {
        token.remove_prefix(mark.size());
        more = true;
      }
      if (token.ends_with(mark)) {
        ends = ends || mark == "…";
        token.remove_suffix(mark.size());
        more = true;
      }
    }
  }
  return ends;
}

/// Numbers are joined to their units by no-break spaces, which do not part words here.
std::vector<Word> words_of(std::string_view text) {
  std::vector<Word> words;
  const auto end_sentence = [&] {
    if (!words.empty()) words.back().ends_sentence = true;
  };
  int line_ends = 0;
  while (!text.empty()) {
    if (text.front() == ' ' || text.front() == '\n') {
      line_ends += text.front() == '\n';
      text.remove_prefix(1);
      continue;
    }
    std::string_view token = text.substr(0, text.find_first_of(" \n"));
    text.remove_prefix(token.size());
    const bool list_entry = line_ends > 0 && (token == "-" || token == "*");
    if (line_ends > 1 || list_entry) end_sentence();
    line_ends = 0;
    const bool ends = strip(token);
    if (!token.empty()) {
      Word word{std::string(token), is_digit(token.front()), false};
      for (char& c : word.text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
      words.push_back(std::move(word));
    }
    if (ends) end_sentence();
  }
  end_sentence();
  return words;
}

bool is_form_of(const std::string& word, const std::string& base) {
  return word == base || word == base + "s" || word == base + "es";
}

/// How many words from `at` on the term takes, or 0.
std::size_t match(const std::vector<Word>& words, std::size_t at,
                  const std::vector<std::string>& term) {
  if (at + term.size() > words.size()) return 0;
  for (std::size_t i = 0; i < term.size(); ++i) {
    if (!is_form_of(words[at + i].text, term[i])) return 0;
    if (words[at + i].ends_sentence && i + 1 < term.size()) return 0;
  }
  return term.size();
}

}  // namespace

Readability::Readability(const std::vector<bank::Text>& trade_terms, engine::Language language)
    : language_(language) {
  for (const bank::Text& term : trade_terms) {
    terms_.emplace_back();
    for (const Word& word :
         words_of(language == engine::Language::english ? term.english : term.spanish))
      terms_.back().push_back(word.text);
  }
  std::stable_sort(terms_.begin(), terms_.end(),
                   [](const auto& a, const auto& b) { return a.size() > b.size(); });
}

TextSize Readability::size(std::string_view text) const {
  const std::vector<Word> words = words_of(text);
  TextSize size;
  for (std::size_t i = 0; i < words.size();) {
    std::size_t taken = 0;
    for (const auto& term : terms_)
      if (taken == 0) taken = match(words, i, term);
    if (taken > 0 || words[i].is_number)
      size.syllables += plain_syllables;
    else
      size.syllables += language_ == engine::Language::english ? english_syllables(words[i].text)
                                                               : spanish_syllables(words[i].text);
    i += std::max<std::size_t>(taken, 1);
    ++size.words;
    if (words[i - 1].ends_sentence) ++size.sentences;
  }
  return size;
}

double school_grade(const TextSize& size) {
  if (size.words == 0) return std::numeric_limits<double>::quiet_NaN();
  const double words_per_sentence = static_cast<double>(size.words) / size.sentences;
  const double syllables_per_word = static_cast<double>(size.syllables) / size.words;
  return 0.39 * words_per_sentence + 11.8 * syllables_per_word - 15.59;
}

double reading_ease(const TextSize& size) {
  if (size.words == 0) return std::numeric_limits<double>::quiet_NaN();
  const double words_per_sentence = static_cast<double>(size.words) / size.sentences;
  const double syllables_per_word = static_cast<double>(size.syllables) / size.words;
  return 206.84 - 60 * syllables_per_word - 1.02 * words_per_sentence;
}

}  // namespace footroom::quiz
