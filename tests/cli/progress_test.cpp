#include "cli/progress.hpp"

#include <gtest/gtest.h>

#include <sstream>

namespace footroom::cli {
namespace {

std::string told(Progress::Way way, std::size_t of) {
  std::ostringstream to;
  {
    Progress progress(to, way, "items checked", of);
    for (std::size_t i = 1; i <= of; ++i) progress.tell(i);
  }
  return to.str();
}

TEST(Progress, RewritesOneLineOnATerminalAndLeavesNothing) {
  EXPECT_EQ(told(Progress::Way::rewritten, 2),
            "items checked: 1 of 2\r\033[Kitems checked: 2 of 2\r\033[K");
}

TEST(Progress, WritesALineAtEachQuarterElsewhere) {
  EXPECT_EQ(told(Progress::Way::quarters, 10),
            "items checked: 3 of 10\nitems checked: 5 of 10\nitems checked: 8 of 10\n");
}

TEST(Progress, IsSilentOnRequest) {
  EXPECT_EQ(told(Progress::Way::silent, 10), "");
}

}  // namespace
}  // namespace footroom::cli
