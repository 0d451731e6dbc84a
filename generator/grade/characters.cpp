#include "grade/characters.hpp"

#include <algorithm>
#include <array>

namespace footroom::grade {
namespace {

struct Exchange {
  std::string_view from;
  std::string_view to;
};

/// Most characters stay as they are: a field may have millions.
bool may_begin_exchange(char c) {
  return static_cast<unsigned char>(c) >= 0x80 || c < ' ' || c == '\'' || c == '`';
}

template <std::size_t count>
std::string exchanged(std::string_view text, const std::array<Exchange, count>& exchanges) {
  std::string made;
  made.reserve(text.size());
  while (!text.empty()) {
    const auto found =
        may_begin_exchange(text.front())
            ? std::find_if(exchanges.begin(), exchanges.end(),
                           [&](const Exchange& e) { return text.starts_with(e.from); })
            : exchanges.end();
    const std::size_t size = found == exchanges.end() ? 1 : found->from.size();
    made += found == exchanges.end() ? text.substr(0, 1) : found->to;
    text.remove_prefix(size);
  }
  return made;
}

constexpr std::array plain_characters{
    Exchange{"\t", " "},        Exchange{"\r", " "},        Exchange{"\n", " "},
    Exchange{"\u00a0", " "},    Exchange{"\u2002", " "},    Exchange{"\u2003", " "},
    Exchange{"\u2007", " "},    Exchange{"\u2008", " "},    Exchange{"\u2009", " "},
    Exchange{"\u200a", " "},    Exchange{"\u202f", " "},    Exchange{"\u3000", " "},
    Exchange{"\u200b", ""},     Exchange{"\u200e", ""},     Exchange{"\u200f", ""},
    Exchange{"\u2060", ""},     Exchange{"\ufeff", ""},     Exchange{"\u2010", "-"},
    Exchange{"\u2011", "-"},    Exchange{"\u2012", "-"},    Exchange{"\u2013", "-"},
    Exchange{"\u2014", "-"},    Exchange{"\u2212", "-"},    Exchange{"\ufe63", "-"},
    Exchange{"\uff0d", "-"},    Exchange{"\u2018", "'"},    Exchange{"\u2019", "'"},
    Exchange{"\u00b4", "'"},    Exchange{"\u2032", "'"},    Exchange{"`", "'"},
    Exchange{"\u201c", "\""},   Exchange{"\u201d", "\""},   Exchange{"\u2033", "\""},
    Exchange{"''", "\""},       Exchange{"\u2044", "/"},    Exchange{"\u2236", ":"},
    Exchange{"\u00bd", " 1/2"}, Exchange{"\u00bc", " 1/4"}, Exchange{"\u00be", " 3/4"},
    Exchange{"\u215b", " 1/8"}, Exchange{"\u215c", " 3/8"}, Exchange{"\u215d", " 5/8"},
    Exchange{"\u215e", " 7/8"},
};

constexpr std::array small_letters{
    Exchange{"Á", "á"}, Exchange{"É", "é"}, Exchange{"Í", "í"}, Exchange{"Ó", "ó"},
    Exchange{"Ú", "ú"}, Exchange{"Ü", "ü"}, Exchange{"Ñ", "ñ"},
};

}  // namespace

std::string plain_typing(std::string_view typed) {
  // Twice: two curly marks become two straight ones first, and those are the mark of inches.
  const std::string plain = exchanged(exchanged(typed, plain_characters), plain_characters);
  const std::size_t begin = plain.find_first_not_of(' ');
  if (begin == std::string::npos) return {};
  return plain.substr(begin, plain.find_last_not_of(' ') - begin + 1);
}

std::string lower_case(std::string_view text) {
  std::string small = exchanged(text, small_letters);
  for (char& c : small)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return small;
}

bool is_blank(std::string_view text) {
  return plain_typing(text).empty();
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

std::string cut_short(std::string_view text, std::size_t most) {
  if (text.size() <= most) return std::string(text);
  constexpr std::string_view more = "…";
  std::size_t end = most - more.size();
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xc0) == 0x80) --end;
  return std::string(text.substr(0, end)).append(more);
}

}  // namespace footroom::grade
