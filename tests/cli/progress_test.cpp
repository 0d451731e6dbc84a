#include "cli/progress.hpp"

#include <gtest/gtest.h>

#include <sstream>

namespace footroom::cli {
namespace {

std::string told(bool watched, std::size_t of,
                 engine::Language language = engine::Language::english) {
  std::ostringstream out;
  std::ostringstream err;
  Terminal terminal{out, err, watched};
  {
    Progress progress(terminal, language, {"items checked", "preguntas revisadas"}, of);
    for (std::size_t i = 1; i <= of; ++i) progress.tell(i);
  }
  EXPECT_EQ(out.str(), "");
  return err.str();
}

TEST(Progress, RewritesOneLineOnATerminalAndLeavesNothing) {
  EXPECT_EQ(told(true, 2), "items checked: 1 of 2\r\033[Kitems checked: 2 of 2\r\033[K");
  EXPECT_EQ(told(true, 1, engine::Language::spanish), "preguntas revisadas: 1 de 1\r\033[K");
}

TEST(Progress, IsRewrittenOnceAPercent) {
  const std::string all = told(true, 100'000);
  EXPECT_EQ(std::count(all.begin(), all.end(), '\r'), 101);
  EXPECT_NE(all.find("items checked: 50000 of 100000\r"), all.npos);
}

TEST(Progress, IsSilentElsewhere) {
  EXPECT_EQ(told(false, 10), "");
}

}  // namespace
}  // namespace footroom::cli
