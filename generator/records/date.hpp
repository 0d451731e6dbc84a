#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace footroom::records {

/// A day of the calendar. Always an argument: this part never asks the clock.
using Date = std::chrono::year_month_day;

/// "2026-03-31"; nothing for any other text, and for a day that the calendar does not have.
/// Years 1900 to 9999, so that texts sort as days do.
std::optional<Date> read_date(std::string_view text);
std::string date_text(Date date);

/// The same day `months` later, or the month's last one where it has no such day.
Date months_later(Date date, int months);

}  // namespace footroom::records
