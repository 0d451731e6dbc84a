#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "bank/item.hpp"

namespace footroom::quiz {

/// A Markdown text of the bank with {name} where a value goes, read once and filled for each draw.
class TemplateText {
 public:
  TemplateText() = default;
  /// Throws CannotMake for a brace that is not closed and for a name that is none of `names`.
  TemplateText(std::string_view text, const bank::Position& at,
               const std::vector<std::string>& names);

  std::string fill(const std::function<std::string(const std::string& name)>& text_of) const;
  std::vector<std::string> names() const;
  const bank::Position& at() const { return at_; }

 private:
  struct Piece {
    std::string text;
    bool is_name = false;
  };
  std::vector<Piece> pieces_;
  bank::Position at_;
};

}  // namespace footroom::quiz
