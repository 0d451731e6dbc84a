#include "render/template.hpp"

#include <gtest/gtest.h>

#include "render/escape.hpp"

namespace footroom::render {
namespace {

std::string rendered(const std::string& text, const Data& data) {
  return Template(text, escape_xml).render(data);
}

TEST(Template, EscapesWhatIsNotSaidToBePlain) {
  Data data;
  data.set("name", "<b>");
  EXPECT_EQ(rendered("a {{name}} {{{name}}} {{ name }} {{unknown}}.\n", data),
            "a &lt;b&gt; <b> &lt;b&gt; .\n");
}

TEST(Template, SectionsFollowListsAndTruths) {
  Data data;
  data.set("yes", Data(true));
  data.set("no", Data(false));
  data.set("word", "w");
  data.set("empty", Data(Data::type::list));
  Data list(Data::type::list);
  for (const char* one : {"1", "2"}) list << Data("number", one);
  data.set("list", std::move(list));
  EXPECT_EQ(rendered("{{#yes}}y{{/yes}}{{#no}}n{{/no}}{{^no}}not{{/no}}{{^yes}}-{{/yes}}", data),
            "ynot");
  EXPECT_EQ(rendered("{{#list}}{{number}}{{word}} {{/list}}{{^list}}-{{/list}}", data), "1w 2w ");
  EXPECT_EQ(
      rendered("{{#empty}}-{{/empty}}{{^empty}}none{{/empty}}{{^unknown}}u{{/unknown}}", data),
      "noneu");
  EXPECT_EQ(rendered("{{#word}}{{word}}!{{/word}}", data), "w!");
}

TEST(Template, InnerNamesHideOuterOnes) {
  Data inner("name", "inner");
  Data data("name", "outer");
  data.set("object", std::move(inner));
  EXPECT_EQ(rendered("{{name}} {{#object}}{{name}}{{/object}} {{object.name}}", data),
            "outer inner inner");
  data.set("name", "other");
  EXPECT_EQ(rendered("{{name}}", data), "other");
}

TEST(Template, ALineOfSectionTagsLeavesNoLine) {
  Data data("yes", Data(true));
  data.set("text", "a\n\nb");
  EXPECT_EQ(rendered("1\n{{#yes}}\n2\n{{/yes}}\n3\n", data), "1\n2\n3\n");
  EXPECT_EQ(rendered("1\n{{#no}}\n2\n{{/no}}\n3\n", data), "1\n\n3\n");
  EXPECT_EQ(rendered("  {{#yes}}{{/yes}}  \n{{#yes}}{{text}}{{/yes}}\n", data), "a\n\nb\n");
  EXPECT_EQ(rendered("x {{#yes}}{{/yes}}\n", data), "x \n");
}

TEST(Template, LooksAlsoInWhatIsCommon) {
  Data labels("seat", "Seat");
  labels.set("page", "Page");
  const Data common("label", std::move(labels));
  Data data("name", "own");
  Data list(Data::type::list);
  list << Data("number", "1");
  data.set("list", std::move(list));
  data.look_also_in(common);
  const std::string text =
      "{{label.seat}} {{#list}}{{label.page}} {{number}}{{/list}} {{label.none}}.";
  EXPECT_EQ(rendered(text, data), "Seat Page 1 .");
  Data own("seat", "mine");
  data.set("label", std::move(own));
  EXPECT_EQ(rendered(text, data), "mine Page 1 .");
}

TEST(Template, AListKeepsItsOrderAsItGrows) {
  Data list(Data::type::list);
  std::string expected;
  for (int i = 0; i < 100; ++i) {
    list << Data("number", std::to_string(i));
    expected += std::to_string(i) + ' ';
  }
  EXPECT_EQ(rendered("{{#list}}{{number}} {{/list}}", Data("list", std::move(list))), expected);
}

TEST(Template, WhatIsBrokenTellsWhere) {
  const auto broken_at = [](const std::string& text) -> std::size_t {
    try {
      Template(text, escape_xml);
    } catch (const Template::Broken& broken) {
      return broken.offset;
    }
    ADD_FAILURE() << text;
    return 0;
  };
  EXPECT_EQ(broken_at("a {{name"), 2u);
  EXPECT_EQ(broken_at("ab {{#name}}"), 3u);
  EXPECT_EQ(broken_at("abc{{/name}}"), 3u);
  EXPECT_EQ(broken_at("a {{#a}}{{#b}}{{/a}}{{/b}}"), 2u);
}

}  // namespace
}  // namespace footroom::render
