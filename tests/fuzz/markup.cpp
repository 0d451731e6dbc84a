#include "fuzz/markup.hpp"

#include <expat.h>

#include <algorithm>
#include <memory>
#include <string_view>

namespace footroom::fuzz {
namespace {

void take_element(void* into, const char* name, const char** attributes) {
  auto& markup = *static_cast<Markup*>(into);
  markup.elements.insert(name);
  for (; *attributes; attributes += 2) {
    const std::string_view attribute = attributes[0];
    markup.attributes.insert(std::string(name) + " " + attributes[0]);
    if (attribute == "href" || attribute == "src" || attribute == "xlink:href")
      markup.addresses.insert(attributes[1]);
  }
}

void take_text(void* into, const char* bytes, int size) {
  static_cast<Markup*>(into)->text.append(bytes, static_cast<std::size_t>(size));
}

void take_comment(void* into, const char* text) {
  static_cast<Markup*>(into)->comments.insert(text);
}

class Parser {
 public:
  Parser() {
    XML_SetUserData(parser_.get(), &markup_);
    XML_SetStartElementHandler(parser_.get(), take_element);
    XML_SetCharacterDataHandler(parser_.get(), take_text);
    XML_SetCommentHandler(parser_.get(), take_comment);
  }

  Markup read(const std::string& document) {
    if (XML_Parse(parser_.get(), document.data(), static_cast<int>(document.size()), true) !=
        XML_STATUS_OK) {
      const auto at = static_cast<std::size_t>(XML_GetCurrentByteIndex(parser_.get()));
      markup_.wrong = XML_ErrorString(XML_GetErrorCode(parser_.get()));
      markup_.wrong += ": " + document.substr(std::min(at, document.size()), 80);
    }
    return std::move(markup_);
  }

 private:
  Markup markup_;
  std::unique_ptr<XML_ParserStruct, decltype(&XML_ParserFree)> parser_{XML_ParserCreate("UTF-8"),
                                                                       &XML_ParserFree};
};

}  // namespace

void Markup::add(const Markup& other) {
  if (wrong.empty()) wrong = other.wrong;
  elements.insert(other.elements.begin(), other.elements.end());
  attributes.insert(other.attributes.begin(), other.attributes.end());
  addresses.insert(other.addresses.begin(), other.addresses.end());
  comments.insert(other.comments.begin(), other.comments.end());
  text += other.text;
}

Markup read_markup(const std::string& parts) {
  return read_document("<all>" + parts + "</all>");
}

Markup read_document(const std::string& document) {
  return Parser().read(document);
}

}  // namespace footroom::fuzz
