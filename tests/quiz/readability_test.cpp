#include "quiz/readability.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <string>
#include <vector>

#include "quiz/syllables.hpp"

namespace footroom::quiz {
namespace {

using engine::Language;

/// Rows "word,syllables" below a comment and a head.
void expect_rows(const std::string& file, std::size_t at_least, int (*count)(std::string_view)) {
  std::ifstream rows(std::string(FOOTROOM_SOURCE_DIR) + "/tests/quiz/" + file);
  std::size_t read = 0;
  for (std::string row; std::getline(rows, row);) {
    if (row.starts_with("#") || row == "word,syllables") continue;
    const auto comma = row.find(',');
    ASSERT_NE(comma, row.npos) << row;
    EXPECT_EQ(count(row.substr(0, comma)), std::stoi(row.substr(comma + 1))) << row;
    ++read;
  }
  EXPECT_GE(read, at_least);
}

TEST(Syllables, OfEnglishAgreeWithADictionary) {
  expect_rows("syllables-en.csv", 250, english_syllables);
}
TEST(Syllables, OfSpanishAgreeWithASyllabifier) {
  expect_rows("syllables-es.csv", 300, spanish_syllables);
}
TEST(Syllables, KnowCapitalsAndWhatIsNoWord) {
  EXPECT_EQ(english_syllables("Anchor's"), 2);
  EXPECT_EQ(english_syllables("D"), 1);
  EXPECT_EQ(english_syllables("..."), 0);
  EXPECT_EQ(spanish_syllables("ÁNGULO"), 3);
  EXPECT_EQ(spanish_syllables("D"), 1);
  EXPECT_EQ(spanish_syllables("Á"), 1);
  EXPECT_EQ(spanish_syllables("\xC3"), 1);  // cut short: no harm
  EXPECT_EQ(spanish_syllables(""), 0);
}

TEST(Readability, CountsSentencesWordsAndSyllables) {
  const Readability plain({}, Language::english);
  const auto expect = [&](const char* text, int sentences, int words, int syllables) {
    const TextSize size = plain.size(text);
    EXPECT_EQ(size.sentences, sentences) << text;
    EXPECT_EQ(size.words, words) << text;
    EXPECT_EQ(size.syllables, syllables) << text;
  };
  expect("The cat sat on the mat. It slept!", 2, 8, 8);
  expect("Is it **long** (or short)? No", 2, 6, 6);
  // A number with its unit, joined by a no-break space, is one word of two syllables.
  expect("Walk 4.5\u00A0ft to the anchor.", 1, 5, 7);
  expect("The pitch is 6:12.\n\nHow far\ndoes it fall?", 2, 9, 10);
  expect("Mark one:\n\n- a rope\n- a net", 3, 6, 6);
  expect("", 0, 0, 0);
  expect("-- ... 7", 1, 1, 2);
}

TEST(Readability, CountsATradeTermAsOnePlainWord) {
  const std::vector<bank::Text> terms = {{"energy absorber", "absorbedor de energía", {}},
                                         {"absorber", "absorbedor", {}}};
  const Readability english(terms, Language::english);
  EXPECT_EQ(english.size("Energy absorbers open.").words, 2);
  EXPECT_EQ(english.size("Energy absorbers open.").syllables, 4);
  EXPECT_EQ(english.size("The absorber. Energy.").words, 3);
  EXPECT_EQ(english.size("Save energy. Absorbers open.").words, 4);  // two sentences
  const Readability spanish(terms, Language::spanish);
  EXPECT_EQ(spanish.size("Los absorbedores de energía se abren.").words, 4);
  EXPECT_EQ(spanish.size("Los absorbedores de energía se abren.").syllables, 1 + 2 + 1 + 2);
}

TEST(Readability, FollowsThePublishedFormulas) {
  const TextSize size{2, 20, 30};
  EXPECT_NEAR(school_grade(size), 0.39 * 10 + 11.8 * 1.5 - 15.59, 1e-12);
  EXPECT_NEAR(reading_ease(size), 206.84 - 60 * 1.5 - 1.02 * 10, 1e-12);
  EXPECT_TRUE(std::isnan(school_grade({})));
  EXPECT_TRUE(std::isnan(reading_ease({})));
}

}  // namespace
}  // namespace footroom::quiz
