// In the page, Markdown is set by a JavaScript library (see start.js); a test compares it with the
// library of the program.

#include <emscripten.h>

#include <cstdlib>
#include <string>

#include "render/commonmark.hpp"

// clang-format off
EM_JS(char*, markdown_of_page, (const char* text), {
  const html = Module["markdown"](UTF8ToString(text));
  const size = lengthBytesUTF8(html) + 1;
  const at = _malloc(size);
  stringToUTF8(html, at, size);
  return at;
});
// clang-format on

namespace footroom::render {

std::string html_of_markdown(std::string_view markdown) {
  char* text = markdown_of_page(std::string(markdown).c_str());
  std::string html(text);
  std::free(text);
  return html;
}

}  // namespace footroom::render
