#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "render/render.hpp"
#include "sample.hpp"

namespace footroom::render {
namespace {

namespace fs = std::filesystem;

/// A copy of templates/ in which one file is broken.
class BrokenTemplates : public testing::Test {
 protected:
  void SetUp() override {
    const auto* test = testing::UnitTest::GetInstance()->current_test_info();
    folder_ = fs::path(testing::TempDir()) / ("footroom_templates_" + std::string(test->name()));
    fs::remove_all(folder_);
    fs::copy(FOOTROOM_SOURCE_DIR "/templates", folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  void write(const std::string& name, const std::string& text) {
    std::ofstream(folder_ / name, std::ios::binary) << text;
  }

  std::string error() {
    try {
      const Templates read(folder_);
    } catch (const std::runtime_error& thrown) {
      std::string message = thrown.what();
      const std::string prefix = folder_.string() + "/";
      EXPECT_EQ(message.substr(0, prefix.size()), prefix);
      return message.substr(prefix.size());
    }
    return "nothing was thrown";
  }

  fs::path folder_;
};

TEST_F(BrokenTemplates, UnclosedSectionIsNamedWithItsLine) {
  write("sheet.md", "one\ntwo {{#questions}}\nthree\n");
  EXPECT_EQ(error(), "sheet.md:2: Unclosed section \"questions\"");
}

TEST_F(BrokenTemplates, UnclosedTagInAnIncludeIsNamedWithItsLine) {
  write("figure.html", "<p>\n\n{{drawing\n");
  EXPECT_EQ(error(), "figure.html:3: Unclosed tag");
}

TEST_F(BrokenTemplates, UnknownLabelIsNamedWithItsLine) {
  write("key.md", "# {{quiz-title}}\n{{label.anwser}}\n");
  EXPECT_EQ(error(),
            "key.md:2: unknown label \"anwser\", expected one of labels.xml (did you mean "
            "\"answer\"?)");
}

TEST_F(BrokenTemplates, IncludesThatNeverEndAreRefused) {
  write("figure.html", "\n{{> figure.html}}\n");
  EXPECT_EQ(error(), "figure.html:2: includes go deeper than 8 files");
}

TEST_F(BrokenTemplates, MissingTranslationIsNamed) {
  write("labels.xml", "<labels>\n<label id=\"date\"><en>Date</en></label>\n</labels>\n");
  EXPECT_EQ(error(), "labels.xml:2: label \"date\" lacks a text, expected <en> and <es>");
}

TEST_F(BrokenTemplates, DoubleLabelIsNamed) {
  write("labels.xml",
        "<labels>\n<label id=\"a\"><en>A</en><es>A</es></label>\n"
        "<label id=\"a\"><en>A</en><es>A</es></label>\n</labels>\n");
  EXPECT_EQ(error(), "labels.xml:3: label \"a\" stands here a second time");
}

TEST_F(BrokenTemplates, MissingLabelIsNamed) {
  write("labels.xml", "<labels>\n<label id=\"a\"><en>A</en><es>A</es></label>\n</labels>\n");
  EXPECT_EQ(error(), "labels.xml:4: label \"date-format\" is missing");
}

TEST_F(BrokenTemplates, BrokenXmlIsNamedWithItsLine) {
  write("labels.xml", "<labels>\n<label id=\"a\"\n</labels>\n");
  EXPECT_EQ(error(), "labels.xml:3: Error parsing start element tag");
}

TEST_F(BrokenTemplates, MissingFileIsNamed) {
  fs::remove(folder_ / "styles.css");
  EXPECT_EQ(error(), "styles.css:1: cannot be read, expected a text file");
}

TEST(Templates, GiveTheSameSheetAgain) {
  const Templates templates(FOOTROOM_SOURCE_DIR "/templates");
  const auto page = [&] {
    return html_page(templates, sample::header(), sample::sheet(), Face::key);
  };
  EXPECT_EQ(page(), page());
}

}  // namespace
}  // namespace footroom::render
