#pragma once
// What a template may mention: texts, truths, lists and objects under names.

#include <kainjow/mustache.hpp>
#include <string>
#include <string_view>

namespace footroom::render {

/// The library's data, into which values are moved: the library copies each with all that is in
/// it, and a sheet has thousands.
class Data : public kainjow::mustache::data {
 public:
  using Base = kainjow::mustache::data;

  Data() = default;
  explicit Data(type which) : Base(which) {}
  Data(const std::string& text) : Base(text) {}
  Data(std::string_view text) : Base(std::string(text)) {}
  Data(const char* text) : Base(text) {}
  explicit Data(bool is) : Base(is) {}
  /// An object with one value.
  Data(const std::string& name, Data value) { set(name, std::move(value)); }

  /// In an object: replaces what has this name.
  void set(const std::string& name, Data value) { (*this)[name] = std::move(value); }
  /// In a list.
  Data& operator<<(Data value);

  /// What is the same for many is not copied: a template finds what `common` has under a name that
  /// this has not. `common` must outlive the rendering, and only the data that a template is
  /// rendered with may have it.
  void look_also_in(const Data& common) { common_ = &common; }
  const Data* common() const { return common_; }

 private:
  const Data* common_ = nullptr;
};

}  // namespace footroom::render
