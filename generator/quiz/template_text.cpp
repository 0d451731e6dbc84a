#include "quiz/template_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "notation/unit.hpp"
#include "quiz/maker.hpp"

namespace footroom::quiz {

TemplateText::TemplateText(std::string_view text, const bank::Position& at,
                           const std::vector<std::string>& names)
    : at_(at) {
  while (!text.empty()) {
    const std::size_t open = text.find('{');
    if (open > 0) pieces_.push_back({std::string(text.substr(0, open)), false});
    if (open == text.npos) break;
    const std::size_t close = text.find('}', open);
    if (close == text.npos)
      throw CannotMake(at, fmt::format("\"{}\" is not closed, expected a }} behind the name",
                                       text.substr(open, 20)));
    const std::string name(text.substr(open + 1, close - open - 1));
    if (std::find(names.begin(), names.end(), name) == names.end()) {
      const auto near = notation::suggest(name, names);
      throw CannotMake(
          at, fmt::format("unknown name {{{}}}{}", name,
                          near ? fmt::format("; did you mean {{{}}}?", *near)
                               : ", expected a draw, pick, declared limit, let or output"));
    }
    pieces_.push_back({name, true});
    text.remove_prefix(close + 1);
  }
}

std::string TemplateText::fill(
    const std::function<std::string(const std::string& name)>& text_of) const {
  std::string all;
  for (const Piece& piece : pieces_) all += piece.is_name ? text_of(piece.text) : piece.text;
  return all;
}

std::vector<std::string> TemplateText::names() const {
  std::vector<std::string> all;
  for (const Piece& piece : pieces_)
    if (piece.is_name) all.push_back(piece.text);
  return all;
}

}  // namespace footroom::quiz
