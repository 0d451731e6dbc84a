#include "grade/reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <set>

#include "grade/characters.hpp"
#include "notation/unit.hpp"

namespace footroom::grade {

bool is_no_answer(std::string_view typed) {
  return plain_typing(typed).find_first_not_of("-? ") == std::string::npos;
}

namespace {

std::string say(notation::Style style, engine::Text text) {
  return std::string(text.in(style.language));
}
template <class Value>
std::string say(notation::Style style, engine::Text text, const Value& value) {
  return fmt::format(fmt::runtime(text.in(style.language)), value);
}

Unreadable too_long(notation::Style style) {
  return {say(style, {"it is longer than 200 characters", "tiene más de 200 caracteres"})};
}

// ---- Numbers -----------------------------------------------------------------------------------

constexpr std::array hedges{
    std::string_view("approximately"),
    std::string_view("approx."),
    std::string_view("approx"),
    std::string_view("about"),
    std::string_view("around"),
    std::string_view("roughly"),
    std::string_view("ca."),
    std::string_view("ca"),
    std::string_view("aproximadamente"),
    std::string_view("aprox."),
    std::string_view("aprox"),
    std::string_view("cerca de"),
    std::string_view("alrededor de"),
    std::string_view("más o menos"),
    std::string_view("mas o menos"),
    std::string_view("unos"),
    std::string_view("unas"),
    std::string_view("~"),
};

void trim(std::string& text) {
  text.erase(0, std::min(text.find_first_not_of(' '), text.size()));
  text.erase(text.find_last_not_of(' ') + 1);
}

/// What stands behind the last equals sign, without words for "about" and without the full stop of
/// a sentence. Where such a word is only the beginning of another, letters are left in front of the
/// number either way, and it cannot be read.
std::string answer_proper(std::string text) {
  for (const std::string_view sign : {"≈", "="})
    if (const auto at = text.rfind(sign); at != std::string::npos) text.erase(0, at + sign.size());
  trim(text);
  const std::string small = lower_case(text);
  for (const std::string_view hedge : hedges) {
    if (!small.starts_with(hedge)) continue;
    text.erase(0, hedge.size());
    trim(text);
    break;
  }
  while (text.ends_with('.') || text.ends_with(';') || text.ends_with(',')) text.pop_back();
  trim(text);
  return text;
}

/// A run of digits with marks between them.
struct Digits {
  std::size_t size = 0;  ///< characters taken
  std::string point_form;
  bool sound = true;
};

std::size_t digits_at(std::string_view text, std::size_t from) {
  std::size_t end = from;
  while (end < text.size() && is_digit(text[end])) ++end;
  return end - from;
}

/// The groups of a number and the marks between them: "1,800.5" has 1 , 800 . 5.
struct Groups {
  std::vector<std::string> digits;
  std::string marks;  ///< one fewer than digits
};

bool parts_thousands(const Groups& groups, std::size_t marks) {
  if (groups.digits[0].empty() || groups.digits[0].size() > 3) return false;
  if (groups.digits[0].find_first_not_of('0') == std::string::npos) return false;
  for (std::size_t i = 1; i <= marks; ++i)
    if (groups.digits[i].size() != 3 || groups.marks[i - 1] != groups.marks[0]) return false;
  return true;
}

Digits joined(const Groups& groups, std::size_t size, bool last_is_decimal) {
  Digits made{size, {}, true};
  for (std::size_t i = 0; i < groups.digits.size(); ++i) {
    if (last_is_decimal && i + 1 == groups.digits.size() && i > 0) {
      if (made.point_form.empty()) made.point_form = "0";
      made.point_form += '.';
    }
    made.point_form += groups.digits[i];
  }
  return made;
}

/// Takes the number that begins at `from` apart, by the rules at the top of reading.hpp.
Digits take_digits(std::string_view text, std::size_t from, char decimal_mark) {
  Groups groups;
  std::size_t at = from;
  std::size_t size = digits_at(text, at);
  groups.digits.emplace_back(text.substr(at, size));
  at += size;
  const auto next_is_digit = [&] { return at + 1 < text.size() && is_digit(text[at + 1]); };
  while (at < text.size()) {
    const char mark = text[at];
    if (!next_is_digit()) break;
    size = digits_at(text, at + 1);
    const bool space_groups = mark == ' ' && size == 3 && !groups.digits[0].empty() &&
                              groups.digits[0].size() <= 3 &&
                              groups.marks.find_first_not_of(' ') == std::string::npos &&
                              (at + 4 >= text.size() || text[at + 4] != '/');
    if (mark != '.' && mark != ',' && !space_groups) break;
    groups.marks += mark;
    groups.digits.emplace_back(text.substr(at + 1, size));
    at += 1 + size;
  }
  const std::size_t taken = at - from;
  const std::size_t marks = groups.marks.size();
  if (marks == 0) return joined(groups, taken, false);
  const char last = groups.marks.back();
  const bool all_alike = groups.marks.find_first_not_of(last) == std::string::npos;
  if (all_alike && last == ' ') return joined(groups, taken, false);
  if (!all_alike) {
    const bool sound = groups.marks.find(last) == marks - 1 && parts_thousands(groups, marks - 1);
    Digits made = joined(groups, taken, true);
    made.sound = sound;
    return made;
  }
  if (marks > 1) {
    Digits made = joined(groups, taken, false);
    made.sound = parts_thousands(groups, marks);
    return made;
  }
  return joined(groups, taken, last == decimal_mark || !parts_thousands(groups, 1));
}

struct Canonical {
  std::string text;  ///< numbers with points and without marks for thousands
  bool unit_missing = false;
  bool thousands = false;  ///< a k behind the number
};

/// True where nothing but one number stands there: digits, a fraction, a sign.
bool is_bare_number(std::string_view text) {
  return text.find_first_not_of("0123456789./ -+") == std::string_view::npos;
}

std::optional<Canonical> canonical(const std::string& text, char decimal_mark) {
  Canonical made;
  for (std::size_t at = 0; at < text.size();) {
    const bool mark = text[at] == '.' || text[at] == ',';
    const bool begins =
        is_digit(text[at]) || (mark && at + 1 < text.size() && is_digit(text[at + 1]) &&
                               (at == 0 || !is_letter(text[at - 1])));
    if (!begins) {
      made.text += text[at] == ',' ? ' ' : text[at];  // "12 ft, 6 in"
      ++at;
      continue;
    }
    const Digits digits = take_digits(text, at, decimal_mark);
    if (!digits.sound) return std::nullopt;
    made.text += digits.point_form;
    at += digits.size;
    if (at < text.size() && (text[at] == '.' || text[at] == ',')) {
      made.text += ' ';  // "12. ft"
      ++at;
    }
    const bool k = at < text.size() && (text[at] == 'k' || text[at] == 'K') &&
                   (at + 1 == text.size() || text[at + 1] == ' ');
    if (k) {
      made.thousands = true;
      ++at;
    }
  }
  trim(made.text);
  made.unit_missing = is_bare_number(made.text);
  return made;
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
}

/// Spellings of sheets filled in by hand that the reader of quantities does not take.
std::string with_known_spellings(std::string text) {
  for (const std::string_view joint : {" and ", " y ", " con "}) replace_all(text, joint, " ");
  for (const auto& [from, to] :
       {std::pair{"libras fuerza", "lbf"}, std::pair{"libra fuerza", "lbf"},
        std::pair{"pounds force", "lbf"}, std::pair{"lbs f", "lbf"}, std::pair{"pies/seg", "ft/s"},
        std::pair{"pies/segundo", "ft/s"}, std::pair{"pulg.", "in"}, std::pair{"pulgs", "in"}})
    replace_all(text, from, to);
  return text;
}

/// "12' 6" and "12 ft 6": what stands alone behind feet is inches.
std::string with_inches_named(const std::string& text) {
  const std::size_t last = text.find_last_not_of("0123456789./");
  if (last == std::string::npos || last + 1 == text.size()) return text;
  std::size_t end = text.find_last_not_of(" -", last);
  if (end == std::string::npos) return text;
  // A whole number and a fraction: "12 ft 6 1/2".
  const std::string_view tail = std::string_view(text).substr(last + 1);
  if (tail.find('/') != std::string_view::npos && is_digit(text[end])) {
    const std::size_t before = text.find_last_not_of("0123456789.", end);
    if (before == std::string::npos) return text;
    end = text.find_last_not_of(" -", before);
    if (end == std::string::npos) return text;
  }
  const std::size_t begin = text.find_last_of("0123456789 ", end);
  if (begin == std::string::npos) return text;
  const notation::Unit* unit =
      notation::find_unit(std::string_view(text).substr(begin + 1, end - begin));
  return unit && unit->name == "ft" ? text + " in" : text;
}

/// "12 M", "1800 n": a unit that is only known in the other case.
std::string with_unit_in_other_case(const std::string& text) {
  std::string other = lower_case(text);
  if (other == text)
    for (char& c : other)
      if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return other;
}

std::optional<notation::ReadQuantity> read_as(const std::string& text, engine::Dimension expected) {
  const auto read = notation::read_quantity(text, expected);
  if (const auto* quantity = std::get_if<notation::ReadQuantity>(&read)) return *quantity;
  return std::nullopt;
}

/// As what is asked, else as anything that can be measured.
std::optional<notation::ReadQuantity> read_as_any(const std::string& text,
                                                  engine::Dimension asked) {
  if (const auto read = read_as(text, asked)) return read;
  std::vector<engine::Dimension> tried{asked};
  for (const notation::Unit& unit : notation::all_units()) {
    if (std::find(tried.begin(), tried.end(), unit.dimension) != tried.end()) continue;
    tried.push_back(unit.dimension);
    if (const auto read = read_as(text, unit.dimension)) return read;
  }
  return std::nullopt;
}

/// The letters at the end of a text, for "12 nails".
std::string last_word(const std::string& text) {
  std::size_t begin = text.size();
  while (begin > 0 && is_letter(text[begin - 1])) --begin;
  return text.substr(begin);
}

Unreadable unreadable_number(const std::string& text, notation::Style style) {
  const std::size_t first = text.find_first_of("0123456789");
  if (first == std::string::npos)
    return {say(style, {"there is no number in it", "no tiene ningún número"})};
  if (std::any_of(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(first), is_letter))
    return {say(style, {"words stand in front of the number", "hay palabras delante del número"})};
  const std::string word = last_word(text);
  const bool one_number =
      text.find_first_of("0123456789", text.find_first_not_of("0123456789.,/ -", first)) ==
      std::string::npos;
  if (!word.empty() && one_number && !notation::find_unit(word)) {
    const auto near = notation::suggest_unit(word);
    if (near && !near->empty())
      return {fmt::format(fmt::runtime(engine::Text{"“{}” is no unit; was “{}” meant?",
                                                    "“{}” no es una unidad; ¿se quiso decir “{}”?"}
                                           .in(style.language)),
                          word, *near)};
    return {say(style, {"“{}” is no unit", "“{}” no es una unidad"}, word)};
  }
  return {say(style, {"it is not one number with its unit", "no es un solo número con su unidad"})};
}

}  // namespace

ReadNumber read_number(std::string_view typed, const notation::Unit& asked, notation::Style style) {
  if (typed.size() > longest_answer) return too_long(style);
  const std::string text = with_known_spellings(answer_proper(plain_typing(typed)));
  const auto numbers = canonical(text, style.decimal_mark);
  if (!numbers)
    return Unreadable{say(style, {"its commas and points do not make a number",
                                  "sus comas y puntos no forman un número"})};
  if (numbers->thousands && numbers->unit_missing && asked.name.starts_with('k'))
    return Unreadable{
        say(style, {"k may mean {} or a thousand", "k puede ser {} o mil"}, asked.name)};
  const bool pitch_asked = asked.dimension == engine::dimension::angle;
  std::string with_unit = numbers->text;
  bool unit_missing = numbers->unit_missing;
  if (unit_missing && pitch_asked && read_as(with_unit, asked.dimension))
    unit_missing = false;  // "6/12"
  else if (unit_missing && asked.name == "ft-in")
    with_unit += " ft";
  else if (unit_missing && !asked.name.empty())
    with_unit += fmt::format(" {}", asked.name == "pitch" ? ":12" : asked.name);

  auto read = read_as_any(with_unit, asked.dimension);
  for (const auto& other_spelling : {with_inches_named, with_unit_in_other_case})
    if (!read) read = read_as_any(other_spelling(with_unit), asked.dimension);
  std::string word;
  if (!read && asked.name.empty()) {
    word = last_word(with_unit);
    std::string bare = with_unit.substr(0, with_unit.size() - word.size());
    trim(bare);
    if (is_bare_number(bare)) read = read_as(bare, asked.dimension);
    unit_missing = read.has_value();
  }
  if (!read) return unreadable_number(text, style);

  WrittenNumber made;
  const double factor = numbers->thousands ? 1000 : 1;
  made.number = read->number * factor;
  made.unit = unit_missing ? nullptr : read->unit;
  made.comparable = read->quantity.dimension == asked.dimension;
  if (made.comparable)
    made.value = unit_missing && !pitch_asked
                     ? made.number
                     : asked.from_si(read->unit->name == "pitch" && factor != 1
                                         ? read->unit->to_si(made.number)
                                         : read->quantity.si * factor);
  const std::size_t unit_begins = with_unit.find_first_not_of("0123456789./ -+");
  const bool inches_too = read->unit->name == "ft" && unit_begins != std::string::npos &&
                          with_unit.find_first_of("0123456789", unit_begins) != std::string::npos;
  const notation::Unit& shown = inches_too ? *notation::find_unit("ft-in") : *read->unit;
  made.text = unit_missing ? notation::write_shortest(made.number, style)
                           : notation::write_quantity_shortest(made.number, shown, style);
  return made;
}

// ---- Letters -----------------------------------------------------------------------------------

namespace {

std::string letters_offered(const quiz::Question& question, notation::Style style) {
  return fmt::format(fmt::runtime(engine::Text{"{} to {}", "{} a {}"}.in(style.language)),
                     question.options.front().letter, question.options.back().letter);
}

const quiz::Option* find_option(const quiz::Question& question, std::string_view letter) {
  for (const quiz::Option& option : question.options)
    if (option.letter == letter) return &option;
  return nullptr;
}

/// The option that begins with the word, where it is the only one.
std::vector<const quiz::Option*> beginning_with(const quiz::Question& question,
                                                const std::vector<std::string_view>& words) {
  std::vector<const quiz::Option*> found;
  for (const quiz::Option& option : question.options) {
    const std::string text = lower_case(plain_typing(option.text));
    if (std::any_of(words.begin(), words.end(), [&](std::string_view word) {
          return text.substr(0, word.size()) == word &&
                 (text.size() == word.size() || !is_letter(text[word.size()]));
        }))
      found.push_back(&option);
  }
  return found;
}

/// An answer in words to a question with one right option.
std::optional<ReadLetters> read_words(const std::string& small, const quiz::Question& question,
                                      notation::Style style) {
  for (const quiz::Option& option : question.options)
    if (lower_case(plain_typing(option.text)) == small)
      return std::vector<std::string>{option.letter};
  const std::vector<std::vector<std::string_view>> yes_and_no{{"yes", "sí", "si"}, {"no"}};
  for (const auto& words : yes_and_no) {
    if (std::find(words.begin(), words.end(), small) == words.end()) continue;
    const auto fitting = beginning_with(question, words);
    if (fitting.size() == 1) return std::vector<std::string>{fitting.front()->letter};
    return Unreadable{say(style,
                          {"“{}” does not say which option is meant, expected its letter",
                           "“{}” no dice cuál opción, se espera su letra"},
                          small)};
  }
  return std::nullopt;
}

/// Words and numbers, parted by whatever may stand between letters; nothing where another character
/// stands there.
std::optional<std::vector<std::string>> tokens(const std::string& capitals) {
  constexpr std::string_view between = " ,;.:/&+>-()[]|*\"'_=";
  std::string text = capitals;
  replace_all(text, "→", ">");
  replace_all(text, "⇒", ">");
  std::vector<std::string> all;
  bool in_word = false;
  for (const char c : text) {
    if (between.find(c) != std::string_view::npos) {
      in_word = false;
    } else if (is_letter(c) || is_digit(c)) {
      const bool same_kind = in_word && is_digit(all.back().back()) == is_digit(c);
      if (!same_kind) all.emplace_back();
      all.back() += c;
      in_word = true;
    } else {
      return std::nullopt;
    }
  }
  return all;
}

std::string capitals(std::string_view text) {
  std::string made(text);
  for (char& c : made)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return made;
}

/// Letters written without anything between them.
bool all_offered(const std::string& word, const quiz::Question& question) {
  return std::all_of(word.begin(), word.end(), [&](char c) {
    return find_option(question, std::string_view(&c, 1)) != nullptr;
  });
}

Unreadable number_of_letters(std::size_t found, std::size_t expected, notation::Style style) {
  if (found == 1)
    return {say(style, {"it has 1 letter, expected {}", "tiene 1 letra, se esperan {}"}, expected)};
  if (expected == 1)
    return {say(style, {"it has {} letters, expected 1", "tiene {} letras, se espera 1"}, found)};
  return {fmt::format(
      fmt::runtime(engine::Text{"it has {} letters, expected {}", "tiene {} letras, se esperan {}"}
                       .in(style.language)),
      found, expected)};
}

}  // namespace

ReadLetters read_letters(std::string_view typed, const quiz::Question& question,
                         notation::Style style) {
  if (typed.size() > longest_answer) return too_long(style);
  const std::string plain = plain_typing(typed);
  const std::string small = lower_case(plain);
  const bool order = question.kind == quiz::Kind::order;
  const bool several = question.kind == quiz::Kind::several_of;
  if (!order && !several)
    if (auto read = read_words(small, question, style)) return *std::move(read);
  if (several && (small == "none" || small == "ninguna" || small == "ninguno"))
    return std::vector<std::string>{};

  const auto words = tokens(capitals(plain));
  if (!words)
    return Unreadable{say(style, {"expected letters from {}", "se esperan letras de {}"},
                          letters_offered(question, style))};
  static const std::set<std::string> left_out{
      "AND",    "OPTION", "OPTIONS",  "LETTER", "LETTERS", "ANSWER",    "THEN", "OPCIÓN",
      "OPCIóN", "OPCION", "OPCIONES", "LETRA",  "LETRAS",  "RESPUESTA", "LUEGO"};
  std::vector<std::string> letters;
  int next_number = 1;
  for (const std::string& word : *words) {
    if (find_option(question, word)) {
      letters.push_back(word);
    } else if (word == "Y" || left_out.count(word) > 0) {
      continue;
    } else if (order && is_digit(word.front()) && word == std::to_string(next_number) &&
               letters.size() + 1 == static_cast<std::size_t>(next_number)) {
      ++next_number;
    } else if (word.size() > 1 && all_offered(word, question) &&
               std::set<char>(word.begin(), word.end()).size() == word.size()) {
      for (const char c : word) letters.emplace_back(1, c);
    } else {
      return Unreadable{
          fmt::format(fmt::runtime(engine::Text{"“{}” is no option, expected {}",
                                                "“{}” no es una opción, se espera de {}"}
                                       .in(style.language)),
                      word, letters_offered(question, style))};
    }
  }
  std::vector<std::string> once;
  for (const std::string& letter : letters)
    if (std::find(once.begin(), once.end(), letter) == once.end()) once.push_back(letter);
  if (order && once.size() != letters.size())
    return Unreadable{say(style, {"a letter stands in it twice", "una letra está dos veces"})};
  if (order && once.size() != question.options.size())
    return number_of_letters(once.size(), question.options.size(), style);
  if (!order && !several && once.size() != 1) return number_of_letters(once.size(), 1, style);
  if (several && once.empty())
    return Unreadable{say(style, {"expected letters from {}", "se esperan letras de {}"},
                          letters_offered(question, style))};
  return once;
}

}  // namespace footroom::grade
