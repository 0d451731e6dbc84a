#include <gtest/gtest.h>

#include <algorithm>

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
  EXPECT_EQ(
      ran.out,
      "  roof                 one-of      2  one-of      Largo de la pendiente\n"
      "  roof                 order       2  order       De menor a mayor inclinación\n"
      "  slack-and-free-fall  number      3  number      Caída libre por el alero\n"
      "  slack-and-free-fall  verdict     3  verdict     Caída libre dentro del límite\n"
      "  rules                several-of  1  several-of  Lo correcto sobre el equipo\n"
      "\n"
      "  tema                 nivel  number  one-of  several-of  order  verdict  todas\n"
      "  roof                 1      .       .       .           .      .        .\n"
      "  roof                 2      .       1       .           1      .        2\n"
      "  roof                 3      .       .       .           .      .        .\n"
      "  roof                 4      .       .       .           .      .        .\n"
      "  slack-and-free-fall  1      .       .       .           .      .        .\n"
      "  slack-and-free-fall  2      .       .       .           .      .        .\n"
      "  slack-and-free-fall  3      1       .       .           .      1        2\n"
      "  slack-and-free-fall  4      .       .       .           .      .        .\n"
      "  rules                1      .       .       1           .      .        1\n"
      "  rules                2      .       .       .           .      .        .\n"
      "  rules                3      .       .       .           .      .        .\n"
      "  rules                4      .       .       .           .      .        .\n"
      "\n"
      "  (a)(2)  tema de capacitación, 29 CFR 1926.503(a)(2)                             "
      "preguntas\n"
      "  i       los peligros de caída en el área de trabajo                             2\n"
      "  ii      armar, mantener, desarmar e inspeccionar los sistemas                   .\n"
      "  iii     uso y funcionamiento de los sistemas de protección                      3\n"
      "  iv      el papel de cada trabajador en el sistema de monitoreo de seguridad     .\n"
      "  v       los límites del equipo mecánico en techos de poca pendiente             .\n"
      "  vi      manejo y almacenamiento de equipo y materiales, protección superior     .\n"
      "  vii     el papel de los trabajadores en los planes de protección contra caídas  .\n"
      "  viii    las normas de la Subparte M                                             .\n");
}

TEST(Bank, ListsWhatCanBeReadAndNamesTheRest) {
  const Scratch scratch;
  bank_with(scratch, "items/roof/order.xml", "level=\"2\"", "level=\"9\"");
  const Ran ran = run_in(scratch.path, {"bank", "list", "--bank", "bank"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_EQ(ran.err.find("bank/items/roof/order.xml:2: "), 0u) << ran.err;
  EXPECT_EQ(ran.out.find("roof                 order"), std::string::npos);
  EXPECT_NE(ran.out.find("  several-of  1  "), std::string::npos);
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

  bank_with(scratch, "items/slack-and-free-fall/number.xml", "{slack}", "{slck}");
  ran = run_in(scratch.path, {"bank", "check", "number", "--draws", "40", "--bank", "bank"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_EQ(ran.err,
            "bank/items/slack-and-free-fall/number.xml:36: unknown name {slck}; did you mean "
            "{slack}? (US units, seed 1, 40 draws)\n");
  EXPECT_EQ(ran.out, "items checked: 1, defects found in draws: 1\n");
}

TEST(Bank, ChecksInTheSameOrderWithAnyNumberOfJobs) {
  const Scratch scratch;
  bank_with(scratch, "items/slack-and-free-fall/number.xml", "{slack}", "{slck}");
  const auto check = [&](const char* jobs) {
    return run_in(scratch.path,
                  {"bank", "check", "--draws", "40", "--bank", "bank", "--jobs", jobs});
  };
  const Ran one = check("1");
  EXPECT_EQ(one.code, 1);
  EXPECT_EQ(std::count(one.err.begin(), one.err.end(), '\n'), 5) << one.err;
  for (const char* jobs : {"2", "7"}) {
    EXPECT_EQ(check(jobs).err, one.err);
    EXPECT_EQ(check(jobs).out, one.out);
  }
  EXPECT_EQ(check("0").err, "--jobs: is 0, expected a whole number from 1 to 256\n");
}

TEST(Bank, ShowsOneQuestionInTheSingular) {
  const Scratch scratch;
  const auto show = [&](const char* language) {
    return run_in(scratch.path, {"bank", "show", "number", "--bank", small_bank.string(), "--seed",
                                 "3", "--language", language})
        .out;
  };
  EXPECT_NE(show("en").find("\n- 1 question, 2"), std::string::npos);
  EXPECT_NE(show("es").find("\n- 1 pregunta, 2"), std::string::npos);
}

TEST(Bank, RewritesTheCoverageBetweenItsMarks) {
  const Scratch scratch;
  const auto into = [&](const std::string& text) {
    testing::put(scratch.path / "guide.md", text);
    return run_in(scratch.path,
                  {"bank", "coverage", "--into", "guide.md", "--bank", small_bank.string()});
  };
  const Ran printed = run_in(scratch.path, {"bank", "coverage", "--bank", small_bank.string()});
  EXPECT_NE(printed.out.find("\n| roof | 2 | . | 1 | . | 1 | . | 2 |\n"), std::string::npos);
  EXPECT_EQ(into("a\n<!-- coverage: begin -->\nold\n<!-- coverage: end -->\nb\n").code, 0);
  EXPECT_EQ(testing::contents(scratch.path / "guide.md"),
            "a\n<!-- coverage: begin -->\n" + printed.out + "<!-- coverage: end -->\nb\n");
  const Ran refused = into("no marks\n");
  EXPECT_EQ(refused.code, 1);
  EXPECT_EQ(refused.err,
            "guide.md: has no lines \"<!-- coverage: begin -->\" and \"<!-- coverage: end -->\" to "
            "write between\n");
  EXPECT_EQ(testing::contents(scratch.path / "guide.md"), "no marks\n");
}

TEST(Bank, RefusesAnItemThatIsNotThere) {
  const Scratch scratch;
  const Ran ran = run_in(scratch.path, {"bank", "check", "nmber", "--bank", small_bank.string()});
  EXPECT_EQ(ran.code, 2);
  EXPECT_EQ(ran.err, "nmber: is no item of the bank; did you mean number?\n");
}

}  // namespace
}  // namespace footroom::cli
