// Input that is hostile or broken: each is refused with a line, and none is expanded or recursed
// into.

#include "bank/xml.hpp"

#include <gtest/gtest.h>

#include "bank/read.hpp"

namespace footroom::bank {
namespace {

std::vector<std::string> defects_of(const std::string& xml) {
  std::vector<std::string> texts;
  for (const Defect& defect : read_items(xml, "f.xml").defects) texts.push_back(defect.text());
  return texts;
}

using Texts = std::vector<std::string>;

TEST(Xml, RefusesADocumentType) {
  const std::string laughs = R"(<?xml version="1.0"?>
<!DOCTYPE item [
<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">
]>
<item>&c;</item>)";
  EXPECT_EQ(defects_of(laughs),
            Texts{"f.xml:2: a document type (<!DOCTYPE ...>), which bank files may not have"});
}

TEST(Xml, RefusesDeepNesting) {
  std::string deep = "<item>\n";
  for (int i = 0; i < 100'000; ++i) deep += "<a>";
  for (int i = 0; i < 100'000; ++i) deep += "</a>";
  deep += "</item>";
  EXPECT_EQ(defects_of(deep), Texts{"f.xml:2: elements are nested more than 64 deep"});
}

TEST(Xml, RefusesAHugeFile) {
  EXPECT_EQ(defects_of(std::string(1'048'577, ' ')),
            Texts{"f.xml:1: the file has 1048577 bytes, expected at most 1048576"});
}

TEST(Xml, RefusesBrokenUtf8) {
  const Texts expected{"f.xml:2: broken UTF-8, expected text in UTF-8"};
  EXPECT_EQ(defects_of("<item>\n\xC3</item>"), expected);              // cut short
  EXPECT_EQ(defects_of("<item>\n\xC0\xAF</item>"), expected);          // overlong slash
  EXPECT_EQ(defects_of("<item>\n\xE0\x80\xAF</item>"), expected);      // overlong slash
  EXPECT_EQ(defects_of("<item>\n\xED\xA0\x80</item>"), expected);      // a surrogate
  EXPECT_EQ(defects_of("<item>\n\xF4\x90\x80\x80</item>"), expected);  // above U+10FFFF
  EXPECT_EQ(defects_of("<item>\n\xA9</item>"), expected);              // a stray continuation
  EXPECT_EQ(defects_of("<item>\n\xFF</item>"), expected);
  EXPECT_EQ(defects_of("<item>\n\xE2\x82"), expected);  // cut short by the end
}

TEST(Xml, RefusesControlCharacters) {
  EXPECT_EQ(defects_of(std::string("<item>\n\0</item>", 15)),
            Texts{"f.xml:2: a control character, which XML does not allow"});
}

TEST(Xml, RefusesWhatTheParserLetsPass) {
  EXPECT_EQ(defects_of("<item id=\"a\"\nid=\"b\"/>"),
            Texts{"f.xml:1: attribute \"id\" stands twice in <item>"});
  EXPECT_EQ(defects_of("<item/>\ntext"), Texts{"f.xml:1: text outside the root element"});
  EXPECT_EQ(defects_of("<item/>\n<item/>"),
            Texts{"f.xml:2: a second root element <item>, expected one in a file"});
  EXPECT_EQ(defects_of("<item>&nbsp;</item>"),
            Texts{"f.xml:1: unknown entity \"&nbsp;\", expected &amp; &lt; &gt; &quot; &apos; or a "
                  "character number"});
  EXPECT_EQ(defects_of("<item>&#0;</item>").size(), 1u);
  EXPECT_EQ(defects_of("<item>&#xD800;</item>").size(), 1u);
  EXPECT_EQ(defects_of("<item a=\"R & D\"/>").size(), 1u);
  EXPECT_EQ(defects_of("<item a=\"a < b\"/>"),
            Texts{"f.xml:1: attribute \"a\" holds a bare <, expected &lt; instead"});
  EXPECT_EQ(defects_of("<?xml version=\"1.0\" encoding=\"latin1\"?><item/>"),
            Texts{"f.xml:1: encoding \"LATIN1\", expected UTF-8"});
  EXPECT_EQ(defects_of(""), Texts{"f.xml:1: no element, expected one root element"});
  EXPECT_EQ(defects_of("<!-- nothing -->"),
            Texts{"f.xml:1: no element, expected one root element"});
}

TEST(Xml, RefusesTagsThatDoNotMatch) {
  const Texts defects = defects_of("<item>\n<title></item>");
  ASSERT_EQ(defects.size(), 1u);
  EXPECT_EQ(defects[0], "f.xml:2: not well-formed XML: Start-end tags mismatch");
}

TEST(Xml, KeepsEntitiesAndSpanishLetters) {
  std::vector<Defect> defects;
  const XmlFile file("<a b=\"1 &lt; 2\">&#233; &#xE9; é &amp;</a>", "f.xml", defects);
  ASSERT_TRUE(defects.empty());
  EXPECT_STREQ(file.root().attribute("b").value(), "1 < 2");
  EXPECT_STREQ(file.root().child_value(), "é é é &");
}

}  // namespace
}  // namespace footroom::bank
