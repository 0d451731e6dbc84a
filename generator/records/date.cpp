#include "records/date.hpp"

#include <fmt/format.h>

namespace footroom::records {

std::optional<Date> read_date(std::string_view text) {
  if (text.size() != 10) return std::nullopt;
  const auto number = [text](std::size_t from, std::size_t size) {
    unsigned value = 0;
    for (const char c : text.substr(from, size)) {
      if (c < '0' || c > '9') return ~0U;
      value = value * 10 + static_cast<unsigned>(c - '0');
    }
    return value;
  };
  const unsigned year = number(0, 4);
  const unsigned month = number(5, 2);
  const unsigned day = number(8, 2);
  if (text[4] != '-' || text[7] != '-' || year < 1900 || year > 9999 || month > 12 || day > 31)
    return std::nullopt;
  const Date date(std::chrono::year(static_cast<int>(year)), std::chrono::month(month),
                  std::chrono::day(day));
  return date.ok() ? std::optional(date) : std::nullopt;
}

std::string date_text(Date date) {
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

Date months_later(Date date, int months) {
  const Date later = date + std::chrono::months(months);
  return later.ok() ? later : Date(later.year() / later.month() / std::chrono::last);
}

}  // namespace footroom::records
