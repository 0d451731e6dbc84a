#include "tasks/in_order.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <string>
#include <vector>

namespace footroom::tasks {
namespace {

TEST(WorkInOrder, FinishesInOrderWhateverTheJobs) {
  for (const std::size_t jobs : {0, 1, 2, 9, 200}) {
    std::vector<int> made(100, 0);
    std::vector<std::size_t> order;
    work_in_order(
        100, jobs, [&](std::size_t i) { made[i] = static_cast<int>(i) + 1; },
        [&](std::size_t i) {
          EXPECT_EQ(made[i], static_cast<int>(i) + 1);
          order.push_back(i);
        });
    ASSERT_EQ(order.size(), 100u);
    for (std::size_t i = 0; i < 100; ++i) EXPECT_EQ(order[i], i);
  }
}

TEST(WorkInOrder, HoldsNoMoreThanItMay) {
  for (const std::size_t jobs : {1, 3, 8}) {
    std::atomic<int> held = 0;
    std::atomic<int> most = 0;
    work_in_order(
        300, jobs,
        [&](std::size_t) {
          const int now = ++held;
          for (int before = most; before < now && !most.compare_exchange_weak(before, now);) {
          }
        },
        [&](std::size_t) { --held; }, 5);
    EXPECT_EQ(held, 0);
    EXPECT_LE(most, 5);
  }
}

TEST(WorkInOrder, DoesNothingWhereThereIsNone) {
  work_in_order(
      0, 4, [](std::size_t) { FAIL(); }, [](std::size_t) { FAIL(); });
}

TEST(WorkInOrder, ThrowsWhatTheFirstFaultyPieceThrew) {
  std::size_t finished = 0;
  const auto work = [](std::size_t i) {
    if (i >= 5) throw std::runtime_error(std::to_string(i));
  };
  try {
    work_in_order(50, 3, work, [&](std::size_t) { ++finished; });
    FAIL();
  } catch (const std::runtime_error& error) {
    EXPECT_STREQ(error.what(), "5");
  }
  EXPECT_EQ(finished, 5u);
}

TEST(WorkInOrder, StopsWorkingWhereFinishingThrows) {
  std::atomic<std::size_t> worked = 0;
  EXPECT_THROW(work_in_order(
                   1'000'000, 2, [&](std::size_t) { ++worked; },
                   [](std::size_t) { throw std::runtime_error("enough"); }),
               std::runtime_error);
  EXPECT_LE(worked, 1'000'000u);
}

}  // namespace
}  // namespace footroom::tasks
