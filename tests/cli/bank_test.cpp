#include <gtest/gtest.h>

#include "cli/program_run.hpp"
#include "cli/small_bank.hpp"

namespace footroom::cli {
namespace {

using testing::bank_with;
using testing::Ran;
using testing::run_in;
using testing::Scratch;
using testing::small_bank;

TEST(Bank, ListsItemsByTopicLevelAndKind) {
  const Scratch scratch;
  const Ran ran =
      run_in(scratch.path, {"bank", "list", "--bank", small_bank.string(), "--language", "es"});
  EXPECT_EQ(ran.code, 0);
  EXPECT_EQ(ran.out,
            "  roof                 one-of      2  one-of      Largo de la pendiente\n"
            "  roof                 order       2  order       De menor a mayor inclinación\n"
            "  slack-and-free-fall  number      3  number      Caída libre por el alero\n"
            "  slack-and-free-fall  verdict     3  verdict     Caída libre dentro del límite\n"
            "  rules                several-of  1  several-of  Lo correcto sobre el equipo\n");
}

TEST(Bank, ListsWhatCanBeReadAndNamesTheRest) {
  const Scratch scratch;
  bank_with(scratch, "items/roof/order.xml", "level=\"2\"", "level=\"9\"");
  const Ran ran = run_in(scratch.path, {"bank", "list", "--bank", "bank"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_EQ(ran.err.find("bank/items/roof/order.xml:2: "), 0u) << ran.err;
  EXPECT_EQ(ran.out.find("order"), std::string::npos);
  EXPECT_NE(ran.out.find("several-of"), std::string::npos);
}

TEST(Bank, ShowsTheSameQuestionForTheSameSeed) {
  const Scratch scratch;
  const auto show = [&](const char* id, const char* seed) {
    return run_in(scratch.path,
                  {"bank", "show", id, "--bank", small_bank.string(), "--seed", seed});
  };
  for (const char* id : {"one-of", "order", "number", "verdict", "several-of"}) {
    const Ran ran = show(id, "3");
    EXPECT_EQ(ran.code, 0) << ran.err;
    EXPECT_EQ(ran.out, show(id, "3").out);
    EXPECT_NE(ran.out.find("## 1. "), std::string::npos);
    EXPECT_EQ(ran.out.find("## 2. "), std::string::npos);
  }
  EXPECT_NE(show("number", "3").out, show("number", "4").out);
}

TEST(Bank, ChecksItemsAndNamesDefectsWithFileAndLine) {
  const Scratch scratch;
  Ran ran = run_in(scratch.path,
                   {"bank", "check", "number", "--draws", "40", "--bank", small_bank.string()});
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.out, "items checked: 1, defects found in draws: 0\n");

  bank_with(scratch, "items/rules/several-of.xml", "{worker} works", "{wroker} works");
  ran = run_in(scratch.path, {"bank", "check", "several-of", "--draws", "40", "--bank", "bank"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_EQ(ran.err,
            "bank/items/rules/several-of.xml:5: unknown name {wroker}; did you mean {worker}? (US "
            "units, seed 1, 40 draws)\n");
  EXPECT_EQ(ran.out, "items checked: 1, defects found in draws: 1\n");
}

TEST(Bank, RefusesAnItemThatIsNotThere) {
  const Scratch scratch;
  const Ran ran = run_in(scratch.path, {"bank", "check", "nmber", "--bank", small_bank.string()});
  EXPECT_EQ(ran.code, 2);
  EXPECT_EQ(ran.err, "nmber: is no item of the bank; did you mean number?\n");
}

}  // namespace
}  // namespace footroom::cli
