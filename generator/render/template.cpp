#include "render/template.hpp"

namespace footroom::render {
namespace {

/// What the library writes to.
struct Pages {
  std::string text;
  Pages& operator<<(const std::string& piece) {
    text += piece;
    return *this;
  }
};

}  // namespace

// The library's message ends with the offset: "Unclosed tag at 123".
Template::Template(const std::string& text, Escape escape) : parsed_(text) {
  if (!parsed_.is_valid()) {
    const std::string& message = parsed_.error_message();
    const std::size_t digits = message.find_last_not_of("0123456789") + 1;
    throw Broken(message.substr(0, message.rfind(" at ")),
                 digits < message.size() ? std::stoul(message.substr(digits)) : 0);
  }
  parsed_.set_custom_escape([escape](const std::string& raw) { return escape(raw); });
}

std::string Template::render(const Data& data) const {
  kainjow::mustache::context<std::string> reach;
  if (data.common()) reach.push(data.common());
  reach.push(&data);
  Pages pages;
  pages.text.reserve(1 << 14);
  return std::move(parsed_.render(reach, pages).text);
}

}  // namespace footroom::render
