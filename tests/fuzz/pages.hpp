#pragma once
// What must hold of every quiz, wherever it came from.

#include <nlohmann/json.hpp>

#include "fuzz/bank_files.hpp"
#include "fuzz/markup.hpp"
#include "fuzz/target.hpp"
#include "grade/json_reader.hpp"
#include "grade/marking.hpp"
#include "quiz/maker.hpp"
#include "render/render.hpp"

namespace footroom::fuzz {

inline const render::Templates& the_templates() {
  static const render::Templates templates(project() / "templates");
  return templates;
}

/// A quiz of this one question.
inline grade::Quiz quiz_of(quiz::Question question, const quiz::Settings& settings) {
  grade::Quiz quiz;
  quiz.header.code = "7K3QX";
  quiz.header.system = settings.system;
  quiz.header.style = settings.style;
  quiz.header.rules = settings.rules;
  quiz.header.rules_title = settings.rules;
  quiz.header.paper = settings.paper;
  quiz.header.sheets = 1;
  quiz::Sheet sheet;
  sheet.seat = "A";
  sheet.code = "7K3QX-A";
  question.number = 1;
  sheet.points = question.points;
  sheet.questions.push_back(std::move(question));
  quiz.sheets.push_back(std::move(sheet));
  return quiz;
}

/// quiz.json.
inline std::string json_text(const grade::Quiz& quiz) {
  std::string text = render::json_start(quiz.header);
  for (const auto& sheet : quiz.sheets)
    text += render::json_sheet(sheet, &sheet == &quiz.sheets.front());
  return text + render::json_end();
}

/// Without what grading does not read.
inline nlohmann::json graded_part(const std::string& text) {
  auto json = nlohmann::json::parse(text);
  for (auto& sheet : json.at("sheets"))
    for (auto& question : sheet.at("questions"))
      for (const char* name : {"givens", "calculations", "lets"}) question.erase(name);
  return json;
}

/// quiz.json reads as the quiz that wrote it.
inline void check_again(const grade::Quiz& quiz) {
  const std::string text = json_text(quiz);
  try {
    const auto again = grade::read_quiz(text, "quiz.json");
    require(graded_part(text) == graded_part(json_text(again)),
            "quiz.json reads as it was written");
  } catch (const grade::FaultyFile& fault) {
    require(false, std::string("quiz.json can be read: ") + fault.what());
  }
}

/// What pages hold: elements and attributes of those of the whole bank, and what Markdown has.
inline const Markup& known_markup() {
  static const Markup known = [] {
    Markup all = read_markup(
        "<p><strong/><em/><code/><pre/><blockquote/><br/><hr/><a href='' title=''/><ul><li/></ul>"
        "<ol start=''><li/></ol><h1/><h2/><h3/><h4/><h5/><h6/><pre><code class=''/></pre></p>");
    quiz::Settings settings;
    settings.seed = 1;
    settings.rules = "us-construction";
    for (const auto& item : the_bank().items) {
      const grade::Quiz quiz = quiz_of(
          quiz::make_question(the_bank(), item, settings, {settings.seed, 0, 0, 0}), settings);
      const auto& sheet = quiz.sheets.front();
      for (const auto face : {render::Face::sheet, render::Face::key})
        all.add(read_markup(
            render::html_part(the_templates(), quiz::header_of(quiz.header, sheet), sheet, face)));
    }
    require(all.wrong.empty(), "the pages of the bank are well-formed: " + all.wrong);
    return all;
  }();
  return known;
}

/// No text has become markup that does something. What it says comes back.
inline std::string check_harmless(const std::string& html, const Markup& known = known_markup()) {
  const auto page = read_markup(html);
  require(page.wrong.empty(), "a page is well-formed: " + page.wrong);
  for (const auto& element : page.elements)
    require(known.elements.contains(element), "no page holds <" + element + ">");
  for (const auto& attribute : page.attributes)
    require(known.attributes.contains(attribute), "no page holds an attribute " + attribute);
  for (const auto& comment : page.comments)
    require(comment == " raw HTML omitted ", "no page holds a comment" + comment);
  for (const auto& address : page.addresses)
    require(!address.starts_with("javascript:"), "no page leads to " + address);
  return page.text;
}

/// Each page is made, and is harmless. What the sheet says comes back.
inline std::string check_pages(const grade::Quiz& quiz) {
  const auto& sheet = quiz.sheets.front();
  const auto header = quiz::header_of(quiz.header, sheet);
  std::string said;
  for (const auto face : {render::Face::key, render::Face::sheet}) {
    require(!render::markdown(the_templates(), header, sheet, face).empty(), "a page has a text");
    said = check_harmless(render::html_part(the_templates(), header, sheet, face));
  }
  return said;
}

}  // namespace footroom::fuzz
