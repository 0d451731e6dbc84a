#include "quiz/seat_range.hpp"

#include <gtest/gtest.h>

#include "quiz/maker.hpp"

namespace footroom::quiz {
namespace {

TEST(SeatRange, NamesOfSeatsAreReadBack) {
  for (int index = 0; index < 100'000; ++index) ASSERT_EQ(seat_index(seat_name(index)), index);
  EXPECT_EQ(seat_name(99'999), "EQXD");
  for (const char* wrong : {"", "a", "A1", "A-B", "ZZZZZZZZZZZZ", "1"})
    EXPECT_EQ(seat_index(wrong), std::nullopt) << wrong;
}

TEST(SeatRange, ByNameAndByNumber) {
  for (const char* text : {"C..F", "3..6", "C..6"}) {
    const SeatRange range = read_seat_range(text, 12);
    EXPECT_EQ(range.first, 2) << text;
    EXPECT_EQ(range.last, 5) << text;
    EXPECT_EQ(range.count(), 4) << text;
  }
  EXPECT_EQ(read_seat_range("L", 12).count(), 1);
  EXPECT_EQ(read_seat_range("A..EQXD", 100'000).count(), 100'000);
}

TEST(SeatRange, WhatIsNoneIsRefused) {
  for (const char* text : {"", "..", "A..", "..B", "A-B", "A...B", "B..A", "A..M", "0..1", "13",
                           "1..99999999999999999999", "A..B..C"})
    EXPECT_THROW(read_seat_range(text, 12), FaultyRange) << text;
}

}  // namespace
}  // namespace footroom::quiz
