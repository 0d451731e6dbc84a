#include "render/escape.hpp"

#include <cmark.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <pugixml.hpp>
#include <string>

namespace footroom::render {
namespace {

// Texts that are markup somewhere.
const std::string texts[] = {
    "plain",
    "a & b < c > d \"e\" 'f'",
    "&amp; &#65; &copy;",
    "<script>alert(1)</script>",
    "*a* _b_ __c__ `d` ~~e~~ [f](g) ![h](i)",
    "# not a heading #",
    "- not a list",
    "+ not a list",
    "12. not a list",
    "7) not a list",
    "> not a quotation",
    "====",
    "----",
    "a | b | c",
    "back\\slash \\* \\",
    "http://example.org <http://example.org>",
    "snake_case_name 3.5 ft",
    "=SUM(A1:A9)",
    "Peña Ñandú “quoted”",
};

std::string plain_text_of(const std::string& markdown) {
  cmark_node* document = cmark_parse_document(markdown.data(), markdown.size(), CMARK_OPT_DEFAULT);
  cmark_node* paragraph = cmark_node_first_child(document);
  EXPECT_EQ(cmark_node_get_type(paragraph), CMARK_NODE_PARAGRAPH) << markdown;
  EXPECT_EQ(cmark_node_next(paragraph), nullptr) << markdown;
  std::string text;
  for (cmark_node* part = cmark_node_first_child(paragraph); part; part = cmark_node_next(part)) {
    EXPECT_EQ(cmark_node_get_type(part), CMARK_NODE_TEXT) << markdown;
    if (const char* literal = cmark_node_get_literal(part)) text += literal;
  }
  cmark_node_free(document);
  return text;
}

TEST(EscapeMarkdown, ComesOutLiterally) {
  for (const std::string& text : texts) EXPECT_EQ(plain_text_of(escape_markdown(text)), text);
}

TEST(EscapeMarkdown, KeepsTextOnOneLine) {
  EXPECT_EQ(escape_markdown("  a\nb\r\n# c\t"), "a b  # c");
}

TEST(EscapeMarkdown, LeavesReadableTextAlone) {
  for (const char* text : {"3.5 ft", "F_max = 900 lbf", "d₀ = √((L cos θ)² + h²)", "a < b",
                           "29 CFR 1926.502(d)(16)", "Smith & Daughter"})
    EXPECT_EQ(escape_markdown(text), text);
}

TEST(EscapeXml, ComesOutLiterallyAsTextAndAttribute) {
  for (const std::string& text : texts) {
    const std::string xml = "<a b=\"" + escape_xml(text) + "\">" + escape_xml(text) + "</a>";
    pugi::xml_document document;
    ASSERT_TRUE(document.load_buffer(xml.data(), xml.size(), pugi::parse_full)) << xml;
    EXPECT_EQ(document.child("a").attribute("b").value(), text);
    EXPECT_EQ(document.child("a").text().get(), text);
  }
}

TEST(EscapeXml, ReplacesWhatXmlCannotHold) {
  EXPECT_EQ(escape_xml(std::string_view("a\x01"
                                        "b\0c\x7F",
                                        6)),
            "a\uFFFDb\uFFFDc\uFFFD");
}

TEST(Escape, ReplacesWhatIsNoCharacter) {
  for (const char* none : {"\uFFFE", "\uFFFF"}) {
    EXPECT_EQ(escape_xml(std::string("a") + none + "b"), "a\uFFFDb");
    EXPECT_EQ(escape_markdown(std::string("a") + none), "a\uFFFD");
  }
  for (const char* some : {"¿", "\uFFFD", "\uFFBF", "\U0001F7BE", "þ", "ž"}) {
    EXPECT_EQ(escape_xml(some), some);
    EXPECT_EQ(escape_markdown(some), some);
  }
}

TEST(EscapeCsv, QuotesWhatRfc4180AsksFor) {
  EXPECT_EQ(escape_csv("Rosa"), "Rosa");
  EXPECT_EQ(escape_csv("Lee, Mei"), "\"Lee, Mei\"");
  EXPECT_EQ(escape_csv("the \"Bear\""), "\"the \"\"Bear\"\"\"");
  EXPECT_EQ(escape_csv("two\r\nlines"), "\"two\r\nlines\"");
}

TEST(EscapeCsv, DisarmsFormulas) {
  EXPECT_EQ(escape_csv("=1+2"), "'=1+2");
  EXPECT_EQ(escape_csv("+1"), "'+1");
  EXPECT_EQ(escape_csv("-1"), "'-1");
  EXPECT_EQ(escape_csv("@A1"), "'@A1");
  EXPECT_EQ(escape_csv("\t=1"), "'\t=1");
  EXPECT_EQ(escape_csv("=HYPERLINK(\"x\",\"y\")"), "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
}

TEST(EscapeCsv, GivesBackWhatWasGuarded) {
  for (const char* text : {"=1", "'=1", "''-1", "'", "''", "it's", "-", "\n@", "", "a", "'a"}) {
    const std::string field = escape_csv(text);
    const std::string bare = field.starts_with('"') ? field.substr(1, field.size() - 2) : field;
    EXPECT_EQ(without_csv_guard(bare), text);
  }
  EXPECT_EQ(escape_csv("''=1"), "'''=1");
  EXPECT_EQ(escape_csv(" a"), "\" a\"");
}

TEST(CsvNumber, StaysANumber) {
  EXPECT_EQ(csv_number(-3.5), "-3.5");
  EXPECT_EQ(csv_number(12), "12");
  EXPECT_EQ(csv_number(1.0 / 3), "0.333333333333");
}

TEST(EscapeCss, StaysAStringInsideAStyleElement) {
  EXPECT_EQ(escape_css("page 1"), "\"page 1\"");
  EXPECT_EQ(escape_css("\"}</style>\\\n"), "\"\\22 }\\3c /style\\3e \\5c \\a \"");
}

}  // namespace
}  // namespace footroom::render
