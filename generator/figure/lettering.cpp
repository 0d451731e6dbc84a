#include "figure/lettering.hpp"

#include <array>

namespace footroom::figure {
namespace {

// Advance widths of Liberation Sans, in thousandths of the size, from U+0020 to U+007E.
constexpr std::array<short, 95> advances = {
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333,  278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667,  611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278,  556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500,  500, 334, 260, 334, 584};
constexpr double no_break_space = 278;
constexpr double lower_case_advance = 580;  // accented and Greek small letters
constexpr double other_advance = 760;
constexpr double generosity = 1.04;
constexpr double bold_factor = 1.08;

struct IndexLetter {
  std::string_view low;
  std::string_view plain;
};
constexpr IndexLetter index_letters[] = {
    {"₀", "0"}, {"₁", "1"}, {"₂", "2"}, {"₃", "3"}, {"₄", "4"}, {"₅", "5"}, {"₆", "6"},
    {"₇", "7"}, {"₈", "8"}, {"₉", "9"}, {"ₐ", "a"}, {"ₑ", "e"}, {"ₕ", "h"}, {"ᵢ", "i"},
    {"ⱼ", "j"}, {"ₖ", "k"}, {"ₗ", "l"}, {"ₘ", "m"}, {"ₙ", "n"}, {"ₒ", "o"}, {"ₚ", "p"},
    {"ᵣ", "r"}, {"ₛ", "s"}, {"ₜ", "t"}, {"ᵤ", "u"}, {"ᵥ", "v"}, {"ₓ", "x"}};

bool continues_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0) == 0x80;
}

double advance_of_two_bytes(std::string_view character) {
  if (character == "\u00a0") return no_break_space;
  const bool small =
      (character >= "à" && character <= "ÿ") || (character >= "α" && character <= "ω");
  return small || character == "°" || character == "·" ? lower_case_advance : other_advance;
}

std::size_t characters(std::string_view text) {
  std::size_t count = 0;
  for (const char c : text) count += !continues_character(c);
  return count;
}

}  // namespace

double text_width(std::string_view text, double size) {
  double thousandths = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (continues_character(c)) continue;
    if (c >= ' ' && c <= '~')
      thousandths += advances[static_cast<std::size_t>(c - ' ')];
    else
      thousandths += advance_of_two_bytes(text.substr(i, 2));
  }
  return thousandths / 1000 * size * generosity;
}

std::vector<Run> symbol_runs(std::string_view symbol) {
  std::string base;
  std::string index;
  bool low = false;
  for (std::size_t i = 0; i < symbol.size();) {
    const std::string_view rest = symbol.substr(i);
    const IndexLetter* found = nullptr;
    for (const IndexLetter& letter : index_letters)
      if (rest.starts_with(letter.low)) found = &letter;
    if (found) {
      index += found->plain;
      i += found->low.size();
    } else if (rest[0] == '_' && !low) {
      low = true;
      ++i;
    } else {
      (low ? index : base) += rest[0];
      ++i;
    }
  }
  std::vector<Run> runs{{base, characters(base) == 1, false}};
  if (!index.empty()) runs.push_back({index, false, true});
  return runs;
}

std::vector<Run> tag_runs(const Tag& tag) {
  const std::string text = tag.text.empty() ? "?" : tag.text;
  if (tag.symbol.empty()) return {{text}};
  auto runs = symbol_runs(tag.symbol);
  runs.push_back({" = " + text});
  return runs;
}

double runs_width(const std::vector<Run>& runs, double size, bool bold) {
  double width = 0;
  for (const Run& run : runs) width += text_width(run.text, run.lowered ? size * index_size : size);
  return bold ? width * bold_factor : width;
}

}  // namespace footroom::figure
