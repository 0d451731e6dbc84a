#pragma once
// Pages as XML, taken apart by a parser that forgives nothing.

#include <set>
#include <string>

namespace footroom::fuzz {

struct Markup {
  std::string wrong;  ///< why it is not well-formed; else empty
  std::set<std::string> elements;
  std::set<std::string> attributes;  ///< "element attribute"
  std::set<std::string> addresses;   ///< what links and pictures point to
  std::set<std::string> comments;
  std::string text;  ///< between the elements

  /// What another holds, too.
  void add(const Markup& other);
};

/// Several elements with text between them, as a page holds them, or a whole document.
Markup read_markup(const std::string& parts);
Markup read_document(const std::string& document);

}  // namespace footroom::fuzz
