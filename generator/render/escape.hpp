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

/// A text as one field of RFC 4180, quoted where it must be or has spaces around it. A field that a
/// spreadsheet would take for a formula (after any apostrophes it begins with = + - @, a tab or a
/// line break) gets an apostrophe in front; without_csv_guard() takes it away again.
std::string escape_csv(std::string_view text);

/// A field as it was before escape_csv() put an apostrophe in front.
std::string without_csv_guard(std::string_view field);

/// A number as one field: twelve digits, a decimal point, and no apostrophe where it is negative.
std::string csv_number(double number);

/// A value of the type TEXT in iCalendar (RFC 5545, 3.3.11). Line breaks become \n, other control
/// characters, which it cannot hold, U+FFFD.
std::string escape_calendar(std::string_view text);

/// A string of CSS, with its quotes; also harmless within a style element.
std::string escape_css(std::string_view text);

}  // namespace footroom::render
