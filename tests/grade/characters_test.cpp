// What sheets filled in by hand, phones and word processors put in place of plain characters.

#include "grade/characters.hpp"

#include <gtest/gtest.h>

#include <utility>
#include <vector>

namespace footroom::grade {
namespace {

TEST(PlainTyping, ExchangesWhatLooksAlike) {
  const std::vector<std::pair<const char*, const char*>> rows{
      {"12\u00a0ft", "12 ft"},
      {"12\u2002ft", "12 ft"},
      {"12\u2003ft", "12 ft"},
      {"12\u2007ft", "12 ft"},
      {"12\u2008ft", "12 ft"},
      {"12\u2009ft", "12 ft"},
      {"12\u200aft", "12 ft"},
      {"12\u202fft", "12 ft"},
      {"12\u3000ft", "12 ft"},
      {"12\tft", "12 ft"},
      {"12\nft", "12 ft"},
      {"12\rft", "12 ft"},
      {"1\u200b2", "12"},
      {"1\u200e2", "12"},
      {"1\u200f2", "12"},
      {"1\u20602", "12"},
      {"\ufeff12", "12"},
      {"\u20103", "-3"},
      {"\u20113", "-3"},
      {"\u20123", "-3"},
      {"\u20133", "-3"},
      {"\u20143", "-3"},
      {"\u22123", "-3"},
      {"\ufe633", "-3"},
      {"\uff0d3", "-3"},
      {"12\u2018", "12'"},
      {"12\u2019", "12'"},
      {"12\u00b4", "12'"},
      {"12\u2032", "12'"},
      {"12`", "12'"},
      {"6\u201c", "6\""},
      {"6\u201d", "6\""},
      {"6\u2033", "6\""},
      {"6''", "6\""},
      {"6\u2019\u2019", "6\""},
      {"6\u2032\u2032", "6\""},
      {"1\u20442", "1/2"},
      {"6\u223612", "6:12"},
      {"6\u00bd", "6 1/2"},
      {"6\u00bc", "6 1/4"},
      {"6\u00be", "6 3/4"},
      {"6\u215b", "6 1/8"},
      {"6\u215c", "6 3/8"},
      {"6\u215d", "6 5/8"},
      {"6\u215e", "6 7/8"},
      {"  12 ft  ", "12 ft"},
      {"\u00a012 ft\t", "12 ft"},
      {"", ""},
      {"   ", ""},
      {"a'b", "a'b"},
      {"ñandú", "ñandú"},
  };
  for (const auto& [typed, plain] : rows) EXPECT_EQ(plain_typing(typed), plain) << typed;
}

TEST(LowerCase, OfEnglishAndSpanishLetters) {
  EXPECT_EQ(lower_case("AZaz09[@`{"), "azaz09[@`{");
  EXPECT_EQ(lower_case("ÁÉÍÓÚÜÑ"), "áéíóúüñ");
  EXPECT_EQ(lower_case("áé Ö"), "áé Ö");
}

TEST(IsBlank, NothingButSpaces) {
  for (const char* typed : {"", " ", "\t\n", "\u00a0\u200b"}) EXPECT_TRUE(is_blank(typed));
  for (const char* typed : {"-", " 0 ", "\u00bd"}) EXPECT_FALSE(is_blank(typed));
}

TEST(Characters, DigitsAndLettersEndWhereTheyEnd) {
  for (const char c : {'0', '5', '9'}) EXPECT_TRUE(is_digit(c)) << c;
  for (const char c : {'/', ':', 'a'}) EXPECT_FALSE(is_digit(c)) << c;
  for (const char c : {'a', 'z', 'A', 'Z', '\xc3', '\x80', '\xff'}) EXPECT_TRUE(is_letter(c)) << c;
  for (const char c : {'`', '{', '@', '[', '0', ' ', '\x7f'}) EXPECT_FALSE(is_letter(c)) << c;
}

TEST(CutShort, NeverCutsACharacter) {
  EXPECT_EQ(cut_short("abcdef", 6), "abcdef");
  EXPECT_EQ(cut_short("abcdefg", 6), "abc…");
  // "é" has two bytes; the second would be the fourth.
  EXPECT_EQ(cut_short("abédefg", 6), "ab…");
  EXPECT_EQ(cut_short("aébdefg", 6), "aé…");
  EXPECT_EQ(cut_short("ééé", 5), "é…");
  EXPECT_EQ(cut_short("\u2026\u2026", 4), "…");
  EXPECT_EQ(cut_short("abcd", 3), "…");
}

}  // namespace
}  // namespace footroom::grade
