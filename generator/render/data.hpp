#pragma once
// What a template may mention: texts, truths, lists and objects under names. Values are moved in,
// never copied: a sheet has thousands of them.

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace footroom::render {

class Data {
 public:
  enum class type { object, list };
  /// Values under names, kept once and shared by all data that mention them.
  using Shared = std::shared_ptr<const std::map<std::string, Data, std::less<>>>;

  Data() : Data(type::object) {}
  explicit Data(type which) {
    if (which == type::list)
      value_.emplace<List>();
    else
      value_.emplace<Object>();
  }
  Data(std::string text) : value_(std::move(text)) {}
  Data(std::string_view text) : value_(std::string(text)) {}
  Data(const char* text) : value_(std::string(text)) {}
  explicit Data(bool is) : value_(is) {}
  explicit Data(Shared all) : value_(std::move(all)) {}
  /// An object with one value.
  Data(std::string_view name, Data value) : Data() { set(name, std::move(value)); }

  /// In an object: replaces what has this name.
  void set(std::string_view name, Data value);
  /// In a list.
  Data& operator<<(Data value) {
    std::get<List>(value_).push_back(std::move(value));
    return *this;
  }

  /// What an object has under a name; null where it has none, or this is no object.
  const Data* find(std::string_view name) const;
  /// The values of a list; null where this is none.
  const std::vector<Data>* list() const { return std::get_if<List>(&value_); }
  const std::string* text() const { return std::get_if<std::string>(&value_); }
  /// Whether a section for this is left out: false, or a list without values.
  bool is_nothing() const;

 private:
  using List = std::vector<Data>;
  struct Name {
    std::uint64_t start;  ///< of the text, to compare before all of it is
    std::string text;
  };
  struct Object {
    std::vector<Name> names;
    std::vector<Data> values;  ///< in the same order
  };
  std::variant<bool, std::string, List, Object, Shared> value_;
};

}  // namespace footroom::render
