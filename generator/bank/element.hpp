#pragma once
// Reading the elements of a bank file: what may stand where, and messages for what may not.

#include <pugixml.hpp>
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "bank/xml.hpp"

namespace footroom::bank {

/// Where nothing tighter is said. A thousand pieces are more than anybody writes by hand.
inline constexpr int any_number = 1000;
inline constexpr std::size_t longest_text = 4000;  ///< in bytes, of one language
inline constexpr std::size_t longest_attribute = 2000;
inline constexpr std::size_t longest_name = 100;

struct ChildRule {
  std::string name;
  int at_least = 0;
  int at_most = any_number;
};

/// What an element may hold. Elements may stand in any order (bank.xsd wants one).
struct Shape {
  std::vector<std::string> required;  ///< attributes
  std::vector<std::string> optional;  ///< attributes
  std::vector<ChildRule> children;
};

/// Reads values out of one file and collects what is wrong with them; a faulty value reads as an
/// empty or zero one, so that reading goes on.
class ElementReader {
 public:
  ElementReader(const XmlFile& xml, std::vector<Defect>& defects) : xml_(xml), defects_(defects) {}

  Position at(pugi::xml_node node) const { return xml_.at(node); }
  void refuse(pugi::xml_node node, std::string message);

  /// True where the element is the root of this name, in the bank's namespace.
  bool is_root(pugi::xml_node node, const std::string& name);
  void check(pugi::xml_node node, const Shape& shape);

  std::string attribute(pugi::xml_node node, const char* name) const;
  /// Refuses a blank one.
  std::string citation(pugi::xml_node node);
  /// One of a closed list of words.
  std::string word(pugi::xml_node node, const char* name, const std::vector<std::string>& words);
  /// Lower-case letters and digits, hyphens inside.
  std::string name(pugi::xml_node node, const char* attribute_name);
  int whole(pugi::xml_node node, const char* name, int lowest, int highest, int otherwise);
  double number(pugi::xml_node node, const char* name);
  bool truth(pugi::xml_node node, const char* name, bool otherwise);
  FormulaText formula(pugi::xml_node node, const char* attribute_name);
  /// The <en> and <es> of an element; both are needed. Other children are the caller's.
  Text text(pugi::xml_node node);
  /// The same of an element that may hold nothing else.
  Text only_text(pugi::xml_node node);

 private:
  std::string language(pugi::xml_node node, const char* language);

  const XmlFile& xml_;
  std::vector<Defect>& defects_;
};

}  // namespace footroom::bank
