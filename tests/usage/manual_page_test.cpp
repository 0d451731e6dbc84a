#include <gtest/gtest.h>

#include "cli/command.hpp"
#include "usage/usage.hpp"

namespace footroom::usage {
namespace {

std::string of(const CommandUsage& command) {
  return manual_page({command}, "6 Nov 2026");
}

TEST(ManualPage, NamesEveryCommandAndOption) {
  const auto commands = all_usages();
  ASSERT_EQ(commands.size(), cli::all_commands().size());
  const std::string page = manual_page(commands, "26 Nov 2026");
  std::size_t at = 0;
  for (const auto& command : commands) {
    at = page.find("\n.Ss " + command.name + "\n", at);
    ASSERT_NE(at, std::string::npos) << command.name;
    const std::string section = page.substr(at, page.find("\n.Ss ", at + 1) - at);
    for (const auto& option : command.options) {
      std::string shown = option.name.substr(1);
      for (std::size_t i = 0; (i = shown.find('-', i)) != std::string::npos; i += 2)
        shown.replace(i, 1, "\\-");
      EXPECT_NE(section.find("\n.It Fl " + shown), std::string::npos) << option.name;
    }
  }
}

TEST(ManualPage, WritesTheDayOut) {
  EXPECT_EQ(of({}).find(".Dd November 6, 2026\n"), 0u);
}

TEST(ManualPage, LetsNothingInAHelpTextBecomeARequest) {
  const std::string page = of({"one", "", {}, {{"--two", "", ".Sh \\fBIt's", false}}, ""});
  EXPECT_NE(page.find("\n\\&.Sh \\efBIt\\(aqs\n"), std::string::npos) << page;
}

TEST(ManualPage, KeepsTheLinesOfExamplesAndFillsParagraphs) {
  const std::string page = of({"one",
                               "",
                               {},
                               {},
                               "First part.\nGoes on.\n\nFor instance:\n  a b\n"
                               "  c\nAfter it."});
  EXPECT_NE(page.find(".Pp\nFirst part.\nGoes on.\n.Pp\nFor instance:\n"
                      ".Bd -literal -offset indent\na b\nc\n.Ed\n.Pp\nAfter it.\n"),
            std::string::npos)
      << page;
}

}  // namespace
}  // namespace footroom::usage
