#pragma once
// XML text to a tree, with what pugixml lets pass refused: a document type, broken UTF-8, unknown
// entities, duplicate attributes, text or elements beside the root, and input of abusive size.

#include <cstdint>
#include <pugixml.hpp>
#include <string>
#include <string_view>
#include <vector>

#include "bank/item.hpp"

namespace footroom::bank {

inline constexpr std::size_t largest_file = 1 << 20;
/// The message for a larger one.
std::string too_large(std::uintmax_t bytes);
inline constexpr int deepest_nesting = 64;

class XmlFile {
 public:
  /// Appends to `defects` what is wrong; then root() is empty.
  XmlFile(std::string_view xml, std::string file, std::vector<Defect>& defects);

  pugi::xml_node root() const { return root_; }
  Position at(pugi::xml_node node) const { return at_offset(node.offset_debug()); }

 private:
  Position at_offset(std::ptrdiff_t offset) const;

  std::string file_;
  std::vector<std::ptrdiff_t> line_ends_;
  pugi::xml_document document_;
  pugi::xml_node root_;
};

}  // namespace footroom::bank
