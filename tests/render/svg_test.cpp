#include <gtest/gtest.h>

#include <pugixml.hpp>
#include <regex>
#include <set>

#include "render/render.hpp"

namespace footroom::render {
namespace {

using figure::Align;
using figure::Circle;
using figure::Drawing;
using figure::Fill;
using figure::Label;
using figure::Path;
using figure::Pen;

Drawing small() {
  Drawing d;
  d.width = 40;
  d.height = 20.5;
  d.title = "Roof & <wall>";
  d.description = "the \"eave\"";
  d.shapes.push_back(Path{{{0, 0}, {10.126, -0.001}}, false, Pen::outline, Fill::none});
  d.shapes.push_back(Path{{{0, 0}, {4, 0}, {4, 2.5}}, true, Pen::none, Fill::earth});
  d.shapes.push_back(Path{{{1, 1}, {9, 9}}, false, Pen::rope, Fill::none});
  d.shapes.push_back(Circle{{3, 4}, 0.75, Pen::edge, Fill::paper});
  d.labels.push_back({{20, 10},
                      {{"d", true, false}, {"0", false, true}, {" = 4 < 5 & 6"}},
                      3,
                      true,
                      Align::middle,
                      -26.565});
  d.labels.push_back({{5, 5}, {{"anchor"}}, 2.7, false, Align::start, 0});
  return d;
}

std::string described(const pugi::xml_node& svg) {
  std::string all;
  for (const auto& node : svg.select_nodes("//*[@id]"))
    all += std::string(node.node().attribute("id").value()) + " ";
  return all;
}

TEST(Svg, WritesWhatIsPlacedAndNothingElse) {
  const std::string svg = svg_element(small(), "q1");
  for (const std::string_view part :
       {"width=\"40mm\" height=\"20.5mm\" viewBox=\"0 0 40 20.5\" role=\"img\"",
        "aria-labelledby=\"q1-title\" aria-describedby=\"q1-desc\"",
        "<title id=\"q1-title\">Roof &amp; &lt;wall&gt;</title>",
        "<polyline points=\"0,0 10.13,0\" stroke-width=\".7\"/>",
        "<polygon points=\"0,0 4,0 4,2.5\" stroke=\"none\" fill=\"url(#q1-earth)\"/>",
        "<circle cx=\"3\" cy=\"4\" r=\"0.75\" stroke-width=\".3\" fill=\"#fff\"/>",
        "<text x=\"20\" y=\"10\" font-size=\"3\" font-weight=\"bold\" "
        "transform=\"rotate(-26.57 20 10)\">"
        "<tspan font-style=\"italic\">d</tspan><tspan dy=\"0.6\" font-size=\"2.16\">0</tspan>"
        "<tspan dy=\"-0.6\"> = 4 &lt; 5 &amp; 6</tspan></text>",
        "<text x=\"5\" y=\"5\" font-size=\"2.7\" text-anchor=\"start\">anchor</text>",
        "<rect width=\"40\" height=\"20.5\" fill=\"#fff\"/>"})
    EXPECT_NE(svg.find(part), std::string::npos) << part << "\nnot in\n" << svg;
}

TEST(Svg, IsWellFormedAndReadsBackItsText) {
  pugi::xml_document document;
  const auto parsed = document.load_string(svg_file(small()).c_str(), pugi::parse_full);
  ASSERT_TRUE(parsed) << parsed.description();
  const auto svg = document.child("svg");
  EXPECT_STREQ(svg.child("title").text().get(), "Roof & <wall>");
  EXPECT_STREQ(svg.child("desc").text().get(), "the \"eave\"");
  EXPECT_STREQ(svg.attribute("xmlns").value(), "http://www.w3.org/2000/svg");
}

TEST(Svg, TextFromOutsideCannotLeaveItsPlace) {
  Drawing d = small();
  d.labels = {{{1, 1}, {{"</text><script>alert(1)</script>\x01"}}, 3, false, Align::middle, 0}};
  d.title = "]]> \" onload=\"x";
  pugi::xml_document document;
  ASSERT_TRUE(document.load_string(svg_element(d, "a").c_str()));
  EXPECT_TRUE(document.select_nodes("//script").empty());
  EXPECT_TRUE(document.select_nodes("//@onload").empty());
  EXPECT_EQ(std::string(document.select_node("//text").node().text().get()),
            "</text><script>alert(1)</script>\uFFFD");
}

TEST(Svg, SeveralInOnePageDoNotClash) {
  pugi::xml_document document;
  ASSERT_TRUE(document.load_string(
      ("<page>" + svg_element(small(), "one") + svg_element(small(), "two") + "</page>").c_str()));
  std::set<std::string> ids;
  for (const auto& found : document.select_nodes("//*/@id"))
    EXPECT_TRUE(ids.insert(found.attribute().value()).second) << found.attribute().value();
  EXPECT_EQ(ids.size(), 6u) << described(document);
  // Every reference finds its id.
  const std::string text = svg_element(small(), "one");
  const std::regex reference("url\\(#([^)]*)\\)|aria-[a-z]+=\"([^\"]*)\"");
  for (std::sregex_iterator i(text.begin(), text.end(), reference), end; i != end; ++i)
    EXPECT_TRUE(ids.contains((*i)[1].matched ? (*i)[1] : (*i)[2])) << i->str();
}

TEST(Svg, NumbersAreShort) {
  Drawing d = small();
  d.shapes.push_back(Path{{{1.0 / 3, -1e-9}, {1e-12, 2.999999}}, false, Pen::thin, Fill::none});
  const std::string svg = svg_element(d, "a");
  EXPECT_NE(svg.find("points=\"0.33,0 0,3\""), std::string::npos) << svg;
  EXPECT_FALSE(
      std::regex_search(svg, std::regex("[0-9]\\.[0-9]{3}|-0[ ,\"]|nan|inf|[0-9]e[-+0-9]")));
}

TEST(Svg, EveryPenAndFillIsToldFromTheOthers) {
  std::set<std::string> looks;
  int count = 0;
  for (int pen = 0; pen <= static_cast<int>(Pen::strap); ++pen, ++count) {
    Drawing d;
    d.shapes.push_back(Path{{{0, 0}, {1, 1}}, false, static_cast<Pen>(pen), Fill::none});
    looks.insert(svg_element(d, "a"));
  }
  for (int fill = 1; fill <= static_cast<int>(Fill::danger); ++fill, ++count) {
    Drawing d;
    d.shapes.push_back(Path{{{0, 0}, {1, 1}}, true, Pen::none, static_cast<Fill>(fill)});
    looks.insert(svg_element(d, "a"));
  }
  EXPECT_EQ(looks.size(), static_cast<std::size_t>(count));
}

}  // namespace
}  // namespace footroom::render
