#include "bank/element.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <set>

#include "notation/unit.hpp"

namespace footroom::bank {
namespace {

constexpr const char* bank_namespace = "urn:footroom:bank";

std::string in_quotes(std::string_view text) {
  return "\"" + std::string(text) + "\"";
}
std::string tag(pugi::xml_node node) {
  return "<" + std::string(node.name()) + ">";
}

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) all += i + 1 == words.size() ? " or " : ", ";
    all += words[i];
  }
  return all;
}

std::string too_long(const std::string& what, std::size_t bytes, std::size_t most) {
  return what + " has " + std::to_string(bytes) + " bytes, expected at most " +
         std::to_string(most);
}

/// "; did you mean X?" or ", expected A, B or C".
std::string hint(std::string_view wrong, const std::vector<std::string>& names, const char* before,
                 const char* after) {
  if (const auto near = notation::suggest(wrong, names))
    return "; did you mean " + (before + *near + after) + "?";
  if (names.empty()) return ", expected none";
  std::vector<std::string> shown;
  for (const auto& name : names) shown.push_back(before + name + after);
  return ", expected " + joined(shown);
}

bool is_blank(std::string_view text) {
  return text.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

/// Without the indentation that comes from the file's layout: blank ends are cut, and what all
/// lines after the first are indented by is taken from each.
std::string without_layout(std::string_view text) {
  const auto start = text.find_first_not_of(" \t\r\n");
  if (start == text.npos) return {};
  text = text.substr(start, text.find_last_not_of(" \t\r\n") - start + 1);
  std::vector<std::string_view> lines;
  std::size_t indent = text.size();
  while (true) {
    const auto end = text.find('\n');
    const std::string_view line = text.substr(0, end);
    const auto first = line.find_first_not_of(" \t");
    if (!lines.empty() && first != line.npos) indent = std::min(indent, first);
    lines.push_back(first == line.npos ? std::string_view() : line);
    if (end == text.npos) break;
    text.remove_prefix(end + 1);
  }
  std::string all(lines.front());
  for (std::size_t i = 1; i < lines.size(); ++i) {
    all += '\n';
    all += lines[i].empty() ? lines[i] : lines[i].substr(indent);
  }
  return all;
}

template <class Number>
bool read_whole_text(std::string_view text, Number& number) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return error == std::errc() && end == text.data() + text.size() && !text.empty();
}

}  // namespace

void ElementReader::refuse(pugi::xml_node node, std::string message) {
  defects_.push_back({at(node), std::move(message)});
}

bool ElementReader::is_root(pugi::xml_node node, const std::string& name) {
  if (node.name() != name) {
    refuse(node, "the root element is " + tag(node) + ", expected <" + name + ">");
    return false;
  }
  if (node.attribute("xmlns").value() != std::string_view(bank_namespace)) {
    refuse(node, tag(node) + " has the namespace " + in_quotes(node.attribute("xmlns").value()) +
                     ", expected xmlns=" + in_quotes(bank_namespace));
    return false;
  }
  return true;
}

void ElementReader::check(pugi::xml_node node, const Shape& shape) {
  std::vector<std::string> attributes = shape.required;
  attributes.insert(attributes.end(), shape.optional.begin(), shape.optional.end());
  for (const pugi::xml_attribute attribute : node.attributes()) {
    const std::string_view given = attribute.name();
    const std::size_t bytes = std::string_view(attribute.value()).size();
    if (bytes > longest_attribute)
      refuse(node, too_long(std::string(given), bytes, longest_attribute));
    const bool of_root = given.substr(0, 5) == "xmlns" || given.substr(0, 4) == "xsi:";
    if (of_root && node == xml_.root()) continue;
    if (std::find(attributes.begin(), attributes.end(), given) == attributes.end())
      refuse(node, "unknown attribute " + in_quotes(given) + " in " + tag(node) +
                       hint(given, attributes, "\"", "\""));
  }
  for (const auto& needed : shape.required)
    if (!node.attribute(needed.c_str()))
      refuse(node, tag(node) + " lacks the attribute " + in_quotes(needed));

  std::vector<std::string> names;
  for (const auto& rule : shape.children) names.push_back(rule.name);
  for (const pugi::xml_node child : node.children()) {
    if (child.type() == pugi::node_element) {
      if (std::find(names.begin(), names.end(), child.name()) == names.end())
        refuse(child, "unknown element " + tag(child) + " in " + tag(node) +
                          hint(child.name(), names, "<", ">"));
    } else if (!is_blank(child.value())) {
      refuse(node, "text stands directly in " + tag(node) + ", expected it in an element of " +
                       tag(node));
    }
  }
  for (const auto& rule : shape.children) {
    const auto range = node.children(rule.name.c_str());
    const auto count = std::distance(range.begin(), range.end());
    if (count < rule.at_least)
      refuse(node,
             tag(node) + " lacks <" + rule.name + ">" +
                 (rule.name == "en" || rule.name == "es" ? ", expected both <en> and <es>" : ""));
    if (count > rule.at_most)
      refuse(*std::next(range.begin(), rule.at_most), "one <" + rule.name + "> too many in " +
                                                          tag(node) + ", expected at most " +
                                                          std::to_string(rule.at_most));
  }
}

std::string ElementReader::attribute(pugi::xml_node node, const char* name) const {
  return node.attribute(name).value();
}

std::string ElementReader::citation(pugi::xml_node node) {
  const std::string value = attribute(node, "citation");
  if (node.attribute("citation") && is_blank(value))
    refuse(node, "citation is empty, expected where " + tag(node) + " comes from");
  return value;
}

std::string ElementReader::word(pugi::xml_node node, const char* name,
                                const std::vector<std::string>& words) {
  const pugi::xml_attribute given = node.attribute(name);
  if (!given) return {};
  const std::string value = given.value();
  if (std::find(words.begin(), words.end(), value) != words.end()) return value;
  refuse(node, std::string(name) + "=" + in_quotes(value) + hint(value, words, "\"", "\""));
  return {};
}

std::string ElementReader::name(pugi::xml_node node, const char* attribute_name) {
  const std::string value = attribute(node, attribute_name);
  if (!node.attribute(attribute_name)) return {};
  const auto is_lower = [](char c) { return c >= 'a' && c <= 'z'; };
  bool good = !value.empty() && is_lower(value.front()) && value.back() != '-';
  for (const char c : value) good = good && (is_lower(c) || (c >= '0' && c <= '9') || c == '-');
  if (value.size() > longest_name)
    refuse(node, too_long(attribute_name, value.size(), longest_name));
  else if (!good)
    refuse(node, std::string(attribute_name) + "=" + in_quotes(value) +
                     ", expected lower-case letters and digits with hyphens inside");
  return value;
}

int ElementReader::whole(pugi::xml_node node, const char* name, int lowest, int highest,
                         int otherwise) {
  const pugi::xml_attribute given = node.attribute(name);
  if (!given) return otherwise;
  int value = 0;
  if (read_whole_text(std::string_view(given.value()), value) && value >= lowest &&
      value <= highest)
    return value;
  refuse(node, std::string(name) + "=" + in_quotes(given.value()) +
                   ", expected a whole number from " + std::to_string(lowest) + " to " +
                   std::to_string(highest));
  return otherwise;
}

double ElementReader::number(pugi::xml_node node, const char* name) {
  const pugi::xml_attribute given = node.attribute(name);
  if (!given) return 0;
  double value = 0;
  if (read_whole_text(std::string_view(given.value()), value) && std::isfinite(value)) return value;
  refuse(node,
         std::string(name) + "=" + in_quotes(given.value()) + ", expected a number such as 0.25");
  return 0;
}

bool ElementReader::truth(pugi::xml_node node, const char* name, bool otherwise) {
  const std::string value = word(node, name, {"true", "false"});
  return value.empty() ? otherwise : value == "true";
}

FormulaText ElementReader::formula(pugi::xml_node node, const char* attribute_name) {
  const pugi::xml_attribute given = node.attribute(attribute_name);
  if (given && is_blank(given.value()))
    refuse(node, std::string(attribute_name) + " is empty, expected a formula");
  return {given.value(), at(node)};
}

std::string ElementReader::language(pugi::xml_node node, const char* language) {
  const pugi::xml_node element = node.child(language);
  if (!element) return {};
  std::string all;
  for (const pugi::xml_attribute attribute : element.attributes())
    refuse(element, "unknown attribute " + in_quotes(attribute.name()) + " in " + tag(element) +
                        ", expected none");
  for (const pugi::xml_node child : element.children()) {
    if (child.type() == pugi::node_element)
      refuse(child, "unknown element " + tag(child) + " in " + tag(element) +
                        ", expected text in Markdown");
    else
      all += child.value();
  }
  if (all.size() > longest_text)
    refuse(element, too_long(tag(element) + " of " + tag(node), all.size(), longest_text));
  if (is_blank(all))
    refuse(element, tag(element) + " of " + tag(node) + " is empty, expected a text");
  return without_layout(all);
}

Text ElementReader::text(pugi::xml_node node) {
  return {language(node, "en"), language(node, "es"), at(node)};
}

Text ElementReader::only_text(pugi::xml_node node) {
  check(node, {{}, {}, {{"en", 1, 1}, {"es", 1, 1}}});
  return text(node);
}

}  // namespace footroom::bank
