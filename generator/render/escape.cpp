#include "render/escape.hpp"

#include <fmt/format.h>

#include <array>

namespace footroom::render {
namespace {

constexpr std::string_view replacement = "\uFFFD";

constexpr unsigned char byte_of(char c) {
  return static_cast<unsigned char>(c);
}
constexpr bool is_control(char c) {
  return byte_of(c) < 0x20 || c == 0x7F;
}

/// Which bytes are control characters, one of `more`, or may end U+FFFE or U+FFFF: all others are
/// copied in runs.
constexpr std::array<bool, 256> special_bytes(std::string_view more) {
  std::array<bool, 256> special{};
  special[0xBE] = special[0xBF] = true;
  for (int byte = 0; byte < 128; ++byte) {
    const char c = static_cast<char>(byte);
    special[byte_of(c)] = is_control(c) || more.find(c) != std::string_view::npos;
  }
  return special;
}
constexpr std::array<bool, 256> is_special_in_xml = [] {
  auto special = special_bytes("&<>\"'");
  special['\t'] = special['\n'] = false;
  return special;
}();
constexpr auto may_mean_something = special_bytes("\\`*[]|~_<&#>+-=");

/// U+FFFE and U+FFFF are no characters, and XML has no way to hold them. With another last byte
/// they are the replacement character.
bool ends_no_character(std::string_view text, std::size_t i) {
  return byte_of(text[i]) >= 0xBE && i >= 2 && text[i - 1] == '\xBF' && text[i - 2] == '\xEF';
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

// "12. " and "12) " at the start of a line begin a numbered list: the mark must be escaped.
std::size_t list_mark(std::string_view line) {
  std::size_t end = 0;
  while (end < line.size() && is_digit(line[end])) ++end;
  const bool numbered = end > 0 && end < line.size() && (line[end] == '.' || line[end] == ')') &&
                        (end + 1 == line.size() || line[end + 1] == ' ');
  return numbered ? end : std::string_view::npos;
}

bool is_letter_or_digit(char c) {
  return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

// Whether Markdown could take the character at `i` of a line for markup. Escaping no more than
// that keeps the raw text readable.
bool means_something(std::string_view line, std::size_t i) {
  const char before = i > 0 ? line[i - 1] : '\n';
  const char after = i + 1 < line.size() ? line[i + 1] : '\n';
  switch (line[i]) {
    case '\\':
    case '`':
    case '*':
    case '[':
    case ']':
    case '|':
    case '~':
      return true;
    case '_':
      return !(is_letter_or_digit(before) && is_letter_or_digit(after));
    case '<':
      return after != ' ';
    case '&':
      return after == '#' || is_letter_or_digit(after);
    case '#':
      return i == 0 || i + 1 == line.size();
    case '>':
    case '+':
    case '-':
    case '=':
      return i == 0;
    default:
      return false;
  }
}

/// The text with what is special, by its place, written by `escape`; the rest is copied in runs.
/// What is no character is replaced.
template <class IsSpecial, class Escape>
std::string with_escapes(std::string_view text, IsSpecial is_special, Escape escape) {
  std::string out;
  out.reserve(text.size());
  std::size_t done = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!is_special(i)) continue;
    const bool ascii = byte_of(text[i]) < 0x80;
    if (!ascii && !ends_no_character(text, i)) continue;
    out.append(text, done, i - done);
    if (ascii)
      escape(out, text[i], i);
    else
      out += replacement.back();
    done = i + 1;
  }
  return out.append(text, done);
}

/// Whether a spreadsheet would take a field for a formula; apostrophes in front do not count.
bool starts_formula(std::string_view text) {
  constexpr std::string_view formula_start = "=+-@\t\r\n";
  const std::size_t at = text.find_first_not_of('\'');
  return at != std::string_view::npos && formula_start.find(text[at]) != std::string_view::npos;
}

}  // namespace

std::string escape_xml(std::string_view text) {
  return with_escapes(
      text, [&](std::size_t i) { return is_special_in_xml[byte_of(text[i])]; },
      [](std::string& out, char c, std::size_t) {
        if (c == '&') {
          out += "&amp;";
        } else if (c == '<') {
          out += "&lt;";
        } else if (c == '>') {
          out += "&gt;";
        } else if (c == '"') {
          out += "&quot;";
        } else if (c == '\'') {
          out += "&#39;";
        } else if (c == '\r') {
          out += "&#13;";
        } else {
          out += replacement;
        }
      });
}

std::string escape_markdown(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || is_control(text.front()))) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || is_control(text.back()))) text.remove_suffix(1);
  const std::size_t mark = list_mark(text);
  return with_escapes(
      text, [&](std::size_t i) { return i == mark || may_mean_something[byte_of(text[i])]; },
      [&](std::string& out, char c, std::size_t i) {
        if (is_control(c)) {
          out += ' ';
          return;
        }
        if (i == mark || means_something(text, i)) out += '\\';
        out += c;
      });
}

std::string escape_csv(std::string_view text) {
  std::string field(text);
  if (starts_formula(text)) field.insert(0, 1, '\'');
  const auto is_space = [](char c) { return c == ' ' || c == '\t'; };
  const bool spaces = !field.empty() && (is_space(field.front()) || is_space(field.back()));
  if (!spaces && field.find_first_of(",\"\r\n") == std::string::npos) return field;
  std::string quoted = "\"";
  for (const char c : field) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string without_csv_guard(std::string_view field) {
  if (field.starts_with('\'') && starts_formula(field)) field.remove_prefix(1);
  return std::string(field);
}

std::string csv_number(double number) {
  return fmt::format("{:.12g}", number);
}

std::string escape_calendar(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (c == '\n') {
      out += "\\n";
    } else if (c == '\r') {
      if (i + 1 == text.size() || text[i + 1] != '\n') out += "\\n";
    } else if (is_control(c) && c != '\t') {
      out += replacement;
    } else {
      out += c;
    }
  }
  return out;
}

std::string escape_css(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    const bool special = is_control(c) || std::string_view("\"\\<>&").find(c) != std::string::npos;
    if (special)
      out += fmt::format("\\{:x} ", static_cast<unsigned>(static_cast<unsigned char>(c)));
    else
      out += c;
  }
  return out + '"';
}

}  // namespace footroom::render
