#include "bank/xml.hpp"

#include <algorithm>
#include <optional>
#include <set>

namespace footroom::bank {
namespace {

/// The character that starts at `at`, which is moved behind it; nothing where the bytes are no
/// UTF-8 (RFC 3629: no overlong forms, no surrogates, nothing above U+10FFFF).
std::optional<char32_t> next_character(std::string_view bytes, std::size_t& at) {
  const auto byte = [&](std::size_t i) {
    return static_cast<char32_t>(static_cast<unsigned char>(bytes[i]));
  };
  const char32_t lead = byte(at);
  if (lead < 0x80) return ++at, lead;
  const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || at + length > bytes.size()) return std::nullopt;
  char32_t character = lead & (0x7Fu >> length);
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(at + i) & 0xC0) != 0x80) return std::nullopt;
    character = character << 6 | (byte(at + i) & 0x3F);
  }
  const bool overlong = (length == 3 && character < 0x800) || (length == 4 && character < 0x10000);
  const bool surrogate = character >= 0xD800 && character <= 0xDFFF;
  if (overlong || surrogate || character > 0x10FFFF) return std::nullopt;
  at += length;
  return character;
}

/// XML 1.0 (fifth edition), production 2, Char.
bool is_xml_character(char32_t c) {
  return c == '\t' || c == '\n' || c == '\r' || (c >= 0x20 && c != 0xFFFE && c != 0xFFFF);
}

struct Fault {
  std::ptrdiff_t offset;
  std::string message;
};

std::optional<Fault> fault_in_characters(std::string_view xml) {
  for (std::size_t at = 0; at < xml.size();) {
    const std::size_t start = at;
    const auto character = next_character(xml, at);
    if (!character)
      return Fault{static_cast<std::ptrdiff_t>(start), "broken UTF-8, expected text in UTF-8"};
    if (!is_xml_character(*character))
      return Fault{static_cast<std::ptrdiff_t>(start),
                   "a control character, which XML does not allow"};
  }
  return std::nullopt;
}

/// The first "&..." in raw text that is none of XML's five entities and no character reference to
/// a character that XML allows.
std::optional<std::string> unknown_entity(std::string_view raw) {
  for (std::size_t at = raw.find('&'); at != raw.npos; at = raw.find('&', at + 1)) {
    const std::size_t end = raw.find(';', at);
    const std::string_view name =
        end == raw.npos ? std::string_view() : raw.substr(at + 1, end - at - 1);
    if (name == "amp" || name == "lt" || name == "gt" || name == "quot" || name == "apos") continue;
    if (name.size() > 1 && name[0] == '#') {
      const bool hexadecimal = name[1] == 'x';
      const std::string digits(name.substr(hexadecimal ? 2 : 1));
      const bool all_digits = !digits.empty() && digits.size() <= 8 &&
                              digits.find_first_not_of(hexadecimal ? "0123456789abcdefABCDEF"
                                                                   : "0123456789") == digits.npos;
      if (all_digits) {
        const auto code = static_cast<char32_t>(std::stoul(digits, nullptr, hexadecimal ? 16 : 10));
        const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
        if (is_xml_character(code) && !surrogate && code <= 0x10FFFF) continue;
      }
    }
    return std::string(raw.substr(at, std::min<std::size_t>(name.size() + 2, 20)));
  }
  return std::nullopt;
}

std::string entity_message(const std::string& entity) {
  return "unknown entity \"" + entity +
         "\", expected &amp; &lt; &gt; &quot; &apos; or a character number";
}

std::optional<std::string> fault_in_attributes(pugi::xml_node element) {
  std::set<std::string_view> seen;
  for (const pugi::xml_attribute attribute : element.attributes()) {
    if (!seen.insert(attribute.name()).second)
      return std::string("attribute \"") + attribute.name() + "\" stands twice in <" +
             element.name() + ">";
    const std::string_view value = attribute.value();
    if (value.find('<') != value.npos)
      return std::string("attribute \"") + attribute.name() +
             "\" holds a bare <, expected &lt; instead";
    if (const auto entity = unknown_entity(value)) return entity_message(*entity);
  }
  return std::nullopt;
}

std::optional<std::string> fault_in_node(pugi::xml_node node, bool in_root) {
  switch (node.type()) {
    case pugi::node_doctype:
      return "a document type (<!DOCTYPE ...>), which bank files may not have";
    case pugi::node_declaration: {
      std::string encoding = node.attribute("encoding").as_string("UTF-8");
      for (char& c : encoding) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
      if (encoding != "UTF-8") return "encoding \"" + encoding + "\", expected UTF-8";
      return std::nullopt;
    }
    case pugi::node_element:
      return fault_in_attributes(node);
    case pugi::node_cdata:
      if (!in_root) return "text outside the root element";
      return std::nullopt;
    case pugi::node_pcdata: {
      const std::string_view text = node.value();
      if (!in_root && text.find_first_not_of(" \t\r\n") != text.npos)
        return "text outside the root element";
      if (const auto entity = unknown_entity(text)) return entity_message(*entity);
      return std::nullopt;
    }
    default:
      return std::nullopt;
  }
}

/// Walks without recursion: the tree may be as deep as a hostile file makes it.
std::optional<Fault> fault_in_tree(const pugi::xml_document& document) {
  int depth = 1;  // of `node`; a root element has 1
  int roots = 0;
  pugi::xml_node node = document.first_child();
  while (node) {
    if (const auto message = fault_in_node(node, depth > 1))
      return Fault{node.offset_debug(), *message};
    if (node.type() == pugi::node_element) {
      if (depth == 1 && ++roots > 1)
        return Fault{node.offset_debug(), "a second root element <" + std::string(node.name()) +
                                              ">, expected one in a file"};
      if (depth > deepest_nesting)
        return Fault{node.offset_debug(),
                     "elements are nested more than " + std::to_string(deepest_nesting) + " deep"};
    }
    if (node.first_child()) {
      node = node.first_child();
      ++depth;
      continue;
    }
    while (node && !node.next_sibling()) {  // the document itself has no sibling and no parent
      node = node.parent();
      --depth;
    }
    if (node) node = node.next_sibling();
  }
  if (roots == 0) return Fault{0, "no element, expected one root element"};
  return std::nullopt;
}

std::optional<Fault> fault_in(std::string_view xml) {
  if (xml.size() > largest_file) return Fault{0, too_large(xml.size())};
  if (const auto fault = fault_in_characters(xml)) return fault;
  // Parsed as written, without resolving entities, so that what was written can be looked at.
  pugi::xml_document raw;
  constexpr unsigned int as_written = pugi::parse_pi | pugi::parse_comments | pugi::parse_cdata |
                                      pugi::parse_doctype | pugi::parse_declaration |
                                      pugi::parse_ws_pcdata | pugi::parse_fragment;
  const auto result = raw.load_buffer(xml.data(), xml.size(), as_written, pugi::encoding_utf8);
  if (!result)
    return Fault{result.offset, std::string("not well-formed XML: ") + result.description()};
  return fault_in_tree(raw);
}

}  // namespace

std::string too_large(std::uintmax_t bytes) {
  return "the file has " + std::to_string(bytes) + " bytes, expected at most " +
         std::to_string(largest_file);
}

Position XmlFile::at_offset(std::ptrdiff_t offset) const {
  const auto line = std::lower_bound(line_ends_.begin(), line_ends_.end(), offset);
  return {file_, static_cast<int>(line - line_ends_.begin()) + 1};
}

XmlFile::XmlFile(std::string_view xml, std::string file, std::vector<Defect>& defects)
    : file_(std::move(file)) {
  for (std::size_t i = 0; i < xml.size(); ++i)
    if (xml[i] == '\n') line_ends_.push_back(static_cast<std::ptrdiff_t>(i));
  if (const auto fault = fault_in(xml)) {
    defects.push_back({at_offset(fault->offset), fault->message});
    return;
  }
  document_.load_buffer(xml.data(), xml.size(), pugi::parse_default, pugi::encoding_utf8);
  root_ = document_.document_element();
}

}  // namespace footroom::bank
