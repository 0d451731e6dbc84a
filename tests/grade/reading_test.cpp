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

// Where a rule of reading.hpp ends: one step further another one holds, or none.
TEST(ReadNumber, AtTheEdgesOfItsRules) {
  struct Row {
    const char* asked;
    const char* typed;
    const char* read;  ///< "!": unreadable
  };
  const Row rows[] = {
      // Spaces part thousands only where three digits follow one to three, and no fraction.
      {"ft", "123 456 ft", "123456 ft"},
      {"ft", "1234 567 ft", "!"},
      {"ft", ".5 123 ft", "!"},
      {"ft", "1 800,5 ft", "1800.5 ft"},
      {"ft", "1 800 50 ft", "!"},
      {"ft", "1,234 567 ft", "!"},
      {"ft", "1 8000 ft", "!"},
      {"ft", "1 234.567,8 ft", "!"},
      {"ft", "6 ,5 ft", "!"},
      {"ft", "1 800", "1800"},
      {"in", "6 100/200 in", "6.5 in"},
      {"in", "6 100/20 in", "!"},
      // A group begins with no 0 alone, and has one to three digits in front.
      {"ft", "123,456 ft", "123456 ft"},
      {"ft", "0,500 ft", "0.5 ft"},
      {"ft", "000,500 ft", "0.5 ft"},
      {"ft", "010,500 ft", "10500 ft"},
      {"ft", ",500 ft", "0.5 ft"},
      {"ft", "1,8005 ft", "1.8005 ft"},
      {"ft", "1,234,567.25 ft", "1234567.25 ft"},
      {"ft", "1,234.567,8 ft", "!"},
      {"ft", "1.234.567,25 ft", "1234567.25 ft"},
      {"ft", "1,2345.5 ft", "!"},
      {"ft", "1234,567,890 ft", "!"},
      {"ft", "1,234,56 ft", "!"},
      {"ft", "0,123,456 ft", "!"},
      // A mark behind a number ends it; one between words parts them.
      {"ft", "12. ft", "12 ft"},
      {"ft", "12, ft", "12 ft"},
      {"ft", "12 ft, 6 in", "12 ft 6 in"},
      {"ft", "12 ft.;,", "12 ft"},
      {"ft", "x.5 ft", "!"},
      {"ft", "-.5 ft", "-0.5 ft"},
      // A k is a thousand where it ends or a space follows.
      {"ft", "1.8k ft", "1800 ft"},
      {"ft", "1.8K", "1800"},
      {"ft", "2k", "2000"},
      {"N", "1.8 kN", "1.8 kN"},
      {"N", "1.8k", "1800"},
      {"kN", "1.8k N", "1800 N"},
      {"ft", "2kg", "2 kg"},
      // Behind the last sign that says equal.
      {"ft", "x = 11 ft = 12 ft", "12 ft"},
      {"ft", "x \u2248 12 ft", "12 ft"},
      {"ft", "x = 11 \u2248 12 ft", "12 ft"},
      {"ft", "=", "!"},
      {"ft", "~12 ft", "12 ft"},
      {"ft", "ca 12 ft", "12 ft"},
      {"ft", "CA. 12 ft", "12 ft"},
      {"ft", "aprox.12 ft", "12 ft"},
      {"ft", "cables 12 ft", "!"},
      {"ft", "about", "!"},
      {"ft", "about about 12 ft", "!"},
      // Feet alone may have inches without a name.
      {"ft", "12' 6", "12 ft 6 in"},
      {"ft", "12 ft 6 1/2", "12 ft 6-1/2 in"},
      {"ft", "12'-6 1/2", "12 ft 6-1/2 in"},
      {"ft", "12 ft 1/2", "12 ft 1/2 in"},
      {"ft", "3 m 6", "!"},
      {"ft", "12 xx 6", "!"},
      {"ft", "6-", "!"},
      {"ft", " - 6 1/2 /", "!"},
      {"ft", "12 ft 13", "!"},
      // The case of a unit does not matter where no other unit is meant.
      {"m", "6 M", "6 m"},
      {"N", "1800 n", "1800 N"},
      {"kN", "6 KN", "6 kN"},
      {"MPa", "2 mpa", "!"},
      // One word behind a plain number.
      {"", "12 nails", "12"},
      {"", "12 1/2 nails", "12.5"},
      {"", "nails", "!"},
      {"", "12 nails 3", "!"},
      {"", "-3 clavos", "-3"},
      // Slopes.
      {"pitch", "6/12", "6:12"},
      {"pitch", "6", "6"},
      {"pitch", "6:12", "6:12"},
      {"deg", "6/12", "6:12"},
      {"deg", "30", "30"},
  };
  for (const Row& row : rows) {
    const auto read = read_number(row.typed, *notation::find_unit(row.asked), {});
    const auto* written = std::get_if<WrittenNumber>(&read);
    if (row.read == std::string("!")) {
      EXPECT_FALSE(written) << row.typed << " is read as " << (written ? written->text : "");
    } else if (!written) {
      ADD_FAILURE() << row.typed << ": " << std::get<Unreadable>(read).reason;
    } else {
      EXPECT_EQ(plain(written->text, '.'), row.read) << row.typed;
    }
  }
}

// 200 bytes are read, 201 are not.
TEST(ReadNumber, OfTwoHundredBytesAtMost) {
  const std::string spaces(196, ' ');
  EXPECT_TRUE(std::holds_alternative<WrittenNumber>(
      read_number(spaces + "1 ft", *notation::find_unit("ft"), {})));
  EXPECT_EQ(
      std::get<Unreadable>(read_number(spaces + "12 ft", *notation::find_unit("ft"), {})).reason,
      "it is longer than 200 characters");
}

// In the asked unit; a k counts in it too, and a slope is one whatever it is written as.
TEST(ReadNumber, ValuesInTheAskedUnit) {
  const auto written = [](const char* typed, const char* unit) {
    return std::get<WrittenNumber>(read_number(typed, *notation::find_unit(unit), {}));
  };
  EXPECT_NEAR(written("1.8k N", "kN").value, 1.8, 1e-12);
  EXPECT_NEAR(written("1.8k", "N").value, 1800, 1e-12);
  EXPECT_EQ(written("1.8k", "N").unit, nullptr);
  EXPECT_NEAR(written("2k lb", "lbf").value, 2000, 1e-9);
  EXPECT_NEAR(written("6:12", "deg").value, 26.565, 0.001);
  EXPECT_NEAR(written("12", "pitch").value, 12, 1e-9);
  EXPECT_EQ(written("12", "pitch").unit, nullptr);
  EXPECT_NE(written("6/12", "pitch").unit, nullptr);
  EXPECT_NEAR(written("0.012k pitch", "deg").value, 45, 1e-9);
  // Without a unit the number is the value, to its last bit.
  for (int tenths = 1; tenths <= 1000; ++tenths) {
    const std::string typed = std::to_string(tenths / 10) + "." + std::to_string(tenths % 10);
    EXPECT_EQ(written(typed.c_str(), "ft").value, std::stod(typed)) << typed;
  }
  EXPECT_FALSE(written("12 lb", "ft").comparable);
  EXPECT_EQ(written("12 lb", "ft").number, 12);
  EXPECT_EQ(written("12 lb", "ft").value, 0);
  EXPECT_EQ(written("30", "deg").unit, nullptr);
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
  EXPECT_EQ(reason("12 lb 3 oz", "ft", english), "it is not one number with its unit");
  EXPECT_EQ(reason("12 ft ft", "ft", english), "it is not one number with its unit");
  EXPECT_EQ(reason("ft", "ft", english), "there is no number in it");
  EXPECT_EQ(reason("", "ft", english), "there is no number in it");
  notation::Style spanish;
  spanish.language = engine::Language::spanish;
  EXPECT_EQ(reason("12 zzzzzzzzz", "ft", spanish), "“zzzzzzzzz” no es una unidad");
  EXPECT_EQ(reason("12 o 13 pies", "ft", spanish), "no es un solo número con su unidad");
  EXPECT_EQ(reason("1,23,4", "ft", spanish), "sus comas y puntos no forman un número");
  EXPECT_EQ(reason("1.8k", "kN", spanish), "k puede ser kN o mil");
  EXPECT_EQ(reason(std::string(201, '9'), "ft", spanish), "tiene más de 200 caracteres");
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

TEST(ReadLetters, WithTheWordsThatStandAround) {
  const auto several = question(quiz::Kind::several_of, 5);
  for (const char* typed :
       {"answer A C", "options A, C", "letters: A and C", "opciones A y C", "opcion A C",
        "letras A, C", "respuesta: A, C", "A then C", "A luego C", "letter A letter C"})
    EXPECT_EQ(letters(typed, several), "AC") << typed;
  EXPECT_EQ(letters("ninguno", several), "");
  EXPECT_EQ(letters("and", several), "(expected letters from A to E)");
  // Y stands for "and" in Spanish, but is an option where it is offered.
  auto many = question(quiz::Kind::several_of, 2);
  many.options[1].letter = "Y";
  EXPECT_EQ(letters("A Y", many), "AY");
  // "none" is an answer to several only.
  EXPECT_EQ(letters("none", question(quiz::Kind::one_of, 3)),
            "(“NONE” is no option, expected A to C)");
}

TEST(ReadLetters, YesAndNoAreWholeWords) {
  auto asked = question(quiz::Kind::verdict, 2);
  asked.options[0].text = "No";
  asked.options[1].text = "Not at all: yes";
  EXPECT_EQ(letters("no", asked), "A");
  EXPECT_EQ(letters("yes", asked),
            "(“yes” does not say which option is meant, expected its letter)");
  asked.options[0].text = "Sólo a veces";
  EXPECT_EQ(letters("no", asked), "(“no” does not say which option is meant, expected its letter)");
  notation::Style spanish{engine::Language::spanish, '.'};
  EXPECT_EQ(letters("no", asked, spanish), "(“no” no dice cuál opción, se espera su letra)");
  // Words are no letters where several are asked for.
  EXPECT_EQ(letters("yes", question(quiz::Kind::several_of, 3)),
            "(“YES” is no option, expected A to C)");
}

TEST(ReadLetters, NumbersOfAnOrderCountUpFromOne) {
  const auto asked = question(quiz::Kind::order, 3);
  EXPECT_EQ(letters("1 A 2 B 3 C", asked), "ABC");
  EXPECT_EQ(letters("1 A 3 B 2 C", asked), "(“3” is no option, expected A to C)");
  EXPECT_EQ(letters("1 2 A B C", asked), "(“2” is no option, expected A to C)");
  EXPECT_EQ(letters("A 1 B 2 C 3", asked), "(“1” is no option, expected A to C)");
  EXPECT_EQ(letters("AAB", asked), "(“AAB” is no option, expected A to C)");
  EXPECT_EQ(letters("A", asked), "(it has 1 letter, expected 3)");
  EXPECT_EQ(letters("", asked), "(it has 0 letters, expected 3)");
  notation::Style spanish{engine::Language::spanish, '.'};
  EXPECT_EQ(letters("A B A", asked, spanish), "(una letra está dos veces)");
  EXPECT_EQ(letters("A", asked, spanish), "(tiene 1 letra, se esperan 3)");
  EXPECT_EQ(letters("A B", asked, spanish), "(tiene 2 letras, se esperan 3)");
  EXPECT_EQ(letters("A B", question(quiz::Kind::one_of, 3), spanish),
            "(tiene 2 letras, se espera 1)");
  EXPECT_EQ(letters("!", asked, spanish), "(se esperan letras de A a C)");
  EXPECT_EQ(letters(std::string(196, ' ') + "A B C", asked), "(it is longer than 200 characters)");
  EXPECT_EQ(letters(std::string(195, ' ') + "A B C", asked), "ABC");
}

TEST(NoAnswer, IsNothingADashOrAQuestionMark) {
  for (const char* typed : {"", " ", "-", "—", "\u00a0", "?", "??", "- -", "\t"})
    EXPECT_TRUE(is_no_answer(typed)) << typed;
  for (const char* typed : {"0", "A", "none", "-2", "."})
    EXPECT_FALSE(is_no_answer(typed)) << typed;
}

}  // namespace
}  // namespace footroom::grade
