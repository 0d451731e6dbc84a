#pragma once
// A form as every room shows it: labels beside fields, units beside numbers, what is wrong beside
// the field it is about.

#include <set>
#include <string>
#include <vector>

#include "desk/request.hpp"

namespace footroom::desk {

struct Choice {
  std::string value;
  std::string label;
};

struct Field {
  enum class Kind { text, date, area, file, list, one_of, several_of, hidden };
  Kind kind = Kind::text;
  std::string name;   ///< in the request, and its id on the page
  std::string label;  ///< in the language of the page, as all texts here
  std::string value = {};
  std::string hint = {};
  std::string unit = {};  ///< behind a number
  bool needed = false;
  std::vector<Choice> choices = {};                ///< kinds list, one_of, several_of
  std::set<std::string, std::less<>> chosen = {};  ///< kind several_of
  std::string error = {};
  std::vector<std::string> faults = {};  ///< under the error: of each row
  bool narrow = false;
  std::string reading = {};  ///< an address that tells how what is typed is understood
  std::string read = {};     ///< how it is understood now; may stand without an address
  bool beside = false;       ///< kind several_of: its choices stand in a row
  /// Kind several_of: a list above the choices, in the request under the name with "-is" behind it.
  std::vector<Choice> means = {};
  std::string means_label = {};
  std::string meant = {};
  std::string symbol = {};  ///< behind the label, as MathML
};

/// A set of fields under a heading of its own.
struct Form {
  std::string action;
  std::string button;
  std::vector<Field> fields;
  std::string error = {};         ///< about the whole of it
  std::string other_button = {};  ///< sends the same with `other` = "yes"
  bool plain = false;             ///< a quiet button, for what is done less often
  bool asks = false;              ///< changes nothing: its fields stand in the address it leads to

  /// Takes over what was typed, so that nothing is typed twice.
  void fill(const Fields& sent);
  /// Says what is wrong with a field; the form is then shown again.
  void refuse(std::string_view name, const std::string& why);
  bool sound() const;

  /// Throws std::logic_error where there is no such field.
  Field& at(std::string_view name);
};

/// Without spaces around it.
std::string trimmed(std::string_view text);

}  // namespace footroom::desk
