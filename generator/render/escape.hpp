#pragma once
// Text from outside becomes harmless here, once, where it leaves: one function per format. (JSON is
// escaped by its library.)

#include <string>
#include <string_view>

namespace footroom::render {

/// Text or an attribute's value in HTML, SVG and MathML. Control characters, which XML cannot hold,
/// become U+FFFD.
std::string escape_xml(std::string_view text);

/// Text inside a line of CommonMark, with the pipes and tildes of common extensions. Line breaks
/// become spaces, so that nothing begins a block.
std::string escape_markdown(std::string_view text);

/// One field of RFC 4180, quoted where it must be. A field that a spreadsheet would take for a
/// formula (it begins with = + - @, a tab or a carriage return) gets an apostrophe in front.
std::string escape_csv(std::string_view text);

/// A value of the type TEXT in iCalendar (RFC 5545, 3.3.11). Line breaks become \n, other control
/// characters, which it cannot hold, U+FFFD.
std::string escape_calendar(std::string_view text);

/// A string of CSS, with its quotes; also harmless within a style element.
std::string escape_css(std::string_view text);

}  // namespace footroom::render
