#pragma once
// Templates in the language Mustache, read once and rendered often.

#include <stdexcept>
#include <string>
#include <string_view>

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
  // Rendering only records errors of lambdas and includes in it, and there are none.
  mutable kainjow::mustache::mustache parsed_{std::string()};
};

}  // namespace footroom::render
