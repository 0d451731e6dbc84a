// Whole sheets and keys in HTML and Markdown.

#include <cmark.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <pugixml.hpp>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "render/render.hpp"
#include "sample.hpp"

namespace footroom::render {
namespace {

using engine::Language;
using sample::hostile_name;

const Templates& templates() {
  static const Templates read(FOOTROOM_SOURCE_DIR "/templates");
  return read;
}

std::size_t count(std::string_view text, std::string_view part) {
  std::size_t found = 0;
  for (std::size_t at = text.find(part); at != std::string_view::npos;
       at = text.find(part, at + part.size()))
    ++found;
  return found;
}

bool contains(std::string_view text, std::string_view part) {
  return count(text, part) > 0;
}

std::string all_pages(Face face, Language language = Language::english) {
  const auto header = sample::header(language);
  return html_start(templates(), header, face) +
         html_part(templates(), header, sample::sheet("A"), face) +
         html_part(templates(), header, sample::sheet("B", ""), face) +
         html_end(templates(), header, face);
}

/// Every HTML file of a quiz, in both languages.
std::vector<std::string> html_files() {
  std::vector<std::string> files;
  for (const Language language : {Language::english, Language::spanish})
    for (const Face face : {Face::sheet, Face::key}) {
      files.push_back(html_page(templates(), sample::header(language), sample::sheet(), face));
      files.push_back(all_pages(face, language));
    }
  return files;
}

std::vector<std::string> markdown_files() {
  std::vector<std::string> files;
  for (const Language language : {Language::english, Language::spanish})
    for (const Face face : {Face::sheet, Face::key})
      files.push_back(markdown(templates(), sample::header(language), sample::sheet(), face));
  return files;
}

class Elements : public pugi::xml_tree_walker {
 public:
  bool for_each(pugi::xml_node& node) override {
    if (node.type() != pugi::node_element) return true;
    ++names[node.name()];
    if (node.attribute("id")) ids.insert(node.attribute("id").value());
    for (const auto& attribute : node.attributes()) {
      const std::string_view name = attribute.name();
      const std::string_view value = attribute.value();
      if (name.starts_with("on")) scripts.emplace_back(name);
      if ((name == "href" && !value.starts_with("#")) || name == "src") links.emplace_back(value);
      if (name == "href" && value.starts_with("#")) references.emplace_back(value.substr(1));
      if (name == "aria-labelledby" || name == "aria-describedby") references.emplace_back(value);
    }
    return true;
  }
  std::map<std::string, int> names;
  std::multiset<std::string> ids;
  std::vector<std::string> references;
  std::vector<std::string> scripts;
  std::vector<std::string> links;
};

Elements elements_of(const std::string& html) {
  pugi::xml_document document;
  const auto result = document.load_buffer(html.data(), html.size(), pugi::parse_full);
  EXPECT_TRUE(result) << result.description() << " at " << html.substr(result.offset, 60);
  Elements elements;
  document.traverse(elements);
  return elements;
}

TEST(Html, IsWellFormedAndAloneWithoutScriptsOrOutsideResources) {
  for (const std::string& html : html_files()) {
    const Elements elements = elements_of(html);
    EXPECT_EQ(elements.names.count("script"), 0U);
    EXPECT_EQ(elements.names.count("link"), 0U);
    EXPECT_EQ(elements.names.count("img"), 0U);
    EXPECT_TRUE(elements.scripts.empty());
    EXPECT_TRUE(elements.links.empty());
    EXPECT_FALSE(contains(html, "@import"));
    EXPECT_FALSE(contains(html, "url(h"));
  }
}

TEST(Html, GivesEachIdOnceAndRefersToNoOther) {
  for (const std::string& html : html_files()) {
    const Elements elements = elements_of(html);
    for (const std::string& id : elements.ids) EXPECT_EQ(elements.ids.count(id), 1U) << id;
    for (const std::string& id : elements.references) EXPECT_EQ(elements.ids.count(id), 1U) << id;
  }
}

TEST(Html, HasOneTopHeadingASheetAndOneHeadingAQuestion) {
  const Elements sheet =
      elements_of(html_page(templates(), sample::header(), sample::sheet(), Face::sheet));
  EXPECT_EQ(sheet.names.at("h1"), 1);
  EXPECT_EQ(sheet.names.at("h2"), 1 + 12);  // the box and the questions
  EXPECT_EQ(sheet.names.at("main"), 1);
  const Elements all = elements_of(all_pages(Face::key));
  EXPECT_EQ(all.names.at("h1"), 2);
  EXPECT_EQ(all.names.at("h2"), 2 * (1 + 12));  // the answers and the questions
}

TEST(Html, ShowsAHostileNameLiterally) {
  const std::string html = html_page(templates(), sample::header(), sample::sheet(), Face::sheet);
  pugi::xml_document document;
  ASSERT_TRUE(document.load_buffer(html.data(), html.size(), pugi::parse_full));
  const auto name =
      document.select_node("//p[@class='name']/span[@class='filled']").node().text().get();
  EXPECT_EQ(name, hostile_name);
}

TEST(Html, LeavesALineWhereThereIsNoName) {
  const std::string html =
      html_page(templates(), sample::header(), sample::sheet("A", ""), Face::sheet);
  EXPECT_TRUE(contains(html, "<span class=\"field\">Name</span> <span class=\"line\"></span>"));
}

TEST(Html, LeavesOutRawHtmlOfTheBank) {
  auto sheet = sample::sheet();
  sheet.questions[0].stem = "Before <b onclick=\"x()\">bold</b> [link](javascript:alert(1))";
  sheet.questions[2].options[0].text = "<script>alert(1)</script>";
  const std::string html = html_page(templates(), sample::header(), sheet, Face::key);
  const Elements elements = elements_of(html);
  EXPECT_EQ(elements.names.count("script"), 0U);
  EXPECT_FALSE(contains(html, "onclick"));
  EXPECT_FALSE(contains(html, "javascript:"));
}

TEST(Html, NamesItsLanguage) {
  const auto page = [](Language language) {
    return html_page(templates(), sample::header(language), sample::sheet(), Face::sheet);
  };
  EXPECT_TRUE(contains(page(Language::english), "lang=\"en\" xml:lang=\"en\""));
  EXPECT_TRUE(contains(page(Language::spanish), "lang=\"es\" xml:lang=\"es\""));
  EXPECT_TRUE(contains(page(Language::spanish), "5 de enero de 2026"));
  EXPECT_TRUE(contains(page(Language::spanish), "Precaución"));
}

TEST(Html, TakesThePaperFromTheQuiz) {
  const auto page = [](quiz::Paper paper) {
    return html_page(templates(), sample::header(Language::english, paper), sample::sheet(),
                     Face::sheet);
  };
  EXPECT_TRUE(contains(page(quiz::Paper::letter), "@page { size: letter; }"));
  EXPECT_TRUE(contains(page(quiz::Paper::a4), "@page { size: A4; }"));
}

TEST(Html, NumbersThePagesOfEachSheet) {
  const std::string one = html_page(templates(), sample::header(), sample::sheet(), Face::sheet);
  EXPECT_TRUE(contains(one, "counter(page) \" of \" counter(pages)"));
  const std::string all = all_pages(Face::sheet);
  EXPECT_TRUE(contains(all, "@page seat-B { counter-increment: seat-B;"));
  EXPECT_TRUE(contains(all, "\"Seat B · page \" counter(seat-B)"));
  EXPECT_TRUE(contains(all, "style=\"page: seat-B\""));
  EXPECT_TRUE(contains(all, "End of the sheet for seat B"));
}

// A sheet is handed to students: nothing that only the key knows may stand in it.
TEST(Sheet, GivesNoAnswerAway) {
  const std::string secrets[] = {"7.5",
                                 "32.9",
                                 "factor of 2 under a qualified person",
                                 "Slack alone",
                                 "hangs below the edge; the D-ring fell",
                                 "Before each use",
                                 "Worked solution"};
  const std::string pages[] = {
      html_page(templates(), sample::header(), sample::sheet(), Face::sheet),
      markdown(templates(), sample::header(), sample::sheet(), Face::sheet)};
  for (const std::string& page : pages)
    for (const std::string& secret : secrets) EXPECT_FALSE(contains(page, secret)) << secret;
  const std::string key = html_page(templates(), sample::header(), sample::sheet(), Face::key);
  for (const std::string& secret : secrets) EXPECT_TRUE(contains(key, secret)) << secret;
}

TEST(Sheet, PrintsRulesCautionCodeAndLimits) {
  for (const std::string& page :
       {html_page(templates(), sample::header(), sample::sheet(), Face::sheet),
        markdown(templates(), sample::header(), sample::sheet(), Face::sheet)}) {
    EXPECT_TRUE(contains(page, "US construction, 29 CFR 1926 Subpart M"));
    EXPECT_TRUE(contains(page, "This is a training aid, not a design."));
    EXPECT_TRUE(contains(page, "7K3QX-A"));
    EXPECT_TRUE(contains(page, "29 CFR 1926.502(d)(16)(ii), second hand"));
    EXPECT_TRUE(contains(page, "Formulas and limits"));
    EXPECT_TRUE(contains(page, "Mark every one that is right."));
  }
}

TEST(Key, NamesTheStatusOfEverySourceInBothLanguages) {
  const auto pages = [](Language language) {
    const auto header = sample::header(language);
    return html_page(templates(), header, sample::sheet(), Face::key) +
           markdown(templates(), header, sample::sheet(), Face::key);
  };
  for (const char* status : {"(second hand)", "(from memory)", "(read in the source)", "(computed)",
                             "(common practice, no single source)"})
    EXPECT_GE(count(pages(Language::english), status), 2U) << status;
  for (const char* status : {"(de segunda mano)", "(de memoria)", "(leído en la fuente)",
                             "(calculado)", "(práctica común, sin una fuente única)"})
    EXPECT_GE(count(pages(Language::spanish), status), 2U) << status;
}

TEST(Key, PutsTheRightAnswersFirst) {
  const std::string text = markdown(templates(), sample::header(), sample::sheet(), Face::key);
  EXPECT_TRUE(contains(text,
                       "1. **7.5 ft** ± 0.1\u00A0ft (2\u00A0points)\n"
                       "2. **32.9 in** ± 0.5\u00A0in (1\u00A0point)\n"
                       "3. **B** (1\u00A0point)\n"
                       "4. **B, D** (1\u00A0point)\n"
                       "5. **B\u2002D\u2002A\u2002C** (3\u00A0points)\n"));
}

TEST(Key, ShowsWhatAMistakeGivesAndWhatAnOptionShows) {
  const std::string text = markdown(templates(), sample::header(), sample::sheet(), Face::key);
  EXPECT_TRUE(contains(text, "- **4 ft**: Slack alone is not the free fall"));
  EXPECT_TRUE(contains(text,
                       "- ✓ **B** No: the anchor carries one person\\\n"
                       "  5,000 lbf for each person attached"));
  EXPECT_TRUE(contains(text,
                       "- ✗ **C** Yes, with short lines\\\n"
                       "  Short lines lower the force, not the number of people."));
}

TEST(Key, SaysASourceOnceWhereItsLimitNamesIt) {
  auto sheet = sample::sheet();
  auto& question = sheet.questions[0];
  const auto& limit = question.limits[0];
  const auto pages = [&] { return markdown(templates(), sample::header(), sheet, Face::key); };
  const std::size_t before = count(pages(), limit.citation);
  question.sources.push_back({limit.citation, limit.name, limit.status});
  EXPECT_EQ(count(pages(), limit.citation), before);
  question.sources.push_back({limit.citation, "something else", limit.status});
  EXPECT_EQ(count(pages(), limit.citation), before + 1);
}

TEST(Key, SaysCommonPracticeOnce) {
  auto sheet = sample::sheet();
  const std::string words = "common practice, no single source";
  const auto pages = [&] { return markdown(templates(), sample::header(), sheet, Face::key); };
  const std::size_t before = count(pages(), words);
  sheet.questions[0].sources.push_back({words, "", "common-practice"});
  EXPECT_EQ(count(pages(), words), before + 1);
}

TEST(Key, WritesSymbolsThenNumbersThenResult) {
  const std::string text = markdown(templates(), sample::header(), sample::sheet(), Face::key);
  EXPECT_TRUE(contains(text, "  b = d₀ + σ − L = 14.5 ft + 4 ft − 16 ft = 2.5 ft\n"));
  EXPECT_TRUE(contains(text, "- FF = h + b = 5 ft + 2.5 ft = 7.5 ft\n"));
}

TEST(Sheet, PutsSymbolsWithTheFormulasThatUseThem) {
  auto sheet = sample::sheet();
  sheet.box.formulas[1].symbols = {{sample::identifier("X"), "how far the absorber opens"}};
  const std::string text = markdown(templates(), sample::header(), sheet, Face::sheet);
  const std::size_t absorber = text.find("### Energy absorber");
  const std::size_t swing = text.find("### Swing at the eave");
  const std::size_t meaning = text.find("- X: how far the absorber opens", absorber);
  EXPECT_LT(absorber, meaning);
  EXPECT_LT(meaning, swing);
}

TEST(Html, PutsANarrowFigureBesideTheText) {
  auto sheet = sample::sheet();
  sheet.questions[0].sheet_figure->width = 100;
  sheet.questions[6].sheet_figure->width = 100.5;
  const std::string html = html_page(templates(), sample::header(), sheet, Face::sheet);
  EXPECT_EQ(count(html, "<figure class=\"figure beside\">"), 1U);
  EXPECT_EQ(count(html, "<figure class=\"figure\">"), 3U);
}

// ---- Markdown ----------------------------------------------------------------------------------

struct MarkdownParts {
  std::map<int, int> headings;  ///< how many of each level
  std::vector<std::string> images;
  std::string text;
  int raw_html = 0;
};

MarkdownParts parts_of(const std::string& text) {
  cmark_node* document = cmark_parse_document(text.data(), text.size(), CMARK_OPT_DEFAULT);
  cmark_iter* walk = cmark_iter_new(document);
  MarkdownParts parts;
  for (auto event = cmark_iter_next(walk); event != CMARK_EVENT_DONE;
       event = cmark_iter_next(walk)) {
    if (event != CMARK_EVENT_ENTER) continue;
    cmark_node* node = cmark_iter_get_node(walk);
    const cmark_node_type type = cmark_node_get_type(node);
    if (type == CMARK_NODE_HEADING) ++parts.headings[cmark_node_get_heading_level(node)];
    if (type == CMARK_NODE_IMAGE) parts.images.emplace_back(cmark_node_get_url(node));
    if (type == CMARK_NODE_HTML_BLOCK || type == CMARK_NODE_HTML_INLINE) ++parts.raw_html;
    if (type == CMARK_NODE_TEXT) parts.text += cmark_node_get_literal(node);
    if (type == CMARK_NODE_SOFTBREAK) parts.text += ' ';
  }
  cmark_iter_free(walk);
  cmark_node_free(document);
  return parts;
}

TEST(Markdown, HasTheHeadingsOfASheet) {
  const auto parts =
      parts_of(markdown(templates(), sample::header(), sample::sheet(), Face::sheet));
  EXPECT_EQ(parts.headings, (std::map<int, int>{{1, 1}, {2, 1 + 12}, {3, 4 + 1}}));
}

TEST(Markdown, LinksItsFigures) {
  EXPECT_EQ(parts_of(markdown(templates(), sample::header(), sample::sheet(), Face::sheet)).images,
            (std::vector<std::string>{"figures/A-1.svg", "figures/A-7.svg", "figures/A-10.svg",
                                      "figures/A-12.svg"}));
  EXPECT_EQ(
      parts_of(markdown(templates(), sample::header(), sample::sheet(), Face::key)).images.front(),
      "figures/A-1-key.svg");
}

TEST(Markdown, ShowsAHostileNameLiterally) {
  std::string name = hostile_name;
  std::replace(name.begin(), name.end(), '\n', ' ');
  for (const std::string& text : markdown_files()) {
    const auto parts = parts_of(text);
    EXPECT_EQ(parts.raw_html, 0);
    EXPECT_TRUE(contains(parts.text, name));
    EXPECT_EQ(parts.headings.at(1), 1);
  }
}

TEST(Markdown, ReadsWellRaw) {
  for (const std::string& text : markdown_files()) {
    EXPECT_FALSE(contains(text, "\n\n\n"));
    EXPECT_FALSE(contains(text, " \n"));
    EXPECT_FALSE(contains(text, "{{"));
    EXPECT_EQ(text.back(), '\n');
  }
}

}  // namespace
}  // namespace footroom::render
