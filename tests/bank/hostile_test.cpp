// Bank files from strangers: each is refused with file and line, or harmless; none hangs, reads
// another file or takes much memory. What is not well-formed stands in xml_test.cpp.

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <functional>

#include "bank/item_text.hpp"
#include "bank/read.hpp"

namespace footroom::bank {
namespace {

namespace fs = std::filesystem;
using tests::replaced;
using tests::small_item;
using Texts = std::vector<std::string>;

Texts texts(const std::vector<Defect>& defects) {
  Texts all;
  for (const Defect& defect : defects) all.push_back(defect.text());
  return all;
}

Texts defects_after(const std::string& was, const std::string& by) {
  const ReadItems read = read_items(replaced(small_item(), was, by), "f.xml");
  EXPECT_TRUE(read.items.empty());
  return texts(read.defects);
}

std::string repeated(int times, const std::function<std::string(int)>& piece) {
  std::string all;
  for (int i = 0; i < times; ++i) all += piece(i);
  return all;
}

TEST(Hostile, ExternalEntitiesAndInclusionsReadNoFile) {
  EXPECT_EQ(
      texts(read_items("<!DOCTYPE item SYSTEM \"file:///etc/passwd\">\n<item/>", "f.xml").defects),
      Texts{"f.xml:1: a document type (<!DOCTYPE ...>), which bank files may not have"});
  EXPECT_EQ(texts(read_items("<!DOCTYPE item [<!ENTITY a SYSTEM \"/etc/passwd\">]>\n"
                             "<item>&a;</item>",
                             "f.xml")
                      .defects),
            Texts{"f.xml:1: a document type (<!DOCTYPE ...>), which bank files may not have"});
  EXPECT_EQ(defects_after("<step of=\"whole\"/>", "<xi:include href=\"/etc/passwd\"/>").size(), 1u);
}

TEST(Hostile, GridsWithoutMeasureAreRefused) {
  const Texts refused{
      "f.xml:5: a grid goes up, from \"from\" to \"to\", with at most a million steps"};
  EXPECT_EQ(defects_after("step=\"0.5\"", "step=\"1e-300\""), refused);
  EXPECT_EQ(defects_after("to=\"20\" step=\"0.5\"", "to=\"1e18\" step=\"1\""), refused);
  EXPECT_EQ(defects_after("from=\"1\" to=\"20\"", "from=\"20\" to=\"1\""), refused);
  EXPECT_EQ(defects_after("from=\"1\" to=\"20\"", "from=\"-1e308\" to=\"1e308\""), refused);
  EXPECT_EQ(defects_after("step=\"0.5\"", "step=\"-0.5\""),
            Texts{"f.xml:5: the step of a grid is above zero"});
}

TEST(Hostile, TooManyPartsAreRefused) {
  EXPECT_EQ(defects_after("<step of=\"whole\"/>",
                          repeated(61, [](int) { return std::string("<step of=\"whole\"/>\n"); })),
            Texts{"f.xml:79: one <step> too many in <item>, expected at most 60"});
  EXPECT_EQ(defects_after("<step of", repeated(20,
                                               [](int i) {
                                                 return "<mistake id=\"m" + std::to_string(i) +
                                                        "\" value=\"part\"><en>a</en><es>b</es>"
                                                        "</mistake>\n";
                                               }) +
                                          "<step of"),
            Texts{"f.xml:38: one <mistake> too many in <item>, expected at most 20"});
  EXPECT_EQ(
      defects_after(
          "<stem>",
          repeated(51, [](int) { return std::string("<keep if=\"part > 1 ft\"/>\n"); }) + "<stem>"),
      Texts{"f.xml:63: one <keep> too many in <item>, expected at most 50"});
  const std::string choices = repeated(1001, [](int i) {
    return "<choice id=\"c" + std::to_string(i) + "\"><en>a</en><es>b</es></choice>\n";
  });
  EXPECT_EQ(defects_after("<stem>", "<pick name=\"who\">\n" + choices + "</pick>\n<stem>"),
            Texts{"f.xml:1014: one <choice> too many in <pick>, expected at most 1000"});
}

TEST(Hostile, EndlessTextsAreRefused) {
  EXPECT_EQ(defects_after("<en>Sum</en>", "<en>" + std::string(4001, 'a') + "</en>"),
            Texts{"f.xml:2: <en> of <title> has 4001 bytes, expected at most 4000"});
  EXPECT_EQ(defects_after("name=\"whole\"", "name=\"w" + std::string(100, 'a') + "\""),
            Texts{"f.xml:8: name has 101 bytes, expected at most 100"});
  EXPECT_EQ(defects_after("symbol=\"b\"", "symbol=\"" + std::string(2001, 'b') + "\""),
            Texts{"f.xml:8: symbol has 2001 bytes, expected at most 2000"});
}

TEST(Hostile, NamesCannotLeaveTheFolder) {
  EXPECT_EQ(defects_after("<stem>", "<pick name=\"who\" pool=\"../../etc\"/>\n<stem>").size(), 1u);
  EXPECT_EQ(defects_after("topic=\"roof\"", "topic=\"../roof\""),
            Texts{"f.xml:1: topic=\"../roof\", expected lower-case letters and digits with hyphens "
                  "inside"});
}

class HostileFolder : public testing::Test {
 protected:
  HostileFolder() {
    const auto* test = testing::UnitTest::GetInstance()->current_test_info();
    root_ = fs::path(testing::TempDir()) / (std::string("footroom-hostile-") + test->name());
    fs::remove_all(root_);
    fs::create_directories(bank() / "items" / "roof");
    put("bank/topics.xml", R"(<topics xmlns="urn:footroom:bank">
<topic id="roof"><en>The roof</en><es>El techo</es></topic></topics>)");
    put("bank/items/roof/sum.xml", small_item());
  }
  ~HostileFolder() override { fs::remove_all(root_); }

  void put(const std::string& name, const std::string& text) {
    std::ofstream(root_ / name, std::ios::binary) << text;
  }
  fs::path bank() const { return root_ / "bank"; }

  fs::path root_;
};

TEST_F(HostileFolder, LinksAreNotFollowed) {
  put("outside.xml", replaced(small_item(), "id=\"sum\"", "id=\"link\""));
  fs::create_symlink(root_ / "outside.xml", bank() / "items" / "roof" / "link.xml");
  fs::create_symlink(root_, bank() / "pools");
  fs::create_symlink("loop.xml", bank() / "items" / "loop.xml");
  const ReadBank read = read_bank(bank());
  EXPECT_EQ(texts(read.defects),
            (Texts{"bank/items/loop.xml:1: a symbolic link, expected a file or folder itself",
                   "bank/items/roof/link.xml:1: a symbolic link, expected a file or folder itself",
                   "bank/pools:1: a symbolic link, expected a file or folder itself"}));
  EXPECT_EQ(read.bank.items.size(), 1u);
}

TEST_F(HostileFolder, PipesAreNotWaitedFor) {
  ASSERT_EQ(::mkfifo((bank() / "items" / "roof" / "pipe.xml").c_str(), 0600), 0);
  fs::remove(bank() / "topics.xml");
  ASSERT_EQ(::mkfifo((bank() / "topics.xml").c_str(), 0600), 0);
  const Texts defects = texts(read_bank(bank()).defects);
  ASSERT_GE(defects.size(), 2u);
  EXPECT_EQ(defects[0], "bank/items/roof/pipe.xml:1: no plain file");
  EXPECT_EQ(defects[1], "bank/topics.xml:1: no plain file");
}

TEST_F(HostileFolder, AHugeFileIsNotReadAndTheRestIs) {
  put("bank/items/roof/huge.xml", std::string(3'000'000, ' '));
  const ReadBank read = read_bank(bank());
  EXPECT_EQ(texts(read.defects), Texts{"bank/items/roof/huge.xml:1: the file has 3000000 bytes, "
                                       "expected at most 1048576"});
  EXPECT_EQ(read.bank.items.size(), 1u);
}

}  // namespace
}  // namespace footroom::bank
