#include "bank/read.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "bank/item_text.hpp"

namespace footroom::bank {
namespace {

using tests::replaced;
using tests::small_item;
using Texts = std::vector<std::string>;

Texts texts(const std::vector<Defect>& defects) {
  Texts all;
  for (const Defect& defect : defects) all.push_back(defect.text());
  return all;
}

/// What is wrong with the small item after one replacement; nothing is read then.
Texts defects_after(const std::string& was, const std::string& by) {
  const ReadItems read = read_items(replaced(small_item(), was, by), "f.xml");
  EXPECT_TRUE(read.items.empty());
  return texts(read.defects);
}

TEST(ReadItems, ReadsEveryPart) {
  const ReadItems read = read_items(small_item(), "f.xml");
  ASSERT_TRUE(read.defects.empty()) << read.defects[0].text();
  ASSERT_EQ(read.items.size(), 1u);
  const Item& item = read.items[0];
  EXPECT_EQ(item.id, "sum");
  EXPECT_EQ(item.topic, "roof");
  EXPECT_EQ(item.level, 2);
  EXPECT_EQ(item.kind, Kind::number);
  EXPECT_EQ(item.points, 1);
  EXPECT_EQ(item.minutes, 3);
  EXPECT_EQ(item.title.spanish, "Suma");
  ASSERT_EQ(item.draws.size(), 1u);
  EXPECT_EQ(item.draws[0].us.step, 0.5);
  EXPECT_EQ(item.draws[0].si.unit, "m");
  EXPECT_EQ(item.draws[0].at.line, 3);
  ASSERT_EQ(item.derivations.size(), 1u);
  EXPECT_EQ(item.derivations[0].let->value.text, "part * 3");
  EXPECT_EQ(item.derivations[0].let->value.at.line, 8);
  EXPECT_EQ(item.answer->us.places, 1);
  EXPECT_FALSE(item.answer->us.tolerance);
  ASSERT_EQ(item.mistakes.size(), 1u);
  EXPECT_EQ(item.mistakes[0].says.english, "Two are not three.");
  ASSERT_EQ(item.steps.size(), 1u);
  EXPECT_EQ(item.steps[0].of, "whole");
}

TEST(ReadItems, ReadsSourcesWithACitationATextBothOrForCommonPracticeNeither) {
  const std::string both =
      "<source citation=\"29 CFR 1\" status=\"read\"><en>holes</en><es>huecos</es></source>\n";
  const std::string text =
      "<source status=\"computed\"><en>geometry</en><es>geometría</es></source>\n";
  const ReadItems read =
      read_items(replaced(small_item(), "</item>",
                          both + text + "<source citation=\"29 CFR 2\" status=\"from-memory\"/>\n" +
                              "<source status=\"common-practice\"/>\n</item>"),
                 "f.xml");
  ASSERT_EQ(texts(read.defects), Texts{});
  const auto& sources = read.items.at(0).sources;
  ASSERT_EQ(sources.size(), 4u);
  EXPECT_EQ(sources[0].citation, "29 CFR 1");
  EXPECT_EQ(sources[0].about.spanish, "huecos");
  EXPECT_EQ(sources[1].citation, "");
  EXPECT_EQ(sources[1].about.english, "geometry");
  EXPECT_EQ(sources[2].about.english, "");
  EXPECT_EQ(sources[3].status, "common-practice");
  EXPECT_EQ(defects_after("</item>", "<source status=\"read\"/></item>"),
            Texts{"f.xml:20: <source> names nothing, expected \"citation\" or a text"});
  EXPECT_EQ(defects_after("</item>", "<source status=\"read\"><en>a</en></source></item>"),
            Texts{"f.xml:20: <source> lacks <es>, expected both <en> and <es>"});
}

TEST(ReadItems, RefusesUnknownElementsAndAttributes) {
  EXPECT_EQ(defects_after("<step of=\"whole\"/>", "<stpe of=\"whole\"/>"),
            Texts{"f.xml:19: unknown element <stpe> in <item>; did you mean <step>?"});
  EXPECT_EQ(defects_after("level=\"2\"", "levle=\"2\""),
            (Texts{"f.xml:1: unknown attribute \"levle\" in <item>; did you mean \"level\"?",
                   "f.xml:1: <item> lacks the attribute \"level\""}));
  EXPECT_EQ(defects_after("<step of=\"whole\"/>", "<step of=\"whole\" colour=\"red\"/>"),
            Texts{"f.xml:19: unknown attribute \"colour\" in <step>, expected \"of\""});
}

TEST(ReadItems, WantsBothLanguages) {
  EXPECT_EQ(defects_after("<es>Suma</es>", ""),
            Texts{"f.xml:2: <title> lacks <es>, expected both <en> and <es>"});
  EXPECT_EQ(defects_after("<es>Dos no son tres.</es>", "<es> </es>"),
            Texts{"f.xml:18: <es> of <mistake> is empty, expected a text"});
}

TEST(ReadItems, RefusesMarkupInsideAText) {
  EXPECT_EQ(defects_after("<en>Sum</en>", "<en>Sum<b>!</b></en>"),
            Texts{"f.xml:2: unknown element <b> in <en>, expected text in Markdown"});
}

TEST(ReadItems, RefusesTextBetweenElements) {
  EXPECT_EQ(defects_after("<step of", "so: <step of"),
            Texts{"f.xml:1: text stands directly in <item>, expected it in an element of <item>"});
}

TEST(ReadItems, RefusesNumbersThatAreNone) {
  EXPECT_EQ(defects_after("from=\"1\"", "from=\"1,5\""),
            Texts{"f.xml:5: from=\"1,5\", expected a number such as 0.25"});
  for (const char* bad : {"nan", "inf", "1e999", "0x10", "", "1 "})
    EXPECT_EQ(defects_after("from=\"1\"", std::string("from=\"") + bad + "\"").size(), 1u) << bad;
  EXPECT_EQ(defects_after("level=\"2\"", "level=\"5\""),
            Texts{"f.xml:1: level=\"5\", expected a whole number from 1 to 4"});
}

TEST(ReadItems, RefusesGridsThatDoNotGoUp) {
  EXPECT_EQ(defects_after("step=\"0.5\"", "step=\"0\""),
            Texts{"f.xml:5: the step of a grid is above zero"});
  EXPECT_EQ(
      defects_after("to=\"20\"", "to=\"0\""),
      Texts{"f.xml:5: a grid goes up, from \"from\" to \"to\", with at most a million steps"});
  EXPECT_EQ(defects_after("to=\"20\"", "to=\"20.3\""),
            Texts{"f.xml:5: \"to\" is no whole number of steps above \"from\""});
}

TEST(ReadItems, RefusesNamesTwiceAndTheFormulasOwnWords) {
  EXPECT_EQ(defects_after("<let name=\"whole\"", "<let name=\"part\""),
            Texts{"f.xml:8: the name \"part\" is taken, expected another"});
  EXPECT_EQ(defects_after("<let name=\"whole\"", "<let name=\"g\""),
            Texts{"f.xml:8: the name \"g\" is taken, expected another"});
  EXPECT_EQ(defects_after("<let name=\"whole\"", "<let name=\"Whole\""),
            Texts{"f.xml:8: name=\"Whole\", expected lower-case letters and digits with hyphens "
                  "inside"});
}

TEST(ReadItems, KnowsWhatEachKindNeeds) {
  EXPECT_EQ(defects_after("kind=\"number\"", "kind=\"verdict\""),
            Texts{"f.xml:1: kind=\"verdict\" has two or more <option> and no <answer>"});
  EXPECT_EQ(defects_after("kind=\"number\"", "kind=\"one-of\""),
            Texts{"f.xml:1: kind=\"one-of\" with an <answer> has two or more <mistake>, which "
                  "become the wrong choices"});
  EXPECT_EQ(defects_after("kind=\"number\"", "kind=\"numbr\""),
            Texts{"f.xml:1: kind=\"numbr\"; did you mean \"number\"?"});
  EXPECT_EQ(defects_after("value=\"part * 2\"", "value=\"part * 2\" change=\"part\""),
            Texts{"f.xml:18: <mistake> has either \"change\" and \"to\", or \"value\""});
}

TEST(ReadItems, RefusesAnElementTooMany) {
  EXPECT_EQ(defects_after("<title>", "<title><en>a</en><es>b</es></title>\n<title>"),
            Texts{"f.xml:3: one <title> too many in <item>, expected at most 1"});
}

TEST(ReadItems, RefusesAnotherRootOrNamespace) {
  EXPECT_EQ(defects_after("urn:footroom:bank", "urn:other"),
            Texts{"f.xml:1: <item> has the namespace \"urn:other\", expected "
                  "xmlns=\"urn:footroom:bank\""});
  EXPECT_EQ(texts(read_items("<pool/>", "f.xml").defects),
            Texts{"f.xml:1: the root element is <pool>, expected <item>"});
}

TEST(ReadItems, ReportsEveryDefectOfAnItem) {
  const std::string two = replaced(replaced(small_item(), "level=\"2\"", "level=\"9\""),
                                   "places=\"1\"", "places=\"x\"");
  EXPECT_EQ(texts(read_items(two, "f.xml").defects),
            (Texts{"f.xml:1: level=\"9\", expected a whole number from 1 to 4",
                   "f.xml:10: places=\"x\", expected a whole number from 0 to 6"}));
}

TEST(ReadItems, TakesTheLayoutsIndentationFromATextAndKeepsParagraphs) {
  const auto read = read_items(
      replaced(small_item(), "<en>Sum</en>", "<en>\n    One\n\n      two\n    three\n  </en>"),
      "f.xml");
  ASSERT_EQ(read.items.size(), 1u);
  EXPECT_EQ(read.items[0].title.english, "One\n\n  two\nthree");
}

TEST(ReadItems, JoinsATextAroundAComment) {
  const auto read =
      read_items(replaced(small_item(), "<en>Sum</en>", "<en>S<!-- u --><![CDATA[um]]></en>"), "f");
  ASSERT_EQ(read.items.size(), 1u);
  EXPECT_EQ(read.items[0].title.english, "Sum");
}

// ---- A folder ----------------------------------------------------------------------------------

class Folder : public testing::Test {
 protected:
  Folder() {
    const auto* test = testing::UnitTest::GetInstance()->current_test_info();
    root_ = std::filesystem::path(testing::TempDir()) / (std::string("footroom-") + test->name());
    std::filesystem::remove_all(root_);
    put("topics.xml", R"(<topics xmlns="urn:footroom:bank">
<topic id="roof"><en>The roof</en><es>El techo</es></topic></topics>)");
    put("items/roof/sum.xml", small_item());
  }
  ~Folder() override { std::filesystem::remove_all(root_); }

  void put(const std::string& name, const std::string& text) {
    std::filesystem::create_directories((folder() / name).parent_path());
    std::ofstream(folder() / name, std::ios::binary) << text;
  }
  std::filesystem::path folder() const { return root_ / "bank"; }

 private:
  std::filesystem::path root_;
};

TEST_F(Folder, IsReadWithNamesFromTheBankFolderOn) {
  const ReadBank read = read_bank(folder());
  EXPECT_EQ(texts(read.defects), Texts{});
  ASSERT_EQ(read.bank.items.size(), 1u);
  EXPECT_EQ(read.bank.items[0].at.file, "bank/items/roof/sum.xml");
  EXPECT_EQ(read.bank.topics.size(), 1u);
  EXPECT_EQ(read.bank.digest.size(), 64u);
}

TEST_F(Folder, MayBeNamedWithASlashBehind) {
  EXPECT_EQ(read_bank(folder() / "").bank.items.at(0).at.file, "bank/items/roof/sum.xml");
  EXPECT_EQ(read_bank(folder() / "").bank.digest, read_bank(folder()).bank.digest);
}

TEST_F(Folder, GoesOnAfterABadFile) {
  put("items/roof/bad.xml", "<item");
  put("items/roof/other.xml", replaced(small_item(), "id=\"sum\"", "id=\"wrong\""));
  put("pools/words.xml", "<pool xmlns=\"urn:footroom:bank\" name=\"words\"/>");
  const ReadBank read = read_bank(folder());
  EXPECT_EQ(texts(read.defects),
            (Texts{"bank/items/roof/bad.xml:1: not well-formed XML: Error parsing start element "
                   "tag",
                   "bank/items/roof/other.xml:1: id=\"wrong\", expected \"other\" as the file is "
                   "named",
                   "bank/pools/words.xml:1: <pool> lacks <choice>"}));
  EXPECT_EQ(read.bank.items.size(), 1u);
}

TEST_F(Folder, RefusesAnItemInAnotherTopicsFolderOrTwice) {
  put("items/swing/sum.xml", small_item());
  EXPECT_EQ(texts(read_bank(folder()).defects),
            (Texts{"bank/items/swing/sum.xml:1: topic=\"roof\", expected \"swing\" as the folder "
                   "is named",
                   "bank/items/swing/sum.xml:1: id=\"sum\" is another item's, expected each "
                   "once"}));
}

TEST_F(Folder, RefusesUnknownTopicsAndPools) {
  put("blueprints/short.xml", R"(<blueprint xmlns="urn:footroom:bank" id="short" minutes="10">
<title><en>a</en><es>b</es></title><course><en>a</en><es>b</es></course>
<section topic="rof" questions="1" levels="1 2"/>
</blueprint>)");
  put("items/roof/sum.xml",
      replaced(small_item(), "<stem>", "<pick name=\"who\" pool=\"nobody\"/>\n<stem>"));
  const ReadBank read = read_bank(folder());
  EXPECT_EQ(texts(read.defects),
            (Texts{"bank/items/roof/sum.xml:13: unknown pool \"nobody\", expected a file in pools/",
                   "bank/blueprints/short.xml:3: unknown topic \"rof\", expected one of "
                   "topics.xml"}));
  EXPECT_EQ(read.bank.blueprints.at("short").sections.at(0).levels, (std::vector<int>{1, 2}));
}

TEST_F(Folder, RefusesAnItemOfAnUnknownRuleSet) {
  put("rules/here.xml", R"(<rules xmlns="urn:footroom:bank" id="here">
<title><en>Here</en><es>Aquí</es></title>
<limit id="height" us="6 ft" citation="none, invented" status="from-memory"><en>a</en><es>b</es></limit>
</rules>)");
  const auto defects_with = [&](const std::string& rules) {
    put("items/roof/sum.xml", replaced(small_item(), "<item ", "<item rules=\"" + rules + "\" "));
    return texts(read_bank(folder()).defects);
  };
  EXPECT_EQ(defects_with("here"), Texts{});
  EXPECT_EQ(read_bank(folder()).bank.items.at(0).rules, std::vector<std::string>{"here"});
  EXPECT_EQ(defects_with("here heer"),
            Texts{"bank/items/roof/sum.xml:1: unknown rule set \"heer\"; did you mean \"here\"?"});
  EXPECT_EQ(
      defects_with("elsewhere"),
      Texts{
          "bank/items/roof/sum.xml:1: unknown rule set \"elsewhere\", expected a file in rules/"});
  EXPECT_EQ(
      defects_with("here here"),
      Texts{"bank/items/roof/sum.xml:1: the rule set \"here\" stands twice, expected each once"});
  EXPECT_EQ(defects_with(" "), Texts{"bank/items/roof/sum.xml:1: rules is empty, expected rule "
                                     "sets, or no \"rules\" for all of them"});
}

TEST_F(Folder, ReadsRules) {
  put("rules/here.xml", R"(<rules xmlns="urn:footroom:bank" id="here">
<title><en>Here</en><es>Aquí</es></title>
<limit id="height" us="6 ft" citation="none, invented" status="from-memory"><en>a</en><es>b</es></limit>
</rules>)");
  const ReadBank read = read_bank(folder());
  EXPECT_EQ(texts(read.defects), Texts{});
  const Limit& limit = read.bank.rules.at("here").limits.at("height");
  EXPECT_EQ(limit.us, "6 ft");
  EXPECT_EQ(limit.si, "");
  EXPECT_EQ(limit.at.line, 3);
}

TEST_F(Folder, RefusesALimitWithoutAValue) {
  put("rules/here.xml", R"(<rules xmlns="urn:footroom:bank" id="here">
<title><en>Here</en><es>Aquí</es></title>
<limit id="height" citation="none" status="read"><en>a</en><es>b</es></limit>
</rules>)");
  EXPECT_EQ(texts(read_bank(folder()).defects),
            Texts{"bank/rules/here.xml:3: <limit> has no value, expected \"us\", \"si\" or both"});
}

TEST_F(Folder, ChangesItsDigestWithAnyByte) {
  const std::string before = read_bank(folder()).bank.digest;
  put("items/roof/sum.xml", small_item() + "\n");
  EXPECT_NE(before, read_bank(folder()).bank.digest);
}

TEST_F(Folder, MustExist) {
  EXPECT_THROW(read_bank(folder() / "none"), std::filesystem::filesystem_error);
}

// ---- The project's own bank --------------------------------------------------------------------

TEST(QuestionBank, IsReadWithoutADefect) {
  const ReadBank read = read_bank(std::filesystem::path(FOOTROOM_SOURCE_DIR) / "questionbank");
  EXPECT_EQ(texts(read.defects), Texts{});
  EXPECT_FALSE(read.bank.items.empty());
  EXPECT_TRUE(read.bank.rules.contains("us-construction"));
}

}  // namespace
}  // namespace footroom::bank
