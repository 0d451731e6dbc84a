#pragma once
// Templates in the language Mustache, read once and rendered often: {{name}} escaped, {{{name}}} as
// it is, {{#name}}...{{/name}} for each of a list or where there is something,
// {{^name}}...{{/name}} where there is nothing, {{object.name}}. A line of section tags alone
// leaves no line behind.

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "render/data.hpp"

namespace footroom::render {

class Template {
 public:
  using Escape = std::string (*)(std::string_view);

  /// What is wrong with a template's text, and where.
  class Broken : public std::runtime_error {
   public:
    Broken(const std::string& message, std::size_t at) : std::runtime_error(message), offset(at) {}
    std::size_t offset;
  };

  Template() = default;
  /// Throws Broken.
  Template(const std::string& text, Escape escape);

  std::string render(const Data& data) const;

 private:
  struct Part {
    enum class Kind { text, line_end, escaped, plain, section, inverted };
    Kind kind;
    std::string text;     ///< or the name
    std::size_t dot = 0;  ///< where the name has one; else npos
    std::size_t end = 0;  ///< of a section: the part behind its last
  };
  class Rendering;

  std::vector<Part> parts_;
  Escape escape_ = nullptr;
};

}  // namespace footroom::render
