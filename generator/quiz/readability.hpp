#pragma once
// How hard a text is to read, by published formulas.
//
// Words and syllables: a number with its unit ("16 ft", "6:12") and a trade term each count as one
// plain word of two syllables, since a worker reads them as one thing; a word with a hyphen counts
// as one word. A sentence ends at a full stop, a question or exclamation mark, and at the end of a
// paragraph or list entry.

#include <string>
#include <string_view>
#include <vector>

#include "bank/item.hpp"
#include "engine/text.hpp"

namespace footroom::quiz {

struct TextSize {
  int sentences = 0;
  int words = 0;
  int syllables = 0;
};

class Readability {
 public:
  Readability(const std::vector<bank::Text>& trade_terms, engine::Language language);

  /// Of a text in Markdown with its values filled in. A trade term is found in the plural too (-s
  /// or -es behind any of its words).
  TextSize size(std::string_view text) const;

 private:
  engine::Language language_;
  std::vector<std::vector<std::string>> terms_;  ///< in words, those of more words first
};

/// Flesch-Kincaid grade level, years of US school: 0.39 words per sentence + 11.8 syllables per
/// word - 15.59 (Kincaid, Fishburne, Rogers, Chissom, "Derivation of new readability formulas for
/// Navy enlisted personnel", Research Branch Report 8-75, 1975; second hand). NaN without words.
double school_grade(const TextSize& size);
inline constexpr double highest_grade = 8;

/// Fernández Huerta's ease of reading, 0 to 100: 206.84 - 60 syllables per word - 1.02 words per
/// sentence (Fernández Huerta, "Medidas sencillas de lecturabilidad", Consigna 214, 1959; second
/// hand). As printed there, the last term reads as sentences per hundred words, which would make
/// long sentences easy; Law ("Error in the Fernández Huerta readability formula", 2011; from
/// memory) shows that words per sentence are meant, as in Flesch's formula, and so they are taken
/// here. 70 to 80 is "fairly easy". NaN without words.
double reading_ease(const TextSize& size);
inline constexpr double lowest_ease = 70;

}  // namespace footroom::quiz
