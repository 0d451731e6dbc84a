#pragma once
// A strict reader of iCalendar's lines (RFC 5545, 3.1 and 3.3.11).

#include <gtest/gtest.h>

#include <boost/locale/utf.hpp>
#include <string>
#include <vector>

namespace footroom::testing_calendar {

struct Line {
  std::string name;  ///< with its parameters
  std::string value;
};

inline bool is_utf8(const std::string& text) {
  using Decoder = boost::locale::utf::utf_traits<char>;
  for (auto at = text.begin(); at != text.end();)
    if (!boost::locale::utf::is_valid_codepoint(Decoder::decode(at, text.end()))) return false;
  return true;
}

/// Content lines, unfolded. Fails the test where a line end is not CRLF, a line is longer than 75
/// octets, a piece is not whole characters, or a control character stands in one.
inline std::vector<Line> read_strictly(const std::string& bytes) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < bytes.size();) {
    const auto end = bytes.find("\r\n", at);
    EXPECT_NE(end, std::string::npos) << "the last line does not end in CRLF";
    if (end == std::string::npos) return {};
    const std::string piece = bytes.substr(at, end - at);
    EXPECT_LE(piece.size(), 75U) << piece;
    EXPECT_TRUE(is_utf8(piece)) << piece;
    for (const char c : piece)
      EXPECT_TRUE((static_cast<unsigned char>(c) >= 0x20 && c != 0x7F) || c == '\t') << piece;
    if (!piece.empty() && piece[0] == ' ' && !lines.empty())
      lines.back() += piece.substr(1);
    else
      lines.push_back(piece);
    at = end + 2;
  }
  std::vector<Line> read;
  for (const auto& line : lines) {
    const auto colon = line.find(':');
    EXPECT_NE(colon, std::string::npos) << line;
    read.push_back({line.substr(0, colon), line.substr(colon + 1)});
  }
  return read;
}

/// A value of the type TEXT. Fails the test where a character had to be escaped and is not.
inline std::string unescaped(const std::string& value) {
  std::string text;
  for (std::size_t i = 0; i < value.size(); ++i) {
    EXPECT_TRUE(value[i] != ',' && value[i] != ';') << value;
    if (value[i] != '\\') {
      text += value[i];
      continue;
    }
    ++i;
    EXPECT_LT(i, value.size()) << value;
    const char c = i < value.size() ? value[i] : '\0';
    EXPECT_NE(std::string("\\;,nN").find(c), std::string::npos) << value;
    text += c == 'n' || c == 'N' ? '\n' : c;
  }
  return text;
}

}  // namespace footroom::testing_calendar
