// What people write as an answer, and what is read: numbers from typed_answers.csv, letters here.

#include "grade/reading.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>

#include "grade/csv_lines.hpp"
#include "notation/unit.hpp"

namespace footroom::grade {
namespace {

void replace_all(std::string& text, const std::string& from, const std::string& to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

/// As the table has it: without marks for thousands, with a decimal point and plain spaces.
std::string plain(std::string text, char decimal_mark) {
  if (decimal_mark == '.') {
    replace_all(text, ",", "");
  } else {
    for (char digit = '0'; digit <= '9'; ++digit)
      replace_all(text, std::string("\u00a0") + digit, std::string(1, digit));
    replace_all(text, ",", ".");
  }
  replace_all(text, "\u00a0", " ");
  replace_all(text, "\u2212", "-");
  return text;
}

TEST(ReadNumber, AgreesWithTheTableOfTypedAnswers) {
  const auto rows = testing::csv_lines(FOOTROOM_SOURCE_DIR "/tests/grade/typed_answers.csv");
  ASSERT_GT(rows.size(), 200U);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const auto& row = rows[i];
    ASSERT_EQ(row.size(), 6U) << "line " << i + 1;
    SCOPED_TRACE("line " + std::to_string(i + 1) + ": " + row[2] + " as " + row[0]);
    const notation::Unit* asked = notation::find_unit(row[0]);
    ASSERT_TRUE(asked);
    notation::Style style;
    style.decimal_mark = row[1].at(0);
    const ReadNumber read = read_number(row[2], *asked, style);
    const auto* written = std::get_if<WrittenNumber>(&read);
    if (row[3] == "!") {
      EXPECT_FALSE(written) << "read as " << (written ? written->text : "");
      continue;
    }
    if (!written) {
      ADD_FAILURE() << std::get<Unreadable>(read).reason;
      continue;
    }
    EXPECT_EQ(plain(written->text, style.decimal_mark), row[3]);
    EXPECT_EQ(written->comparable, !row[4].empty());
    if (!row[4].empty()) {
      EXPECT_NEAR(written->value, std::stod(row[4]), 1e-6 * std::abs(written->value));
    }
  }
}

std::string reason(std::string_view typed, const char* unit, notation::Style style) {
  const auto read = read_number(typed, *notation::find_unit(unit), style);
  if (const auto* wrong = std::get_if<Unreadable>(&read)) return wrong->reason;
  return "read as " + std::get<WrittenNumber>(read).text;
}

TEST(ReadNumber, SaysWhyNothingWasRead) {
  notation::Style english;
  EXPECT_EQ(reason("twelve", "ft", english), "there is no number in it");
  EXPECT_EQ(reason("at least 12 ft", "ft", english), "words stand in front of the number");
  EXPECT_EQ(reason("12 foots", "ft", english), "“foots” is no unit; was “ft” meant?");
  EXPECT_EQ(reason("12 zzzzzzzzz", "ft", english), "“zzzzzzzzz” is no unit");
  EXPECT_EQ(reason("12 or 13 ft", "ft", english), "it is not one number with its unit");
  EXPECT_EQ(reason("1,23,4", "ft", english), "its commas and points do not make a number");
  EXPECT_EQ(reason("1.8k", "kN", english), "k may mean kN or a thousand");
  EXPECT_EQ(reason(std::string(10'000'000, '9'), "ft", english),
            "it is longer than 200 characters");
  notation::Style spanish;
  spanish.language = engine::Language::spanish;
  EXPECT_EQ(reason("doce", "ft", spanish), "no tiene ningún número");
  EXPECT_EQ(reason("más de 12 pies", "ft", spanish), "hay palabras delante del número");
  EXPECT_EQ(reason("12 metross", "m", spanish), "“metross” no es una unidad; ¿se quiso decir “m”?");
}

quiz::Question question(quiz::Kind kind, int options) {
  quiz::Question made;
  made.kind = kind;
  for (int i = 0; i < options; ++i) {
    quiz::Option option;
    option.letter = std::string(1, static_cast<char>('A' + i));
    option.id = "option-" + option.letter;
    option.text = "Text " + option.letter;
    option.place = i + 1;
    made.options.push_back(option);
  }
  return made;
}

/// The letters one behind the other, or the reason in brackets.
std::string letters(std::string_view typed, const quiz::Question& asked,
                    notation::Style style = {}) {
  const auto read = read_letters(typed, asked, style);
  if (const auto* wrong = std::get_if<Unreadable>(&read)) return "(" + wrong->reason + ")";
  std::string all;
  for (const auto& letter : std::get<std::vector<std::string>>(read)) all += letter;
  return all;
}

TEST(ReadLetters, OfOneRightOption) {
  const auto asked = question(quiz::Kind::one_of, 4);
  for (const char* typed :
       {"b", "B", " b ", "b)", "(B)", "B.", "b) ", "[b]", "option B", "Opción b", "OPCIÓN B",
        "letra b", "\"B\"", "b.)", "B B", "*B*", "answer: B", "text b", "Text B"})
    EXPECT_EQ(letters(typed, asked), "B") << typed;
  EXPECT_EQ(letters("a, c", asked), "(it has 2 letters, expected 1)");
  EXPECT_EQ(letters("AC", asked), "(it has 2 letters, expected 1)");
  EXPECT_EQ(letters("E", asked), "(“E” is no option, expected A to D)");
  EXPECT_EQ(letters("2", asked), "(“2” is no option, expected A to D)");
  EXPECT_EQ(letters("B!", asked), "(expected letters from A to D)");
  EXPECT_EQ(letters("yes", asked),
            "(“yes” does not say which option is meant, expected its letter)");
  EXPECT_EQ(letters("...", asked), "(it has 0 letters, expected 1)");
}

TEST(ReadLetters, OfSeveralRightOptions) {
  const auto asked = question(quiz::Kind::several_of, 5);
  for (const char* typed : {"a, c", "A C", "AC", "ac", "a;c", "A/C", "A & C", "A and C", "A y C",
                            "A,C,", "a c a", "(a) (c)", "A + C", "A-C", "A.C.", "A\nC", "A|C"})
    EXPECT_EQ(letters(typed, asked), "AC") << typed;
  EXPECT_EQ(letters("c a", asked), "CA");
  EXPECT_EQ(letters("ACE", asked), "ACE");
  EXPECT_EQ(letters("bad", asked), "BAD");
  EXPECT_EQ(letters("none", asked), "");
  EXPECT_EQ(letters("Ninguna", asked), "");
  EXPECT_EQ(letters("AA", asked), "(“AA” is no option, expected A to E)");
  EXPECT_EQ(letters("A, F", asked), "(“F” is no option, expected A to E)");
  EXPECT_EQ(letters("all", asked), "(“ALL” is no option, expected A to E)");
  notation::Style spanish;
  spanish.language = engine::Language::spanish;
  EXPECT_EQ(letters("A, F", asked, spanish), "(“F” no es una opción, se espera de A a E)");
}

TEST(ReadLetters, OfAnOrder) {
  const auto asked = question(quiz::Kind::order, 4);
  for (const char* typed :
       {"B A D C", "b a d c", "BADC", "B,A,D,C", "B>A>D>C", "B → A → D → C", "B-A-D-C",
        "1B 2A 3D 4C", "1. B, 2. A, 3. D, 4. C", "1) b 2) a 3) d 4) c", "B then A then D then C",
        "B, luego A, luego D, luego C", "(B, A, D, C)"})
    EXPECT_EQ(letters(typed, asked), "BADC") << typed;
  EXPECT_EQ(letters("B A D", asked), "(it has 3 letters, expected 4)");
  EXPECT_EQ(letters("B A D B", asked), "(a letter stands in it twice)");
  EXPECT_EQ(letters("2B 1A 3D 4C", asked), "(“2” is no option, expected A to D)");
  EXPECT_EQ(letters("B<A<D<C", asked), "(expected letters from A to D)");
  EXPECT_EQ(letters(std::string(5000, 'A'), asked), "(it is longer than 200 characters)");
}

TEST(ReadLetters, YesAndNoWhereOneOptionBeginsWithThem) {
  auto asked = question(quiz::Kind::verdict, 3);
  asked.options[0].text = "Yes: 3 ft to spare.";
  asked.options[1].text = "No: 2 ft are missing.";
  asked.options[2].text = "No: 9 ft are missing.";
  EXPECT_EQ(letters("Yes", asked), "A");
  EXPECT_EQ(letters("sí", asked), "A");
  EXPECT_EQ(letters("no", asked), "(“no” does not say which option is meant, expected its letter)");
  asked.options[0].text = "Sí: sobran 3 pies.";
  asked.options[2].text = "Nobody can say.";
  EXPECT_EQ(letters("SÍ", asked), "A");
  EXPECT_EQ(letters("si", asked), "A");
  EXPECT_EQ(letters("No", asked), "B");
  EXPECT_EQ(letters("no: 2 ft are missing.", asked), "B");
}

TEST(NoAnswer, IsNothingADashOrAQuestionMark) {
  for (const char* typed : {"", " ", "-", "—", "\u00a0", "?", "??", "- -", "\t"})
    EXPECT_TRUE(is_no_answer(typed)) << typed;
  for (const char* typed : {"0", "A", "none", "-2", "."})
    EXPECT_FALSE(is_no_answer(typed)) << typed;
}

}  // namespace
}  // namespace footroom::grade
