#pragma once
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace footroom::quiz {

/// Seats of a quiz, counted from 0, with both ends.
struct SeatRange {
  int first = 0;
  int last = 0;
  int count() const { return last - first + 1; }
};

/// A text that names no range of seats: what is wrong, what was expected.
class FaultyRange : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The index of a seat: 0 for "A", 26 for "AA". Nothing for what is no name of one of the first
/// million seats.
std::optional<int> seat_index(std::string_view name);

/// "C..F", "C", or by number from 1, "3..6". Throws FaultyRange, also where the quiz has not so
/// many seats.
SeatRange read_seat_range(std::string_view text, int seats);

}  // namespace footroom::quiz
