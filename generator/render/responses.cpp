#include "render/escape.hpp"
#include "render/render.hpp"

namespace footroom::render {

std::string responses_header(const quiz::Sheet& sheet) {
  std::string row = "seat,name,code";
  for (const quiz::Question& question : sheet.questions)
    row += ',' + std::to_string(question.number);
  return row + "\r\n";
}

std::string responses_row(const quiz::Sheet& sheet) {
  std::string row =
      escape_csv(sheet.seat) + ',' + escape_csv(sheet.name) + ',' + escape_csv(sheet.code);
  row.append(sheet.questions.size(), ',');
  return row + "\r\n";
}

}  // namespace footroom::render
