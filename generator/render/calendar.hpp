#pragma once
// Days as iCalendar (RFC 5545), which calendar programs import.

#include <string>
#include <vector>

namespace footroom::render {

/// An event that takes a whole day and leaves it free.
struct CalendarEvent {
  std::string uid;  ///< the same for the same event in every file; names nobody
  std::string day;  ///< YYYY-MM-DD
  std::string summary;
  std::string description;  ///< may have several lines
};

/// A whole file. `stamp` is the day (YYYY-MM-DD) that the events carry as that of their last
/// change. There must be an event: RFC 5545, 3.6, knows no empty calendar.
std::string calendar(const std::vector<CalendarEvent>& events, const std::string& program,
                     const std::string& stamp);

/// A content line with its CRLF: at most 75 octets a line, further ones begin with a space, and no
/// character is cut (RFC 5545, 3.1).
std::string calendar_line(const std::string& line);

}  // namespace footroom::render
