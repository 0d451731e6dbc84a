#include "render/commonmark.hpp"

#include <cmark.h>

#include <cstdlib>
#include <memory>

namespace footroom::render {
namespace {

struct FreeBytes {
  void operator()(char* bytes) const { std::free(bytes); }
};

}  // namespace

std::string html_of_markdown(std::string_view markdown) {
  // No smart punctuation: it would bend the marks of feet and inches.
  const std::unique_ptr<char, FreeBytes> html(
      cmark_markdown_to_html(markdown.data(), markdown.size(), CMARK_OPT_SAFE));
  return html.get();
}

}  // namespace footroom::render
