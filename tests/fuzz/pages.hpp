#pragma once
// What must hold of every quiz, wherever it came from.

#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "fuzz/bank_files.hpp"
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

/// True where it is XML; text may stand around elements.
inline bool is_well_formed(const std::string& markup) {
  pugi::xml_document document;
  return static_cast<bool>(document.load_string(("<all>" + markup + "</all>").c_str()));
}

/// No text has become markup that does something. Words alone, as "javascript:" in a name, do not.
inline void check_harmless(const std::string& html) {
  for (const char* active : {"<script", "<iframe", "<object", "<embed", "<form", "<base", "<img",
                             "<!--", "<link", "href=\"javascript:", "src=\"javascript:"})
    require(html.find(active) == std::string::npos, std::string("no page holds ") + active);
}

/// Each page is made, and is harmless.
inline void check_pages(const grade::Quiz& quiz) {
  for (const auto face : {render::Face::sheet, render::Face::key}) {
    const auto& sheet = quiz.sheets.front();
    const auto header = quiz::header_of(quiz.header, sheet);
    require(!render::markdown(the_templates(), header, sheet, face).empty(), "a page has a text");
    check_harmless(render::html_part(the_templates(), header, sheet, face));
  }
}

}  // namespace footroom::fuzz
