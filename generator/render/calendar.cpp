#include "render/calendar.hpp"

#include <string_view>

#include "render/escape.hpp"

namespace footroom::render {
namespace {

bool continues_character(char c) {
  return (static_cast<unsigned char>(c) & 0xC0) == 0x80;
}

// "2026-03-02" as "20260302".
std::string date_value(const std::string& day) {
  return day.substr(0, 4) + day.substr(5, 2) + day.substr(8, 2);
}

}  // namespace

std::string calendar_line(const std::string& line) {
  constexpr std::size_t most = 75;
  constexpr std::size_t longest_character = 4;
  std::string out;
  std::string_view rest = line;
  for (std::size_t room = most; rest.size() > room; room = most - 1) {
    std::size_t cut = room;
    for (std::size_t back = 1; back < longest_character && continues_character(rest[cut]); ++back)
      --cut;
    out += rest.substr(0, cut);
    out += "\r\n ";
    rest.remove_prefix(cut);
  }
  return out.append(rest) + "\r\n";
}

std::string calendar(const std::vector<CalendarEvent>& events, const std::string& program,
                     const std::string& stamp) {
  std::string out;
  const auto add = [&out](const std::string& line) { out += calendar_line(line); };
  add("BEGIN:VCALENDAR");
  add("VERSION:2.0");
  add("PRODID:-//Footroom//" + escape_calendar(program) + "//EN");
  for (const auto& event : events) {
    add("BEGIN:VEVENT");
    add("UID:" + escape_calendar(event.uid));
    add("DTSTAMP:" + date_value(stamp) + "T000000Z");
    add("DTSTART;VALUE=DATE:" + date_value(event.day));
    add("SUMMARY:" + escape_calendar(event.summary));
    add("DESCRIPTION:" + escape_calendar(event.description));
    add("CLASS:PRIVATE");
    add("TRANSP:TRANSPARENT");
    add("END:VEVENT");
  }
  add("END:VCALENDAR");
  return out;
}

}  // namespace footroom::render
