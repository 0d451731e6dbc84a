#include "quiz/syllables.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

namespace footroom::quiz {
namespace {

// ---- English -----------------------------------------------------------------------------------

struct Exception {
  std::string_view word;
  int syllables;
};
/// Words, mostly compounds with a silent e inside, that the rules below miss.
constexpr std::array exceptions{
    Exception{"area", 3},        Exception{"areas", 3},      Exception{"baseline", 2},
    Exception{"coefficient", 4}, Exception{"cosine", 2},     Exception{"everybody", 4},
    Exception{"everyone", 3},    Exception{"everything", 3}, Exception{"experience", 4},
    Exception{"fascia", 2},      Exception{"foreman", 2},    Exception{"hour", 2},
    Exception{"hours", 2},       Exception{"lifeline", 2},   Exception{"lifelines", 2},
    Exception{"people", 2},      Exception{"ratio", 3},      Exception{"require", 3},
    Exception{"required", 3},    Exception{"requires", 3},   Exception{"safety", 2},
    Exception{"sideways", 2},    Exception{"somebody", 3},   Exception{"someone", 2},
    Exception{"something", 2},   Exception{"sometimes", 2},  Exception{"statement", 2},
    Exception{"statements", 2},
};

class EnglishWord {
 public:
  explicit EnglishWord(std::string_view word) {
    for (const char c : word) {
      if (c >= 'a' && c <= 'z') letters_ += c;
      if (c >= 'A' && c <= 'Z') letters_ += static_cast<char>(c - 'A' + 'a');
    }
  }

  int syllables() const {
    if (letters_.empty()) return 0;
    for (const Exception& exception : exceptions)
      if (exception.word == letters_) return exception.syllables;
    return std::max(vowel_groups() - silent_endings() + vowels_apart(), 1);
  }

 private:
  char at(std::size_t i) const { return i < letters_.size() ? letters_[i] : '\0'; }
  char from_end(std::size_t i) const { return at(letters_.size() - i); }
  bool ends(std::string_view with) const { return letters_.ends_with(with); }
  static bool one_of(char c, std::string_view letters) {
    return c != '\0' && letters.find(c) != letters.npos;
  }
  /// A y between two vowels is a consonant: "beyond".
  bool is_vowel(std::size_t i) const {
    if (at(i) == 'y' && i > 0) return !one_of(at(i - 1), "aeiou") || !one_of(at(i + 1), "aeiou");
    return one_of(at(i), "aeiouy");
  }
  bool is_consonant_from_end(std::size_t i) const {
    return letters_.size() >= i && !one_of(from_end(i), "aeiouy");
  }

  int vowel_groups() const {
    int groups = 0;
    for (std::size_t i = 0; i < letters_.size(); ++i)
      if (is_vowel(i) && (i == 0 || !is_vowel(i - 1))) ++groups;
    return groups;
  }

  /// "slope", "slopes", "used"; but "staple", "edges", "fitted", "doubled".
  int silent_endings() const {
    const auto syllabic_l = [&](std::size_t l) {
      return from_end(l) == 'l' && is_consonant_from_end(l + 1) && from_end(l + 1) != 'l' &&
             from_end(l + 1) != 'r';
    };
    if (ends("e")) return is_consonant_from_end(2) && !syllabic_l(2) ? 1 : 0;
    if (ends("es")) {
      const bool sounded = one_of(from_end(3), "sxzcg") || ends("ches") || ends("shes");
      return is_consonant_from_end(3) && !sounded && !syllabic_l(3) ? 1 : 0;
    }
    if (ends("ed"))
      return is_consonant_from_end(3) && !one_of(from_end(3), "td") && !syllabic_l(3) ? 1 : 0;
    return 0;
  }

  /// Vowels of one group that are spoken apart.
  int vowels_apart() const {
    int apart = 0;
    for (std::size_t i = 0; i + 1 < letters_.size(); ++i) {
      const char before = i > 0 ? at(i - 1) : '\0';
      const char third = at(i + 2);
      const std::string_view pair = std::string_view(letters_).substr(i, 2);
      if (pair == "ia") apart += !one_of(before, "ctsg");                    // material
      if (pair == "io" && third != 'u') apart += !one_of(before, "csgxt");   // various is below
      if (pair == "io" && third == 'u') apart += one_of(before, "lvrbmnd");  // various
      if (pair == "ua") apart += before != 'q' && one_of(third, "lt");       // manual
      if (pair == "uo") apart += third == 'u';                               // continuous
      if (pair == "eo") apart += third != 'o' && (third != 'u' || at(i + 3) == 's');  // video
      if (pair == "iu") apart += third == 'm';                                        // medium
      if (one_of(at(i), "aeouy") && is_vowel(i) && at(i + 1) == 'i')
        apart += third == 'n' && at(i + 3) == 'g' && i + 4 == letters_.size();  // going
    }
    if ((ends("ier") && is_consonant_from_end(4)) || (ends("iest") && is_consonant_from_end(5)))
      apart += vowel_groups() > 1;  // easier
    if (ends("sm") || ends("sms")) ++apart;
    return apart;
  }

  std::string letters_;
};

// ---- Spanish -----------------------------------------------------------------------------------

enum class Sound { strong, weak, stressed_weak, silent, consonant };

/// The letters with a mark of their own, in small and in capital form.
constexpr std::array<std::pair<std::string_view, Sound>, 12> marked{{
    {"á", Sound::strong},
    {"é", Sound::strong},
    {"ó", Sound::strong},
    {"í", Sound::stressed_weak},
    {"ú", Sound::stressed_weak},
    {"ü", Sound::weak},
    {"Á", Sound::strong},
    {"É", Sound::strong},
    {"Ó", Sound::strong},
    {"Í", Sound::stressed_weak},
    {"Ú", Sound::stressed_weak},
    {"Ü", Sound::weak},
}};

struct Letter {
  Sound sound;
  char plain;  ///< small; '\0' for a marked letter
};

std::vector<Letter> spanish_letters(std::string_view word) {
  std::vector<Letter> letters;
  while (!word.empty()) {
    const auto lead = static_cast<unsigned char>(word.front());
    if (lead < 0x80) {
      const char c =
          lead >= 'A' && lead <= 'Z' ? static_cast<char>(lead - 'A' + 'a') : word.front();
      const bool strong = c == 'a' || c == 'e' || c == 'o';
      if (c >= 'a' && c <= 'z')
        letters.push_back({strong                 ? Sound::strong
                           : c == 'i' || c == 'u' ? Sound::weak
                                                  : Sound::consonant,
                           c});
      word.remove_prefix(1);
      continue;
    }
    const std::string_view two = word.substr(0, 2);
    const auto found = std::find_if(marked.begin(), marked.end(),
                                    [&](const auto& entry) { return entry.first == two; });
    letters.push_back({found == marked.end() ? Sound::consonant : found->second, '\0'});
    word.remove_prefix(two.size());
  }
  return letters;
}

bool is_front(const std::vector<Letter>& letters, std::size_t i) {
  return i < letters.size() && (letters[i].plain == 'e' || letters[i].plain == 'i' ||
                                (letters[i].plain == '\0' && letters[i].sound != Sound::consonant));
}

/// The u of que, gui and the like is silent, an h too, and a y at the end or alone is an i.
void hush(std::vector<Letter>& letters) {
  for (std::size_t i = 0; i < letters.size(); ++i) {
    Letter& letter = letters[i];
    const char before = i > 0 ? letters[i - 1].plain : '\0';
    if (letter.plain == 'u' && (before == 'q' || (before == 'g' && is_front(letters, i + 1))))
      letter.sound = Sound::silent;
    if (letter.plain == 'h' && before != 'c') letter.sound = Sound::silent;
    if (letter.plain == 'y' && i + 1 == letters.size()) letter.sound = Sound::weak;
  }
}

}  // namespace

int english_syllables(std::string_view word) {
  return EnglishWord(word).syllables();
}

int spanish_syllables(std::string_view word) {
  std::vector<Letter> letters = spanish_letters(word);
  hush(letters);
  int syllables = 0;
  bool in_syllable = false;    // the letter before, if sounded, was a vowel
  bool has_strong = false;     // of this syllable
  bool ends_stressed = false;  // its last vowel is í or ú
  char weak_before = '\0';
  for (const Letter& letter : letters) {
    if (letter.sound == Sound::silent) continue;
    if (letter.sound == Sound::consonant) {
      in_syllable = false;
      continue;
    }
    const bool strong = letter.sound == Sound::strong;
    const bool stressed = letter.sound == Sound::stressed_weak;
    const bool apart = !in_syllable || (strong && (has_strong || ends_stressed)) ||
                       (stressed && has_strong) ||
                       (letter.sound == Sound::weak && weak_before == letter.plain);
    if (apart) {
      ++syllables;
      has_strong = false;
    }
    has_strong = has_strong || strong;
    ends_stressed = stressed;
    weak_before = letter.sound == Sound::weak ? letter.plain : '\0';
    in_syllable = true;
  }
  return letters.empty() ? 0 : std::max(syllables, 1);  // "D" is said as its name
}

}  // namespace footroom::quiz
