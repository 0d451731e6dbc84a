// iCalendar against the words of RFC 5545, strictly: readers in use forgive too much to show a
// fault. A reader of others reads the files in tests/cli/calendar_test.cpp.

#include "render/calendar.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "render/escape.hpp"
#include "strict_calendar.hpp"

namespace footroom::render {
namespace {

using testing_calendar::Line;
using testing_calendar::read_strictly;
using testing_calendar::unescaped;

TEST(CalendarLine, NoPieceIsLongerThan75OctetsOrCutsACharacter) {
  const std::vector<std::string> characters{"a", "ñ", "屋", "🏠"};
  for (const auto& character : characters)
    for (std::size_t before = 0; before < 4; ++before)
      for (std::size_t count = 1; count < 130; ++count) {
        std::string line = "SUMMARY:" + std::string(before, 'x');
        for (std::size_t i = 0; i < count; ++i) line += character;
        const auto lines = read_strictly(calendar_line(line));
        ASSERT_EQ(lines.size(), 1U);
        EXPECT_EQ(lines[0].name + ":" + lines[0].value, line);
      }
}

TEST(CalendarLine, IsFoldedNoEarlierThanItMust) {
  const std::string fits = "X:" + std::string(73, 'a');
  EXPECT_EQ(calendar_line(fits), fits + "\r\n");
  EXPECT_EQ(calendar_line(fits + "b"), fits + "\r\n b\r\n");
  EXPECT_EQ(calendar_line(fits + std::string(75, 'b')),
            fits + "\r\n " + std::string(74, 'b') + "\r\n b\r\n");
}

TEST(CalendarLine, BytesThatAreNoUtf8ComeToAnEndToo) {
  const std::string broken = "X:" + std::string(500, '\x80');
  std::string unfolded;
  const std::string folded = calendar_line(broken);
  for (std::size_t i = 0; i < folded.size(); ++i) {
    if (folded.compare(i, 3, "\r\n ") == 0)
      i += 2;
    else
      unfolded += folded[i];
  }
  EXPECT_EQ(unfolded, broken + "\r\n");
}

TEST(CalendarText, IsEscapedAsRfc5545Says) {
  EXPECT_EQ(escape_calendar("a;b,c\\d"), "a\\;b\\,c\\\\d");
  EXPECT_EQ(escape_calendar("one\ntwo\r\nthree\rfour"), "one\\ntwo\\nthree\\nfour");
  EXPECT_EQ(escape_calendar("colon: \"quotes\"\ttab"), "colon: \"quotes\"\ttab");
  EXPECT_EQ(escape_calendar(std::string("nul\0bell\a", 9)), "nul\uFFFDbell\uFFFD");
}

TEST(Calendar, HostileTextsStayOneValueEach) {
  const std::vector<std::string> texts{"END:VEVENT\r\nBEGIN:VEVENT\r\nUID:x",
                                       "a\\",
                                       "a\\n",
                                       "\\;,",
                                       "x\r\n y",
                                       ":;,\"=",
                                       std::string(300, '\\')};
  for (const auto& text : texts) {
    const auto lines =
        read_strictly(calendar({{text, "2026-03-02", text, text}}, text, "2026-01-01"));
    std::vector<std::string> names;
    for (const auto& line : lines) names.push_back(line.name);
    EXPECT_EQ(names, (std::vector<std::string>{"BEGIN", "VERSION", "PRODID", "BEGIN", "UID",
                                               "DTSTAMP", "DTSTART;VALUE=DATE", "SUMMARY",
                                               "DESCRIPTION", "CLASS", "TRANSP", "END", "END"}));
    std::string plain;
    for (std::size_t i = 0; i < text.size(); ++i)
      if (text[i] != '\r') plain += text[i];
    EXPECT_EQ(unescaped(lines[7].value), plain);
    EXPECT_EQ(unescaped(lines[8].value), plain);
  }
}

TEST(Calendar, IsThisFile) {
  EXPECT_EQ(calendar({{"0a1b", "2027-03-02", "Training due: Ana Ejemplo, Fall protection",
                       "refresher interval passed\nLast trained: 2026-03-02"}},
                     "footroom 0.1.0", "2027-01-01"),
            "BEGIN:VCALENDAR\r\n"
            "VERSION:2.0\r\n"
            "PRODID:-//Footroom//footroom 0.1.0//EN\r\n"
            "BEGIN:VEVENT\r\n"
            "UID:0a1b\r\n"
            "DTSTAMP:20270101T000000Z\r\n"
            "DTSTART;VALUE=DATE:20270302\r\n"
            "SUMMARY:Training due: Ana Ejemplo\\, Fall protection\r\n"
            "DESCRIPTION:refresher interval passed\\nLast trained: 2026-03-02\r\n"
            "CLASS:PRIVATE\r\n"
            "TRANSP:TRANSPARENT\r\n"
            "END:VEVENT\r\n"
            "END:VCALENDAR\r\n");
}

}  // namespace
}  // namespace footroom::render
