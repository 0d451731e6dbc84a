// The authoring guide, questionbank/README.md, does what it says.

#include <gtest/gtest.h>

#include <cstdlib>
#include <string>

#include "cli/program_run.hpp"

namespace footroom::cli {
namespace {

using testing::contents;
using testing::put;
using testing::Ran;
using testing::run_in;
using testing::Scratch;

const testing::fs::path questionbank = testing::fs::path(FOOTROOM_SOURCE_DIR) / "questionbank";

std::string between(const std::string& text, const std::string& begin, const std::string& end) {
  const auto from = text.find(begin);
  const auto to = from == text.npos ? from : text.find(end, from + begin.size());
  if (to == text.npos) return "";
  return text.substr(from + begin.size(), to - from - begin.size());
}

TEST(Guide, ExampleItemIsSoundAndCanBeShown) {
  const std::string item = between(contents(questionbank / "README.md"), "```xml\n", "```\n");
  const std::string id = between(item, "id=\"", "\"");
  const std::string topic = between(item, "topic=\"", "\"");
  ASSERT_FALSE(id.empty());
  ASSERT_FALSE(topic.empty());
  const Scratch scratch;
  testing::fs::copy(questionbank, scratch.path / "bank", testing::fs::copy_options::recursive);
  put(scratch.path / "bank" / "items" / topic / (id + ".xml"), item);
  const Ran checked =
      run_in(scratch.path, {"bank", "check", id, "--draws", "400", "--bank", "bank"});
  EXPECT_EQ(checked.code, 0);
  EXPECT_EQ(checked.err, "");
  EXPECT_EQ(checked.out, "items checked: 1, defects found in draws: 0\n");
  for (const char* language : {"en", "es"}) {
    const Ran shown = run_in(scratch.path, {"bank", "show", id, "--bank", "bank", "--seed", "7",
                                            "--language", language});
    EXPECT_EQ(shown.code, 0) << shown.err;
    EXPECT_NE(shown.out.find("## 1. " + between(item, std::string("<") + language + ">",
                                                std::string("</") + language + ">")),
              std::string::npos)
        << shown.out;
  }
  const std::string command =
      "xmllint --nonet --noout --schema '" + (scratch.path / "bank" / "bank.xsd").string() + "' '" +
      (scratch.path / "bank" / "items" / topic / (id + ".xml")).string() + "' 2>/dev/null";
  EXPECT_EQ(std::system(command.c_str()), 0);
}

TEST(Guide, ShowsTheCoverageOfTheBank) {
  const Ran now = run_in(questionbank, {"bank", "coverage", "--bank", questionbank.string()});
  EXPECT_EQ(between(contents(questionbank / "README.md"), "<!-- coverage: begin -->\n",
                    "<!-- coverage: end -->"),
            now.out)
      << "the bank has changed; rewrite the tables with\n"
         "  footroom bank coverage --into questionbank/README.md";
}

}  // namespace
}  // namespace footroom::cli
