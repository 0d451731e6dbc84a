#include "quiz/seat_range.hpp"

#include <fmt/format.h>

#include "quiz/maker.hpp"

namespace footroom::quiz {
namespace {

constexpr int most_seats = 1'000'000;

std::optional<int> index_of(std::string_view text) {
  if (const auto seat = seat_index(text)) return seat;
  if (text.empty() || text.size() > 7) return std::nullopt;
  int number = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + (c - '0');
  }
  if (number < 1) return std::nullopt;
  return number - 1;
}

std::string all_of(int seats) {
  return seats == 1 ? "A, the only seat"
                    : fmt::format("seats of A to {}, by name or by number from 1 to {}",
                                  seat_name(seats - 1), seats);
}

}  // namespace

std::optional<int> seat_index(std::string_view name) {
  if (name.empty()) return std::nullopt;
  int index = 0;
  for (const char c : name) {
    if (c < 'A' || c > 'Z' || index > most_seats) return std::nullopt;
    index = index * 26 + (c - 'A' + 1);
  }
  if (index > most_seats) return std::nullopt;
  return index - 1;
}

SeatRange read_seat_range(std::string_view text, int seats) {
  const std::size_t dots = text.find("..");
  const std::string_view from = text.substr(0, dots);
  const std::string_view to = dots == text.npos ? from : text.substr(dots + 2);
  const auto first = index_of(from);
  const auto last = index_of(to);
  if (!first || !last)
    throw FaultyRange(fmt::format("is {}, expected FIRST..LAST with {}", text, all_of(seats)));
  if (*first > *last)
    throw FaultyRange(fmt::format("{} runs backwards, expected {}..{}", text, to, from));
  if (*last >= seats)
    throw FaultyRange(fmt::format("the quiz has no seat {}, expected {}", to, all_of(seats)));
  return {*first, *last};
}

}  // namespace footroom::quiz
